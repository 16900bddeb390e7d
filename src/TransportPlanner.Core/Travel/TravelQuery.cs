using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>Who moves, when, and with what help: all that fit and time depend on beside the building.</summary>
public sealed record TravelQuery
{
    public required Conveyance Conveyance { get; init; }

    /// <summary>UTC. Waits are those of its local quarter-hour.</summary>
    public required DateTimeOffset Departure { get; init; }

    /// <summary>Somebody keeps each car that can be held: no call wait there.</summary>
    public bool HeldElevators { get; init; }

    /// <summary>A clean helper opens doors and presses buttons ahead of the team.</summary>
    public bool WithHelper { get; init; }

    /// <summary>Treat an unknown limit as an obstacle.</summary>
    public bool AvoidUnknown { get; init; }

    /// <summary>Steel cylinders travel along: no-cylinder zones forbid. Default: they do.</summary>
    public bool CarriesCylinders { get; init; } = true;
    public ImmutableArray<Closure> Closures { get; init; } = [];
    public TravelSettings Settings { get; init; } = new();
}
