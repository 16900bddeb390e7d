using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Whom to call, and who has answered.</summary>
internal static class CallEndpoints
{
    private const string Call = """
        { "role": "receivingNurse", "title": "receiving nurse",
          "message": "Isolation transport Silver Heron, airborne precautions: it arrives at N-4.03 usually by 02:15 (UTC+00:00), nearly always by 02:16 (UTC+00:00). Acknowledge.",
          "state": "acknowledged", "calledAt": "2026-05-04T02:06:00+00:00", "acknowledgedAt": "2026-05-04T02:07:00+00:00", "outOfDateSince": null, "outOfDateWay": null, "eTag": "\"1.A.2\"" }
        """;

    public static void MapCalls(this IEndpointRouteBuilder api)
    {
        var calls = api.MapGroup("/plans/{id}/calls").WithTags("Plans");
        calls.MapGet("", Get).WithName("readCalls")
            .WithSummary("Whom to call for a transport, with what to say, and who has answered")
            .WithDescription("The message has call-sign, category of precautions, place and time, and nothing of the infant. It speaks of the way that is taken. A version or a way that changes it opens the call again.")
            .ProducesProblem(404).WithExample(null, $$"""{ "planId": "5d41402abc4b2a76b9719d911017c592", "planVersion": 1, "way": "A", "acknowledged": 1, "calls": [ {{Call}} ] }""");
        calls.MapPut("/{role}", Put).WithName("keepCall")
            .WithSummary("A role was called, or has answered")
            .WithDescription("Who answers was called: acknowledged says both. Needs If-Match with the eTag of the call.")
            .ProducesProblem(404).ProducesProblem(412).ProducesProblem(428).WithExample("""{ "state": "acknowledged" }""", Call);
    }

    private static async Task<Results<Ok<CallsResponse>, ProblemHttpResult>> Get(
        string id, PlannerContext context, FloorPlanStore store, CancellationToken cancellationToken) =>
        await CallSheet.FindAsync(context, store, id, cancellationToken) is { } list ? TypedResults.Ok(list.Answer()) : NoPlan(id);

    private static async Task<Results<Ok<CallResponse>, ProblemHttpResult>> Put(
        string id, string role, CallRequest request, HttpRequest http, HttpResponse response, PlannerContext context, FloorPlanStore store, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await CallSheet.FindAsync(context, store, id, cancellationToken) is not { } list)
        {
            return NoPlan(id);
        }

        if (Enum.GetValues<PlanRole>().Where(known => JsonErrors.CamelCase($"{known}") == role).ToList() is not [var who])
        {
            return Problems.NotFound($"Nobody is called as {role}. GET {OpenApi.BasePath}/plans/{id}/calls lists the roles.");
        }

        if (http.RefuseUnlessCurrent(list.Tag(who)) is { } refused)
        {
            return refused;
        }

        if (await list.KeepAsync(who, request.State, time.GetUtcNow(), cancellationToken) is not { } kept)
        {
            return Problems.Stale();
        }

        response.Headers.ETag = kept.ETag;
        return TypedResults.Ok(kept);
    }

    private static ProblemHttpResult NoPlan(string id) => Problems.NotFound($"There is no plan {id}.");
}
