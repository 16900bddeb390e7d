using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>One version of the plan of one transport. It is never changed; a change makes the next version.</summary>
public sealed record PlanResponse
{
    /// <summary>128 random bits in hexadecimal: names the transport and identifies nobody.</summary>
    public required string Id { get; init; }

    /// <summary>Two words for radio and paper. Not unique.</summary>
    public required string CallSign { get; init; }

    /// <summary>From 1.</summary>
    public required int Version { get; init; }
    public required string SiteId { get; init; }

    /// <summary>IANA time zone of the site.</summary>
    public required string TimeZone { get; init; }
    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>The sheet must not be used after this instant: departure plus 30 minutes.</summary>
    public required DateTimeOffset VoidAfter { get; init; }
    public required string From { get; init; }
    public required string To { get; init; }
    public required RespiratorySupport Support { get; init; }
    public required IReadOnlyList<Precaution> Precautions { get; init; }

    /// <summary>The request as it was given, without weight and gestation.</summary>
    public required PlanRequest Given { get; init; }

    /// <summary>Everything that nobody gave, and what was taken instead.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>Settings that were measured at the site and confirmed there, with count, spread and days; empty in a version that was made before walks were timed.</summary>
    public IReadOnlyList<string> Measured { get; init; } = [];

    /// <summary>The ways, as POST /routes answers them.</summary>
    public required RoutesResponse Routes { get; init; }

    /// <summary>Gas against each way, in the order of the ways.</summary>
    public required IReadOnlyList<RouteGasResponse> GasByRoute { get; init; }

    /// <summary>How long each battery is counted to last, in the order given; empty where none was given, and in a version that was made before batteries were planned.</summary>
    public IReadOnlyList<BatteryResponse> Batteries { get; init; } = [];

    /// <summary>The batteries against each way, in the order of the ways; empty in a version that was made before batteries were planned.</summary>
    public IReadOnlyList<RouteBatteriesResponse> BatteriesByRoute { get; init; } = [];

    /// <summary>The kit, as POST /kits answers it; weight and gestation are not repeated in it.</summary>
    public required KitResponse Kit { get; init; }

    /// <summary>When the air of each place left behind has been renewed, in minutes after the team has left it.</summary>
    public required IReadOnlyList<PlaceAiringResponse> Airing { get; init; }

    /// <summary>Posts on each way, in the order of the ways; empty in a version that was made before posts were planned.</summary>
    public IReadOnlyList<RoutePostsResponse> Posts { get; init; } = [];

    /// <summary>Planned and urgent timeline of each way, in the order of the ways; empty in a version that was made before timelines were planned.</summary>
    public IReadOnlyList<RouteTimelineResponse> Timeline { get; init; } = [];

    /// <summary>Who wears what on which leg of each way, in the order of the ways; empty in a version that was made before that was planned.</summary>
    public IReadOnlyList<RouteWearResponse> WearByRoute { get; init; } = [];

    /// <summary>
    /// Ways that come upon another transport of the site, with both windows and what may be done; empty where none does. Not part of the version: looked at
    /// anew for every answer, against the newest versions of the 20 plans nearest in departure within 24 hours; a caution says so where there are more.
    /// </summary>
    public IReadOnlyList<RouteOverlapsResponse> Overlaps { get; init; } = [];
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>The gas supply against one way.</summary>
public sealed record RouteGasResponse
{
    /// <summary>Id of the way.</summary>
    public required string Route { get; init; }

    /// <summary>The nearly-always time, minutes rounded up to a tenth: rules are judged on it.</summary>
    public required decimal JourneyMinutes { get; init; }

    /// <summary>Whether the support draws gas and anything is known about the supply.</summary>
    public required GasAnswer Answer { get; init; }

    /// <summary>As POST /gas-supply answers; null unless computed.</summary>
    public required GasSupplyResponse? Supply { get; init; }

    /// <summary>Minutes left, rounded down, on reaching the elevator where least is left, if it then stalls; null without an elevator or a supply.</summary>
    public required long? MinutesIfStuck { get; init; }

