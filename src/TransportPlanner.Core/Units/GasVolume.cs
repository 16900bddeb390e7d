namespace TransportPlanner.Core.Units;

/// <summary>Amount of free gas: 0 to 100,000 L, kept to 1 µL. Default: <see cref="Zero"/>.</summary>
public readonly record struct GasVolume : IComparable<GasVolume>
{
    public const double MaxLitres = 100_000;
    private const double MicrolitresPerLitre = 1_000_000;

    private readonly long _microlitres;

    private GasVolume(long microlitres) => _microlitres = microlitres;

    public static GasVolume Zero => default;

    public double Litres => _microlitres / MicrolitresPerLitre;

    public static GasVolume FromLitres(double litres) => new(Guard.ToLong(litres, 0, MaxLitres, MicrolitresPerLitre, "L"));

    public static GasVolume operator +(GasVolume a, GasVolume b) => FromLitres((a._microlitres + b._microlitres) / MicrolitresPerLitre);

    /// <summary>How long the amount lasts at a steady flow, rounded down to the tick.</summary>
    /// <exception cref="DivideByZeroException">The flow is zero: an amount that is not drawn has no duration.</exception>
    public static TimeSpan operator /(GasVolume volume, GasFlow flow) =>
        flow == GasFlow.Zero
            ? throw new DivideByZeroException("A gas that is not drawn has no duration.")
            : TimeSpan.FromTicks((long)((Int128)volume._microlitres * TimeSpan.TicksPerMinute / flow.MicrolitresPerMinute));

    public int CompareTo(GasVolume other) => _microlitres.CompareTo(other._microlitres);
    public static bool operator <(GasVolume a, GasVolume b) => a._microlitres < b._microlitres;
    public static bool operator >(GasVolume a, GasVolume b) => a._microlitres > b._microlitres;
    public static bool operator <=(GasVolume a, GasVolume b) => a._microlitres <= b._microlitres;
    public static bool operator >=(GasVolume a, GasVolume b) => a._microlitres >= b._microlitres;

    public override string ToString() => FormattableString.Invariant($"{Litres:0.###} L");
}
