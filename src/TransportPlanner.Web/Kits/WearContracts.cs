using TransportPlanner.Core.Kits;

namespace TransportPlanner.Web.Kits;

/// <summary>One step of putting protective wear on or taking it off.</summary>
public sealed record WearStepResponse
{
    /// <summary>From 1.</summary>
    public required int Order { get; init; }

    /// <summary>Row of the rule file.</summary>
    public required string Rule { get; init; }

    /// <summary>What is done.</summary>
    public required string Action { get; init; }

    /// <summary>Where, if the source says.</summary>
    public string? Place { get; init; }

    /// <summary>On a hand-hygiene step the site's figure in seconds, else null.</summary>
    public int? HandHygieneSeconds { get; init; }

    /// <summary>On a hand-hygiene step what longer guidance recalls, else null.</summary>
    public string? HandHygieneGuidance { get; init; }

    /// <summary>What to mind at this step.</summary>
    public string? Note { get; init; }

    /// <summary>Where the step comes from and how it is known.</summary>
    public required string Source { get; init; }

    internal static WearStepResponse From(WearStep step) => new()
    {
        Order = step.Order,
        Rule = step.RuleId,
        Action = step.Action,
        Place = step.Place,
        HandHygieneSeconds = step.HandHygieneSeconds,
        HandHygieneGuidance = step.HandHygieneGuidance,
        Note = step.Note,
        Source = $"{step.Source}",
    };
}

/// <summary>What stands around the steps: the set, who watches, and how long others took.</summary>
public sealed record WearResponse
{
    /// <summary>Name of the sequence, such as project-airborne.</summary>
    public required string Sequence { get; init; }

    /// <summary>What each role wears.</summary>
    public required IReadOnlyList<WearRoleResponse> Roles { get; init; }

    /// <summary>What differs from the airborne sequence; empty for that one.</summary>
    public required IReadOnlyList<string> Changes { get; init; }

    /// <summary>Role of the person who watches the steps.</summary>
    public required TransportRole Watcher { get; init; }

    /// <summary>What the watcher does, and why one is needed.</summary>
    public required string WatcherTask { get; init; }

    /// <summary>Where that comes from and how it is known.</summary>
    public required string WatcherSource { get; init; }

    /// <summary>Published and proposed times.</summary>
    public required IReadOnlyList<WearDurationResponse> Durations { get; init; }

    internal static WearResponse From(ProtectiveWear wear) => new()
    {
        Sequence = wear.Sequence,
        Roles = [.. wear.Roles.Select(role => new WearRoleResponse(
            role.Role, role.Pieces, role.Size, role.Why, role.NeedsConfirmation, $"{role.Source}"))],
        Changes = wear.Changes,
        Watcher = wear.Watcher.Role,
        WatcherTask = wear.Watcher.Task,
        WatcherSource = $"{wear.Watcher.Source}",
        Durations = [.. wear.Durations.Select(duration => new WearDurationResponse(
            duration.RuleId, duration.Task, duration.SecondsLow, duration.SecondsHigh, duration.Statistic, $"{duration.Source}"))],
    };
}

/// <summary>What one role wears.</summary>
/// <param name="Role">Who.</param>
/// <param name="Pieces">What, in words.</param>
/// <param name="Size">What the size goes by; null where there is none. Nobody's size is kept.</param>
/// <param name="Why">The reason.</param>
/// <param name="NeedsConfirmation">True where infection prevention decides a part of it.</param>
/// <param name="Source">Where it comes from and how it is known.</param>
public sealed record WearRoleResponse(TransportRole Role, string Pieces, string? Size, string Why, bool NeedsConfirmation, string Source);

/// <summary>How long a task took or is planned to take.</summary>
/// <param name="Rule">Row of the rule file.</param>
/// <param name="Task">What was timed.</param>
/// <param name="SecondsLow">Lower end, seconds.</param>
/// <param name="SecondsHigh">Upper end, seconds; equal to the lower where one value is published.</param>
/// <param name="Statistic">What the two figures are.</param>
/// <param name="Source">Where they come from and how they are known.</param>
public sealed record WearDurationResponse(string Rule, string Task, double SecondsLow, double SecondsHigh, string Statistic, string Source);