    /// <summary>Least reading of one cylinder per size that meets the site's strictest rule on this way.</summary>
    public required IReadOnlyList<LeastGaugeResponse> LeastGauges { get; init; }

    /// <summary>Every rule for the usual and the nearly-always time, and for the worst arrival by plan B where that is known; empty without a supply.</summary>
    public IReadOnlyList<GasVerdictResponse> Verdicts { get; init; } = [];

    /// <summary>Chance that the journey outlasts the supply as set, and oxygen alone; empty without a supply.</summary>
    public IReadOnlyList<ShortfallResponse> Shortfalls { get; init; } = [];

    /// <summary>What one more cylinder of either gas would change; empty without a supply.</summary>
    public IReadOnlyList<OneMoreCylinderResponse> OneMore { get; init; } = [];

    /// <summary>Wall outlets at the origin, the bail-out points and the destination, against the hoses that the site says travel.</summary>
    public IReadOnlyList<OutletResponse> Outlets { get; init; } = [];

    /// <summary>
    /// The fewest cylinders of the site's shelf that meet the site's rules on the nearly-always time, with the readings as they stood when the plan was
    /// made; null where the support draws nothing or nothing stands on the shelf.
    /// </summary>
    public SmallestSetResponse? SmallestSet { get; init; }

    internal static RouteGasResponse From(GasOfRoute gas) => new()
    {
        Route = gas.RouteId,
        JourneyMinutes = gas.JourneyMinutes,
        Answer = gas.Answer,
        Supply = gas.Supply is { } supply ? GasSupplyResponse.From(supply) : null,
        MinutesIfStuck = gas.MinutesIfStuck,
        LeastGauges = [.. gas.LeastGauges.Select(LeastGaugeResponse.From)],
        Verdicts = [.. gas.Verdicts.Select(verdict => new GasVerdictResponse(verdict.Time, verdict.JourneyMinutes, [.. verdict.Rules.Select(RuleResponse.From)]))],
        Shortfalls =
        [
            .. gas.Shortfalls.Select(s => new ShortfallResponse(s.Supply, Math.Round(s.Chance, 6), s.Frequency, s.LeastMinutes, s.LikelyMinutes, s.MostMinutes)),
        ],
        OneMore =
        [
            .. gas.OneMore.Select(one => new OneMoreCylinderResponse(
                one.Gas, one.Like, one.Minutes, one.OxygenAloneMinutes, [.. one.Rules.Select(RuleResponse.From)])),
        ],
        Outlets = [.. gas.Outlets.Select(outlet => new OutletResponse(outlet.Purpose, outlet.Place, outlet.Gas, [.. outlet.Connectors], outlet.Fit))],
    };
}

/// <summary>The outlets for one gas at a place where the team may want wall gas.</summary>
/// <param name="Purpose">Why the place counts.</param>
/// <param name="Place">Its number.</param>
/// <param name="Gas">Which gas.</param>
/// <param name="Connectors">As the floor plan writes them.</param>
/// <param name="Fit">Whether the hose of the site's settings fits; unknown is never taken for a fit.</param>
public sealed record OutletResponse(OutletPurpose Purpose, string Place, GasKind Gas, IReadOnlyList<string> Connectors, HoseFit Fit);

/// <summary>Every rule against the supply for one time of the way.</summary>
/// <param name="Time">Usually (half of such journeys take no longer), nearly always (nine in ten), or the worst arrival by plan B.</param>
/// <param name="JourneyMinutes">That time, min, rounded up to a tenth.</param>
/// <param name="Rules">Each reserve rule.</param>
public sealed record GasVerdictResponse(JourneyTimeKind Time, decimal JourneyMinutes, IReadOnlyList<RuleResponse> Rules);

/// <summary>Chance that the journey outlasts a supply, whose minutes are taken as a symmetrical triangle over its band.</summary>
/// <param name="Supply">The supply as set, or oxygen alone.</param>
/// <param name="Chance">0 to 1, to the nearest millionth (six decimals).</param>
/// <param name="Frequency">The same in counted journeys, rounded up.</param>
/// <param name="LeastMinutes">Low end of the band, min.</param>
/// <param name="LikelyMinutes">As typed, min.</param>
/// <param name="MostMinutes">As far above, min.</param>
public sealed record ShortfallResponse(string Supply, double Chance, string Frequency, decimal LeastMinutes, decimal LikelyMinutes, decimal MostMinutes);

/// <summary>What one more cylinder like the last of its gas, at the same reading, would change.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="LikeCylinder">The cylinder that is taken twice, by its place in the request, from 1.</param>
/// <param name="Minutes">Of the supply then, rounded down; null where no cylinder is drawn.</param>
/// <param name="OxygenAloneMinutes">Of oxygen alone then.</param>
/// <param name="Rules">Each rule judged again, on the nearly-always time.</param>
public sealed record OneMoreCylinderResponse(GasKind Gas, int LikeCylinder, long? Minutes, long OxygenAloneMinutes, IReadOnlyList<RuleResponse> Rules);

/// <summary>Least reading with which one cylinder of a size meets the rule.</summary>
/// <param name="SizeId">Id in the cylinder library.</param>
/// <param name="Gas">What the cylinder holds.</param>
/// <param name="Gauge">Reading with its unit, rounded up; null where not even a full cylinder is enough.</param>
/// <param name="Working">The rule and the litres with the numbers put in.</param>
public sealed record LeastGaugeResponse(string SizeId, GasKind Gas, string? Gauge, string Working)
{
    /// <summary>From those litres to this reading, with the numbers put in; empty in plans of earlier releases.</summary>
    public string Steps { get; init; } = "";

