using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Routing;

/// <summary>Ways from one place to another.</summary>
internal static class RouteEndpoints
{
    public static void MapRoutes(this IEndpointRouteBuilder api) =>
        api.MapPost("/routes", Post)
            .WithName("findRoutes")
            .WithTags("Routes")
            .WithSummary("Ways from one place to another")
            .WithDescription(
                "From the set of efficient ways over expected time, exposure and handling (exact unless isExact is false), the one to four that people see: quickest, least exposed, "
                + "least handled, best balance. Each says why it is there; other ways that a planner would expect say in one sentence why they are not. "
                + "Hard limits and closures filter first; a limit that nobody measured lets a way pass with the flag unknown. Where no way leads there, the "
                + "answer is 422 with the code no-route, the first obstacle (of what is too narrow the tightest), the figure that fails, and in errors the member it belongs to.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .WithExample(RouteExamples.Request, RouteExamples.Response);

    private static async Task<Results<Ok<RoutesResponse>, ProblemHttpResult>> Post(
        RouteRequest request, FloorPlanStore store, PlannerContext context, SearchDeadline limit, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(request.SiteId, out var site))
        {
            return Problems.NoSite(request.SiteId);
        }

        var query = await SiteRouteQuery.ReadAsync(context, request, time.GetUtcNow(), cancellationToken);
        using var deadline = limit.Begin();
        return RouteFinder.Find(site.Graph, query.Query, cancellationToken, deadline.Token) switch
        {
            RouteOutcome.Found found => TypedResults.Ok(RoutesResponse.From(site.Plan, query, found.Set)),
            RouteOutcome.None none => Problem(none),
            var outcome => throw new InvalidOperationException($"{outcome} is not an outcome."),
        };
    }

    /// <summary>The member that a smaller figure in would change; where no figure of the request is in the way, the destination that nothing leads to.</summary>
    private static string MemberOf(Obstacle? obstacle) => obstacle switch
    {
        { Present: null, Needed: null, Kind: not (LimitKind.NoCylinders or LimitKind.NoEntry or LimitKind.StairFlight or LimitKind.Access or LimitKind.Closure or LimitKind.ThroughRoom) } => "avoidUnknown",
        { Kind: LimitKind.ClearWidth or LimitKind.CarWidth or LimitKind.CarDoor } => "conveyance.widthMetres",
        { Kind: LimitKind.Corner or LimitKind.CarLength } => "conveyance.lengthMetres",
        { Kind: LimitKind.ClearHeight } => "conveyance.heightMetres",
        { Kind: LimitKind.CarArea } => "conveyance.crew",
        { Kind: LimitKind.RatedLoad } => "conveyance.massKilograms",
        _ => "to",
    };

    /// <summary>422 for each reason, with the obstacle where there is one.</summary>
    internal static ProblemHttpResult Problem(RouteOutcome.None none) => none.Reason switch
    {
        NoRouteReason.UnknownOrigin => Problems.ImpossibleField(RouteProblem.UnknownPlace, "from", $"{none.Sentence} Give the number of a place."),
        NoRouteReason.UnknownDestination => Problems.ImpossibleField(RouteProblem.UnknownPlace, "to", $"{none.Sentence} Give the number of a place."),
        NoRouteReason.SamePlace => Problems.ImpossibleField(RouteProblem.SamePlace, "to", $"{none.Sentence} Give another place."),
        NoRouteReason.NotConnected or NoRouteReason.Blocked => Problems.Impossible(
            RouteProblem.NoRoute, none.Sentence, ("obstacle", none.Obstacle is null ? null : ObstacleResponse.From(none.Obstacle)),
            ("errors", new Dictionary<string, string[]> { [MemberOf(none.Obstacle)] = [none.Sentence] })),
        _ => throw new InvalidOperationException($"{none.Reason} is not a reason."),
    };
}
