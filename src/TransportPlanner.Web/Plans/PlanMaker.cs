using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A plan for the API, the page or the terminal, or the problem that stands in its way.</summary>
internal sealed record PlanAnswer(PlanResponse? Plan, PlanOutcome.NoRoute? NoRoute, Microsoft.AspNetCore.Http.HttpResults.ProblemHttpResult? Problem);

/// <summary>Makes one version of a plan from a request, the site's settings and the floor plan in force. Stores nothing.</summary>
internal static class PlanMaker
{
    /// <param name="context">Settings and closures of the site.</param>
    /// <param name="site">The floor plan that the request keeps to its end.</param>
    /// <param name="request">What was given.</param>
    /// <param name="identity">Id, call-sign and version to print on the plan.</param>
    /// <param name="limit">How long the search for ways may take.</param>
    /// <param name="now">The instant of the request.</param>
    /// <param name="cancellationToken">The caller gives up.</param>
    public static async Task<PlanAnswer> MakeAsync(
        PlannerContext context, FloorPlanSnapshot site, PlanRequest request, (string Id, string CallSign, int Version) identity, SearchDeadline limit,
        DateTimeOffset now, CancellationToken cancellationToken)
    {
        var settings = await SiteSettings.ReadAsync(context, request.SiteId, cancellationToken);
        var route = await SiteRouteQuery.ReadAsync(context, request.ToRouteRequest(), now, cancellationToken);
        var choice = await CylinderChoice.ReadAsync(context, request.SiteId, cancellationToken);
        if (CylinderProblems.Find(request.Cylinders, "cylinders", choice, out var cylinders) is { } refused)
        {
            return new(null, null, refused);
        }

        var day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(route.Query.Travel.Departure, TimeZoneInfo.FindSystemTimeZoneById(site.Plan.TimeZone)).Date);
        foreach (var (i, battery) in request.Batteries.Index())
        {
            if (battery.WhyRefused(day) is var (member, fix))
            {
                return new(null, null, Problems.Invalid($"batteries[{i}].{JsonErrors.CamelCase(member)}", fix));
            }
        }

        foreach (var (i, start) in request.Officers?.Starts.Index() ?? [])
        {
            if (!site.Graph.PlaceIndex.ContainsKey(start))
            {
                return new(null, null, Problems.ImpossibleField(RouteProblem.UnknownPlace, $"officers.starts[{i}]", $"There is no place {start}. Give the number of a place."));
            }
        }

        if (request.Demand is { FlowIs: FlowKind.MinuteVolume } by && (by.FlowLitresPerMinute is null || request.Support != RespiratorySupport.InvasiveVentilation))
        {
            return new(null, null, Problems.Invalid("demand.flowIs", PlanDemandRequest.MinuteVolumeNeeds));
        }