    /// <summary>The rule in numbers, as the working begins; empty in plans of earlier releases.</summary>
    public string RuleFigures { get; init; } = "";

    /// <summary>Those minutes as litres in numbers, as the working ends; empty in plans of earlier releases.</summary>
    public string LitresFigures { get; init; } = "";

    /// <summary>The minutes of the rule were rounded up to whole ones.</summary>
    public bool InWholeMinutes { get; init; }

    internal static LeastGaugeResponse From(LeastGauge least) => new(least.Size.Id, least.Size.Gas, least.Gauge?.ToString(), least.Working)
    { Steps = least.Steps, RuleFigures = least.RuleFigures, LitresFigures = least.LitresFigures, InWholeMinutes = least.IsInWholeMinutes };
}

/// <summary>When the air of a place has been renewed. A person opens the place.</summary>
public sealed record PlaceAiringResponse
{
    /// <summary>Number of the place.</summary>
    public required string Place { get; init; }

    /// <summary>Name of the place.</summary>
    public required string Name { get; init; }

    /// <summary>Whole minutes, rounded up; for a car parked with its doors open.</summary>
    public required long Minutes { get; init; }
    public required double ExactMinutes { get; init; }

    /// <summary>For a car parked with its doors shut; null for every other place.</summary>
    public required long? MinutesDoorsShut { get; init; }

    /// <summary>Whether the formula or the site's fixed time decides.</summary>
    public required Core.Airing.AiringBasis Basis { get; init; }
    public required string Working { get; init; }

    /// <summary>The minutes with the doors shut, with the numbers put in; null for every place but a car, and in plans of earlier releases.</summary>
    public string? WorkingDoorsShut { get; init; }
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>Ways that cross the place.</summary>
    public required IReadOnlyList<string> Routes { get; init; }

    internal static PlaceAiringResponse From(AiringOfPlace airing, string name) => new()
    {
        Place = airing.Place,
        Name = name,
        Minutes = airing.Time.Minutes,
        ExactMinutes = airing.Time.ExactMinutes,
        MinutesDoorsShut = airing.DoorsShut?.Minutes,
        Basis = airing.Time.Basis,
        Working = airing.Time.Working,
        WorkingDoorsShut = airing.DoorsShut?.Working,
        Assumptions = airing.Time.Assumptions,
        Routes = airing.RouteIds,
    };
}
