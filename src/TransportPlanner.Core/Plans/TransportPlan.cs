using System.Collections.Immutable;
using TransportPlanner.Core.Batteries;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>The whole answer for one transport: ways, gas, posts and timeline on each way, kit, protective wear, airing afterwards.</summary>
public sealed record TransportPlan
{
    /// <summary>After go, the time for which crowds were looked at well enough to print.</summary>
    public static readonly TimeSpan Validity = TimeSpan.FromMinutes(30);

    /// <summary>With more steps late than this, what is left to do is counted from now: a list of what is too late helps nobody.</summary>
    public const int FewLate = 3;

    /// <summary>Stand on every screen and print.</summary>
    public static ImmutableArray<string> StandingCautions { get; } =
    [
        "Planning aid: local policy and licensed practice decide. It does not monitor the infant and does not decide whether to move.",
        "Check the flow at the patient end. Full is not flowing.",
        "An incubator does not isolate: the precautions stay as infection prevention set them.",
        "Times are estimates from the floor plan; facts about the building can be wrong. Report an error.",
        "A place is opened again by a person, never by a clock.",
    ];

    public required RouteSet Routes { get; init; }

    /// <summary>One for each way, in the same order.</summary>
    public required ImmutableArray<GasOfRoute> GasByRoute { get; init; }

    /// <summary>One for each way, in the same order.</summary>
    public required ImmutableArray<PostsOfRoute> PostsByRoute { get; init; }

    /// <summary>Two for each way, planned before urgent, in the order of the ways.</summary>
    public required ImmutableArray<TimelineOfRoute> Timelines { get; init; }

    /// <summary>One for each way, in the same order.</summary>
    public required ImmutableArray<WearByLeg> WearByRoute { get; init; }

    /// <summary>In the order of the request.</summary>
    public required ImmutableArray<BatteryTime> Batteries { get; init; }

    /// <summary>One for each way, in the same order.</summary>
    public required ImmutableArray<BatteriesOfRoute> BatteriesByRoute { get; init; }
    public required KitList Kit { get; init; }
    public required ProtectiveWear Wear { get; init; }
    public required ImmutableArray<AiringOfPlace> Airing { get; init; }

    /// <summary>
    /// UTC: a sheet must not be used later. <see cref="Validity"/> after the latest go that the cards of a way count from, and no later than closures were
    /// looked at (<see cref="Travel.TravelSettings.ClosureWindow"/> from departure).
    /// </summary>
    public required DateTimeOffset VoidAfter { get; init; }

    /// <summary>Makes the plan, or says why there is no way.</summary>
    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="request">Who, where, how, with what.</param>
    /// <param name="cancellation">The caller gives up: throws.</param>
    /// <param name="deadline">The search for ways is cut short, and the set of ways states its ε.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure of gas or kit is out of its range.</exception>
    public static PlanOutcome Make(FloorGraph graph, PlanRequest request, CancellationToken cancellation = default, CancellationToken deadline = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return RouteFinder.Find(graph, request.Route, cancellation, deadline) switch
        {
            RouteOutcome.None none => new PlanOutcome.NoRoute(none),
            RouteOutcome.Found found => new PlanOutcome.Made(Compose(graph, request, found.Set)),
            var other => throw new InvalidOperationException($"No plan for {other.GetType().Name}."),
        };
    }

    private static TransportPlan Compose(FloorGraph graph, PlanRequest request, RouteSet routes)
    {
        var longest = routes.Routes.Max(route => route.Time.NearlyAlwaysSeconds);
        ImmutableArray<BatteryTime> batteries = [.. request.Batteries.Select(battery => BatteryTime.Of(battery, request.Settings.BatteryPolicy))];
        var departure = request.Route.Travel.Departure;
        var airing = AiringOfPlace.Of(graph, routes, request.Route.To, request.Settings);
        ImmutableArray<RoutePosts> held = [.. routes.Routes.Select(route => PostsOfRoute.Held(graph, request, route, airing))];
        ImmutableArray<TimelineOfRoute> timelines =
            [.. routes.Routes.Zip(held).SelectMany(pair => TimelineMaker.For(graph, request, pair.First, pair.Second, airing, request.MadeAt ?? departure))];
        var goes = timelines.Where(timeline => timeline.Tempo == (request.LeavesNow ? Tempo.Urgent : Tempo.Planned)).ToDictionary(timeline => timeline.RouteId, CountedGo);
        var (valid, looked) = (goes.Values.Max() + Validity, departure + request.Route.Travel.Settings.ClosureWindow);
        return new()
        {
            Routes = routes,
            GasByRoute = [.. routes.Routes.Select(route => GasOfRoute.For(route, request, WorstPlanB(route)) with
            {
                Outlets = OutletOnWay.Of(graph.Plan, route, request.Route, request.Settings.OxygenHose, request.Settings.AirHose),
            })],
            PostsByRoute = [.. held.Select(posts => PostsOfRoute.For(graph, request, posts, goes[posts.RouteId] - departure))],
            Timelines = timelines,
            WearByRoute = [.. routes.Routes.Select(route => WearByLeg.For(graph.Plan, route, request.Route, request.Settings.WearOnWay))],
            Batteries = batteries,
            BatteriesByRoute =
            [
                .. routes.Routes.Select(route => BatteriesOfRoute.For(
                    route, batteries, request.Settings.Rules, WorstPlanB(route), PlugInPoint.Of(graph.Plan, route, request.Route))),
            ],
            Kit = KitList.For(new()
            {
                WeightGrams = request.WeightGrams,
                GestationWeeks = request.GestationWeeks,
                Support = request.Support,
                Precautions = request.Route.Precautions,
                JourneyMinutes = Math.Clamp((longest + 59) / 60, KitQuery.MinJourneyMinutes, KitQuery.MaxJourneyMinutes),
            }),
            Wear = ProtectiveWear.For(request.Route.Precautions, request.Settings.HandHygieneSeconds),
            Airing = airing,
            VoidAfter = valid < looked ? valid : looked,
        };
    }

    /// <summary>The go that the cards of a way count from: the plan's departure, or the earliest go that fits where much no longer does.</summary>
    private static DateTimeOffset CountedGo(TimelineOfRoute timeline) =>
        timeline is { FromNow: { } now, Late.Length: > FewLate } ? now.Go : timeline.ForGo.Go;

    private static TimeSpan? WorstPlanB(Route route) => route.WorstPlanBSeconds is { } worst ? TimeSpan.FromSeconds(worst) : null;
}

/// <summary>A plan, or why there is none.</summary>
public abstract record PlanOutcome
{
    private PlanOutcome()
    {
    }

    public sealed record Made(TransportPlan Plan) : PlanOutcome;

    /// <param name="None">The reason with the figure that fails.</param>
    public sealed record NoRoute(RouteOutcome.None None) : PlanOutcome;
}
