using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>From where to where, who travels and when, and under which precautions.</summary>
public sealed record RouteQuery
{
    /// <summary>Number of the place where the journey starts, at its standing point.</summary>
    public required string From { get; init; }

    /// <summary>Number of the place where it ends.</summary>
    public required string To { get; init; }
    public required TravelQuery Travel { get; init; }

    /// <summary>They decide which exposure counts as a cost; every term is shown whatever they are.</summary>
    public required PrecautionSet Precautions { get; init; }
    public ExposureSettings Exposure { get; init; } = new();

    /// <summary>How long the team could wait: later quarter-hours that begin within it are compared. Zero: none.</summary>
    public TimeSpan DepartureWindow { get; init; }

    /// <summary>Ways may lead in by one door of a room and out by another. The finder asks so by itself where nothing else leads there.</summary>
    public bool ThroughRooms { get; init; }
}
