using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>What the duty desk sees.</summary>
internal static class TransportEndpoints
{
    private const string Answer = """
        { "siteId": "demonstration", "asOf": "2026-05-04T02:12:00+00:00", "transports": [
          { "planId": "5d41402abc4b2a76b9719d911017c592", "callSign": "Silver Heron", "version": 1, "from": "D-2.14", "to": "N-4.03", "precautions": ["airborne"],
            "way": "A", "departAt": "2026-05-04T02:10:00+00:00", "usuallyThereAt": "2026-05-04T02:14:24+00:00", "nearlyAlwaysThereAt": "2026-05-04T02:14:50+00:00",
            "voidAfter": "2026-05-04T02:40:00+00:00", "acknowledged": ["security"], "notAcknowledged": ["receivingNurse"], "goGivenAt": null,
            "goMissing": ["teamLead"], "takenBack": null,
            "posts": [ { "post": "P1", "place": "H-2.02", "passage": "DR-2.037", "from": "2026-05-04T02:09:03+00:00", "to": "2026-05-04T02:10:13+00:00" } ] } ] }
        """;

    public static void MapTransports(this IEndpointRouteBuilder api) =>
        api.MapGet("/transports", List).WithTags("Plans").WithName("listTransports")
            .WithSummary("The transports of a site that are in force today")
            .WithDescription("Each with its way and window, who has acknowledged, whether go is given, and its posts. By departure; a void plan is left out.")
            .ProducesProblem(404).WithExample(null, Answer);

    private static async Task<Results<Ok<TransportsResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        var now = time.GetUtcNow();
        var transports = await TransportBoard.TodayAsync(context, site, now, cancellationToken);
        return TypedResults.Ok(new TransportsResponse(siteId, now, [.. transports.Select(transport => transport.Answer())]));
    }
}
