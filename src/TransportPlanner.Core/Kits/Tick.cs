namespace TransportPlanner.Core.Kits;

/// <summary>Where one item of the list stands.</summary>
public enum TickState
{
    /// <summary>Nobody has looked yet, or one of two people has.</summary>
    Open,
    Done,
    Skipped,
}

/// <summary>Why an item is passed over. A closed list: nobody types anything about the infant.</summary>
public enum SkipReason
{
    /// <summary>It is not there.</summary>
    NotAvailable,
    /// <summary>This transport does not need it.</summary>
    NotNeeded,
    /// <summary>Something else does its work.</summary>
    Replaced,
    /// <summary>The site's own rule says otherwise.</summary>
    LocalRule,
    /// <summary>There is no time for it.</summary>
    NoTime,
}

/// <summary>What one person said, and when. A role, never a name.</summary>
public sealed record TickEntry(TransportRole Role, DateTimeOffset At);

/// <summary>Why an entry is not taken.</summary>
public enum TickRefusal
{
    /// <summary>The item is done: reopen it first.</summary>
    AlreadyDone,
    /// <summary>The second look must come from another role than the first.</summary>
    SameRole,
}

/// <summary>An entry taken, with the tick that it makes, or refused.</summary>
public abstract record TickOutcome
{
    private TickOutcome()
    {
    }

    public sealed record Taken(Tick Tick) : TickOutcome;

    public sealed record Refused(TickRefusal Why) : TickOutcome;
}

/// <summary>What the team said of one item. It never changes; an entry makes the next one.</summary>
/// <remarks>
/// An item for two people is done with two confirmations by two roles, each an entry of its own. One person is enough to pass an item
/// over, since a skipped item stays in sight with its reason and a done one does not. Without sign-in a role stands for a person.
/// </remarks>
public sealed record Tick
{
    public static Tick Untouched { get; } = new();

    public TickState State { get; init; } = TickState.Open;

    /// <summary>Confirmations in their order, or the one entry of who passed the item over. Empty where nobody has looked.</summary>
    public IReadOnlyList<TickEntry> Entries { get; init; } = [];

    /// <summary>Given where the item is skipped, else null.</summary>
    public SkipReason? Reason { get; init; }

    /// <summary>Roles that are one person each, in the order in which a list offers them.</summary>
    public static IReadOnlyList<TransportRole> Roles { get; } =
    [
        TransportRole.TeamLead, TransportRole.RespiratoryTherapist, TransportRole.TransportNurse, TransportRole.CleanHelper,
        TransportRole.ReceivingNurse, TransportRole.EnvironmentalServices, TransportRole.DoffingWatcher,
    ];

    /// <summary>How many confirmations make an item done: 2 for two people, else 1.</summary>
    public static int Needed(bool twoPeople) => twoPeople ? 2 : 1;

    /// <summary>Somebody looked. An item that was skipped begins anew: it was found after all.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The role of <paramref name="entry"/> is not one person.</exception>
    public TickOutcome Confirm(TickEntry entry, bool twoPeople)
    {
        RequireOnePerson(entry);
        if (State == TickState.Done)
            return new TickOutcome.Refused(TickRefusal.AlreadyDone);
        var before = State == TickState.Open ? Entries : [];
        if (before.Any(earlier => earlier.Role == entry.Role))
            return new TickOutcome.Refused(TickRefusal.SameRole);
        IReadOnlyList<TickEntry> entries = [.. before, entry];
        return new TickOutcome.Taken(new Tick
        {
            State = entries.Count >= Needed(twoPeople) ? TickState.Done : TickState.Open,
            Entries = entries,
        });
    }

    /// <summary>Somebody passes the item over; a first confirmation is dropped, another reason takes the place of an earlier one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The role of <paramref name="entry"/> is not one person.</exception>
    public TickOutcome Skip(TickEntry entry, SkipReason reason)
    {
        RequireOnePerson(entry);
        return State == TickState.Done
            ? new TickOutcome.Refused(TickRefusal.AlreadyDone)
            : new TickOutcome.Taken(new Tick { State = TickState.Skipped, Entries = [entry], Reason = reason });
    }

    private static void RequireOnePerson(TickEntry entry)
    {
        if (!Roles.Contains(entry.Role))
            throw new ArgumentOutOfRangeException(nameof(entry), entry.Role, "Give the role of one person.");
    }
}
