using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>Something that did not fit the floor plan, as somebody met it: to be looked at and corrected.</summary>
internal sealed class MapTask : IVersioned
{
    /// <summary>128 random bits in hexadecimal.</summary>
    public required string Id { get; init; }
    public required string SiteId { get; init; }
    public required ClosureTarget Target { get; init; }

    /// <summary>Number of the place, or id of the passage or elevator.</summary>
    public required string TargetId { get; init; }

    /// <summary>What was met, in words; never about a person.</summary>
    public required string Text { get; init; }

    /// <summary>The role that met it, never a name.</summary>
    public required string ReportedBy { get; init; }
    public required DateTimeOffset ReportedAt { get; init; }

    /// <summary>Version of the floor plan in force then.</summary>
    public required int FloorPlanVersion { get; init; }
    public DateTimeOffset? DoneAt { get; set; }

    /// <summary>The role that says it is done.</summary>
    public string? DoneBy { get; set; }

    /// <summary>What was done, in words.</summary>
    public string? DoneHow { get; set; }
    public long Version { get; set; }

    /// <summary>Tasks of a site that nobody has done, the oldest first.</summary>
    public static async Task<IReadOnlyList<MapTask>> OpenAsync(PlannerContext context, string siteId, CancellationToken cancellationToken) =>
        await context.MapTasks.Where(t => t.SiteId == siteId && t.DoneAt == null).OrderBy(t => t.ReportedAt).ThenBy(t => t.Id).ToListAsync(cancellationToken);

    public void Do(string by, string how, DateTimeOffset now) => (DoneAt, DoneBy, DoneHow) = (now, by, how);
}
