using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Kits;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Kits;

namespace TransportPlanner.Web.Plans;

/// <summary>What became of an entry. Exactly one member is given.</summary>
internal sealed record TickAnswer(ChecklistItemResponse? Item = null, TickRefusal? Refused = null, bool IsStale = false);

/// <summary>The kit list of the newest version of a plan with its ticks, as one request found it.</summary>
/// <remarks>
/// A tick counts while its item reads the same, word for word, in every version from the one that was looked at to the newest. So a new
/// version keeps what it did not touch, and whatever it changed is open again.
/// </remarks>
internal sealed class Checklist
{
    private readonly PlannerContext _context;
    private readonly Dictionary<string, KitTick> _rows;
    private readonly Dictionary<string, int> _sameSince;

    private Checklist(PlannerContext context, PlanResponse plan, Dictionary<string, KitTick> rows, Dictionary<string, int> sameSince) =>
        (_context, Plan, _rows, _sameSince) = (context, plan, rows, sameSince);

    public PlanResponse Plan { get; }

    /// <summary>Null where there is no such plan.</summary>
    public static async Task<Checklist?> FindAsync(PlannerContext context, string planId, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, planId, null, cancellationToken) is not { } plan)
        {
            return null;
        }

        var rows = await context.KitTicks.Where(t => t.PlanId == planId).ToDictionaryAsync(t => t.ItemId, cancellationToken);
        var sameSince = plan.Kit.Items.ToDictionary(item => item.Id, _ => plan.Version);
        var now = plan.Kit.Items.ToDictionary(item => item.Id, Words);
        for (var number = plan.Version - 1; number >= rows.Values.Select(row => row.PlanVersion).DefaultIfEmpty(plan.Version).Min(); number--)
        {
            var before = await PlanStore.FindAsync(context, planId, number, cancellationToken);
            foreach (var item in before?.Kit.Items ?? [])
            {
                if (now.GetValueOrDefault(item.Id) == Words(item) && sameSince[item.Id] == number + 1)
                {
                    sameSince[item.Id] = number;
                }
            }
        }

        return new(context, plan, rows, sameSince);
    }

    public ChecklistResponse Answer()
    {
        ChecklistItemResponse[] items = [.. Plan.Kit.Items.Select(Answer)];
        return new()
        {
            PlanId = Plan.Id,
            PlanVersion = Plan.Version,
            Open = items.Count(item => item.State == TickState.Open),
            Done = items.Count(item => item.State == TickState.Done),
            Skipped = items.Count(item => item.State == TickState.Skipped),
            Items = items,
        };
    }

    public KitItemResponse? Item(string id) => Plan.Kit.Items.FirstOrDefault(item => item.Id == id);

    /// <summary>Names the plan version too: whoever read the item of an older one must read it again.</summary>
    public string Tag(string itemId) => FormattableString.Invariant($"\"{Plan.Version}.{_rows.GetValueOrDefault(itemId)?.Version ?? 0}\"");

    /// <summary>Takes one entry and keeps it.</summary>
    public async Task<TickAnswer> TickAsync(KitItemResponse item, TickRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var entry = new TickEntry(request.Role, now);
        var outcome = request.State switch
        {
            TickState.Done => TickOf(item).Confirm(entry, item.TwoPeople),
            TickState.Skipped => TickOf(item).Skip(entry, request.Reason!.Value),
            _ => new TickOutcome.Taken(Tick.Untouched),
        };
        if (outcome is TickOutcome.Refused refused)
        {
            return new(Refused: refused.Why);
        }

        if (!_rows.TryGetValue(item.Id, out var row))
        {
            row = _rows[item.Id] = new() { PlanId = Plan.Id, ItemId = item.Id };
            _context.Add(row);
        }

        row.Write(((TickOutcome.Taken)outcome).Tick, Plan.Version);
        try
        {
            await _context.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateException)
        {
            // Another entry came first: its row was inserted, or its version was raised.
            return new(IsStale: true);
        }

        _sameSince[item.Id] = Plan.Version;
        return new(Answer(item));
    }

    private ChecklistItemResponse Answer(KitItemResponse item) => ChecklistItemResponse.From(item, TickOf(item), Tag(item.Id));

    private Tick TickOf(KitItemResponse item) =>
        _rows.TryGetValue(item.Id, out var row) && row.PlanVersion >= _sameSince[item.Id] ? row.Read() : Tick.Untouched;

    private static string Words(KitItemResponse item) => JsonSerializer.Serialize(item);
}
