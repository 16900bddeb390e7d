namespace TransportPlanner.Core.Units;

/// <summary>A length or a clear width: 0 to 100 km, kept to 1 mm. Default: <see cref="Zero"/>.</summary>
public readonly record struct Distance : IComparable<Distance>
{
    public const double MaxMetres = 100_000;

    /// <summary>The international foot, exact. Source: NIST SP 811, appendix B.6.</summary>
    public const double MetresPerFoot = 0.3048;

    private readonly long _millimetres;

    private Distance(long millimetres) => _millimetres = millimetres;

    public static Distance Zero => default;

    public double Metres => _millimetres / 1_000.0;
    public long Millimetres => _millimetres;

    public static Distance FromMetres(double metres) => new(Guard.ToLong(metres, 0, MaxMetres, 1_000, "m"));
    public static Distance FromMillimetres(long millimetres) => new(Guard.ToLong(millimetres, 0, MaxMetres * 1_000, 1, "mm"));

    public static Distance operator +(Distance a, Distance b) => FromMillimetres(a._millimetres + b._millimetres);
    public static Distance operator -(Distance a, Distance b) => FromMillimetres(a._millimetres - b._millimetres);

    /// <summary>Time to walk the distance, rounded to the tick.</summary>
    /// <exception cref="DivideByZeroException">The speed is zero.</exception>
    public static TimeSpan operator /(Distance distance, WalkingSpeed speed) =>
        speed == WalkingSpeed.Zero
            ? throw new DivideByZeroException("A speed of zero never arrives.")
            : TimeSpan.FromTicks(distance._millimetres * TimeSpan.TicksPerSecond / speed.MillimetresPerSecond);

    public int CompareTo(Distance other) => _millimetres.CompareTo(other._millimetres);
    public static bool operator <(Distance a, Distance b) => a._millimetres < b._millimetres;
    public static bool operator >(Distance a, Distance b) => a._millimetres > b._millimetres;
    public static bool operator <=(Distance a, Distance b) => a._millimetres <= b._millimetres;
    public static bool operator >=(Distance a, Distance b) => a._millimetres >= b._millimetres;

    public override string ToString() => FormattableString.Invariant($"{Metres:0.###} m");
}
