using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Plans;

/// <summary>When the air of a place has been renewed after the transport.</summary>
/// <param name="Place">Number of the place.</param>
/// <param name="LeftAt">The team has nearly always left it, and the site's hold is over, UTC.</param>
/// <param name="NotBefore">UTC.</param>
public sealed record AiredAt(string Place, DateTimeOffset LeftAt, DateTimeOffset NotBefore);

/// <summary>Everything one timeline is made from. Instants are UTC.</summary>
public sealed record TimelineRequest
{
    public required string RouteId { get; init; }
    public required Tempo Tempo { get; init; }

    /// <summary>The call goes out no earlier.</summary>
    public required DateTimeOffset Now { get; init; }

    /// <summary>Departure of the plan; the windows of <see cref="Posts"/> and <see cref="Aired"/> are counted from it.</summary>
    public required DateTimeOffset Go { get; init; }
    public required RespiratorySupport Support { get; init; }
    public required PrecautionSet Precautions { get; init; }
    public required bool WithHelper { get; init; }

    /// <summary>At the destination.</summary>
    public required Arrival Arrival { get; init; }
    public required RoutePosts Posts { get; init; }

    /// <summary>Places left behind, the origin first.</summary>
    public ImmutableArray<AiredAt> Aired { get; init; } = [];

    /// <summary>Number of the place where those who give care take off; null: the floor plan does not say.</summary>
    public string? DoffingPlace { get; init; }

    /// <summary>Precautions under which the site has places cleaned before they are used again.</summary>
    public PrecautionSet PlacesCleanedFor { get; init; }
    public TimelineSettings Settings { get; init; } = new();

    /// <summary>Every shift change that can matter; null: nobody said when shifts change.</summary>
    public ImmutableArray<DateTimeOffset>? ShiftChanges { get; init; }

    /// <summary>For so long before and after a shift change its people are busy with it.</summary>
    public TimeSpan ShiftChangeLasts { get; init; }
}

/// <summary>
/// Counts back from go. The chain: call, huddle, kit, hand hygiene, donning, loading, trial, time-out, wiping, go check. Beside it, each after the call: the
/// clean helper dresses by the go check, receiver and watcher by the earliest arrival, posts are manned and elevators captured as the posts say. The longest of
/// these is the lead. Deterministic; a later go never has less time.
/// </summary>
public static class TimelineMaker
{
    private static readonly ImmutableArray<PlanRole> CareGivers = [PlanRole.TeamLead, PlanRole.RespiratoryTherapist, PlanRole.TransportNurse];

    /// <exception cref="ArgumentNullException">No request.</exception>
    public static TimelineOfRoute For(TimelineRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var lead = Lead(request);
        var (fits, earliest) = (request.Go - lead >= request.Now, CeilingToMinute(request.Now + lead));
        return new(
            request.RouteId, request.Tempo, request.Now, lead, fits && request.Go < earliest ? request.Go : earliest,
            Count(request, request.Go, lead), fits ? null : Count(request, earliest, lead));
    }

    /// <summary>Both tempos of one way, planned first.</summary>
    internal static IEnumerable<TimelineOfRoute> For(FloorGraph graph, PlanRequest request, Route route, RoutePosts posts, ImmutableArray<AiringOfPlace> airing, DateTimeOffset now) =>
        Enum.GetValues<Tempo>().Select(tempo => For(new TimelineRequest
        {
            RouteId = route.Id,
            Tempo = tempo,
            Now = now,
            Go = request.Route.Travel.Departure,
            Support = request.Support,
            Precautions = request.Route.Precautions,
            WithHelper = request.Route.Travel.WithHelper,
            Arrival = route.Arrivals[^1],
            Posts = posts,
            Aired = Aired(graph, request, route, posts, airing),
            DoffingPlace = WearByLeg.For(graph.Plan, route, request.Route, request.Settings.WearOnWay).DoffingPlace,
            PlacesCleanedFor = request.Settings.Posts.PlacesCleanedFor,
            Settings = request.Settings.Timeline,
            ShiftChanges = request.Settings.ShiftChanges,
            ShiftChangeLasts = request.Settings.ShiftChangeLasts,
        }));

    /// <summary>Places of the way but cars, which are given back: nearly always left, held as long as the site says, then aired.</summary>
    private static ImmutableArray<AiredAt> Aired(FloorGraph graph, PlanRequest request, Route route, RoutePosts posts, ImmutableArray<AiringOfPlace> airing) =>
    [
        .. from crossing in route.Arcs.Select((arc, i) => (Place: graph.Plan.Places[graph.ArcPlace[arc]], Leaves: route.Arrivals[i + 1]))
           group crossing.Leaves by crossing.Place into crossings
           where crossings.Key.Kind != PlaceKind.ElevatorCar
           let aired = airing.FirstOrDefault(place => place.Place == crossings.Key.Number)
           where aired is not null
           let left = posts.Places.FirstOrDefault(held => held.Place == aired.Place)?.Held.To
               ?? request.Route.Travel.Departure.AddSeconds(crossings.Last().NearlyAlwaysSeconds)
           select new AiredAt(aired.Place, left, left.AddMinutes(aired.Time.Minutes)),
    ];

