using TransportPlanner.Core.Kits;

namespace TransportPlanner.Web.Kits;

/// <summary>What one person says of one item.</summary>
public sealed record TickRequest
{
    /// <summary>done: I looked and it is so. skipped: passed over, with a reason. open: reopen it, all entries are dropped.</summary>
    public required TickState State { get; init; }

    /// <summary>Who says so: the role of one person, so not everyCareGiver and not everyTeamMember.</summary>
    public required TransportRole Role { get; init; }

    /// <summary>Needed with skipped, and with nothing else.</summary>
    public SkipReason? Reason { get; init; }
}

/// <summary>The kit list of the newest version of a plan, with what the team said of each item.</summary>
public sealed record ChecklistResponse
{
    /// <summary>Random id that names the transport.</summary>
    public required string PlanId { get; init; }

    /// <summary>The newest version of the plan: its items are listed.</summary>
    public required int PlanVersion { get; init; }

    /// <summary>Items that nobody, or one of two people, has confirmed.</summary>
    public required int Open { get; init; }

    /// <summary>Items that are confirmed.</summary>
    public required int Done { get; init; }

    /// <summary>Items that were passed over, with a reason.</summary>
    public required int Skipped { get; init; }

    /// <summary>In the order of the kit list: before departure, under way, handoff.</summary>
    public required IReadOnlyList<ChecklistItemResponse> Items { get; init; }
}

/// <summary>One item with its tick.</summary>
public sealed record ChecklistItemResponse
{
    /// <summary>Stable name of the item, such as oxygen-cylinder.</summary>
    public required string Id { get; init; }

    /// <summary>What it is, or what is checked.</summary>
    public required string Name { get; init; }

    /// <summary>All values to carry in one line, with the unit; null for an item without sizes.</summary>
    public string? Size { get; init; }

    /// <summary>Sizes that travel as spares; null where there are none.</summary>
    public string? SpareSize { get; init; }

    /// <summary>How many, 1 or more.</summary>
    public required int Quantity { get; init; }

    /// <summary>Whether the quantity is for the transport or for each person. Either way the item is ticked once.</summary>
    public required QuantityBasis QuantityPer { get; init; }

    /// <summary>When it is due.</summary>
    public required KitPhase Phase { get; init; }

    /// <summary>Role that brings it or answers for it.</summary>
    public required TransportRole CarriedBy { get; init; }

    /// <summary>True where a person must decide.</summary>
    public required bool NeedsConfirmation { get; init; }

    /// <summary>open, done, or skipped.</summary>
    public required TickState State { get; init; }

    /// <summary>How many confirmations make it done: 2 where two people look, else 1.</summary>
    public required int ConfirmationsNeeded { get; init; }

    /// <summary>Confirmations in their order, or the one entry of who passed it over.</summary>
    public required IReadOnlyList<TickEntryResponse> Entries { get; init; }

    /// <summary>Why it was passed over; null unless skipped.</summary>
    public SkipReason? Reason { get; init; }

    /// <summary>Send it as If-Match to tick the item. It changes with each entry and with each version of the plan.</summary>
    public required string ETag { get; init; }

    internal static ChecklistItemResponse From(KitItemResponse item, Tick tick, string tag) => new()
    {
        Id = item.Id,
        Name = item.Name,
        Size = item.Size,
        SpareSize = item.SpareSize,
        Quantity = item.Quantity,
        QuantityPer = item.QuantityPer,
        Phase = item.Phase,
        CarriedBy = item.CarriedBy,
        NeedsConfirmation = item.NeedsConfirmation,
        State = tick.State,
        ConfirmationsNeeded = Tick.Needed(item.TwoPeople),
        Entries = [.. tick.Entries.Select(entry => new TickEntryResponse(entry.Role, entry.At))],
        Reason = tick.Reason,
        ETag = tag,
    };
}

/// <summary>Who said so, and when.</summary>
/// <param name="Role">The role of one person; no name is kept.</param>
/// <param name="At">The server's time of the entry.</param>
public sealed record TickEntryResponse(TransportRole Role, DateTimeOffset At);
