using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Kits;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Kits;

namespace TransportPlanner.Web.Plans;

/// <summary>The kit list of a plan, ticked while the team packs.</summary>
internal static class ChecklistEndpoints
{
    private const string Item = """
        { "id": "oxygen-cylinder", "name": "Oxygen cylinder, gauge read and typed, with regulator and key", "size": null, "spareSize": null,
          "quantity": 1, "quantityPer": "transport", "phase": "underWay", "carriedBy": "respiratoryTherapist", "needsConfirmation": false,
          "state": "open", "confirmationsNeeded": 2, "entries": [ { "role": "respiratoryTherapist", "at": "2026-05-04T02:06:00+00:00" } ],
          "reason": null, "eTag": "\"1.1\"" }
        """;

    public static void MapChecklist(this IEndpointRouteBuilder api)
    {
        var checklist = api.MapGroup("/plans/{id}/checklist").WithTags("Plans");
        checklist.MapGet("", Get)
            .WithName("readChecklist")
            .WithSummary("The kit list of a plan with its ticks")
            .WithDescription(
                "The items of the newest version. A tick stays while its item reads the same in every version since; an item that a new version "
                + "changed is open again. Nothing about the infant is kept with a tick.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .WithExample(null, $$"""
                { "planId": "5d41402abc4b2a76b9719d911017c592", "planVersion": 1, "open": 1, "done": 0, "skipped": 0, "items": [ {{Item}} ] }
                """);
        checklist.MapPut("/{item}", Put)
            .WithName("tickItem")
            .WithSummary("One person's word on one item")
            .WithDescription(
                "done confirms; an item for two people stays open until a second role confirms too. skipped needs a reason of the list. open reopens "
                + "the item and drops its entries. Needs If-Match with the eTag of the item: it changes with each entry and each version of the plan.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status409Conflict)
            .ProducesProblem(StatusCodes.Status412PreconditionFailed)
            .ProducesProblem(StatusCodes.Status428PreconditionRequired)
            .WithExample("""{ "state": "done", "role": "respiratoryTherapist" }""", Item);
    }

    private static async Task<Results<Ok<ChecklistResponse>, ProblemHttpResult>> Get(string id, PlannerContext context, CancellationToken cancellationToken) =>
        await Checklist.FindAsync(context, id, cancellationToken) is { } list ? TypedResults.Ok(list.Answer()) : NoPlan(id);

    private static async Task<Results<Ok<ChecklistItemResponse>, ProblemHttpResult>> Put(
        string id, string item, TickRequest request, HttpRequest http, HttpResponse response, PlannerContext context, TimeProvider time,
        CancellationToken cancellationToken)
    {
        if (Invalid(request) is { } invalid)
        {
            return invalid;
        }

        if (await Checklist.FindAsync(context, id, cancellationToken) is not { } list)
        {
            return NoPlan(id);
        }

        if (list.Item(item) is not { } found)
        {
            return Problems.NotFound($"Version {list.Plan.Version} of plan {id} has no item {item}. GET {OpenApi.BasePath}/plans/{id}/checklist lists them.");
        }

        if (http.RefuseUnlessCurrent(list.Tag(item)) is { } refused)
        {
            return refused;
        }

        var answer = await list.TickAsync(found, request, time.GetUtcNow(), cancellationToken);
        if (answer.Item is not { } ticked)
        {
            return answer.Refused is { } why ? Problems.Conflict(why, Words(why)) : Problems.Stale();
        }

        response.Headers.ETag = ticked.ETag;
        return TypedResults.Ok(ticked);
    }

    private static ProblemHttpResult? Invalid(TickRequest request) =>
        !Tick.Roles.Contains(request.Role) ? Problems.Invalid("role", "Give the role of one person, such as respiratoryTherapist.")
        : (request.State == TickState.Skipped) == (request.Reason is not null) ? null
        : Problems.Invalid("reason", request.Reason is null
            ? "Say why it is skipped: notAvailable, notNeeded, replaced, localRule or noTime."
            : "A reason goes with skipped only: leave it out.");

    /// <summary>What stands in the way, with the fix: also on the page.</summary>
    public static string Words(TickRefusal why) => why switch
    {
        TickRefusal.AlreadyDone => "This item is done. Reopen it first.",
        TickRefusal.SameRole => "This role has confirmed it. The second look comes from another role.",
        _ => throw new ArgumentOutOfRangeException(nameof(why), why, "No words for this refusal."),
    };

    private static ProblemHttpResult NoPlan(string id) => Problems.NotFound($"There is no plan {id}.");
}
