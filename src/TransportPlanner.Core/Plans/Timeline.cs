using System.Collections.Immutable;

namespace TransportPlanner.Core.Plans;

/// <summary>What happens on the way to go and after it.</summary>
public enum TimelineStepKind
{
    /// <summary>Everybody is called and comes.</summary>
    Call,
    Huddle,
    /// <summary>Kit, gas and batteries.</summary>
    Kit,
    HandHygiene,
    /// <summary>Those who give care on the way dress, in turns: in pairs that watch each other, or all at once.</summary>
    Donning,
    /// <summary>The infant into the incubator; tube, lines and wires secured.</summary>
    Loading,
    /// <summary>On the transport ventilator; only where the support is given by one.</summary>
    Trial,
    TimeOut,
    Wipe,
    GoCheck,
    /// <summary>The clean helper dresses, and has clean bare hands by the go check.</summary>
    HelperDonning,
    /// <summary>Who receives and who watches dress before the team can be there at the earliest.</summary>
    ReceiverDonning,
    /// <summary>From the first post to the last: each is manned.</summary>
    PostsManned,
    ElevatorCaptured,
    /// <summary>Usually, to nearly always.</summary>
    Arrival,
    HandOver,
    Doffing,
    /// <summary>Not before; by word.</summary>
    PostsReleased,
    /// <summary>Not before: parked and cleaned as the site asks; by word.</summary>
    ElevatorGivenBack,
    /// <summary>Until the air of a place has been renewed: then it is cleaned, and a person opens it.</summary>
    Airing,
    /// <summary>Of the room of origin, where the site has places cleaned: not before its air has been renewed.</summary>
    RoomCleaning,
    /// <summary>Cleaned, refilled, charged: from the end of the hand-over.</summary>
    IncubatorCleaning,
}

/// <summary>One line of the timeline.</summary>
/// <param name="Kind">What.</param>
/// <param name="Who">Whom it binds; empty where nobody waits for it.</param>
/// <param name="From">When it begins, UTC; before go the latest beginning, after it the usual one.</param>
/// <param name="To">When it is done, UTC; after go nearly always. Equal to <paramref name="From"/> for what is not before an instant.</param>
/// <param name="Lasts">Its time with source, of all its turns; null where other parts of the plan give it.</param>
/// <param name="Place">Number of a place or name of an elevator; null where it has none.</param>
/// <param name="Turns">How often one person's time is in it; null where nobody takes turns.</param>
public sealed record TimelineStep(
    TimelineStepKind Kind, ImmutableArray<PlanRole> Who, DateTimeOffset From, DateTimeOffset To, StepTime? Lasts = null, string? Place = null, int? Turns = null)
{
    /// <summary>It has to be done, or stand, before the team leaves.</summary>
    public bool IsBeforeGo => Kind <= TimelineStepKind.ElevatorCaptured;
}

/// <summary>Steps that run while a shift changes.</summary>
/// <param name="At">The change, UTC.</param>
/// <param name="From">People are busy with it from then on.</param>
/// <param name="To">Until then.</param>
/// <param name="Steps">Steps that people are bound by meanwhile, each once, in the order of the timeline.</param>
public sealed record ShiftConflict(DateTimeOffset At, DateTimeOffset From, DateTimeOffset To, ImmutableArray<TimelineStepKind> Steps);

/// <summary>Every step for one go.</summary>
/// <param name="Go">When the team leaves, UTC.</param>
/// <param name="Begin">When the call has to go out.</param>
/// <param name="BareHandedUntil">Those who give care clean their hands and put gloves on from then: what needs bare hands is done.</param>
/// <param name="Steps">Before go in the order of their beginning, then after it.</param>
/// <param name="ShiftConflicts">Shift changes that fall into it; null: nobody said when shifts change.</param>
public sealed record Timeline(
    DateTimeOffset Go, DateTimeOffset Begin, DateTimeOffset BareHandedUntil, ImmutableArray<TimelineStep> Steps, ImmutableArray<ShiftConflict>? ShiftConflicts);

/// <summary>The timeline of one way at one tempo, and what of it no longer fits before the plan's departure.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="Tempo">How much time is taken before go.</param>
/// <param name="Now">When the plan was made, UTC: the call goes out no earlier.</param>
/// <param name="Lead">From the call to go.</param>
/// <param name="EarliestGo">
/// The earliest full minute for which everything fits: <paramref name="Now"/> + <paramref name="Lead"/>, rounded up; the departure of the plan where that fits and is
/// earlier, within the same minute.
/// </param>
/// <param name="ForGo">Counted back from the departure of the plan.</param>
/// <param name="FromNow">The same for <paramref name="EarliestGo"/> where the departure leaves too little time; null where everything fits.</param>
public sealed record TimelineOfRoute(
    string RouteId, Tempo Tempo, DateTimeOffset Now, TimeSpan Lead, DateTimeOffset EarliestGo, Timeline ForGo, Timeline? FromNow)
{
    /// <summary>How much later than the last moment for it the call goes out, if it goes out now; zero where everything fits.</summary>
    public TimeSpan Short => ForGo.Begin < Now ? Now - ForGo.Begin : TimeSpan.Zero;

    /// <summary>Steps before go that had to begin before the plan was made, in the order of the timeline.</summary>
    public ImmutableArray<TimelineStep> Late => [.. ForGo.Steps.Where(step => step.IsBeforeGo && step.From < Now)];
}
