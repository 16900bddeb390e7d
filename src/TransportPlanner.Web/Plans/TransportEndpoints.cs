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
            "voidAfter": "2026-05-04T02:40:00+00:00", "isVoid": false, "acknowledged": ["security"], "notAcknowledged": ["receivingNurse"], "goGivenAt": null,
            "goMissing": ["teamLead"], "takenBack": null,
            "posts": [ { "post": "P1", "place": "H-2.02", "passage": "DR-2.037", "from": "2026-05-04T02:09:03+00:00", "to": "2026-05-04T02:10:13+00:00" } ] } ] }
        """;

    private const string Officers = """
        { "siteId": "demonstration", "asOf": "2026-05-04T02:05:00+00:00", "transports": 1, "posts": 1, "fewestOfficers": 1, "fewestApart": 1,
          "officers": [ { "number": 1, "start": null, "turns": [
            { "of": [ { "planId": "5d41402abc4b2a76b9719d911017c592", "callSign": "Silver Heron", "post": "P1", "mark": "1.1" } ], "walkSeconds": 0,
              "post": { "id": "1.1", "kind": "doors", "passage": "DR-2.037", "place": "H-2.02", "name": "Delivery corridor", "level": "2",
                "from": "2026-05-04T02:09:03+00:00", "to": "2026-05-04T02:10:13+00:00",
                "doors": [ { "passage": "DR-2.037", "behind": "S-2.09", "name": "Store", "peoplePerMinute": 0.02, "assumed": true } ],
                "say": "Delivery corridor is held for a transport: please wait behind the door.", "peopleLikelyMet": 0.023 } } ] } ],
          "unmanned": [], "peopleLikelyMet": 0, "peopleLikelyMetByOfficers": [0.023, 0], "leftOut": [] }
        """;

    public static void MapTransports(this IEndpointRouteBuilder api)
    {
        api.MapGet("/transports", List).WithTags("Plans").WithName("listTransports")
            .WithSummary("The transports of a site that are on the way or leave within 12 hours")
            .WithDescription("Each with its way and window, who has acknowledged, whether go is given, and its posts. By departure. A void plan stays, marked, until its last post is released and its team has nearly always arrived.")
            .ProducesProblem(404).WithExample(null, Answer);
        api.MapGet("/transports/officers", ListOfficers).WithTags("Plans").WithName("listOfficersForAll")
            .WithSummary("The posts of all transports within 12 hours dealt out to the officers there are")
            .WithDescription(
                "One list of the posts of every transport that `/transports` lists, by the ways that are taken and the go of their cards: manned by the fewest officers, exact, or, with a count, by the best "
                + "use of as many: captured elevators first, then the posts where most people are likely met. `starts` is repeated for each place from which an officer begins to walk now.")
            .ProducesProblem(400).ProducesProblem(404).WithExample(null, Officers);
    }

    private static async Task<Results<Ok<OfficersTogetherResponse>, ProblemHttpResult>> ListOfficers(
        string siteId, int? count, string[]? starts, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        var now = time.GetUtcNow();
        var (given, problem) = OfficersTogether.Read(site.Plan, count, starts ?? [], now);
        if (problem is { } wrong)
        {
            return Problems.Invalid(wrong.Field, wrong.Words);
        }

        var transports = await TransportBoard.ListAsync(context, site, now, cancellationToken);
        return TypedResults.Ok(await OfficersTogether.DealAsync(context, site, transports, given, now, cancellationToken));
    }

    private static async Task<Results<Ok<TransportsResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        var now = time.GetUtcNow();
        var transports = await TransportBoard.ListAsync(context, site, now, cancellationToken);
        return TypedResults.Ok(new TransportsResponse(siteId, now, [.. transports.Select(transport => transport.Answer())]));
    }
}
