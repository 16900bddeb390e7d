using TransportPlanner.Core.Kits;

namespace TransportPlanner.Web.Data;

/// <summary>
/// What the team said of one item of a plan's kit list: state, roles, times, a reason of a closed list. Nothing about the infant. An item
/// nobody has touched has no row.
/// </summary>
internal sealed class KitTick : IVersioned
{
    public required string PlanId { get; init; }
    public required string ItemId { get; init; }

    /// <summary>The plan version whose item was looked at.</summary>
    public int PlanVersion { get; set; }
    public TickState State { get; set; }
    public SkipReason? Reason { get; set; }
    public TransportRole? FirstRole { get; set; }
    public DateTimeOffset? FirstAt { get; set; }
    public TransportRole? SecondRole { get; set; }
    public DateTimeOffset? SecondAt { get; set; }
    public long Version { get; set; }

    public Tick Read() => new() { State = State, Reason = Reason, Entries = [.. Entries()] };

    public void Write(Tick tick, int planVersion)
    {
        PlanVersion = planVersion;
        State = tick.State;
        Reason = tick.Reason;
        (FirstRole, FirstAt) = (tick.Entries.ElementAtOrDefault(0)?.Role, tick.Entries.ElementAtOrDefault(0)?.At);
        (SecondRole, SecondAt) = (tick.Entries.ElementAtOrDefault(1)?.Role, tick.Entries.ElementAtOrDefault(1)?.At);
    }

    private IEnumerable<TickEntry> Entries()
    {
        if (FirstRole is { } first && FirstAt is { } firstAt)
        {
            yield return new(first, firstAt);
        }

        if (SecondRole is { } second && SecondAt is { } secondAt)
        {
            yield return new(second, secondAt);
        }
    }
}
