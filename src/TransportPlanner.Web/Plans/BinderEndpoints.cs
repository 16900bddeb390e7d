using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Why a binder is not made.</summary>
internal enum BinderProblem
{
    /// <summary>The floor plan has no delivery or operating room, or no isolation room.</summary>
    NoPairs,
    /// <summary>Nothing is being made that could be stopped.</summary>
    NotBeingMade,
}

/// <summary>Standing plans for every pair of a site: made behind the requests, looked at with GET.</summary>
internal static class BinderEndpoints
{
    private const string Request = """{ "precautions": ["airborne"], "support": "cpap", "weekday": "wednesday", "dayTime": "10:00", "nightTime": "02:00" }""";

    private const string Begun = """
        { "siteId": "demonstration", "progress": "making", "sheetsDone": 0, "sheetsInAll": 80,
          "choices": { "precautions": ["airborne"], "support": "cpap", "weekday": "wednesday", "dayTime": "10:00", "nightTime": "02:00" }, "set": null }
        """;

    private const string Made = """
        { "siteId": "demonstration", "progress": "made", "sheetsDone": 80, "sheetsInAll": 80,
          "choices": { "precautions": ["airborne"], "support": null, "weekday": "wednesday", "dayTime": "10:00", "nightTime": "02:00" },
          "set": { "floorPlanVersion": 1, "madeAt": "2026-05-04T02:10:00+00:00", "stale": [],
            "demand": [ "Support: any. The one with the highest listed flow is counted, with oxygen at fraction 1.0 and air at 0.21." ], "closures": [],
            "sheets": [ { "sheet": "19D", "from": "D-2.14", "to": "N-4.03", "departAt": "2026-05-06T09:00:00+00:00", "noWay": null, "usualSeconds": 264,
              "nearlyAlwaysSeconds": 290, "worstPlanBSeconds": 390.5, "singlePoints": [ "D-2.14A" ], "officers": 5,
              "leastGauges": [ { "sizeId": "US-E", "gas": "oxygen", "gauge": "2000 psi", "working": "journey plus 30 minutes" } ] } ] } }
        """;

    public static IServiceCollection AddBinders(this IServiceCollection services) => services
        .AddSingleton<BinderDesk>().AddHostedService(provider => provider.GetRequiredService<BinderDesk>());

    public static void MapBinders(this IEndpointRouteBuilder api)
    {
        var binder = api.MapGroup("/sites/{siteId}/binder").WithTags("Plans");
        binder.MapGet("", Get).WithName("readBinder")
            .WithSummary("Standing plans for the day on which the planner does not answer")
            .WithDescription(
                "One plan for each pair of a delivery or operating room and an isolation room, for one day and one night quarter-hour, with the least "
                + "gauge per cylinder size in place of minutes. The page /binder/{siteId} prints the set. It is made again by itself when the floor plan, "
                + "the closures in force, the settings or the site's cylinder sizes change.")
            .ProducesProblem(404).WithExample(null, Made);
        binder.MapPost("", Make).WithName("makeBinder")
            .WithSummary("Begins to make the standing plans of a site")
            .WithDescription("Answers at once; GET says how far it is. One that is being made with other choices is stopped. The set before stays readable until the new one is whole.")
            .ProducesProblem(404).ProducesProblem(422).WithExample(Request, Begun);
        binder.MapPost("/cancel", Cancel).WithName("cancelBinder")
            .WithSummary("Stops the making of the standing plans")
            .WithDescription("The set before stays. It is not made again by itself until somebody asks for it.")
            .ProducesProblem(404).ProducesProblem(409).WithExample(null, null);
    }

    private static async Task<Results<Ok<BinderResponse>, ProblemHttpResult>> Get(
        string siteId, FloorPlanStore store, BinderDesk desk, PlannerContext context, TimeProvider time, CancellationToken cancellationToken) =>
        store.TryFind(siteId, out var site)
            ? TypedResults.Ok(await AnswerAsync(site, desk, context, time.GetUtcNow(), cancellationToken))
            : Problems.NoSite(siteId);

    private static async Task<Results<Accepted<BinderResponse>, ProblemHttpResult>> Make(
        string siteId, BinderRequest request, FloorPlanStore store, BinderDesk desk, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        if (WhyNot(site) is { } why)
        {
            return Problems.Impossible(BinderProblem.NoPairs, why);
        }

        desk.Start(siteId, request);
        return TypedResults.Accepted($"{OpenApi.BasePath}/sites/{siteId}/binder", await AnswerAsync(site, desk, context, time.GetUtcNow(), cancellationToken));
    }

    private static Results<NoContent, ProblemHttpResult> Cancel(string siteId, FloorPlanStore store, BinderDesk desk) =>
        !store.TryFind(siteId, out _) ? Problems.NoSite(siteId)
        : desk.Stop(siteId) ? TypedResults.NoContent()
        : Problems.Conflict(BinderProblem.NotBeingMade, "No binder is being made for this site.");

    /// <summary>Null where there is something to plan.</summary>
    public static string? WhyNot(FloorPlanSnapshot site) => Core.Plans.StandingPlans.PairsOf(site.Plan).IsEmpty
        ? PackText.Of(PackTexts.BinderNoPairs, site.Plan.Version)
        : null;

    private static async Task<BinderResponse> AnswerAsync(
        FloorPlanSnapshot site, BinderDesk desk, PlannerContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var state = desk.Of(site.Plan.SiteId);
        return BinderResponse.From(site.Plan.SiteId, state, await StaleAsync(site, state, context, now, cancellationToken));
    }

    /// <summary>What has changed since the set was made.</summary>
    public static async Task<IReadOnlyList<string>> StaleAsync(
        FloorPlanSnapshot site, BinderState state, PlannerContext context, DateTimeOffset now, CancellationToken cancellationToken) => state.Made is { } made
        ? [.. made.Basis.ChangedIn(await BinderBasis.ReadAsync(context, site.Plan, now, cancellationToken))]
        : [];
}
