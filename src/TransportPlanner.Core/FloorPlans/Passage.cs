using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

public enum PassageKind
{
    /// <summary>No leaf: two places meet.</summary>
    Opening,
    HingedDoor,
    DoubleDoor,
    SlidingDoor,
    AutomaticDoor,
    /// <summary>Landing and car door of an elevator; joins a landing and the car.</summary>
    LandingDoor,
    /// <summary>A flight between two storeys of a stairwell: for people on foot, never for a conveyance.</summary>
    StairFlight,
}

public enum AccessControl
{
    None,
    Badge,
    Code,
    Key,
}

public enum PassageDirection
{
    BothWays,
    /// <summary>From the first of the two places to the second only.</summary>
    Forward,
}

/// <summary>What joins two places. A <i>traversal</i> is a passage in one direction.</summary>
public sealed record Passage
{
    public required string Id { get; init; }
    public required PassageKind Kind { get; init; }

    /// <summary>Number of the first place.</summary>
    public required string From { get; init; }

    /// <summary>Number of the second place.</summary>
    public required string To { get; init; }

    /// <summary>
    /// The line one crosses, jamb to jamb, on the shared wall. For a landing door it lies on the landing's outline; for a stair
    /// flight it is where the flight leaves the lower storey.
    /// </summary>
    public required PlanSegment Line { get; init; }
    public Fact<Distance> ClearWidth { get; init; }
    public Fact<Distance> ClearHeight { get; init; }

    /// <summary>Height of the sill or floor gap to roll over.</summary>
    public Fact<Distance> Threshold { get; init; }
    public AccessControl Access { get; init; }
    public PassageDirection Direction { get; init; }

    /// <summary>Seconds to open and pass when a clean helper works the door ahead of the team.</summary>
    public Fact<DurationEstimate> OpeningWithHelper { get; init; }

    /// <summary>Seconds to open and pass when the team works the door itself.</summary>
    public Fact<DurationEstimate> OpeningAlone { get; init; }

    /// <summary>Walking length of a stair flight; unknown for everything else.</summary>
    public Fact<Distance> FlightLength { get; init; }

    public bool IsDoor => Kind is not (PassageKind.Opening or PassageKind.StairFlight);
}
