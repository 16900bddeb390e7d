using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Kits;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Kits;

namespace TransportPlanner.Web.Plans;

/// <summary>The kit list, ticked on screen: one press an item, by the role that was chosen first.</summary>
internal sealed class ChecklistModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public PlanResponse Plan { get; private set; } = null!;
    public ChecklistResponse List { get; private set; } = null!;
    public string? Notice { get; private set; }

    /// <summary>Roles as the site calls them.</summary>
    public RoleTitles Titles { get; private set; } = null!;

    /// <summary>Who ticks; null until somebody says so, and nothing can be ticked then.</summary>
    public TransportRole? Role { get; private set; }

    /// <summary>The item whose entry was not taken, and why.</summary>
    public (string Item, string Words)? Problem { get; private set; }

    public async Task<IActionResult> OnGetAsync(string id, TransportRole? role, CancellationToken cancellationToken) =>
        await Checklist.FindAsync(context, id, cancellationToken) is { } list ? await ShowAsync(list, role, cancellationToken) : NotFound();

    public async Task<IActionResult> OnPostAsync(
        string id, TransportRole? role, string item, string tag, TickState state, SkipReason? reason, CancellationToken cancellationToken)
    {
        if (await Checklist.FindAsync(context, id, cancellationToken) is not { } list)
        {
            return NotFound();
        }

        var words = await TakeAsync(list, role, item, tag, new(state, reason), cancellationToken);
        if (words is null)
        {
            return Redirect($"/plans/{list.Plan.Id}/checklist?role={role}#{item}");
        }

        // The change tracker may hold the entry that was not taken: what is shown is read again.
        context.ChangeTracker.Clear();
        Problem = (item, words);
        return await OnGetAsync(id, role, cancellationToken);
    }

    public string EntryWords(ChecklistItemResponse item)
    {
        var entries = string.Join(", ", item.Entries.Select(e => $"{Titles.Of(e.Role)} {FloorPlanWords.LocalTime(e.At, Plan.TimeZone)}"));
        return item.State switch
        {
            TickState.Done => $"done: {entries}",
            TickState.Skipped => $"skipped, {KitWords.Of(item.Reason!.Value)}: {entries}",
            _ when item.Entries.Count > 0 => $"{item.Entries.Count} of {item.ConfirmationsNeeded}: {entries}; another role looks too",
            _ => item.ConfirmationsNeeded > 1 ? "open: two people look" : "open",
        };
    }

    private sealed record Said(TickState State, SkipReason? Reason);

    /// <summary>Null where the entry was taken, else what stands in its way.</summary>
    private async Task<string?> TakeAsync(
        Checklist list, TransportRole? role, string item, string tag, Said said, CancellationToken cancellationToken)
    {
        if (role is not { } who || !Tick.Roles.Contains(who))
        {
            return "Say first who ticks.";
        }

        if (list.Item(item) is not { } found || tag != list.Tag(item))
        {
            return "It was changed meanwhile: look at it as it stands now, then press again.";
        }

        if (said is { State: TickState.Skipped, Reason: null })
        {
            return "Say why it is skipped.";
        }

        var request = new TickRequest { State = said.State, Role = who, Reason = said.State == TickState.Skipped ? said.Reason : null };
        var answer = await list.TickAsync(found, request, time.GetUtcNow(), cancellationToken);
        return answer.Item is not null ? null
            : answer.Refused is { } why ? ChecklistEndpoints.Words(why)
            : "It was changed meanwhile: look at it as it stands now, then press again.";
    }

    private async Task<PageResult> ShowAsync(Checklist list, TransportRole? role, CancellationToken cancellationToken)
    {
        Titles = new(await SiteSettings.ReadAsync(context, list.Plan.SiteId, cancellationToken));
        Plan = list.Plan;
        List = list.Answer();
        Role = role is { } who && Tick.Roles.Contains(who) ? who : null;
        Notice = store.TryFind(Plan.SiteId, out var site) ? site.Plan.Notice : null;
        return Page();
    }
}
