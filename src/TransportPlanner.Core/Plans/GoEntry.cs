using System.Collections.Immutable;

namespace TransportPlanner.Core.Plans;

/// <summary>What may have changed since the plan was made.</summary>
public enum GoItem
{
    Support,
    Flow,
    OxygenFraction,
    Crew,
    /// <summary>What people know of the way; closures that the planner knows take the go back by themselves.</summary>
    Way,
    /// <summary>The gauges read again: changed where a rule that the plan says is met no longer is.</summary>
    Gauge,
}

/// <summary>Why what was said no longer holds.</summary>
public enum StopReason
{
    /// <summary>Somebody said stop. Anybody may.</summary>
    Person,
    /// <summary>A closure touches the way.</summary>
    Closure,
}

/// <summary>One thing that was said about leaving. It is never changed; the next one is added behind it.</summary>
/// <param name="At">When.</param>
/// <param name="PlanVersion">The version of the plan that it was said about, from 1.</param>
/// <param name="Way">Id of the way that it was said about.</param>
public abstract record GoEntry(DateTimeOffset At, int PlanVersion, string Way)
{
    /// <summary>Everything that may have changed was looked at once more.</summary>
    /// <param name="At">When; the gauges were read then.</param>
    /// <param name="PlanVersion">The version it was compared with.</param>
    /// <param name="Way">The way it was compared with.</param>
    /// <param name="By">Who looked.</param>
    /// <param name="Changed">What is not as the plan says; empty where all is.</param>
    public sealed record Rechecked(DateTimeOffset At, int PlanVersion, string Way, PlanRole By, ImmutableArray<GoItem> Changed) : GoEntry(At, PlanVersion, Way);

    /// <summary>One of the two says go.</summary>
    /// <param name="At">When.</param>
    /// <param name="PlanVersion">The version it was said about.</param>
    /// <param name="Way">The way it was said about.</param>
    /// <param name="By">Team lead or security.</param>
    public sealed record Voice(DateTimeOffset At, int PlanVersion, string Way, PlanRole By) : GoEntry(At, PlanVersion, Way);

    /// <summary>Somebody names the way that is taken: no word of go, but words about another way are taken back.</summary>
    /// <param name="At">When.</param>
    /// <param name="PlanVersion">The version whose way it is.</param>
    /// <param name="Way">The way that is taken.</param>
    /// <param name="By">Who named it.</param>
    public sealed record Chosen(DateTimeOffset At, int PlanVersion, string Way, PlanRole By) : GoEntry(At, PlanVersion, Way);

    /// <summary>Everything said before is taken back: both voices and the re-check begin anew.</summary>
    /// <param name="At">When.</param>
    /// <param name="PlanVersion">The version in force then.</param>
    /// <param name="Way">The way it was about.</param>
    /// <param name="Why">A person or a closure.</param>
    public sealed record Stopped(DateTimeOffset At, int PlanVersion, string Way, StopReason Why) : GoEntry(At, PlanVersion, Way);
}
