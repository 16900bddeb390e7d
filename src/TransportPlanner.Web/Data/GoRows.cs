using TransportPlanner.Core.Plans;

namespace TransportPlanner.Web.Data;

/// <summary>What kind of word a row of <see cref="GoWord"/> holds.</summary>
internal enum GoWordKind
{
    Recheck,
    Voice,
    Stop,
    Way,
}

/// <summary>One thing that was said about leaving: only added. Holds roles and times, and nothing of the infant: what was answered is same or changed.</summary>
internal sealed class GoWord
{
    public required string PlanId { get; init; }

    /// <summary>1 for the first of its plan. Two people who speak at once want the same number, and the second is refused.</summary>
    public required int Number { get; init; }
    public required GoWordKind Kind { get; init; }

    /// <summary>Null where a closure stopped it.</summary>
    public PlanRole? Role { get; init; }
    public required int PlanVersion { get; init; }
    public required string Way { get; init; }
    public required DateTimeOffset At { get; init; }

    /// <summary>Items of <see cref="GoItem"/> that a re-check found changed, with commas; empty: none.</summary>
    public string Changed { get; init; } = "";

    /// <summary>What the gauges showed and what that gives, or which closure it was, in words.</summary>
    public string? Words { get; init; }

    public GoEntry Read() => Kind switch
    {
        GoWordKind.Recheck => new GoEntry.Rechecked(
            At, PlanVersion, Way, Role!.Value, [.. Changed.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(item => Enum.Parse<GoItem>(item))]),
        GoWordKind.Voice => new GoEntry.Voice(At, PlanVersion, Way, Role!.Value),
        GoWordKind.Stop => new GoEntry.Stopped(At, PlanVersion, Way, Role is null ? StopReason.Closure : StopReason.Person),
        GoWordKind.Way => new GoEntry.Chosen(At, PlanVersion, Way, Role!.Value),
        _ => throw new InvalidOperationException($"{Kind} is no word."),
    };

    public static GoWord Of(string planId, int number, GoEntry entry, PlanRole? role, string? words = null) => new()
    {
        PlanId = planId,
        Number = number,
        Kind = entry switch { GoEntry.Rechecked => GoWordKind.Recheck, GoEntry.Voice => GoWordKind.Voice, GoEntry.Chosen => GoWordKind.Way, _ => GoWordKind.Stop },
        Role = role,
        PlanVersion = entry.PlanVersion,
        Way = entry.Way,
        At = entry.At,
        Changed = entry is GoEntry.Rechecked { Changed: var changed } ? string.Join(',', changed) : "",
        Words = words,
    };
}

/// <summary>Whether one role was called and has answered. A role that nobody has called has no row.</summary>
internal sealed class CallEntry : IVersioned
{
    public required string PlanId { get; init; }
    public required PlanRole Role { get; init; }

    /// <summary>The plan version whose message was given.</summary>
    public int PlanVersion { get; set; }

    /// <summary>The way that the message spoke of; empty in rows of earlier releases: the one that is read first.</summary>
    public string Way { get; set; } = "";
    public DateTimeOffset? CalledAt { get; set; }
    public DateTimeOffset? AcknowledgedAt { get; set; }
    public long Version { get; set; }
}
