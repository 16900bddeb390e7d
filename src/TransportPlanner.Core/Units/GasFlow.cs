namespace TransportPlanner.Core.Units;

/// <summary>Flow of free gas: 0 to 200 L/min, kept to 1 µL/min. Default: <see cref="Zero"/>.</summary>
/// <remarks>The ceiling leaves room for a flush; what a request may ask for is limited where it is read.</remarks>
public readonly record struct GasFlow : IComparable<GasFlow>
{
    public const double MaxLitresPerMinute = 200;
    private const double MicrolitresPerLitre = 1_000_000;

    private readonly long _microlitresPerMinute;

    private GasFlow(long microlitresPerMinute) => _microlitresPerMinute = microlitresPerMinute;

    public static GasFlow Zero => default;

    public double LitresPerMinute => _microlitresPerMinute / MicrolitresPerLitre;
    public long MicrolitresPerMinute => _microlitresPerMinute;

    public static GasFlow FromLitresPerMinute(double litresPerMinute) =>
        new(Guard.ToLong(litresPerMinute, 0, MaxLitresPerMinute, MicrolitresPerLitre, "L/min"));

    public static GasFlow FromMicrolitresPerMinute(long microlitresPerMinute) =>
        new(Guard.ToLong(microlitresPerMinute, 0, MaxLitresPerMinute * MicrolitresPerLitre, 1, "µL/min"));

    public static GasFlow operator +(GasFlow a, GasFlow b) => FromMicrolitresPerMinute(a._microlitresPerMinute + b._microlitresPerMinute);

    /// <summary>Difference, not below zero: a flow has no direction.</summary>
    public static GasFlow operator -(GasFlow a, GasFlow b) => FromMicrolitresPerMinute(a._microlitresPerMinute - b._microlitresPerMinute);

    public int CompareTo(GasFlow other) => _microlitresPerMinute.CompareTo(other._microlitresPerMinute);
    public static bool operator <(GasFlow a, GasFlow b) => a._microlitresPerMinute < b._microlitresPerMinute;
    public static bool operator >(GasFlow a, GasFlow b) => a._microlitresPerMinute > b._microlitresPerMinute;
    public static bool operator <=(GasFlow a, GasFlow b) => a._microlitresPerMinute <= b._microlitresPerMinute;
    public static bool operator >=(GasFlow a, GasFlow b) => a._microlitresPerMinute >= b._microlitresPerMinute;

    public override string ToString() => FormattableString.Invariant($"{LitresPerMinute:0.###} L/min");
}
