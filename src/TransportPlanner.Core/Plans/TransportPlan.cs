using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>The whole answer for one transport: ways, gas and posts on each way, kit, protective wear, airing afterwards.</summary>
public sealed record TransportPlan
{
    /// <summary>After departure, the time for which closures and crowds were looked at well enough to print.</summary>
    public static readonly TimeSpan Validity = TimeSpan.FromMinutes(30);

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
    public required KitList Kit { get; init; }
    public required ProtectiveWear Wear { get; init; }
    public required ImmutableArray<AiringOfPlace> Airing { get; init; }

    /// <summary>UTC: a sheet must not be used later.</summary>
    public required DateTimeOffset VoidAfter { get; init; }

    /// <summary>Makes the plan, or says why there is no way.</summary>
    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="request">Who, where, how, with what.</param>
    /// <param name="cancellation">The caller gives up: throws.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure of gas or kit is out of its range.</exception>
    public static PlanOutcome Make(FloorGraph graph, PlanRequest request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return RouteFinder.Find(graph, request.Route, cancellation) switch
        {
            RouteOutcome.None none => new PlanOutcome.NoRoute(none),
            RouteOutcome.Found found => new PlanOutcome.Made(Compose(graph, request, found.Set)),
            var other => throw new InvalidOperationException($"No plan for {other.GetType().Name}."),
        };
    }

    private static TransportPlan Compose(FloorGraph graph, PlanRequest request, RouteSet routes)
    {
        var longest = routes.Routes.Max(route => route.Time.NearlyAlwaysSeconds);
        return new()
        {
            Routes = routes,
            GasByRoute = [.. routes.Routes.Select(route => GasOfRoute.For(route, request, route.WorstPlanBSeconds is { } worst ? TimeSpan.FromSeconds(worst) : null) with
            {
                Outlets = OutletOnWay.Of(graph.Plan, route, request.Route, request.Settings.OxygenHose, request.Settings.AirHose),
            })],
            PostsByRoute = [.. routes.Routes.Select(route => PostsOfRoute.For(graph, request, route))],
            Kit = KitList.For(new()
            {
                WeightGrams = request.WeightGrams,
                GestationWeeks = request.GestationWeeks,
                Support = request.Support,
                Precautions = request.Route.Precautions,
                JourneyMinutes = Math.Clamp((longest + 59) / 60, KitQuery.MinJourneyMinutes, KitQuery.MaxJourneyMinutes),
            }),
            Wear = ProtectiveWear.For(request.Route.Precautions),
            Airing = AiringOfPlace.Of(graph, routes, request.Route.To, request.Settings),
            VoidAfter = request.Route.Travel.Departure + Validity,
        };
    }
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
