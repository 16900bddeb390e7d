using TransportPlanner.Core.Plans;

namespace TransportPlanner.Web.Plans;

/// <summary>When each step before go begins at the latest, and what follows, for one way at one tempo.</summary>
public sealed record RouteTimelineResponse
{
    /// <summary>Id of the way.</summary>
    public required string Route { get; init; }

    /// <summary>Urgent never takes longer than planned.</summary>
    public required Tempo Tempo { get; init; }

    /// <summary>From the call to go, s.</summary>
    public required int LeadSeconds { get; init; }

    /// <summary>How much too late the call goes out when the plan is made, s, rounded up; 0: everything fits.</summary>
    public required int ShortSeconds { get; init; }

    /// <summary>The earliest full minute for which everything fits.</summary>
    public required DateTimeOffset EarliestGo { get; init; }

    /// <summary>Steps before go that had to begin before the plan was made.</summary>
    public required IReadOnlyList<TimelineStepKind> Late { get; init; }

    /// <summary>Counted back from the plan's departure.</summary>
    public required TimelineResponse ForGo { get; init; }

    /// <summary>The same for the earliest go, where the departure leaves too little time; null where everything fits.</summary>
    public required TimelineResponse? FromNow { get; init; }

    internal static RouteTimelineResponse From(TimelineOfRoute timeline) => new()
    {
        Route = timeline.RouteId,
        Tempo = timeline.Tempo,
        LeadSeconds = Up(timeline.Lead),
        ShortSeconds = Up(timeline.Short),
        EarliestGo = timeline.EarliestGo,
        Late = [.. timeline.Late.Select(step => step.Kind)],
        ForGo = TimelineResponse.From(timeline.ForGo),
        FromNow = timeline.FromNow is { } now ? TimelineResponse.From(now) : null,
    };

    private static int Up(TimeSpan time) => (int)Math.Ceiling(time.TotalSeconds);
}

/// <summary>Every step for one go.</summary>
public sealed record TimelineResponse
{
    /// <summary>When the team leaves.</summary>
    public required DateTimeOffset Go { get; init; }

    /// <summary>When the call has to go out.</summary>
    public required DateTimeOffset Begin { get; init; }

    /// <summary>What needs bare hands is done by then: hand hygiene and gloves follow.</summary>
    public required DateTimeOffset BareHandedUntil { get; init; }

    /// <summary>Before go in the order of their beginning, then after it.</summary>
    public required IReadOnlyList<TimelineStepResponse> Steps { get; init; }

    /// <summary>Shift changes that fall into it; null: the site has not said when its shifts change.</summary>
    public required IReadOnlyList<ShiftConflictResponse>? ShiftConflicts { get; init; }

    internal static TimelineResponse From(Timeline timeline) => new()
    {
        Go = timeline.Go,
        Begin = timeline.Begin,
        BareHandedUntil = timeline.BareHandedUntil,
        Steps =
        [
            .. timeline.Steps.Select(step => new TimelineStepResponse(
                step.Kind, step.IsBeforeGo, step.Who, step.From, step.To, step.Place, step.Lasts?.Source, step.Lasts?.IsAssumed, step.Turns)),
        ],
        ShiftConflicts = timeline.ShiftConflicts is { } conflicts
            ? [.. conflicts.Select(conflict => new ShiftConflictResponse(conflict.At, conflict.From, conflict.To, conflict.Steps))]
            : null,
    };
}

/// <summary>One step.</summary>
/// <param name="Step">What.</param>
/// <param name="BeforeGo">It has to be done, or stand, before the team leaves.</param>
/// <param name="Who">Roles that it binds.</param>
/// <param name="From">Before go the latest beginning, after it the usual one.</param>
/// <param name="To">When it is done; after go nearly always. The same as from: not before.</param>
/// <param name="Place">Number of a place or name of an elevator; null: none.</param>
/// <param name="Source">Where its length is known from; null: other parts of the plan give it.</param>
/// <param name="Assumed">The site has not said how long it lasts, or in how many turns; null: other parts of the plan give it.</param>
/// <param name="Turns">How often one person's time is in it, 1 to 4; null: nobody takes turns, or an earlier release did not count them.</param>
public sealed record TimelineStepResponse(
    TimelineStepKind Step, bool BeforeGo, IReadOnlyList<PlanRole> Who, DateTimeOffset From, DateTimeOffset To, string? Place, string? Source, bool? Assumed, int? Turns = null);

/// <summary>Steps that run while a shift changes.</summary>
/// <param name="At">The change.</param>
/// <param name="From">People are busy with it from then on.</param>
/// <param name="To">Until then.</param>
/// <param name="Steps">Steps that people are bound by meanwhile.</param>
public sealed record ShiftConflictResponse(DateTimeOffset At, DateTimeOffset From, DateTimeOffset To, IReadOnlyList<TimelineStepKind> Steps);

/// <summary>Who wears what on which leg of a way, under the rule of the site.</summary>
/// <param name="Route">Id of the way.</param>
/// <param name="Rule">Kept on, or changed at the ends.</param>
/// <param name="RuleAssumed">The site has not said: infection prevention decides.</param>
/// <param name="DonningPlace">The anteroom of the origin; null: the floor plan has none.</param>
/// <param name="ChangePlace">Where a fresh set goes on; null: at the door of the destination, or nowhere.</param>
/// <param name="DoffingPlace">The anteroom of the destination; null: the floor plan has none.</param>
/// <param name="Stretches">From the origin to the destination; empty without precautions.</param>
public sealed record RouteWearResponse(
    string Route, WearOnWay Rule, bool RuleAssumed, string? DonningPlace, string? ChangePlace, string? DoffingPlace, IReadOnlyList<WearStretchResponse> Stretches)
{
    internal static RouteWearResponse From(WearByLeg wear, bool ruleAssumed) => new(
        wear.RouteId, wear.Rule, ruleAssumed, wear.DonningPlace, wear.ChangePlace, wear.DoffingPlace,
        [.. wear.Stretches.Select(stretch => new WearStretchResponse(stretch.FirstLeg + 1, stretch.LastLeg + 1, stretch.CareGivers, stretch.Helper, stretch.Receiver))]);
}

/// <summary>Part of the journey on which nobody changes anything.</summary>
/// <param name="FirstLeg">Number of its first leg, from 1; 0: at the origin, before go.</param>
/// <param name="LastLeg">Number of its last leg; one more than there are: at the destination, until doffing.</param>
/// <param name="CareGivers">Lead, therapist and nurse.</param>
/// <param name="Helper">The clean helper; null: none goes along.</param>
/// <param name="Receiver">Who receives; null: not there yet.</param>
public sealed record WearStretchResponse(int FirstLeg, int LastLeg, WearState CareGivers, WearState? Helper, WearState? Receiver);
