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

    /// <summary>What was taken out of use on the ways of this plan since it was made.</summary>
    public IReadOnlyList<ClosedOnWay> Closed { get; private set; } = [];

    /// <summary>The instant of this page: what is late, is late by then.</summary>
    public DateTimeOffset AsOf { get; private set; }

    /// <summary>Times of each message that were past before anybody answered it; roles without such a time are left out.</summary>
    public IReadOnlyDictionary<PlanRole, IReadOnlyList<DateTimeOffset>> Late { get; private set; } = new Dictionary<PlanRole, IReadOnlyList<DateTimeOffset>>();

    /// <summary>The earliest full minute for which every step still fits, at the tempo that the messages count with; null where go is given.</summary>
    public DateTimeOffset? EarliestGo { get; private set; }

    public string NextVersionAddress => TimelineSheet.NextVersion(Plan, EarliestGo);

    public async Task<IActionResult> OnGetAsync(string id, CancellationToken cancellationToken) =>
        await CallSheet.FindAsync(context, store, id, cancellationToken) is { } list ? await ShowAsync(list, cancellationToken) : NotFound();

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

    private async Task<PageResult> ShowAsync(CallSheet list, CancellationToken cancellationToken)
    {
        (Plan, List, AsOf) = (list.Plan, list.Answer(), time.GetUtcNow());
        store.TryFind(Plan.SiteId, out var site);
        Notice = site?.Plan.Notice;
        Timeline = new(Plan, list.Way, TimelineSheet.TempoOf(Plan), list.Titles, PlaceNames.Of(Plan, site));
        Closed = site is null ? [] : await ClosedWays.OnAsync(context, Plan, site.Plan, cancellationToken);
        Late = CallList.Of(Timeline).Select(call => (call.Role, Past: PastBeforeAnswer(call))).Where(call => call.Past.Count > 0).ToDictionary(call => call.Role, call => call.Past);
        if (Timeline.Chosen is { } chosen && (await GoBoard.OfAsync(context, Plan, AsOf, cancellationToken)).State.GivenAt is null)
        {
            EarliestGo = FullMinute(AsOf.AddSeconds(chosen.LeadSeconds));
        }

        return Page();
    }

    /// <summary>A role that answered in time is not late when the time has passed.</summary>
    private IReadOnlyList<DateTimeOffset> PastBeforeAnswer(CallMessage message)
    {
        var answered = List.Calls.First(call => call.Role == message.Role).AcknowledgedAt ?? AsOf;
        return [.. message.Due.Where(due => due < answered)];
    }

    private static DateTimeOffset FullMinute(DateTimeOffset instant) =>
        instant.AddTicks((TimeSpan.TicksPerMinute - (instant.Ticks % TimeSpan.TicksPerMinute)) % TimeSpan.TicksPerMinute);
}
