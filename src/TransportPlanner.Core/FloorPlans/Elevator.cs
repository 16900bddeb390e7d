using System.Collections.Immutable;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Where a car stops: the level, the landing outside, and the landing door that joins landing and car.</summary>
public sealed record ElevatorStop(string Level, string Landing, string LandingDoor);

/// <summary>Cars that answer one call. The wait of a call that is not held, mean seconds by weekday and quarter-hour; null: unknown.</summary>
public sealed record ElevatorGroup(string Id, string Name, QuarterHourProfile? MeanCallWaitSeconds, FactSource WaitSource);

/// <summary>One elevator. Its car is a place without a level; its landing doors are passages.</summary>
public sealed record Elevator
{
    public required string Id { get; init; }
    public required string Name { get; init; }
    public required string Group { get; init; }

    /// <summary>Number of the car's place.</summary>
    public required string Car { get; init; }
    public required ImmutableArray<ElevatorStop> Stops { get; init; }
    public Fact<Distance> CarLength { get; init; }
    public Fact<Distance> CarWidth { get; init; }
    public Fact<Distance> DoorWidth { get; init; }
    public Fact<double> RatedLoadKilograms { get; init; }
    public Fact<double> RatedSpeedMetresPerSecond { get; init; }
    public Fact<double> AccelerationMetresPerSecondSquared { get; init; }
    public Fact<double> JerkMetresPerSecondCubed { get; init; }
    public Fact<DurationEstimate> DoorOpening { get; init; }
    public Fact<DurationEstimate> DoorClosing { get; init; }

    /// <summary>Air changes while parked with doors open; with doors shut they are the car place's own.</summary>
    public Fact<AirChangeRate> AirChangesDoorsOpen { get; init; }
    public AccessControl PriorityControl { get; init; }

    /// <summary>True where somebody can capture the car for the transport.</summary>
    public bool CanBeHeld { get; init; }

    /// <summary>Probability, 0 to 1, that one ride stalls.</summary>
    public Fact<double> StallProbability { get; init; }
    public Fact<DurationEstimate> StallDuration { get; init; }
}