    private static TimeSpan Lead(TimelineRequest request)
    {
        var (settings, tempo) = (request.Settings, request.Tempo);
        var call = Seconds(settings.Call, tempo);
        TimeSpan[] branches =
        [
            Chain(request).Aggregate(TimeSpan.Zero, (sum, step) => sum + Seconds(step.Lasts, tempo)),
            call + Dressing(request, ReceiverDonning(request)) - TimeSpan.FromSeconds(request.Arrival.EarliestSeconds),
            .. request.Posts.Posts.Select(post => call + (request.Go - post.Window.From)),
            .. request.Posts.Elevators.Select(car => call + (request.Go - car.Captured.From)),
        ];
        return branches.Max();
    }

    private static Timeline Count(TimelineRequest request, DateTimeOffset go, TimeSpan lead)
    {
        var chain = BackFrom(request, go, lead);
        var before = chain.Concat(Beside(request, go)).OrderBy(step => step.From).ThenBy(step => step.Kind);
        ImmutableArray<TimelineStep> steps = [.. before, .. After(request, go)];
        return new(go, go - lead, chain.First(step => step.Kind == TimelineStepKind.HandHygiene).From, steps, Conflicts(request, steps));
    }

    /// <summary>The chain on the clock; the call first, as early as the longest branch needs it.</summary>
    private static List<TimelineStep> BackFrom(TimelineRequest request, DateTimeOffset go, TimeSpan lead)
    {
        var (to, steps) = (go, new List<TimelineStep>());
        foreach (var (kind, who, lasts) in Chain(request).Reverse())
        {
            var from = to - Seconds(lasts, request.Tempo);
            steps.Add(kind == TimelineStepKind.Call
                ? new(kind, who, go - lead, go - lead + Seconds(lasts, request.Tempo), lasts)
                : new(kind, who, from, to, lasts, null, kind == TimelineStepKind.Donning ? request.Settings.DonningTurns.At(request.Tempo) : null));
            to = from;
        }

        steps.Reverse();
        return steps;
    }

    private static IEnumerable<(TimelineStepKind Kind, ImmutableArray<PlanRole> Who, StepTime Lasts)> Chain(TimelineRequest request)
    {
        var settings = request.Settings;
        yield return (TimelineStepKind.Call, Called(request), settings.Call);
        yield return (TimelineStepKind.Huddle, request.WithHelper ? [.. CareGivers, PlanRole.CleanHelper] : CareGivers, settings.Huddle);
        yield return (TimelineStepKind.Kit, [PlanRole.RespiratoryTherapist, PlanRole.TransportNurse], settings.Kit);
        yield return (TimelineStepKind.HandHygiene, CareGivers, settings.HandHygiene);
        if (Donning(request) is { PlannedSeconds: > 0 } donning)
            yield return (TimelineStepKind.Donning, CareGivers, donning.In(settings.DonningTurns));
        yield return (TimelineStepKind.Loading, CareGivers, settings.Loading);
        if (TimelineSettings.NeedsTrial(request.Support))
            yield return (TimelineStepKind.Trial, [PlanRole.RespiratoryTherapist], settings.Trial);
        yield return (TimelineStepKind.TimeOut, CareGivers, settings.TimeOut);
        if (request.Precautions != PrecautionSet.None)
            yield return (TimelineStepKind.Wipe, [PlanRole.TransportNurse], settings.Wipe);
        yield return (TimelineStepKind.GoCheck, [PlanRole.TeamLead, PlanRole.Security], settings.GoCheck);
    }

    private static IEnumerable<TimelineStep> Beside(TimelineRequest request, DateTimeOffset go)
    {
        var shift = go - request.Go;
        if (request.WithHelper)
        {
            var (ready, one) = (go - Seconds(request.Settings.GoCheck, request.Tempo), Donning(request));
            yield return new(TimelineStepKind.HelperDonning, [PlanRole.CleanHelper], ready - Dressing(request, one), ready, one);
        }

        var (dressed, both) = (go.AddSeconds(request.Arrival.EarliestSeconds), ReceiverDonning(request));
        yield return new(
            TimelineStepKind.ReceiverDonning, [PlanRole.ReceivingNurse, PlanRole.DoffingWatcher], dressed - Dressing(request, both), dressed, both, null,
            both.PlannedSeconds > 0 ? request.Settings.DonningTurns.At(request.Tempo) : null);
        if (!request.Posts.Posts.IsEmpty)
        {
            yield return new(
                TimelineStepKind.PostsManned, [PlanRole.Security],
                request.Posts.Posts.Min(post => post.Window.From) + shift, request.Posts.Posts.Max(post => post.Window.From) + shift);
        }

        foreach (var car in request.Posts.Elevators)
            yield return new(TimelineStepKind.ElevatorCaptured, [PlanRole.Security], car.Captured.From + shift, car.Captured.To + shift, null, car.Name);
    }

