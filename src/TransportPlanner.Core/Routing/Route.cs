using System.Collections.Immutable;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>What kind of stretch a leg is. A corridor without a class counts as a room.</summary>
public enum LegKind
{
    Room,
    CleanCorridor,
    SoiledCorridor,
    PublicCorridor,
    RestrictedCorridor,
    Ramp,
    LinkBridge,
    Outdoors,
    ElevatorRide,
}

/// <summary>A door passed on the way, landing doors included, openings not.</summary>
/// <param name="Passage">Id of the passage.</param>
/// <param name="Kind">How it opens.</param>
/// <param name="Access">What is needed to open it.</param>
/// <param name="ClearWidthMillimetres">Clear width in millimetres; null: unknown.</param>
public sealed record DoorOnWay(string Passage, PassageKind Kind, AccessControl Access, int? ClearWidthMillimetres);

/// <summary>An elevator ridden on the way, between two levels.</summary>
/// <param name="Elevator">Id of the elevator.</param>
/// <param name="Name">Its name on site.</param>
/// <param name="FromLevel">Id of the level where the team boards.</param>
/// <param name="ToLevel">Id of the level where the team leaves.</param>
/// <param name="IsHeld">Whether somebody keeps the car for the transport, so that nobody waits.</param>
public sealed record RideOnWay(string Elevator, string Name, string FromLevel, string ToLevel, bool IsHeld);

/// <summary>A line to draw on one level.</summary>
/// <param name="Level">Id of the level.</param>
/// <param name="Points">Points in the site's local metres.</param>
public sealed record LevelPath(string Level, ImmutableArray<PlanPoint> Points);

/// <summary>A stretch of one kind on one level, or one ride.</summary>
public sealed record Leg
{
    /// <summary>First place crossed; for a ride the landing where the team boards.</summary>
    public required string FromPlace { get; init; }

    /// <summary>Last place crossed; for a ride the landing where the team leaves.</summary>
    public required string ToPlace { get; init; }

    /// <summary>Passage that leads into the leg; null where the journey begins.</summary>
    public required string? Passage { get; init; }
    public required LegKind Kind { get; init; }

    /// <summary>Level of the leg; for a ride the level where the team boards.</summary>
    public required string Level { get; init; }

    /// <summary>Places crossed, in order.</summary>
    public required ImmutableArray<string> Places { get; init; }

    /// <summary>Walking metres; 0 for a ride.</summary>
    public required double Metres { get; init; }
    public required double ExpectedSeconds { get; init; }

    /// <summary>When the team is at its end, door included; for the last leg the times of the whole way.</summary>
    public required Arrival Ends { get; init; }
    public required ExposureFigures Exposure { get; init; }
    public required ExposureFigures ExposureIfPostsHold { get; init; }

    /// <summary>Doors passed at the ends of its places, in order; the time of a door belongs to the place before it.</summary>
    public required ImmutableArray<DoorOnWay> Doors { get; init; }
    public required RideOnWay? Ride { get; init; }
    /// <summary>The quicker to reach, onward or back.</summary>
    public required NearbyPlace? BailOut { get; init; }
    public required NearbyPlace? NearestOxygenOutlet { get; init; }
    public required WaysOut WaysOut { get; init; }
}

/// <summary>One way from origin to destination, with why it is shown.</summary>
public sealed record Route
{
    /// <summary>A, B, C, D in the order shown, quickest first.</summary>
    public required string Id { get; init; }
    public required ImmutableArray<RouteReason> Reasons { get; init; }

    /// <summary>Distribution of the journey's time, the rare stall included.</summary>
    public required JourneyTime Time { get; init; }

    /// <summary>Mean of the whole journey, to 0.1 s: the cost by which ways are ranked.</summary>
    public required double ExpectedSeconds { get; init; }
    public required double Metres { get; init; }

    /// <summary>With nobody held: the figure by which ways are ranked.</summary>
    public required ExposureFigures Exposure { get; init; }

    /// <summary>The same way when every post holds.</summary>
    public required ExposureFigures ExposureIfPostsHold { get; init; }

    /// <summary>Sum of the mean occupancy of the places crossed, each once.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The quarter-hour into which the nearly-always time runs, with its people; null where the journey ends in the quarter-hour of departure.</summary>
    public NextQuarter? NextQuarter { get; init; }

    /// <summary>Hinged and double doors, rides, and thresholds above 10 mm: one each.</summary>
    public required int Handling { get; init; }
    public required double ColdMinutes { get; init; }

    /// <summary>Thresholds above 10 mm.</summary>
    public required int Thresholds { get; init; }
    public required ImmutableArray<Leg> Legs { get; init; }
    public required ImmutableArray<LevelPath> Paths { get; init; }

    /// <summary>Numbers of the rooms it leads through, in by one door and out by another; empty unless nothing else leads there.</summary>
    public required ImmutableArray<string> ThroughRooms { get; init; }

    /// <summary>Limits that could not be checked on this way, each once; empty when every limit was checked.</summary>
    public required ImmutableArray<UnknownLimit> Unknowns { get; init; }

    /// <summary>Times and figures of places on this way that rest on a default, because the floor plan has none.</summary>
    public required ImmutableArray<string> Assumed { get; init; }

    /// <summary>The way on from every door, elevator and place of this way, should it fail; in the order in which they are met.</summary>
    public required ImmutableArray<PlanB> PlanB { get; init; }

    /// <summary>Latest expected arrival, in seconds from departure, over all failures that leave a way; null where none does.</summary>
    public double? WorstPlanBSeconds => PlanB.Max(fallback => fallback.ArrivalSeconds);

    /// <summary>Arcs of the floor graph, from origin to destination.</summary>
    public required ImmutableArray<int> Arcs { get; init; }

    /// <summary>What time and exposure are computed from, place after place, in the order of <see cref="Arcs"/>.</summary>
    public required ImmutableArray<Crossing> Crossings { get; init; }

    /// <summary>Time of each arc by its parts, in the order of <see cref="Arcs"/>.</summary>
    public required ImmutableArray<TravelTime> Times { get; init; }

    /// <summary>When the team is at the origin, then at the end of each arc: one entry more than <see cref="Arcs"/>.</summary>
    public required ImmutableArray<Arrival> Arrivals { get; init; }

    public IEnumerable<DoorOnWay> Doors => Legs.SelectMany(leg => leg.Doors);
    public IEnumerable<RideOnWay> Rides => Legs.Where(leg => leg.Ride is not null).Select(leg => leg.Ride!);
}
