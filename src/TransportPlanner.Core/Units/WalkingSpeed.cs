namespace TransportPlanner.Core.Units;

/// <summary>Speed on foot: 0 to 5 m/s, kept to 1 mm/s. Default: <see cref="Zero"/>, refused where a time is computed.</summary>
public readonly record struct WalkingSpeed : IComparable<WalkingSpeed>
{
    public const double MaxMetresPerSecond = 5;

    private readonly long _millimetresPerSecond;

    private WalkingSpeed(long millimetresPerSecond) => _millimetresPerSecond = millimetresPerSecond;

    public static WalkingSpeed Zero => default;

    public double MetresPerSecond => _millimetresPerSecond / 1_000.0;
    public long MillimetresPerSecond => _millimetresPerSecond;

    public static WalkingSpeed FromMetresPerSecond(double metresPerSecond) =>
        new(Guard.ToLong(metresPerSecond, 0, MaxMetresPerSecond, 1_000, "m/s"));

    public int CompareTo(WalkingSpeed other) => _millimetresPerSecond.CompareTo(other._millimetresPerSecond);
    public static bool operator <(WalkingSpeed a, WalkingSpeed b) => a._millimetresPerSecond < b._millimetresPerSecond;
    public static bool operator >(WalkingSpeed a, WalkingSpeed b) => a._millimetresPerSecond > b._millimetresPerSecond;
    public static bool operator <=(WalkingSpeed a, WalkingSpeed b) => a._millimetresPerSecond <= b._millimetresPerSecond;
    public static bool operator >=(WalkingSpeed a, WalkingSpeed b) => a._millimetresPerSecond >= b._millimetresPerSecond;

    public override string ToString() => FormattableString.Invariant($"{MetresPerSecond:0.###} m/s");
}
