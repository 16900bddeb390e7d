using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Kits;

/// <summary>A device whose place in the circuit has a rule of its own, named only where the team means to use it.</summary>
public enum KitDevice
{
    HeatedHumidifier,
    HeatAndMoistureExchanger,
    /// <summary>A breathing filter at the airway, between circuit and infant.</summary>
    AirwayFilter,
    /// <summary>A filter upstream of a bubble CPAP generator.</summary>
    FilterBeforeBubbleGenerator,
}

/// <summary>What decides the kit. Weight and gestation may be unknown; the list then spans their bands and says so.</summary>
/// <remarks>Limits of weight and gestation are the project's own proposal (input limits IL-08 and IL-09).</remarks>
public sealed record KitQuery
{
    public const int MinWeightGrams = 300;
    public const int MaxWeightGrams = 6_000;
    public const int MinGestationWeeks = 22;
    public const int MaxGestationWeeks = 44;
    public const int MinJourneyMinutes = 1;
    public const int MaxJourneyMinutes = 1_440;

    /// <summary>Grams, 300 to 6,000; null: not known.</summary>
    public int? WeightGrams { get; init; }

    /// <summary>Completed weeks, 22 to 44; null: not known.</summary>
    public int? GestationWeeks { get; init; }

    public required RespiratorySupport Support { get; init; }
    public required PrecautionSet Precautions { get; init; }

    /// <summary>Whole minutes, 1 to 1,440, rounded up by the caller.</summary>
    public required int JourneyMinutes { get; init; }

    public IReadOnlyList<KitDevice> Devices { get; init; } = [];

    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its limits, or a member of an enumeration does not exist.</exception>
    internal void Validate()
    {
        Require(WeightGrams, MinWeightGrams, MaxWeightGrams, nameof(WeightGrams), "g");
        Require(GestationWeeks, MinGestationWeeks, MaxGestationWeeks, nameof(GestationWeeks), "weeks");
        Require(JourneyMinutes, MinJourneyMinutes, MaxJourneyMinutes, nameof(JourneyMinutes), "min");
        if (!Enum.IsDefined(Support))
            throw new ArgumentOutOfRangeException(nameof(Support), Support, "This respiratory support does not exist.");
        RequireKnown(Precautions);
        foreach (var device in Devices)
        {
            if (!Enum.IsDefined(device))
                throw new ArgumentOutOfRangeException(nameof(Devices), device, "This device does not exist.");
        }
    }

    /// <exception cref="ArgumentOutOfRangeException">A precaution that does not exist would be read as none.</exception>
    internal static void RequireKnown(PrecautionSet precautions)
    {
        const PrecautionSet every = PrecautionSet.Contact | PrecautionSet.Droplet | PrecautionSet.Airborne;
        if ((precautions & ~every) != 0)
            throw new ArgumentOutOfRangeException(nameof(precautions), precautions, "These precautions do not exist.");
    }

    private static void Require(int? value, int min, int max, string name, string unit)
    {
        if (value is { } number && (number < min || number > max))
            throw new ArgumentOutOfRangeException(name, number, FormattableString.Invariant($"Give a number from {min} to {max} {unit}."));
    }
}