    private static IEnumerable<TimelineStep> After(TimelineRequest request, DateTimeOffset go)
    {
        var (settings, shift) = (request.Settings, go - request.Go);
        var turns = DoffingTurns(request);
        var doffing = settings.DoffingFor(request.Precautions).In(turns);
        var (usually, nearly) = (go.AddSeconds(request.Arrival.UsuallySeconds), go.AddSeconds(request.Arrival.NearlyAlwaysSeconds));
        var (handOver, off) = (Seconds(settings.HandOver, request.Tempo), Seconds(doffing, request.Tempo));
        yield return new(TimelineStepKind.Arrival, CareGivers, usually, nearly);
        yield return new(TimelineStepKind.HandOver, [.. CareGivers, PlanRole.ReceivingNurse], usually, nearly + handOver, settings.HandOver);
        yield return new(TimelineStepKind.Doffing, [.. CareGivers, PlanRole.DoffingWatcher], usually + handOver, nearly + handOver + off, doffing, null, request.Precautions == PrecautionSet.None ? null : turns.Planned);
        if (!request.Posts.Posts.IsEmpty)
        {
            var released = request.Posts.Posts.Max(post => post.Window.To) + shift;
            yield return new(TimelineStepKind.PostsReleased, [PlanRole.Security], released, released);
        }

        foreach (var car in request.Posts.Elevators)
            yield return new(TimelineStepKind.ElevatorGivenBack, [PlanRole.Security, PlanRole.EnvironmentalServices], car.GivenBack + shift, car.GivenBack + shift, null, car.Name);
        // Where people take off, they are still there when the incubator has long left.
        var takenOff = nearly + handOver + off;
        var aired = request.Aired.Select(place => (place.Place, From: place.Place == request.DoffingPlace && takenOff > place.LeftAt + shift ? takenOff : place.LeftAt + shift, Lasts: place.NotBefore - place.LeftAt))
            .Select(place => new TimelineStep(TimelineStepKind.Airing, [PlanRole.EnvironmentalServices], place.From, place.From + place.Lasts, null, place.Place)).ToList();
        // The origin is asked for next; of all the others the last one ends the job.
        foreach (var airing in aired.Take(1).Concat(aired.Skip(1).OrderBy(place => place.To).TakeLast(1)))
            yield return airing;
        if (aired is [var origin, ..] && (request.PlacesCleanedFor & request.Precautions) != PrecautionSet.None)
            yield return new(TimelineStepKind.RoomCleaning, [PlanRole.EnvironmentalServices], origin.To, origin.To, null, origin.Place);
        yield return new(
            TimelineStepKind.IncubatorCleaning, [PlanRole.RespiratoryTherapist, PlanRole.EnvironmentalServices],
            usually + handOver, nearly + handOver + Seconds(settings.IncubatorCleaning, request.Tempo), settings.IncubatorCleaning);
    }

    private static ImmutableArray<ShiftConflict>? Conflicts(TimelineRequest request, ImmutableArray<TimelineStep> steps) => request.ShiftChanges is not { } changes
        ? null
        :
        [
            .. from change in changes.Order()
               let window = (From: change - request.ShiftChangeLasts, To: change + request.ShiftChangeLasts)
               let bound = steps.Where(step => step.Kind < TimelineStepKind.Airing && step.From <= window.To && step.To >= window.From).Select(step => step.Kind).Distinct()
               where bound.Any()
               select new ShiftConflict(change, window.From, window.To, [.. bound]),
        ];

    private static ImmutableArray<PlanRole> Called(TimelineRequest request) => [.. Enum.GetValues<PlanRole>().Where(role => role != PlanRole.CleanHelper || request.WithHelper)];

    private static StepTime Donning(TimelineRequest request) => request.Settings.Donning is { } own && request.Precautions != PrecautionSet.None
        ? own
        : TimelineSettings.DonningFor(request.Precautions);

    /// <summary>Two people, who watch each other as the care givers do.</summary>
    private static StepTime ReceiverDonning(TimelineRequest request) => Donning(request).In(request.Settings.DonningTurns);

    /// <summary>Of somebody who is not in the chain: hand hygiene, then the whole set, which is more than a helper wears.</summary>
    private static TimeSpan Dressing(TimelineRequest request, StepTime donning) => Seconds(request.Settings.HandHygiene, request.Tempo) + Seconds(donning, request.Tempo);

    /// <summary>As many turns as it takes until each care giver has taken off; without precautions all clean their hands at once.</summary>
    private static Turns DoffingTurns(TimelineRequest request)
    {
        if (request.Precautions == PrecautionSet.None)
            return new(1, 1, IsAssumed: false);
        var (atOnce, settings) = (Math.Clamp(request.Settings.DoffingAtOnce, 1, Turns.Max), request.Settings);
        var turns = (CareGivers.Length + atOnce - 1) / atOnce;
        return new(turns, turns, settings.DoffingAtOnceIsAssumed);
    }

    private static TimeSpan Seconds(StepTime time, Tempo tempo) => TimeSpan.FromSeconds(time.Seconds(tempo));

    private static DateTimeOffset CeilingToMinute(DateTimeOffset instant) =>
        instant.AddTicks((TimeSpan.TicksPerMinute - instant.UtcTicks % TimeSpan.TicksPerMinute) % TimeSpan.TicksPerMinute);
}
