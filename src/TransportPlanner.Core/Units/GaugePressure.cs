namespace TransportPlanner.Core.Units;

/// <summary>Pressure above ambient, as a gauge shows it: 0 to 300 bar, kept to 1 Pa. Default: <see cref="Zero"/>.</summary>
/// <remarks>
/// Trade litres are computed from the number as typed, in its own unit, never from here: through whole pascals a
/// duration that is exactly 77 minutes would floor to 76.
/// </remarks>
public readonly record struct GaugePressure : IComparable<GaugePressure>
{
    public const double MaxBar = 300;
    /// <summary>Upper limit of a reading in psi. Source: project input limit IL-01 (common practice).</summary>
    public const double MaxPsi = 3_300;
    public const double MaxKilopascals = 30_000;

    /// <summary>Pascals in one pound-force per square inch. Source: NIST SP 811, appendix B.8 (exact by definition of lb, in and g).</summary>
    public const double PascalsPerPsi = 6_894.757_293_168_361;

    private readonly long _pascals;

    private GaugePressure(long pascals) => _pascals = pascals;

    public static GaugePressure Zero => default;

    public double Bar => _pascals / 100_000.0;
    public double Psi => _pascals / PascalsPerPsi;
    public double Kilopascals => _pascals / 1_000.0;
    public long Pascals => _pascals;

    public static GaugePressure FromBar(double bar) => new(Guard.ToLong(bar, 0, MaxBar, 100_000, "bar"));
    public static GaugePressure FromPsi(double psi) => new(Guard.ToLong(psi, 0, MaxPsi, PascalsPerPsi, "psi"));
    public static GaugePressure FromKilopascals(double kilopascals) => new(Guard.ToLong(kilopascals, 0, MaxKilopascals, 1_000, "kPa"));
    public static GaugePressure FromPascals(long pascals) => new(Guard.ToLong(pascals, 0, MaxBar * 100_000, 1, "Pa"));

    public int CompareTo(GaugePressure other) => _pascals.CompareTo(other._pascals);
    public static bool operator <(GaugePressure a, GaugePressure b) => a._pascals < b._pascals;
    public static bool operator >(GaugePressure a, GaugePressure b) => a._pascals > b._pascals;
    public static bool operator <=(GaugePressure a, GaugePressure b) => a._pascals <= b._pascals;
    public static bool operator >=(GaugePressure a, GaugePressure b) => a._pascals >= b._pascals;

    public override string ToString() => FormattableString.Invariant($"{Bar:0.##} bar");
}
