using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Routing;

/// <summary>
/// The way on when one element of a shown way has failed and the team finds out on arrival there: it stands before the element, may turn
/// round on the spot, and takes the quickest way on by expected time.
/// </summary>
public sealed record PlanB
{
    /// <summary>What <see cref="FailedId"/> names: a door, an elevator or a place crossed.</summary>
    public required ClosureTarget FailedKind { get; init; }

    /// <summary>Passage id, elevator id or place number.</summary>
    public required string FailedId { get; init; }

    /// <summary>Number of the place where the team stands when it finds out; for a place that cannot be entered from a car, the car.</summary>
    public required string DiscoveredAt { get; init; }

    /// <summary>Expected seconds from departure to there. A door is found shut before it is opened, a car missing before it is waited for.</summary>
    public required double DiscoveredSeconds { get; init; }

    /// <summary>Position in the way's legs of the leg on which the team finds out.</summary>
    public required int Leg { get; init; }

    /// <summary>Expected seconds from departure to the destination; null: no other way leads there.</summary>
    public required double? ArrivalSeconds { get; init; }

    /// <summary>Places crossed from there, in order, an elevator by its id, until the planned way is joined again or the destination is reached.</summary>
    public required ImmutableArray<string> Via { get; init; }

    /// <summary>Numbers of the rooms the way on leads through, in by one door and out by another; empty unless nothing else leads there.</summary>
    public required ImmutableArray<string> ThroughRooms { get; init; }

    /// <summary>Number of the place from which the planned way goes on; null: not before the destination.</summary>
    public required string? RejoinsAt { get; init; }

    /// <summary>
    /// Where no way leads on: the nearest planned place to stop and treat that can still be reached, at 0 m where the team stands in it; null: none. Not
    /// looked for where a way leads on.
    /// </summary>
    public required NearbyPlace? BailOut { get; init; }

    /// <summary>Whether without this element no way leads to the destination.</summary>
    public bool IsSinglePoint => ArrivalSeconds is null;
}
