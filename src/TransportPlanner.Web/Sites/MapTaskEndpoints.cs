using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Sites;

/// <summary>Something that did not fit the floor plan.</summary>
public sealed record MapTaskRequest
{
    /// <summary>Whether it is a place, a passage or an elevator.</summary>
    public required ClosureTarget Target { get; init; }

    /// <summary>Number of the place, or id of the passage or elevator.</summary>
    [Length(1, 60, ErrorMessage = "Give 1 to 60 characters.")]
    public required string TargetId { get; init; }

    /// <summary>What was met: did not open. Nothing about a person.</summary>
    [Length(1, 200, ErrorMessage = "Give 1 to 200 characters.")]
    public required string Text { get; init; }

    /// <summary>The role that met it, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that met it, 1 to 80 characters.")]
    public required string By { get; init; }
}

/// <summary>How a task was done.</summary>
public sealed record MapTaskDoneRequest
{
    /// <summary>The role that says so, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that says so, 1 to 80 characters.")]
    public required string By { get; init; }

    /// <summary>What was done.</summary>
    [Length(1, 200, ErrorMessage = "Say what was done, 1 to 200 characters.")]
    public required string How { get; init; }
}

/// <summary>A task as it is kept.</summary>
public sealed record MapTaskResponse
{
    public required string Id { get; init; }
    public required ClosureTarget Target { get; init; }
    public required string TargetId { get; init; }
    public required string Text { get; init; }
    public required string ReportedBy { get; init; }
    public required DateTimeOffset ReportedAt { get; init; }

    /// <summary>Version of the floor plan in force then.</summary>
    public required int FloorPlanVersion { get; init; }

    /// <summary>Null while it is open.</summary>
    public DateTimeOffset? DoneAt { get; init; }
    public string? DoneBy { get; init; }
    public string? DoneHow { get; init; }

    /// <summary>Names it in If-Match when it is done.</summary>
    public required long Version { get; init; }

    internal static MapTaskResponse From(MapTask task) => new()
    {
        Id = task.Id,
        Target = task.Target,
        TargetId = task.TargetId,
        Text = task.Text,
        ReportedBy = task.ReportedBy,
        ReportedAt = task.ReportedAt,
        FloorPlanVersion = task.FloorPlanVersion,
        DoneAt = task.DoneAt,
        DoneBy = task.DoneBy,
        DoneHow = task.DoneHow,
        Version = task.Version,
    };
}

/// <summary>Tasks that nobody has done, the oldest first.</summary>
public sealed record MapTasksResponse(IReadOnlyList<MapTaskResponse> Tasks);

/// <summary>Why a task is refused.</summary>
internal enum MapTaskProblem
{
    /// <summary>The floor plan in force has no such place, passage or elevator.</summary>
    UnknownTarget,

    /// <summary>Somebody did it already.</summary>
    AlreadyDone,
}

/// <summary>What did not fit the floor plan on the way: kept until somebody corrected it.</summary>
internal static class MapTaskEndpoints
{
    public static void MapMapTasks(this IEndpointRouteBuilder sites)
    {
        var tasks = sites.MapGroup("/{siteId}/map-tasks");
        tasks.MapGet("", List).WithName("listMapTasks")
            .WithSummary("What did not fit the floor plan and nobody has corrected, the oldest first")
            .ProducesProblem(404).WithExample(null, SiteExamples.MapTasks);
        tasks.MapPost("", Add).WithName("addMapTask")
            .WithSummary("Says that something does not fit the floor plan")
            .WithDescription("It is done by a publication of corrections that touches the place, passage or elevator, or by hand.")
            .ProducesProblem(404).ProducesProblem(422).WithExample(SiteExamples.NewMapTask, SiteExamples.MapTask);
        tasks.MapPost("/{taskId}/done", Done).WithName("doMapTask")
            .WithSummary("Says what was done about it")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(428).WithExample(SiteExamples.MapTaskDone, SiteExamples.DoneMapTask);
    }

    /// <summary>Whether a floor plan has what a task or a closure names.</summary>
    internal static bool Has(FloorPlan plan, ClosureTarget target, string id) => target switch
    {
        ClosureTarget.Place => plan.Places.Any(p => p.Number == id),
        ClosureTarget.Passage => plan.Passages.Any(p => p.Id == id),
        ClosureTarget.Elevator => plan.Elevators.Any(e => e.Id == id),
        _ => throw new ArgumentOutOfRangeException(nameof(target), target, "Unknown target."),
    };

    private static async Task<Results<Ok<MapTasksResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken) =>
        store.TryFind(siteId, out _)
            ? TypedResults.Ok(new MapTasksResponse([.. (await MapTask.OpenAsync(context, siteId, cancellationToken)).Select(MapTaskResponse.From)]))
            : Problems.NoSite(siteId);

    private static async Task<Results<Created<MapTaskResponse>, ProblemHttpResult>> Add(
        string siteId, MapTaskRequest request, FloorPlanStore store, PlannerContext context, TimeProvider time, HttpResponse response, CancellationToken cancellationToken)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        if (!Has(site.Plan, request.Target, request.TargetId))
        {
            return Problems.ImpossibleField(MapTaskProblem.UnknownTarget, "targetId",
                $"Floor plan {site.Plan.Version} has no {request.Target.ToString().ToLowerInvariant()} {request.TargetId}. Give a place number, or the id of a passage or elevator.");
        }

        var task = new MapTask
        {
            Id = RandomId.New(),
            SiteId = siteId,
            Target = request.Target,
            TargetId = request.TargetId,
            Text = request.Text,
            ReportedBy = request.By,
            ReportedAt = time.GetUtcNow(),
            FloorPlanVersion = site.Plan.Version,
        };
        context.Add(task);
        await context.SaveChangesAsync(cancellationToken);
        response.SetEntityTag(task.Version);
        return TypedResults.Created($"{OpenApi.BasePath}/sites/{siteId}/map-tasks/{task.Id}", MapTaskResponse.From(task));
    }

    private static async Task<Results<Ok<MapTaskResponse>, ProblemHttpResult>> Done(
        string siteId, string taskId, MapTaskDoneRequest body, PlannerContext context, TimeProvider time, HttpRequest request, HttpResponse response, CancellationToken cancellationToken)
    {
        if (await context.MapTasks.SingleOrDefaultAsync(t => t.SiteId == siteId && t.Id == taskId, cancellationToken) is not { } task)
        {
            return Problems.NotFound($"Site {siteId} has no map task {taskId}.");
        }

        if (request.RefuseUnlessCurrent(task.Version) is { } refusal)
        {
            return refusal;
        }

        if (task.DoneAt is not null)
        {
            return Problems.Conflict(MapTaskProblem.AlreadyDone, $"Map task {taskId} is done already: {task.DoneHow}.");
        }

        task.Do(body.By, body.How, time.GetUtcNow());
        try
        {
            await context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Problems.Stale(task.Version);
        }

        response.SetEntityTag(task.Version);
        return TypedResults.Ok(MapTaskResponse.From(task));
    }
}
