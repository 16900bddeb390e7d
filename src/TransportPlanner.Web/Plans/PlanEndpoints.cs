using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Everything from five inputs, kept as versions that never change.</summary>
internal static class PlanEndpoints
{
    private const string CreateOperation = "POST /plans";

    public static void MapPlans(this IEndpointRouteBuilder api)
    {
        var plans = api.MapGroup("/plans").WithTags("Plans");
        plans.MapPost("", Post)
            .WithName("makePlan")
            .WithSummary("Everything from five inputs")
            .WithDescription(
                "Makes the whole plan (ways, gas, posts and timeline on each way, kit, protective wear, airing afterwards) and keeps it as version 1. What was not given is "
                + "assumed and listed, or unknown. With an Idempotency-Key the same request answers with the plan that it made before.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .WithExample(PlanExamples.Request, PlanExamples.Response);
        plans.MapGet("/{id}", Get)
            .WithName("readPlan")
            .WithSummary("The newest version of a plan")
            .WithDescription("The ETag is the version; send it as If-Match to change the plan. Overlaps are looked at anew each time and are not part of the version.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .WithExample(null, PlanExamples.Response);
        plans.MapPut("/{id}", Put)
            .WithName("changePlan")
            .WithSummary("Make the next version of a plan")
            .WithDescription("Computes the plan again from the whole request and keeps it as the next version; older versions stay. Needs If-Match.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status412PreconditionFailed)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .ProducesProblem(StatusCodes.Status428PreconditionRequired)
            .WithExample(PlanExamples.Request, PlanExamples.Response);
        plans.MapGet("/{id}/versions/{number:int}", GetVersion)
            .WithName("readPlanVersion")
            .WithSummary("One version of a plan")
            .WithDescription("Versions never change; the overlaps beside them are those of now.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .WithExample(null, PlanExamples.Response);
    }

    private static async Task<Results<Created<PlanResponse>, ProblemHttpResult>> Post(
        PlanRequest request, [FromHeader(Name = IdempotentRequest.Header)] string? idempotencyKey, HttpResponse response,
        FloorPlanStore store, PlannerContext context, SearchDeadline limit, TimeProvider time, CancellationToken cancellationToken)
    {
        var now = time.GetUtcNow();
        if (!store.TryFind(request.SiteId, out var site))
        {
            return NoSite(request.SiteId);
        }

        if (idempotencyKey is { Length: 0 or > IdempotentRequest.MaxLength })
        {
            return Problems.Invalid(IdempotentRequest.Header, $"Give 1 to {IdempotentRequest.MaxLength} characters, or leave it out.");
        }

        var repeat = idempotencyKey is null ? null : IdempotentRequest.From(request.SiteId, idempotencyKey, CreateOperation, request);
        if (repeat is not null && await repeat.FindAsync(context, now, cancellationToken) is { } earlier)
        {
            return earlier.RequestHash == repeat.Hash && await PlanStore.FindAsync(context, earlier.Reference, 1, cancellationToken) is { } made
                ? Answer(await PlanOverlaps.AddAsync(context, store, made, cancellationToken), response)
                : Problems.IdempotencyKeyReused();
        }

        var callSign = await CallSign.NewAsync(context, request.SiteId, now, cancellationToken);
        var answer = await PlanMaker.MakeAsync(context, site, request, (RandomId.New(), callSign, 1), limit, now, cancellationToken);
        if (answer.Plan is not { } plan)
        {
            return answer.Problem!;
        }

        await PlanStore.AddAsync(context, plan, request, repeat, now, cancellationToken);
        return Answer(await PlanOverlaps.AddAsync(context, store, plan, cancellationToken), response);
    }

    private static async Task<Results<Ok<PlanResponse>, ProblemHttpResult>> Get(
        string id, HttpResponse response, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, null, cancellationToken) is not { } plan)
        {
            return NoPlan(id);
        }

        response.SetEntityTag(plan.Version);
        return TypedResults.Ok(await PlanOverlaps.AddAsync(context, store, plan, cancellationToken));
    }

    private static async Task<Results<Ok<PlanResponse>, ProblemHttpResult>> GetVersion(
        string id, int number, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken) =>
        await PlanStore.FindAsync(context, id, number, cancellationToken) is { } plan
            ? TypedResults.Ok(await PlanOverlaps.AddAsync(context, store, plan, cancellationToken))
            : Problems.NotFound($"There is no version {number} of plan {id}.");

    private static async Task<Results<Ok<PlanResponse>, ProblemHttpResult>> Put(
        string id, PlanRequest request, HttpRequest http, HttpResponse response, FloorPlanStore store, PlannerContext context, SearchDeadline limit, TimeProvider time,
        CancellationToken cancellationToken)
    {
        if (await context.Plans.SingleOrDefaultAsync(p => p.Id == id, cancellationToken) is not { } stored)
        {
            return NoPlan(id);
        }

        if (http.RefuseUnlessCurrent(stored.CurrentVersion) is { } refused)
        {
            return refused;
        }

        if (request.SiteId != stored.SiteId)
        {
            return Problems.Invalid("siteId", $"A plan stays at its site: {stored.SiteId}. Make a new plan for another site.");
        }

        if (!store.TryFind(request.SiteId, out var site))
        {
            return NoSite(request.SiteId);
        }

        var now = time.GetUtcNow();
        var answer = await PlanMaker.MakeAsync(context, site, request, (id, stored.CallSign, stored.CurrentVersion + 1), limit, now, cancellationToken);
        if (answer.Plan is not { } plan)
        {
            return answer.Problem!;
        }

        if (!await PlanStore.AddVersionAsync(context, stored, plan, request, now, cancellationToken))
        {
            return Problems.Stale(stored.CurrentVersion);
        }

        response.SetEntityTag(plan.Version);
        return TypedResults.Ok(await PlanOverlaps.AddAsync(context, store, plan, cancellationToken));
    }

    private static Created<PlanResponse> Answer(PlanResponse plan, HttpResponse response)
    {
        response.SetEntityTag(plan.Version);
        return TypedResults.Created($"{OpenApi.BasePath}/plans/{plan.Id}", plan);
    }

    private static ProblemHttpResult NoSite(string siteId) => Problems.NotFound($"There is no site {siteId}. GET {OpenApi.BasePath}/sites lists them.");
    private static ProblemHttpResult NoPlan(string id) => Problems.NotFound($"There is no plan {id}.");
}