        var demand = DemandOf(request);
        var shelf = await Shelf.ReadAsync(context, request.SiteId, now, cancellationToken);
        using var deadline = limit.Begin();
        var outcome = TransportPlan.Make(
            site.Graph,
            new()
            {
                Route = route.Query,
                Support = request.Support,
                Demand = demand,
                Cylinders = [.. cylinders],
                Batteries = [.. request.Batteries.Select(battery => battery.ToBattery(day))],
                WeightGrams = request.WeightGrams,
                GestationWeeks = request.GestationWeeks,
                Officers = request.Officers?.ToGiven(now),
                MadeAt = now,
                LeavesNow = request.DepartAt is null,
                Settings = SettingsOf(settings) with
                {
                    AddedSizes = [.. choice.Added],
                    Timeline = TimelineSiteSettings.Of(settings, route.Query.Precautions),
                    ShiftChanges = TimelineSiteSettings.ShiftChangesAround(settings, route.Query.Travel.Departure, TimeZoneInfo.FindSystemTimeZoneById(site.Plan.TimeZone))?.ToImmutableArray(),
                },
            },
            cancellationToken, deadline.Token);
        return outcome switch
        {
            PlanOutcome.NoRoute no => new(null, no, RouteEndpoints.Problem(no.None)),
            PlanOutcome.Made made => new(Response(request, site, route, settings, demand, cylinders, shelf, made.Plan, identity, now), null, null),
            _ => throw new InvalidOperationException($"{outcome} is not an outcome."),
        };
    }

    internal static GasDemand? DemandOf(PlanRequest request)
    {
        var given = request.Demand;
        GasFlow? flow = given?.FlowLitresPerMinute is { } litres ? GasFlow.FromLitresPerMinute(litres) : null;
        var demand = SupportDemand.For(request.Support, flow, given?.OxygenFraction is { } fraction ? (decimal)fraction : null);
        return demand is null || given is null
            ? demand
            : demand with
            {
                FlowIs = given.FlowIs,
                DriveFlow = GasFlow.FromLitresPerMinute(given.DriveGasLitresPerMinute),
                DriveGas = given.DriveGas,
                Bleed = GasFlow.FromLitresPerMinute(given.BleedLitresPerMinute),
                AirSource = given.AirSource,
            };
    }

    internal static PlanSettings SettingsOf(SiteSettings settings) => new()
    {
        SiteRules = settings.Get(SiteSettings.ReserveRule) switch
        {
            ReservePolicy.TwiceTheJourney => [ReserveRule.TwiceTheJourney],
            ReservePolicy.JourneyPlus30Minutes => [ReserveRule.JourneyPlus30Minutes],
            _ => [.. ReserveRule.SideBySide],
        },
        BatteryPolicy = new((decimal)settings.Get(SiteSettings.BatteryMarginPercent), (decimal)settings.Get(SiteSettings.BatteryLossPercentPerYear)),
        OxygenHose = settings.Get(SiteSettings.OxygenHose),
        AirHose = settings.Get(SiteSettings.AirHose),
        RemovalPercent = settings.Get(SiteSettings.RemovalPercent),
        MixingFactor = settings.Get(SiteSettings.MixingFactor),
        AiringPolicy = new(
            settings.Get(SiteSettings.CorridorAiringMinutes),
            settings.IsAssumed(SiteSettings.CorridorAiringMinutes) ? "project default" : "site setting",
            settings.IsAssumed(SiteSettings.CorridorAiringMinutes)),
        Posts = PostSettingsOf(settings),
        HandHygieneSeconds = settings.Get(SiteSettings.HandHygieneSeconds),
        ShiftChangeLasts = TimeSpan.FromMinutes(settings.Get(TimelineSiteSettings.ShiftChangeMinutes)),
        WearOnWay = settings.Get(TimelineSiteSettings.WearOnWay),
    };

    internal static PostSettings PostSettingsOf(SiteSettings settings) => new()
    {
        OfficerSpeed = WalkingSpeed.FromMetresPerSecond(settings.Get(SiteSettings.OfficerSpeed)),
        OfficerStairSpeed = WalkingSpeed.FromMetresPerSecond(settings.Get(SiteSettings.OfficerStairSpeed)),
        LeadSeconds = settings.Get(SiteSettings.PostLeadSeconds),
        ClearSeconds = settings.Get(SiteSettings.PostClearSeconds),
        MarginSeconds = settings.Get(SiteSettings.PostMarginSeconds),
        CaptureSeconds = settings.Get(SiteSettings.ElevatorCaptureSeconds),
        SightMetres = settings.Get(SiteSettings.OfficerSightMetres),
        ClearedFor = settings.Get(SiteSettings.PlacesClearedFor),
        PlacesCleanedFor = settings.Get(SiteSettings.PlacesCleanedFor),
        CarsCleanedFor = settings.Get(SiteSettings.ElevatorCarsCleanedFor),
        CarCleaningMinutes = settings.Get(SiteSettings.ElevatorCarCleaningMinutes),
    };

    private static PlanResponse Response(
        PlanRequest request, FloorPlanSnapshot site, SiteRouteQuery route, SiteSettings settings, GasDemand? demand,
        IReadOnlyList<Cylinder> cylinders, Shelf shelf, TransportPlan plan,
        (string Id, string CallSign, int Version) identity, DateTimeOffset now)
    {
        var names = site.Plan.Places.ToDictionary(p => p.Number, p => p.Name);
        return new()
        {
            Id = identity.Id,
            CallSign = identity.CallSign,
            Version = identity.Version,
            SiteId = request.SiteId,
            TimeZone = site.Plan.TimeZone,
            MadeAt = now,
            VoidAfter = plan.VoidAfter,
            From = request.From,
            To = request.To,
            Support = request.Support,
            Precautions = request.Precautions,
            Given = request with { WeightGrams = null, GestationWeeks = null },
            Assumed = [.. route.Assumed, .. demand?.Assumed ?? [], .. PlanAssumptions.Of(settings, request, cylinders, site.Graph, plan)],
            Measured = UpkeepSettings.MeasuredSpeedInForce(settings) is { } pace ? [$"incubatorSpeed: {pace.Words()}"] : [],
            Routes = RoutesResponse.From(site.Plan, route, plan.Routes),
            GasByRoute =
            [
                .. plan.GasByRoute.Select(gas => RouteGasResponse.From(gas) with
                {
                    SmallestSet = demand is null || shelf.IsEmpty ? null : shelf.Smallest(demand, gas.JourneyMinutes),
                }),
            ],
            Batteries = [.. plan.Batteries.Select((battery, place) => BatteryResponse.From(battery, place + 1))],
            BatteriesByRoute = [.. plan.BatteriesByRoute.Zip(plan.Routes.Routes, RouteBatteriesResponse.From)],
            Kit = WithoutInfant(KitResponse.From(plan.Kit, plan.Wear), request.WeightGrams, request.GestationWeeks),
            Airing = [.. plan.Airing.Select(a => PlaceAiringResponse.From(a, names[a.Place]))],
            Posts = [.. plan.PostsByRoute.Select(p => RoutePostsResponse.From(site.Plan, p.Posts, p.Deployment))],
            Timeline = [.. plan.Timelines.Select(RouteTimelineResponse.From)],
            WearByRoute = [.. plan.WearByRoute.Select(wear => RouteWearResponse.From(wear, settings.IsAssumed(TimelineSiteSettings.WearOnWay)))],
            Cautions = [.. site.Plan.Notice is { } notice ? new[] { notice } : [], .. TransportPlan.StandingCautions],
        };
    }

    /// <summary>
    /// The plan outlives the infant's weight and gestation, so its kit keeps the sizes and drops what they were read by; a sum from which
    /// the weight could be worked back is dropped whole.
    /// </summary>
    private static KitResponse WithoutInfant(KitResponse kit, int? grams, int? weeks)
    {
        string[] traces =
        [
            .. grams is { } g ? new[] { FormattableString.Invariant($"{g / 1000.0} kg"), FormattableString.Invariant($"{g} g"), FormattableString.Invariant($"{g:N0} g") } : [],
            .. weeks is { } w ? new[] { FormattableString.Invariant($"{w} weeks") } : [],
        ];
        KitNoteResponse Note(KitNoteResponse note) => traces.Any(trace => note.Text.Contains(trace, StringComparison.Ordinal))
            ? note with { Text = "This note names the infant's weight or gestation, which a plan does not keep: open the kit page and type them there." }
            : note;
        return kit with
        {
            Items =
            [
                .. kit.Items.Select(item => item with
                {
                    Sizes =
                    [
                        .. item.Sizes.Select(size => traces.Any(trace => size.Basis.Contains(trace, StringComparison.Ordinal))
                            ? size with { Basis = "what was given when the plan was made" }
                            : size),
                    ],
                    Asks = [.. item.Asks.Select(Note)],
                }),
            ],
            Cautions = [.. kit.Cautions.Select(Note)],
        };
    }
}
