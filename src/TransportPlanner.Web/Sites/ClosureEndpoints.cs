using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Sites;

/// <summary>Why a closure is refused.</summary>
internal enum ClosureProblem
{
    /// <summary>The floor plan in force has no such place, passage or elevator.</summary>
    UnknownTarget,
}

internal static class ClosureEndpoints
{
    public static void MapClosures(this IEndpointRouteBuilder sites)
    {
        var closures = sites.MapGroup("/{siteId}/closures");
        closures.MapGet("", List).WithName("listClosures")
            .WithSummary("Closures that have not ended, the earliest first")
            .ProducesProblem(404).WithExample(null, SiteExamples.Closures);
        closures.MapPost("", Add).WithName("addClosure")
            .WithSummary("Closes a place, a passage or an elevator from one instant to another")
            .WithDescription("The target must exist in the floor plan in force. The answer names the planned transports that it touches; their plans are not changed.")
            .ProducesProblem(404).ProducesProblem(422).WithExample(SiteExamples.NewClosure, SiteExamples.Closure);
        closures.MapDelete("/{closureId}", Remove).WithName("removeClosure")
            .WithSummary("Ends a closure now")
            .WithDescription("It is no longer listed.")
            .ProducesProblem(404).ProducesProblem(412).ProducesProblem(428).WithExample(null, null);
    }

    private static async Task<Results<Ok<ClosuresResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, TouchedTransports touched, TimeProvider time, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        var now = time.GetUtcNow();
        var open = await context.Closures.AsNoTracking().Where(c => c.SiteId == siteId && c.To > now).OrderBy(c => c.From).ThenBy(c => c.Id).ToListAsync(cancellationToken);
        var closures = new List<ClosureResponse>();
        foreach (var closure in open)
        {
            closures.Add(Response(closure, await touched(context, site.Plan, closure.ToClosure(), now, cancellationToken)));
        }

        return TypedResults.Ok(new ClosuresResponse(closures));
    }

    private static async Task<Results<Created<ClosureResponse>, ProblemHttpResult>> Add(
        string siteId, ClosureRequest request, [FromHeader(Name = IdempotentRequest.Header)] string? idempotencyKey,
        FloorPlanStore store, PlannerContext context, TouchedTransports touched, TimeProvider time, HttpResponse response, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        if (idempotencyKey is { Length: 0 or > IdempotentRequest.MaxLength })
        {
            return Problems.Invalid(IdempotentRequest.Header, $"Give 1 to {IdempotentRequest.MaxLength} characters, or leave the header out.");
        }

        if (!MapTaskEndpoints.Has(site.Plan, request.Target, request.TargetId))
        {
            return Problems.ImpossibleField(
                ClosureProblem.UnknownTarget, "targetId",
                $"Floor plan {site.Plan.Version} has no {request.Target.ToString().ToLowerInvariant()} {request.TargetId}. Give a place number, or the id of a passage or elevator.");
        }

        var now = time.GetUtcNow();
        var idempotent = idempotencyKey is null ? null : IdempotentRequest.From(siteId, idempotencyKey, "addClosure", request);
        async Task<Created<ClosureResponse>> Made(SiteClosure closure)
        {
            response.SetEntityTag(closure.Version);
            return TypedResults.Created(
                $"{OpenApi.BasePath}/sites/{closure.SiteId}/closures/{closure.Id}",
                Response(closure, await touched(context, site.Plan, closure.ToClosure(), now, cancellationToken)));
        }

        async Task<Results<Created<ClosureResponse>, ProblemHttpResult>> Again(IdempotencyKey earlier)
        {
            if (earlier.RequestHash != idempotent!.Hash)
            {
                return Problems.IdempotencyKeyReused();
            }

            var closure = await context.Closures.AsNoTracking().SingleOrDefaultAsync(c => c.Id == earlier.Reference, cancellationToken);
            return closure is null ? Problems.NotFound("The closure that this Idempotency-Key made was removed since.") : await Made(closure);
        }

        if (idempotent is not null && await idempotent.FindAsync(context, now, cancellationToken) is { } earlier)
        {
            return await Again(earlier);
        }

        var closure = new SiteClosure
        {
            Id = RandomId.New(),
            SiteId = siteId,
            Target = request.Target,
            TargetId = request.TargetId,
            From = request.From,
            To = request.To,
            Reason = request.Reason,
            Source = request.Source,
        };
        context.Add(closure);
        if (idempotent is not null)
        {
            context.Add(idempotent.Keep(StatusCodes.Status201Created, closure.Id, now));
        }

        try
        {
            await context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateException) when (idempotent is not null)
        {
            // The same request may have come twice at once; anything else that failed is thrown again.
            context.ChangeTracker.Clear();
            if (await idempotent.FindAsync(context, now, cancellationToken) is not { } other)
            {
                throw;
            }

            return await Again(other);
        }

        return await Made(closure);
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Remove(
        string siteId, string closureId, PlannerContext context, HttpRequest request, CancellationToken cancellationToken)
    {
        var closure = await context.Closures.SingleOrDefaultAsync(c => c.SiteId == siteId && c.Id == closureId, cancellationToken);
        if (closure is null)
        {
            return Gone(siteId, closureId);
        }

        if (request.RefuseUnlessCurrent(closure.Version) is { } refusal)
        {
            return refusal;
        }

        try
        {
            context.Remove(closure);
            await context.SaveChangesAsync(cancellationToken);
            return TypedResults.NoContent();
        }
        catch (DbUpdateConcurrencyException)
        {
            return Gone(siteId, closureId);
        }
    }

    private static ProblemHttpResult Gone(string siteId, string closureId) =>
        Problems.NotFound($"Site {siteId} has no closure {closureId}; it may have been removed already.");

    private static ClosureResponse Response(SiteClosure closure, IReadOnlyList<TouchedTransport> touches) => new()
    {
        Id = closure.Id,
        Target = closure.Target,
        TargetId = closure.TargetId,
        From = closure.From,
        To = closure.To,
        Reason = closure.Reason,
        Source = closure.Source,
        Version = closure.Version,
        Touches = touches,
    };
}
