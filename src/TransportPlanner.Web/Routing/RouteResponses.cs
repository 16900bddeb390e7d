using System.Text.Json;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Web.Routing;

/// <summary>The ways shown, out of the exact set.</summary>
public sealed record RoutesResponse
{
    /// <summary>Version of the floor plan from which all of this was computed.</summary>
    public required int FloorPlanVersion { get; init; }

    /// <summary>Departure, UTC, as given or now.</summary>
    public required DateTimeOffset DepartAt { get; init; }

    /// <summary>One to four ways, quickest first.</summary>
    public required IReadOnlyList<RouteResponse> Routes { get; init; }

    /// <summary>Number of efficient ways: no other way is as good in time, exposure and handling and better in one.</summary>
    public required int ParetoSize { get; init; }

    /// <summary>False where the search reached its deadline: the ways are then the best that it had, and a caution says so.</summary>
    public bool IsExact { get; init; } = true;

    /// <summary>
    /// Every efficient way that is missing has one in the set at most (1 + ε) times as costly in each cost: 0.02 is 2 %. 0: nothing is missing. Null: not known how much.
    /// </summary>
    public double? Epsilon { get; init; } = 0;

    /// <summary>Costs of every efficient way, quickest first.</summary>
    public required IReadOnlyList<FrontPoint> Front { get; init; }

    /// <summary>The departure and the later quarter-hours of the window, in order; empty without a window.</summary>
    public IReadOnlyList<DepartureResponse> Departures { get; init; } = [];

    /// <summary>The later departure with the least exposure; null where none leaves a tenth of it out. Now always overrules.</summary>
    public DateTimeOffset? BestDeparture { get; init; }

    /// <summary>Ways that a planner would expect and does not see, each with one sentence.</summary>
    public required IReadOnlyList<NotChosen> NotChosen { get; init; }

    /// <summary>Names of the members that nobody gave, and what was taken.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>What a reader must know before using any of this.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    internal static RoutesResponse From(FloorPlan plan, SiteRouteQuery query, RouteSet set) => new()
    {
        FloorPlanVersion = plan.Version,
        DepartAt = query.Query.Travel.Departure,
        Routes = [.. set.Routes.Select(RouteResponse.From)],
        ParetoSize = set.Front.Length,
        IsExact = set.IsComplete,
        Epsilon = set.Epsilon,
        Front = [.. set.Front],
        Departures = [.. set.Departures.Select(DepartureResponse.From)],
        BestDeparture = set.BestDeparture?.DepartAt,
        NotChosen = [.. set.NotChosen],
        Assumed = query.Assumed,
        Cautions = [.. Notice(plan), .. SearchDeadline.NotExact(set.IsComplete, set.Epsilon), "Planning aid: local policy and licensed practice decide.", "Times and counts are estimates; map facts can be wrong. An incubator does not isolate."],
    };

    private static IEnumerable<string> Notice(FloorPlan plan) => plan.Notice is { } notice ? [notice] : [];
}

/// <summary>One way from origin to destination.</summary>
public sealed record RouteResponse
{
    /// <summary>A to D, quickest first.</summary>
    public required string Id { get; init; }

    /// <summary>Why it is shown: quickest, least-exposed, least-handled, best-balance.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Half of such journeys take no longer (P50), whole seconds.</summary>
    public required int UsualSeconds { get; init; }

    /// <summary>Nine in ten take no longer (P90), whole seconds; the rare stalled elevator is counted.</summary>
    public required int NearlyAlwaysSeconds { get; init; }

    /// <summary>Mean, to 0.1 s: ways are ranked by it.</summary>
    public required double ExpectedSeconds { get; init; }

    /// <summary>Chance, 0 to 1, that a ride stalls on the way.</summary>
    public required double StallProbability { get; init; }

    /// <summary>Walking metres, to 0.1 m.</summary>
    public required double Metres { get; init; }

    /// <summary>What ranks the ways: the terms apart, with nobody held and with posts.</summary>
    public required RouteExposureResponse Exposure { get; init; }

    /// <summary>Mean number of people in the places crossed, each place once, the ends left out. A count, not a prediction.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The quarter-hour into which the nearly-always time runs, and the people there then; null where it ends before.</summary>
    public NextQuarter? NextQuarter { get; init; }

    /// <summary>Points: hinged or double door, elevator ride, threshold above 10 mm, one each.</summary>
    public required int Handling { get; init; }

    /// <summary>Expected minutes in places marked cold.</summary>
    public required double ColdMinutes { get; init; }

    /// <summary>Thresholds above 10 mm.</summary>
    public required int Thresholds { get; init; }

    /// <summary>Doors passed, by kind.</summary>
    public required IReadOnlyDictionary<string, int> DoorsByKind { get; init; }

    /// <summary>Elevators ridden, in order.</summary>
    public required IReadOnlyList<RideOnWay> Elevators { get; init; }
    public required IReadOnlyList<LegResponse> Legs { get; init; }

    /// <summary>Every place crossed with the figures from which time and exposure are computed; empty in plans of earlier releases.</summary>
    public IReadOnlyList<CrossingResponse> Crossings { get; init; } = [];

    /// <summary>The way on from every door, elevator and place of this way, should it fail, in the order in which they are met.</summary>
    public required IReadOnlyList<PlanBResponse> PlanB { get; init; }

    /// <summary>Latest expected arrival in seconds from departure over all failures that leave a way; null where none does.</summary>
    public required double? WorstPlanBSeconds { get; init; }

    /// <summary>The way as points in the site's local metres, a line per level.</summary>
    public required IReadOnlyList<LevelPathResponse> Paths { get; init; }

