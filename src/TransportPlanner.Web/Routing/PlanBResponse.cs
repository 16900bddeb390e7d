using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Web.Routing;

/// <summary>The way on when one element has failed and the team finds out on arrival there.</summary>
public sealed record PlanBResponse
{
    /// <summary>Id of the door or elevator, or number of the place, that has failed.</summary>
    public required string Failed { get; init; }

    /// <summary>Whether <see cref="Failed"/> is a passage, an elevator or a place.</summary>
    public required ClosureTarget FailedKind { get; init; }

    /// <summary>Number of the place where the team then stands.</summary>
    public required string DiscoveredAt { get; init; }

    /// <summary>Expected seconds from departure to there.</summary>
    public required double DiscoveredSeconds { get; init; }

    /// <summary>Position of the leg on which it is found out, from 0.</summary>
    public required int Leg { get; init; }

    /// <summary>Expected seconds from departure to the destination; null: no other way leads there.</summary>
    public required double? ArrivalSeconds { get; init; }

    /// <summary>Places crossed from there, in order, an elevator by its id, until the planned way is joined again.</summary>
    public required IReadOnlyList<string> Via { get; init; }

    /// <summary>Numbers of the rooms the way on leads through, in by one door and out by another; empty unless nothing else leads there.</summary>
    public IReadOnlyList<string> ThroughRooms { get; init; } = [];

    /// <summary>Number of the place from which the planned way goes on; null: not before the destination.</summary>
    public required string? RejoinsAt { get; init; }

    /// <summary>
    /// Only where no other way leads on: the nearest bail-out point that can still be reached, one or none. Null where a way leads on, and in plans of earlier releases.
    /// </summary>
    public IReadOnlyList<NearbyPlace>? BailOuts { get; init; }

    internal static PlanBResponse From(PlanB fallback) => new()
    {
        Failed = fallback.FailedId,
        FailedKind = fallback.FailedKind,
        DiscoveredAt = fallback.DiscoveredAt,
        DiscoveredSeconds = fallback.DiscoveredSeconds,
        Leg = fallback.Leg,
        ArrivalSeconds = fallback.ArrivalSeconds,
        Via = fallback.Via,
        ThroughRooms = fallback.ThroughRooms,
        RejoinsAt = fallback.RejoinsAt,
        BailOuts = !fallback.IsSinglePoint ? null : fallback.BailOut is { } near ? [near] : [],
    };
}
