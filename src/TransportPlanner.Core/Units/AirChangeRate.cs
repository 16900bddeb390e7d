namespace TransportPlanner.Core.Units;

/// <summary>Air changes per hour of a place: 0 to 1,000, kept to a hundredth. Default: <see cref="Zero"/>, which is still air and not <i>unknown</i>.</summary>
public readonly record struct AirChangeRate : IComparable<AirChangeRate>
{
    public const double MaxPerHour = 1_000;

    private readonly long _hundredthsPerHour;

    private AirChangeRate(long hundredthsPerHour) => _hundredthsPerHour = hundredthsPerHour;

    public static AirChangeRate Zero => default;

    public double PerHour => _hundredthsPerHour / 100.0;

    public static AirChangeRate FromPerHour(double perHour) => new(Guard.ToLong(perHour, 0, MaxPerHour, 100, "air changes per hour"));

    public int CompareTo(AirChangeRate other) => _hundredthsPerHour.CompareTo(other._hundredthsPerHour);
    public static bool operator <(AirChangeRate a, AirChangeRate b) => a._hundredthsPerHour < b._hundredthsPerHour;
    public static bool operator >(AirChangeRate a, AirChangeRate b) => a._hundredthsPerHour > b._hundredthsPerHour;
    public static bool operator <=(AirChangeRate a, AirChangeRate b) => a._hundredthsPerHour <= b._hundredthsPerHour;
    public static bool operator >=(AirChangeRate a, AirChangeRate b) => a._hundredthsPerHour >= b._hundredthsPerHour;

    public override string ToString() => FormattableString.Invariant($"{PerHour:0.##} air changes per hour");
}