    /// <summary>Numbers of the rooms the way leads through, in by one door and out by another; empty unless nothing else leads there.</summary>
    public IReadOnlyList<string> ThroughRooms { get; init; } = [];

    /// <summary>True where a limit on the way could not be checked.</summary>
    public required bool HasUnknown { get; init; }

    /// <summary>What is unknown, one sentence each.</summary>
    public required IReadOnlyList<string> Unknowns { get; init; }

    /// <summary>The same as figures that somebody has to measure, in the same order; empty in plans of earlier releases.</summary>
    public IReadOnlyList<UnmeasuredResponse> Unmeasured { get; init; } = [];

    /// <summary>Times on the way that rest on a default.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    internal static RouteResponse From(Core.Routing.Route route) => new()
    {
        Id = route.Id,
        Reasons = [.. route.Reasons.Select(reason => JsonNamingPolicy.KebabCaseLower.ConvertName($"{reason}"))],
        UsualSeconds = route.Time.UsuallySeconds,
        NearlyAlwaysSeconds = route.Time.NearlyAlwaysSeconds,
        ExpectedSeconds = route.ExpectedSeconds,
        StallProbability = Math.Round(route.Time.StallProbability, 6),
        Metres = Math.Round(route.Metres, 1),
        Exposure = RouteExposureResponse.From(route.Exposure, route.ExposureIfPostsHold),
        PeopleLikelyMet = Math.Round(route.PeopleLikelyMet, 2),
        NextQuarter = route.NextQuarter is { } next ? next with { PeopleLikelyMet = Math.Round(next.PeopleLikelyMet, 2) } : null,
        Handling = route.Handling,
        ColdMinutes = Math.Round(route.ColdMinutes, 2),
        Thresholds = route.Thresholds,
        DoorsByKind = route.Doors.GroupBy(door => door.Kind).OrderBy(doors => doors.Key).ToDictionary(
            doors => JsonNamingPolicy.CamelCase.ConvertName($"{doors.Key}"), doors => doors.Count()),
        Elevators = [.. route.Rides],
        Legs = [.. route.Legs.Select(LegResponse.From)],
        Crossings = [.. route.Crossings.Select(CrossingResponse.From)],
        PlanB = [.. route.PlanB.Select(PlanBResponse.From)],
        WorstPlanBSeconds = route.WorstPlanBSeconds,
        Paths = [.. route.Paths.Select(path => new LevelPathResponse(path.Level, [.. path.Points]))],
        ThroughRooms = route.ThroughRooms,
        HasUnknown = !route.Unknowns.IsEmpty,
        Unknowns = [.. route.Unknowns.Select(unknown => unknown.Sentence)],
        Unmeasured = [.. route.Unknowns.Select(UnmeasuredResponse.From)],
        Assumed = route.Assumed,
    };
}

/// <summary>A stretch of one kind on one level, or one ride.</summary>
public sealed record LegResponse
{
    /// <summary>First place crossed; for a ride the landing where the team boards.</summary>
    public required string FromPlace { get; init; }

    /// <summary>Last place crossed; for a ride the landing where the team leaves.</summary>
    public required string ToPlace { get; init; }

    /// <summary>Id of the passage that leads into the leg; null where the journey begins.</summary>
    public required string? Passage { get; init; }
    public required LegKind Kind { get; init; }

    /// <summary>Id of the level; for a ride the level where the team boards.</summary>
    public required string Level { get; init; }

    /// <summary>Numbers of the places crossed, in order.</summary>
    public required IReadOnlyList<string> Places { get; init; }

    /// <summary>Walking metres, to 0.1 m; 0 for a ride.</summary>
    public required double Metres { get; init; }

    /// <summary>Mean seconds, to 0.1 s.</summary>
    public required double ExpectedSeconds { get; init; }

    /// <summary>When the team is at its end, in seconds after departure; for the last leg the times of the whole way. Null in plans of earlier releases.</summary>
    public Arrival? Ends { get; init; }
    public required RouteExposureResponse Exposure { get; init; }

    /// <summary>Doors at the ends of its places, in order.</summary>
    public required IReadOnlyList<DoorOnWay> Doors { get; init; }

    /// <summary>The elevator, for a ride.</summary>
    public required RideOnWay? Elevator { get; init; }

    /// <summary>Nearest planned place to stop and treat in time, onward or back; null where none can be reached.</summary>
    public required NearbyPlace? BailOut { get; init; }

    /// <summary>Nearest wall oxygen, onward or back; null where none can be reached.</summary>
    public required NearbyPlace? NearestOxygenOutlet { get; init; }

    /// <summary>Bail-out points, wall oxygen and fire doors, onward from the end of the leg and back from its start; null in plans of earlier releases.</summary>
    public WaysOut? WaysOut { get; init; }

    internal static LegResponse From(Leg leg) => new()
    {
        FromPlace = leg.FromPlace,
        ToPlace = leg.ToPlace,
        Passage = leg.Passage,
        Kind = leg.Kind,
        Level = leg.Level,
        Places = leg.Places,
        Metres = Math.Round(leg.Metres, 1),
        ExpectedSeconds = Math.Round(leg.ExpectedSeconds, 1),
        Ends = leg.Ends,
        Exposure = RouteExposureResponse.From(leg.Exposure, leg.ExposureIfPostsHold),
        Doors = leg.Doors,
        Elevator = leg.Ride,
        BailOut = leg.BailOut,
        NearestOxygenOutlet = leg.NearestOxygenOutlet,
        WaysOut = leg.WaysOut,
    };
}

/// <summary>Points to draw on one level, in the site's local metres: x to the east, y to the north.</summary>
public sealed record LevelPathResponse(string Level, IReadOnlyList<PlanPoint> Points);
