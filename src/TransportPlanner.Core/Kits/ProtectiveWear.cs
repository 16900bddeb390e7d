using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Kits;

/// <summary>One step of putting protective wear on or taking it off.</summary>
/// <param name="Order">From 1.</param>
/// <param name="RuleId">Row of the reference data, such as <c>PS-03</c>.</param>
/// <param name="Action">What is done, as the source words it.</param>
/// <param name="Place">Where, if the source says.</param>
/// <param name="HandHygieneSeconds">The site's figure on a hand-hygiene step, else null.</param>
/// <param name="HandHygieneGuidance">What longer guidance recalls, shown beside the site's figure; null on other steps.</param>
/// <param name="Note">What to mind at this step.</param>
/// <param name="Source">Where the step comes from.</param>
public sealed record WearStep(
    int Order, string RuleId, string Action, string? Place, int? HandHygieneSeconds, string? HandHygieneGuidance, string? Note,
    RuleSource Source);

/// <summary>What one role wears.</summary>
/// <param name="Role">Who.</param>
/// <param name="Pieces">What, in words.</param>
/// <param name="Size">What the size goes by; null where there is none. The size itself is each person's own and is kept nowhere.</param>
/// <param name="Why">The reason.</param>
/// <param name="NeedsConfirmation">Infection prevention decides a part of it.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record WearRole(TransportRole Role, string Pieces, string? Size, string Why, bool NeedsConfirmation, RuleSource Source);

/// <summary>A published or proposed time, with the statistic as its source words it.</summary>
public sealed record WearDuration(string RuleId, string Task, double SecondsLow, double SecondsHigh, string Statistic, RuleSource Source);

/// <summary>Who watches, and what for.</summary>
public sealed record WearWatcher(TransportRole Role, string Task, RuleSource Source);

/// <summary>The order of protective wear for the team, on and off.</summary>
public sealed record ProtectiveWear
{
    /// <summary>Name of the sequence, such as <c>project-airborne</c>.</summary>
    public required string Sequence { get; init; }

    /// <summary>What each role wears, from those who give care to those who stand by.</summary>
    public required IReadOnlyList<WearRole> Roles { get; init; }
    public required IReadOnlyList<WearStep> On { get; init; }
    public required IReadOnlyList<WearStep> Off { get; init; }

    /// <summary>What differs from the airborne sequence; empty for that one.</summary>
    public required IReadOnlyList<string> Changes { get; init; }
    public required WearWatcher Watcher { get; init; }
    public required IReadOnlyList<WearDuration> Durations { get; init; }
    public required IReadOnlyList<KitNote> Cautions { get; init; }

    public const int MinHandHygieneSeconds = 1;
    public const int MaxHandHygieneSeconds = 120;

    /// <summary>
    /// The sequence of the strictest precaution in force: airborne before droplet before contact. The airborne set covers droplet and
    /// contact, the droplet set covers contact.
    /// </summary>
    /// <param name="precautions">In force.</param>
    /// <param name="handHygieneSeconds">The site's figure, 1 to 120 s; null: 15 s, common practice, beside the longer published figures.</param>
    /// <exception cref="ArgumentOutOfRangeException">A precaution that does not exist, or seconds out of range.</exception>
    public static ProtectiveWear For(PrecautionSet precautions, int? handHygieneSeconds = null) => For(precautions, KitRules.BuiltIn, handHygieneSeconds);

    internal static ProtectiveWear For(PrecautionSet precautions, KitRules rules, int? handHygieneSeconds = null)
    {
        if (handHygieneSeconds is < MinHandHygieneSeconds or > MaxHandHygieneSeconds)
            throw new ArgumentOutOfRangeException(nameof(handHygieneSeconds), handHygieneSeconds, "Give 1 to 120 s of hand hygiene.");
        KitQuery.RequireKnown(precautions);
        var wear = rules.Wear;
        var set = wear.Sets.First(candidate => candidate.Precautions.All(precaution => precautions.HasFlag(precaution)));
        bool Applies(IReadOnlyList<PrecautionSet> to) => to.Count == 0 || to.Any(precaution => precautions.HasFlag(precaution));
        return new ProtectiveWear
        {
            Sequence = set.Id,
            Roles = [.. set.Roles.Select(role => new WearRole(
                role.Role, role.Pieces, role.Size, role.Why, role.Confirm, rules.Sources[role.Source]))],
            On = Steps(set.On, rules, handHygieneSeconds),
            Off = Steps(set.Off, rules, handHygieneSeconds),
            Changes = set.Changes,
            Watcher = new WearWatcher(wear.Watcher.Role, wear.Watcher.Task, rules.Sources[wear.Watcher.Source]),
            Durations = [.. wear.Durations.Where(duration => Applies(duration.Precautions)).Select(duration => new WearDuration(
                duration.Id, duration.Task, duration.SecondsLow, duration.SecondsHigh, duration.Statistic, rules.Sources[duration.Source]))],
            Cautions = [.. wear.Cautions.Where(caution => Applies(caution.Precautions))
                .Select(caution => new KitNote(caution.Id, caution.Text, rules.Sources[caution.Source]))],
        };
    }

    private static IReadOnlyList<WearStep> Steps(IReadOnlyList<WearStepRule> steps, KitRules rules, int? handHygieneSeconds) =>
        [.. steps.Select((step, index) => new WearStep(
            index + 1, step.Id, step.Action, step.Place,
            step.HandHygiene ? handHygieneSeconds ?? rules.Wear.HandHygieneSeconds : null,
            step.HandHygiene ? rules.Wear.HandHygieneGuidance : null,
            step.Note, rules.Sources[step.Source]))];
}

/// <summary>The part of the rule file about protective wear. Sets stand from the strictest to the least strict; the last one always fits.</summary>
internal sealed record WearRules(
    int HandHygieneSeconds, string HandHygieneGuidance, WearWatcherRule Watcher, IReadOnlyList<WearSetRule> Sets,
    IReadOnlyList<WearDurationRule> Durations, IReadOnlyList<WearCautionRule> Cautions);

internal sealed record WearWatcherRule(TransportRole Role, string Task, string Source);

internal sealed record WearSetRule(
    string Id, IReadOnlyList<PrecautionSet> Precautions, IReadOnlyList<string> Changes, IReadOnlyList<WearRoleRule> Roles,
    IReadOnlyList<WearStepRule> On, IReadOnlyList<WearStepRule> Off);

internal sealed record WearRoleRule(TransportRole Role, string Pieces, string Why, string Source)
{
    public string? Size { get; init; }
    public bool Confirm { get; init; }
}

internal sealed record WearStepRule(string Id, string Action, string Source)
{
    public string? Place { get; init; }
    public bool HandHygiene { get; init; }
    public string? Note { get; init; }
}

internal sealed record WearDurationRule(
    string Id, string Task, double SecondsLow, double SecondsHigh, string Statistic, string Source, IReadOnlyList<PrecautionSet> Precautions);

internal sealed record WearCautionRule(string Id, string Text, string Source, IReadOnlyList<PrecautionSet> Precautions);
