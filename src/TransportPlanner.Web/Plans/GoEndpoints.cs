using System.Collections.Immutable;
using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Go takes two voices, and a last look at what may have changed.</summary>
internal static class GoEndpoints
{
    private const string Recheck = """
        { "role": "respiratoryTherapist", "way": "A", "support": "same", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same",
          "gauges": [ { "gaugePsi": 1450 } ] }
        """;

    private const string Answer = """
        { "planId": "5d41402abc4b2a76b9719d911017c592", "planVersion": 1, "way": "A", "wayTaken": "A", "isWayChosen": true, "givenAt": "2026-05-04T02:12:00+00:00", "missing": [],
          "recheck": { "role": "respiratoryTherapist", "at": "2026-05-04T02:11:00+00:00", "changed": [],
            "gas": "Read 1450 psi: oxygen 43 min; oxygen alone 43 min; twice the journey met, journey plus 30 minutes met." },
          "teamLeadAt": "2026-05-04T02:11:30+00:00", "securityAt": "2026-05-04T02:12:00+00:00", "takenBack": null, "closures": [], "staleMinutes": 15,
          "voidAfter": "2026-05-04T02:40:00+00:00", "eTag": "\"1.3\"" }
        """;

    public static void MapGo(this IEndpointRouteBuilder api)
    {
        var go = api.MapGroup("/plans/{id}/go").WithTags("Plans");
        go.MapGet("", Get).WithName("readGo")
            .WithSummary("Whether go is given, and what is missing")
            .WithDescription(
                "Two persons' words, kept as they were spoken; the planner adds none of its own. Given when team lead and security both said go about the "
                + "newest version and one way, and what may have changed was answered with nothing changed and not too long before.")
            .ProducesProblem(404).WithExample(null, Answer);
        go.MapPost("/recheck", PostRecheck).WithName("recheckPlan")
            .WithSummary("What may have changed since the plan was made, looked at once more")
            .WithDescription(
                "Support, flow, oxygen fraction, crew and way against the plan, and every gauge read again. Something changed takes both voices back: make the "
                + "next version. A gauge counts as changed where a rule that the plan says is met no longer is. Needs If-Match.")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(422).ProducesProblem(428).WithExample(Recheck, Answer);
        go.MapPost("/voices", PostVoice).WithName("sayGo")
            .WithSummary("Team lead or security says go")
            .WithDescription("About the newest version and one way, after what may have changed was answered about it with nothing changed and not too long ago. A newer version, a closure on the way and a stop take it back. Needs If-Match.")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(428)
            .WithExample("""{ "role": "security", "way": "A" }""", Answer);
        go.MapPost("/way", PostWay).WithName("chooseWay")
            .WithSummary("Somebody names the way that is taken")
            .WithDescription(
                "No word of go. Calls, cards and desk speak of this way from now on; a call whose message it changes opens again, and words about another way "
                + "are taken back. The way that is named already is kept as it is. Needs If-Match.")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(428)
            .WithExample("""{ "role": "teamLead", "way": "A" }""", Answer);
        go.MapPost("/stop", PostStop).WithName("sayStop")
            .WithSummary("Somebody says stop: both voices and the re-check begin anew")
            .WithDescription("Anybody may, at any time; needs no If-Match, because a stop is never too late for what was read.")
            .ProducesProblem(404).ProducesProblem(412).WithExample("""{ "role": "transportNurse" }""", Answer);
    }

    private static async Task<Results<Ok<GoResponse>, ProblemHttpResult>> Get(
        string id, HttpResponse response, PlannerContext context, TimeProvider time, CancellationToken cancellationToken) =>
        await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is { } board ? Ok(board, response) : NoPlan(id);

    private static async Task<Results<Ok<GoResponse>, ProblemHttpResult>> PostRecheck(
        string id, RecheckRequest request, HttpRequest http, HttpResponse response, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is not { } board)
        {
            return NoPlan(id);
        }

