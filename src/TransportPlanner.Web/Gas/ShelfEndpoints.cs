using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>The cylinders that stand on a site's shelf.</summary>
internal static class ShelfEndpoints
{
    public static void MapShelf(this IEndpointRouteBuilder api)
    {
        var shelf = api.MapGroup("/shelf").WithTags("Gas");
        shelf.MapGet("", List).WithName("readShelf")
            .WithSummary("What stands on the shelf of a site")
            .WithDescription("Each cylinder with its last reading, its litres, and what two people found about its flow. A reading older than the site allows is stale.")
            .ProducesProblem(404).WithExample(null, GasExamples.Shelf);
        shelf.MapPost("", Add).WithName("addToShelf")
            .WithSummary("Put a cylinder on the shelf")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(422).WithExample(GasExamples.NewShelfCylinder, GasExamples.OnShelf);
        shelf.MapPut("/{cylinderId}/reading", Read).WithName("readGauge")
            .WithSummary("Enter a new gauge reading")
            .ProducesProblem(404).ProducesProblem(412).ProducesProblem(422).ProducesProblem(428).WithExample(GasExamples.GaugeReading, GasExamples.OnShelf);
        shelf.MapPost("/{cylinderId}/flow-checks", Check).WithName("checkFlow")
            .WithSummary("Enter what two people found: cap off, valve open, flow set, flow felt at the patient end")
            .WithDescription("A step that was not found is entered as false: the cylinder is then shown as one not to count on. Checks are never changed.")
            .ProducesProblem(404).WithExample(GasExamples.FlowCheck, GasExamples.OnShelf);
        shelf.MapDelete("/{cylinderId}", Remove).WithName("takeOffShelf")
            .WithSummary("Take a cylinder off the shelf")
            .ProducesProblem(404).ProducesProblem(412).ProducesProblem(428).WithExample(null, null);
        shelf.MapPost("/smallest-set", Smallest).WithName("findSmallestSet")
            .WithSummary("The fewest cylinders of the shelf that meet the site's rule")
            .WithDescription("Among as few, those with the least gas. Stale readings are left out and named. A shortage is an answer with the litres.")
            .ProducesProblem(404).WithExample(GasExamples.SmallestSet, GasExamples.SmallestSetAnswer);
    }

    private static async Task<Results<Ok<ShelfResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken) =>
        store.TryFind(siteId, out _)
            ? TypedResults.Ok((await Shelf.ReadAsync(context, siteId, time.GetUtcNow(), cancellationToken)).Response())
            : Problems.NoSite(siteId);

    private static async Task<Results<Created<ShelfCylinderResponse>, ProblemHttpResult>> Add(
        ShelfCylinderRequest request, FloorPlanStore store, PlannerContext context, TimeProvider time, HttpResponse response, CancellationToken cancellationToken)
    {
        if (!store.TryFind(request.SiteId, out _))
        {
            return Problems.NoSite(request.SiteId);
        }

        var now = time.GetUtcNow();
        var (row, problem) = await ShelfChanges.AddAsync(context, request, now, cancellationToken);
        if (row is null)
        {
            return problem!;
        }

        response.SetEntityTag(row.Version);
        return TypedResults.Created($"{OpenApi.BasePath}/shelf?siteId={row.SiteId}", await ResponseAsync(context, row, now, cancellationToken));
    }

    private static async Task<Results<Ok<ShelfCylinderResponse>, ProblemHttpResult>> Read(
        string cylinderId, GaugeReadingRequest reading, PlannerContext context, TimeProvider time, HttpRequest request, HttpResponse response,
        CancellationToken cancellationToken)
    {
        if (await context.Shelf.SingleOrDefaultAsync(c => c.Id == cylinderId, cancellationToken) is not { } row)
        {
            return NoCylinder(cylinderId);
        }

        if (request.RefuseUnlessCurrent(row.Version) is { } stale)
        {
            return stale;
        }

        var now = time.GetUtcNow();
        if (await ShelfChanges.ReadAsync(context, row, reading, now, cancellationToken) is { } problem)
        {
            return problem;
        }

        response.SetEntityTag(row.Version);
        return TypedResults.Ok(await ResponseAsync(context, row, now, cancellationToken));
    }

    private static async Task<Results<Created<ShelfCylinderResponse>, ProblemHttpResult>> Check(
        string cylinderId, FlowCheckRequest request, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        if (await context.Shelf.AsNoTracking().SingleOrDefaultAsync(c => c.Id == cylinderId, cancellationToken) is not { } row)
        {
            return NoCylinder(cylinderId);
        }

        var now = time.GetUtcNow();
        await ShelfChanges.CheckAsync(context, row, request, now, cancellationToken);
        return TypedResults.Created($"{OpenApi.BasePath}/shelf?siteId={row.SiteId}", await ResponseAsync(context, row, now, cancellationToken));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Remove(
        string cylinderId, PlannerContext context, HttpRequest request, CancellationToken cancellationToken)
    {
        if (await context.Shelf.SingleOrDefaultAsync(c => c.Id == cylinderId, cancellationToken) is not { } row)
        {
            return NoCylinder(cylinderId);
        }

        if (request.RefuseUnlessCurrent(row.Version) is { } stale)
        {
            return stale;
        }

        await ShelfChanges.RemoveAsync(context, row, cancellationToken);
        return TypedResults.NoContent();
    }

    private static async Task<Results<Ok<SmallestSetResponse>, ProblemHttpResult>> Smallest(
        SmallestSetRequest request, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken) =>
        store.TryFind(request.SiteId, out _)
            ? TypedResults.Ok((await Shelf.ReadAsync(context, request.SiteId, time.GetUtcNow(), cancellationToken)).Smallest(request.Demand.ToDemand(), request.JourneyMinutes))
            : Problems.NoSite(request.SiteId);

    private static ProblemHttpResult NoCylinder(string id) => Problems.NotFound($"No cylinder {id} stands on a shelf; it may have been taken off.");

    private static async Task<ShelfCylinderResponse> ResponseAsync(PlannerContext context, ShelfCylinder row, DateTimeOffset now, CancellationToken cancellationToken) =>
        (await Shelf.ReadAsync(context, row.SiteId, now, cancellationToken)).Response(row.Id);
}
