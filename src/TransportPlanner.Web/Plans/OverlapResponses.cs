using TransportPlanner.Core.Plans;

namespace TransportPlanner.Web.Plans;

/// <summary>Where one way of the plan comes upon other transports, and what may be done about it. Whose right of way it is, a person decides.</summary>
public sealed record RouteOverlapsResponse
{
    /// <summary>Id of the way.</summary>
    public required string Route { get; init; }

    /// <summary>The other transports, by departure.</summary>
    public required IReadOnlyList<TransportOverlapResponse> Transports { get; init; }

    /// <summary>
    /// Least whole minutes by which this way has to leave later to come upon no other transport, whichever of their ways they take; null where none up
    /// to 180 does. Occupancy and waits are those of the planned departure: make the plan again for the later one.
    /// </summary>
    public required int? LeaveLaterMinutes { get; init; }

    /// <summary>Ids of the plan's ways that come upon no other transport, each from the go that its cards count from.</summary>
    public required IReadOnlyList<string> ClearRoutes { get; init; }
}

/// <summary>Another transport of the site, as the newest version of its plan says.</summary>
public sealed record TransportOverlapResponse
{
    /// <summary>Id of its plan.</summary>
    public required string PlanId { get; init; }
    public required string CallSign { get; init; }
    public required int Version { get; init; }

    /// <summary>When it leaves as planned, UTC. Whether it left, its plan does not know.</summary>
    public required DateTimeOffset DepartAt { get; init; }

    /// <summary>In the order in which this plan's way enters them.</summary>
    public required IReadOnlyList<PlaceOverlapResponse> Places { get; init; }
}

/// <summary>One place, an elevator's car among them, with both windows.</summary>
public sealed record PlaceOverlapResponse
{
    /// <summary>Number of the place.</summary>
    public required string Place { get; init; }

    /// <summary>Name of the place; null where the floor plan in force has no such place.</summary>
    public required string? Name { get; init; }

    /// <summary>Both at the same time, or one before the place is free of the other.</summary>
    public required OverlapKind Kind { get; init; }

    /// <summary>Of this plan's way.</summary>
    public required PlaceWindowResponse Ours { get; init; }

    /// <summary>Of the other transport.</summary>
    public required PlaceWindowResponse Theirs { get; init; }

    /// <summary>Ids of those of its ways that have this window.</summary>
    public required IReadOnlyList<string> TheirRoutes { get; init; }
}

/// <summary>From when to when a transport has a place, UTC.</summary>
/// <param name="From">Nobody of it is there before: the earliest arrival, or the capture of a car.</param>
/// <param name="To">It has nearly always left by then.</param>
/// <param name="FreeAt">When the place may be thought free again: aired, a captured car parked and cleaned; of a car with its doors shut. Null: unknown. A person opens the place.</param>
/// <param name="FreeAtDoorsOpen">The same for a car parked with its doors open; null for every other place.</param>
public sealed record PlaceWindowResponse(DateTimeOffset From, DateTimeOffset To, DateTimeOffset? FreeAt, DateTimeOffset? FreeAtDoorsOpen)
{
    internal static PlaceWindowResponse Of(PlaceWindow window) => new(window.From, window.To, window.FreeAt, window.FreeAtDoorsOpen);
}