        return (http.RefuseUnlessCurrent(board.Tag) ?? await RecheckAsync(board, context, request, time.GetUtcNow(), cancellationToken)) is { } refused
            ? refused : Ok(board, response);
    }

    private static async Task<Results<Ok<GoResponse>, ProblemHttpResult>> PostVoice(
        string id, VoiceRequest request, HttpRequest http, HttpResponse response, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is not { } board)
        {
            return NoPlan(id);
        }

        return (http.RefuseUnlessCurrent(board.Tag) ?? await SayAsync(board, request, time.GetUtcNow(), cancellationToken)) is { } refused
            ? refused : Ok(board, response);
    }

    private static async Task<Results<Ok<GoResponse>, ProblemHttpResult>> PostWay(
        string id, WayRequest request, HttpRequest http, HttpResponse response, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is not { } board)
        {
            return NoPlan(id);
        }

        return (http.RefuseUnlessCurrent(board.Tag) ?? await ChooseAsync(board, request, time.GetUtcNow(), cancellationToken)) is { } refused
            ? refused : Ok(board, response);
    }

    private static async Task<Results<Ok<GoResponse>, ProblemHttpResult>> PostStop(
        string id, StopRequest request, HttpResponse response, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is not { } board)
        {
            return NoPlan(id);
        }

        return await StopAsync(board, context, request, time.GetUtcNow(), cancellationToken) ? Ok(board, response) : Problems.Stale();
    }

    /// <summary>Null where the answer was kept: also for the page.</summary>
    public static async Task<ProblemHttpResult?> RecheckAsync(
        GoBoard board, PlannerContext context, RecheckRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (board.Plan.GasByRoute.FirstOrDefault(of => of.Route == request.Way) is not { } gas)
        {
            return NoWay(board);
        }

        if (board.WhyNot(null, request.Way) is { } why)
        {
            return Problems.Conflict(why, GoWords.Of(why));
        }

        var gauges = await GaugeAgain.ReadAsync(context, board.Plan, gas, request.Gauges, cancellationToken);
        if (gauges.Problem is { } problem)
        {
            return problem;
        }

        ImmutableArray<GoItem> changed =
        [
            .. new[]
            {
                (GoItem.Support, request.Support == AgainstPlan.Changed), (GoItem.Flow, request.Flow == AgainstPlan.Changed),
                (GoItem.OxygenFraction, request.OxygenFraction == AgainstPlan.Changed), (GoItem.Crew, request.Crew == AgainstPlan.Changed),
                (GoItem.Way, request.OnTheWay == AgainstPlan.Changed), (GoItem.Gauge, gauges.IsChanged),
            }.Where(item => item.Item2).Select(item => item.Item1),
        ];
        var entry = new GoEntry.Rechecked(now, board.Plan.Version, request.Way, request.Role, changed);
        return await board.AddAsync(entry, request.Role, gauges.Words, cancellationToken) ? null : Problems.Stale();
    }

    /// <summary>Null where the voice was kept: also for the page.</summary>
    public static async Task<ProblemHttpResult?> SayAsync(GoBoard board, VoiceRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (!GoState.Voices.Contains(request.Role))
        {
            return Problems.Invalid("role", "Give teamLead or security: go takes these two voices.");
        }

        if (board.Way(request.Way) is null)
        {
            return NoWay(board);
        }

        if (board.WhyNot(request.Role, request.Way) is { } why)
        {
            return Problems.Conflict(why, GoWords.Of(why));
        }

        var entry = new GoEntry.Voice(now, board.Plan.Version, request.Way, request.Role);
        return await board.AddAsync(entry, request.Role, null, cancellationToken) ? null : Problems.Stale();
    }

    /// <summary>Null where the way is taken from now on, or was before: also for the page.</summary>
    public static async Task<ProblemHttpResult?> ChooseAsync(GoBoard board, WayRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (board.Way(request.Way) is null)
        {
            return NoWay(board);
        }

        if (board.WhyNot(null, request.Way) is { } why)
        {
            return Problems.Conflict(why, GoWords.Of(why));
        }

        var entry = new GoEntry.Chosen(now, board.Plan.Version, request.Way, request.Role);
        return board.IsTaken(request.Way) || await board.AddAsync(entry, request.Role, null, cancellationToken) ? null : Problems.Stale();
    }

    /// <summary>Keeps a stop, also where somebody spoke at the same moment; false where that went on and on.</summary>
    public static async Task<bool> StopAsync(
        GoBoard board, PlannerContext context, StopRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        for (var attempt = 0; attempt < 5; attempt++)
        {
            var entry = new GoEntry.Stopped(now, board.Plan.Version, board.WayInMind, StopReason.Person);
            if (await board.AddAsync(entry, request.Role, null, cancellationToken))
            {
                return true;
            }

            context.ChangeTracker.Clear();
            board = await GoBoard.OfAsync(context, board.Plan, now, cancellationToken);
        }

        return false;
    }

    private static Ok<GoResponse> Ok(GoBoard board, HttpResponse response)
    {
        response.Headers.ETag = board.Tag;
        return TypedResults.Ok(board.Answer());
    }

    private static ProblemHttpResult NoWay(GoBoard board) =>
        Problems.Invalid("way", $"Version {board.Plan.Version} has the ways {string.Join(", ", board.Plan.Routes.Routes.Select(route => route.Id))}: give one of them.");

    private static ProblemHttpResult NoPlan(string id) => Problems.NotFound($"There is no plan {id}.");
}
