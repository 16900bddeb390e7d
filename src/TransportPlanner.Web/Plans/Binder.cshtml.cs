using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>The downtime binder of a site: what it is made for, how far the making is, and its contents.</summary>
internal sealed class BinderModel(PlannerContext context, FloorPlanStore store, BinderDesk desk, TimeProvider time) : PageModel
{
    public FloorPlan Site { get; private set; } = null!;
    public BinderState State { get; private set; } = null!;
    public BinderProgress Progress => BinderWords.ProgressOf(State);

    /// <summary>What the form shows: what was chosen last, else the defaults.</summary>
    public BinderRequest Choices { get; private set; } = new();

    /// <summary>What has changed since the set was made.</summary>
    public IReadOnlyList<string> Stale { get; private set; } = [];
    public string? Problem { get; private set; }
    public int Sheets => 2 * Core.Plans.StandingPlans.PairsOf(Site).Length;

    public static IEnumerable<string> QuarterHours { get; } =
        [.. Enumerable.Range(0, 96).Select(quarter => FormattableString.Invariant($"{quarter / 4:00}:{quarter % 4 * 15:00}"))];

    public Task<IActionResult> OnGetAsync(string? site, CancellationToken cancellationToken) => ShowAsync(site, null, cancellationToken);

    public async Task<IActionResult> OnPostAsync(
        string? site, Precaution[] precautions, RespiratorySupport? support, DayOfWeek? weekday, string? dayTime, string? nightTime, CancellationToken cancellationToken)
    {
        var asked = new BinderRequest();
        asked = asked with
        {
            Precautions = [.. precautions.Where(Enum.IsDefined).Distinct()],
            Support = support,
            Weekday = weekday ?? asked.Weekday,
            DayTime = QuarterHours.Contains(dayTime) ? dayTime! : asked.DayTime,
            NightTime = QuarterHours.Contains(nightTime) ? nightTime! : asked.NightTime,
        };
        Problem = asked.Precautions.Count == 0 ? PackTexts.BinderNoPrecaution : Find(site) is { } found ? BinderEndpoints.WhyNot(found) : null;
        if (Problem is not null || Find(site) is not { } here)
        {
            return await ShowAsync(site, asked, cancellationToken);
        }

        desk.Start(here.Plan.SiteId, asked);
        return Redirect($"/binder/{here.Plan.SiteId}");
    }

    public IActionResult OnPostStop(string? site)
    {
        if (Find(site) is not { } here)
        {
            return NotFound();
        }

        desk.Stop(here.Plan.SiteId);
        return Redirect($"/binder/{here.Plan.SiteId}");
    }

    private FloorPlanSnapshot? Find(string? site) => site is null ? store.Default : store.TryFind(site, out var found) ? found : null;

    private async Task<IActionResult> ShowAsync(string? site, BinderRequest? asked, CancellationToken cancellationToken)
    {
        if (Find(site) is not { } here)
        {
            return NotFound();
        }

        (Site, State) = (here.Plan, desk.Of(here.Plan.SiteId));
        Choices = asked ?? State.Choices ?? new();
        Stale = await BinderEndpoints.StaleAsync(here, State, context, time.GetUtcNow(), cancellationToken);
        return Page();
    }
}
