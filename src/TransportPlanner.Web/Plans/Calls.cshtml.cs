using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>The call list on screen: one press a call, one press an answer.</summary>
internal sealed class CallsModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public PlanResponse Plan { get; private set; } = null!;
    public CallsResponse List { get; private set; } = null!;
    public TimelineSheet Timeline { get; private set; } = null!;
    public string? Notice { get; private set; }
    public string? Problem { get; private set; }

    public async Task<IActionResult> OnGetAsync(string id, CancellationToken cancellationToken) =>
        await CallSheet.FindAsync(context, store, id, cancellationToken) is { } list ? Show(list) : NotFound();

    public async Task<IActionResult> OnPostAsync(string id, PlanRole role, CallState state, string tag, CancellationToken cancellationToken)
    {
        if (await CallSheet.FindAsync(context, store, id, cancellationToken) is not { } list)
        {
            return NotFound();
        }

        if (Enum.IsDefined(role) && Enum.IsDefined(state) && tag == list.Tag(role)
            && await list.KeepAsync(role, state, time.GetUtcNow(), cancellationToken) is not null)
        {
            return Redirect($"/plans/{list.Plan.Id}/calls#{role}");
        }

        // The change tracker may hold the entry that was not taken: what is shown is read again.
        context.ChangeTracker.Clear();
        Problem = "It was changed meanwhile: look at it as it stands now, then press again.";
        return await OnGetAsync(id, cancellationToken);
    }

    private PageResult Show(CallSheet list)
    {
        (Plan, List) = (list.Plan, list.Answer());
        store.TryFind(Plan.SiteId, out var site);
        Notice = site?.Plan.Notice;
        Timeline = new(Plan, list.Way, TimelineSheet.TempoOf(Plan), list.Titles, PlaceNames.Of(Plan, site));
        return Page();
    }
}
