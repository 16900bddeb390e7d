using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>A published model of one site: immutable; a change is the next version.</summary>
public sealed record FloorPlan
{
    /// <summary>Short slug, unique among sites.</summary>
    public required string SiteId { get; init; }
    public required string Name { get; init; }

    /// <summary>IANA time zone; occupancy, waits and closures are read in its local time.</summary>
    public required string TimeZone { get; init; }

    /// <summary>1 for the first published plan; 0 for a draft.</summary>
    public int Version { get; init; }

    /// <summary>What a reader must know first, for example that the building is invented. Shown on every screen of the site.</summary>
    public string? Notice { get; init; }
    public required ImmutableArray<Level> Levels { get; init; }
    public required ImmutableArray<Place> Places { get; init; }
    public required ImmutableArray<Passage> Passages { get; init; }
    public ImmutableArray<ElevatorGroup> ElevatorGroups { get; init; } = [];
    public ImmutableArray<Elevator> Elevators { get; init; } = [];
}
