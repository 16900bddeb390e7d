using System.Collections.Immutable;

namespace TransportPlanner.Core.Plans;

/// <summary>What keeps go from being given.</summary>
public enum GoMissing
{
    /// <summary>Nobody has answered yet what may have changed.</summary>
    Recheck,
    /// <summary>Something is not as the plan says: make the next version.</summary>
    Changed,
    /// <summary>The gauges were read longer ago than the site allows: read them again.</summary>
    Stale,
    TeamLead,
    Security,
    /// <summary>The plan is void.</summary>
    Void,
}

/// <summary>
/// Whether go is given: two persons' words, never the planner's. It is given when team lead and security both say go about the newest version and one
/// way, each after what may have changed was answered with nothing changed, and while its gauges were not old.
/// </summary>
/// <remarks>
/// The re-check comes first, because a voice that has not seen it is no look at what may have changed. Once given it stays: time alone takes nothing
/// back, nor does another re-check that found nothing. A newer version leaves every word about an older one behind; a stop, a closure on the way or a
/// re-check that found a change takes back what was said before it, and another way that is chosen what was said about the first.
/// </remarks>
public sealed record GoState
{
    /// <summary>Who must say go.</summary>
    public static ImmutableArray<PlanRole> Voices { get; } = [PlanRole.TeamLead, PlanRole.Security];

    /// <summary>The way that is spoken about; null while nothing that was said stands.</summary>
    public required string? Way { get; init; }
    public required GoEntry.Rechecked? Recheck { get; init; }
    public required GoEntry.Voice? Lead { get; init; }
    public required GoEntry.Voice? Security { get; init; }

    /// <summary>The instant at which the last of the three came; null while go is not given.</summary>
    public required DateTimeOffset? GivenAt { get; init; }

    /// <summary>What is missing, in order; empty exactly when go is given.</summary>
    public required ImmutableArray<GoMissing> Missing { get; init; }

    /// <summary>A voice that stood stands no longer.</summary>
    public required bool IsTakenBack { get; init; }

    /// <param name="entries">All that was said, in order.</param>
    /// <param name="planVersion">The newest version.</param>
    /// <param name="voidAfter">Of that version: from then on nothing more counts.</param>
    /// <param name="staleAfter">How old a gauge reading may be when go is given.</param>
    /// <param name="now">The instant of the question.</param>
    public static GoState Of(IEnumerable<GoEntry> entries, int planVersion, DateTimeOffset voidAfter, TimeSpan staleAfter, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(entries);
        GoEntry.Rechecked? recheck = null;
        GoEntry.Voice? lead = null, security = null;
        var heard = false;
        foreach (var entry in entries)
        {
            if (entry.PlanVersion != planVersion || entry.At > voidAfter)
            {
                heard |= entry is GoEntry.Voice;
                continue;
            }

            switch (entry)
            {
                case GoEntry.Stopped:
                    (recheck, lead, security) = (null, null, null);
                    break;
                case GoEntry.Chosen { Way: var chosen }:
                    recheck = recheck?.Way == chosen ? recheck : null;
                    lead = lead?.Way == chosen ? lead : null;
                    security = security?.Way == chosen ? security : null;
                    break;
                case GoEntry.Rechecked answered:
                    // Who spoke upon gauges that have grown old meanwhile speaks again, unless both had spoken by then.
                    if (!answered.Changed.IsEmpty || !(lead is not null && security is not null) && !Stands(recheck, answered, staleAfter))
                        (lead, security) = (null, null);
                    recheck = answered;
                    break;
                case GoEntry.Voice { By: PlanRole.TeamLead } voice when Stands(recheck, voice, staleAfter):
                    lead = voice;
                    break;
                case GoEntry.Voice { By: PlanRole.Security } voice when Stands(recheck, voice, staleAfter):
                    security = voice;
                    break;
            }

            heard |= lead is not null || security is not null;
        }

        // The latest word names the way; a voice about another one does not stand.
        var way = new GoEntry?[] { recheck, lead, security }.OfType<GoEntry>().MaxBy(entry => entry.At)?.Way;
        recheck = recheck?.Way == way ? recheck : null;
        lead = lead?.Way == way ? lead : null;
        security = security?.Way == way ? security : null;
        DateTimeOffset? last = lead is not null && security is not null ? lead.At > security.At ? lead.At : security.At : null;
        var isVoid = last is null && now > voidAfter;
        ImmutableArray<GoMissing> missing =
        [
            .. isVoid ? new[] { GoMissing.Void } : [],
            .. recheck is null ? new[] { GoMissing.Recheck }
                : !recheck.Changed.IsEmpty ? [GoMissing.Changed]
                : last is null && now - recheck.At > staleAfter ? [GoMissing.Stale]
                : [],
            .. lead is null ? new[] { GoMissing.TeamLead } : [],
            .. security is null ? new[] { GoMissing.Security } : [],
        ];
        return new()
        {
            Way = way,
            Recheck = recheck,
            Lead = lead,
            Security = security,
            GivenAt = missing.IsEmpty ? last : null,
            Missing = missing,
            IsTakenBack = heard && lead is null && security is null,
        };
    }

    /// <summary>What may have changed was looked at about the way of the word, found unchanged, and not too long before it.</summary>
    public static bool Stands(GoEntry.Rechecked? recheck, GoEntry word, TimeSpan staleAfter)
    {
        ArgumentNullException.ThrowIfNull(word);
        return recheck is { Changed.IsEmpty: true } && recheck.Way == word.Way && word.At - recheck.At <= staleAfter;
    }
}
