using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Sites;

/// <summary>What did not fit the floor plan, until somebody corrected it.</summary>
internal sealed class MapTasksModel(FloorPlanStore store, PlannerContext context, TimeProvider time) : PageModel
{
    private const int DoneShown = 20;

    public FloorPlan Plan { get; private set; } = null!;
    public IReadOnlyList<MapTask> Open { get; private set; } = [];

    /// <summary>The last ones that were done, the newest first.</summary>
    public IReadOnlyList<MapTask> Done { get; private set; } = [];
    public string? Problem { get; private set; }

    public async Task<IActionResult> OnGetAsync(string? site, CancellationToken cancellationToken)
    {
        FloorPlanSnapshot? snapshot;
        if (site is null ? (snapshot = store.Default) is null : !store.TryFind(site, out snapshot))
        {
            return NotFound();
        }

        Plan = snapshot.Plan;
        Open = await MapTask.OpenAsync(context, Plan.SiteId, cancellationToken);
        Done = await context.MapTasks.AsNoTracking().Where(t => t.SiteId == Plan.SiteId && t.DoneAt != null).OrderByDescending(t => t.DoneAt).Take(DoneShown).ToListAsync(cancellationToken);
        return Page();
    }

    public async Task<IActionResult> OnPostDoneAsync(string? site, string task, string? by, string? how, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, cancellationToken) is not PageResult)
        {
            return NotFound();
        }

        if (Open.FirstOrDefault(t => t.Id == task) is not { } open)
        {
            Problem = "Somebody did it already.";
            return Page();
        }

        (by, how) = (by?.Trim(), how?.Trim());
        if (by is not { Length: > 0 and <= 80 } || how is not { Length: > 0 and <= 200 } || by.Concat(how).Any(char.IsControl))
        {
            Problem = "Say what was done in at most 200 characters, and which role says so in at most 80, never a name.";
            return Page();
        }

        open.Do(by, how, time.GetUtcNow());
        try
        {
            await context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateConcurrencyException)
        {
            context.ChangeTracker.Clear();
        }

        return Redirect($"/map-tasks/{Uri.EscapeDataString(Plan.SiteId)}");
    }

    public string Correct(MapTask task) => $"/corrections/{Uri.EscapeDataString(Plan.SiteId)}/{task.Target.ToString().ToLowerInvariant()}/{Uri.EscapeDataString(task.TargetId)}";

    /// <summary>Whether the plan in force still has it.</summary>
    public bool IsThere(MapTask task) => MapTaskEndpoints.Has(Plan, task.Target, task.TargetId);

    public string Local(DateTimeOffset instant) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(Plan.TimeZone)).ToString("yyyy-MM-dd HH:mm '(UTC'zzz')'", System.Globalization.CultureInfo.InvariantCulture);
}
