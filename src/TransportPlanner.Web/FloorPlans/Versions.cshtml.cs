using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>The published versions of a site, and two of them side by side.</summary>
internal sealed class VersionsModel(FloorPlanStore store, PlannerContext context) : PageModel
{
    private const int Shown = 1_000;

    /// <summary>The earlier of the two; left out: the version before the later one.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Before { get; set; }

    /// <summary>The later of the two; left out: the version in force.</summary>
    [BindProperty(SupportsGet = true)]
    public int? After { get; set; }

    public FloorPlan Plan { get; private set; } = null!;
    public IReadOnlyList<VersionRow> Versions { get; private set; } = [];

    /// <summary>Every difference; null where two versions were not found.</summary>
    public IReadOnlyList<PlanChange>? Changes { get; private set; }
    public IEnumerable<PlanChange> Rows => (Changes ?? []).Take(Shown);
    public int Hidden => Math.Max(0, (Changes?.Count ?? 0) - Shown);

    public async Task<IActionResult> OnGetAsync(string site, CancellationToken cancellationToken)
    {
        if (!store.TryFind(site, out var snapshot))
        {
            return NotFound();
        }

        Plan = snapshot.Plan;
        Versions = await PlanVersions.ListAsync(context, site, cancellationToken);
        After ??= Plan.Version;
        Before ??= After - 1;
        var plans = await PlanVersions.FindAsync(context, site, [Before.Value, After.Value], cancellationToken);
        if (plans.TryGetValue(Before.Value, out var earlier) && plans.TryGetValue(After.Value, out var later))
        {
            Changes = PlanComparison.Compare(earlier, later);
        }

        return Page();
    }

    /// <summary>Where a reader looks at what changed; null for what is not there (any more).</summary>
    public string? Address(PlanChange change)
    {
        var place = change.Feature switch
        {
            "place" => change.Number,
            "passage" => Plan.Passages.FirstOrDefault(passage => passage.Id == change.Number)?.From,
            "elevator" => Plan.Elevators.FirstOrDefault(elevator => elevator.Id == change.Number)?.Car,
            _ => null,
        };
        return Plan.Places.FirstOrDefault(found => found.Number == place) is { } shown
            ? $"/floor-plan/{Uri.EscapeDataString(Plan.SiteId)}/{Uri.EscapeDataString(shown.Level ?? Plan.Levels[0].Id)}/{Uri.EscapeDataString(shown.Number)}" : null;
    }
}
