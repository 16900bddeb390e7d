using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>Fit and time of one conveyance on one published floor graph: what each arc forbids, leaves unknown, and takes. Immutable.</summary>
/// <remarks>
/// An arc answers for the place it crosses, for the turns in it, and for the passage at its end; the passage it came through was answered
/// for by the arc before. Findings are made once for each published graph and conveyance, closures added for each query, so that a query
/// over all arcs is cheap.
/// </remarks>
public sealed class TravelProfile
{
    // Which elevator's car a traversal enters, −1: none. Belongs to the published graph.
    private static readonly ConditionalWeakTable<FloorGraph, int[]> ElevatorsEntered = [];

    private readonly GraphFit _fit;
    private readonly LimitFindings[] _passages;
    private readonly LimitFindings[] _places;
    private readonly LimitFindings[] _elevators;
    private readonly int[] _elevatorEntered;
    private readonly ArcTimes _times;
    private readonly DurationEstimate[] _doors;
    private readonly DurationEstimate[] _waits;
    private readonly Dictionary<(int Elevator, double Rise), DurationEstimate> _rides = [];

    private TravelProfile(FloorGraph graph, TravelQuery query)
    {
        (Graph, Query) = (graph, query);
        var plan = graph.Plan;
        Quarter = LocalQuarterHour.At(plan.TimeZone, query.Departure);
        var limits = new FitLimits(query, plan.TimeZone);
        _fit = GraphFit.For(graph, query, limits);
        (_passages, _places, _elevators) = (_fit.Passages, _fit.Places, _fit.Elevators);
        if (limits.HasClosures)
        {
            _passages = [.. _passages.Zip(plan.Passages, limits.Closed)];
            _places = [.. _places.Zip(plan.Places, limits.Closed)];
            _elevators = [.. _elevators.Zip(plan.Elevators, limits.Closed)];
        }

        _elevatorEntered = ElevatorsEntered.GetValue(graph, ElevatorByTraversal);
        _times = new(plan, query, Quarter);
        _doors = [.. plan.Passages.Select(_times.Door)];
        _waits = [.. plan.Elevators.Select(_times.Wait)];
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            if (graph.ArcElevator[arc] is var ridden and >= 0)
            {
                _rides.TryAdd((ridden, graph.ArcRiseMetres[arc]), default);
            }
        }

        foreach (var (elevator, rise) in _rides.Keys.ToList())
        {
            _rides[(elevator, rise)] = _times.Ride(plan.Elevators[elevator], rise);
        }
    }

    public FloorGraph Graph { get; }
    public TravelQuery Query { get; }

    /// <summary>The planning quarter-hour of departure, for which waits hold.</summary>
    public LocalQuarterHour Quarter { get; }

    /// <exception cref="TimeZoneNotFoundException">The plan's time zone is not in the time zone database.</exception>
    public static TravelProfile For(FloorGraph graph, TravelQuery query)
    {
        ArgumentNullException.ThrowIfNull(graph);
        ArgumentNullException.ThrowIfNull(query);
        return new(graph, query);
    }

    /// <summary>The first hard limit that fails on an arc: of the place, the car, the passage at its end, then of its turns. Null where the conveyance passes, unknown limits included.</summary>
    public Obstacle? ObstacleOf(int arc)
    {
        if (_places[Graph.ArcPlace[arc]].Obstacle is { } inPlace)
        {
            return inPlace;
        }

        if (Graph.ArcElevator[arc] is var elevator and >= 0 && _elevators[elevator].Obstacle is { } inCar)
        {
            return inCar;
        }

        if (PassageAtEnd(arc) is { } passage && _passages[passage].Obstacle is { } atEnd)
        {
            return atEnd;
        }

        return _fit.Corners[arc];
    }

    /// <summary>Every check that could not be made on an arc. Empty: all were made.</summary>
    public ImmutableArray<UnknownLimit> UnknownOf(int arc)
    {
        var unknown = _places[Graph.ArcPlace[arc]].Unknown;
        if (Graph.ArcElevator[arc] is var elevator and >= 0)
        {
            unknown = unknown.AddRange(_elevators[elevator].Unknown);
        }

        if (Graph.ArcTurns[arc].Any(turn => _fit.LongestBox(turn) is null))
        {
            unknown = unknown.Add(FitLimits.UnknownCorner(NumberOf(arc)));
        }

        return PassageAtEnd(arc) is { } passage ? unknown.AddRange(_passages[passage].Unknown) : unknown;
    }

    /// <summary>Time of an arc by its parts, whether or not the conveyance fits.</summary>
    public TravelTime TimeOf(int arc)
    {
        if (Graph.ArcElevator[arc] is var ridden and >= 0)
        {
            var elevator = Graph.Plan.Elevators[ridden];
            return new(
                DurationEstimate.Zero, DurationEstimate.Zero, DurationEstimate.Zero, _rides[(ridden, Graph.ArcRiseMetres[arc])],
                elevator.StallProbability.Or(Query.Settings.StallProbability), elevator.StallDuration.Or(Query.Settings.StallDuration));
        }

        var index = PassageAtEnd(arc);
        var end = index is { } passage ? Graph.Plan.Passages[passage] : null;
        return new(
            _times.Walking(Graph.Plan.Places[Graph.ArcPlace[arc]], Graph.ArcLength[arc], Graph.ArcTurns[arc].Length, end),
            index is { } door ? _doors[door] : DurationEstimate.Zero,
            CarCalled(arc) is var called and >= 0 ? _waits[called] : DurationEstimate.Zero,
            DurationEstimate.Zero, 0, DurationEstimate.Zero);
    }

    /// <summary>How the time of a ride comes about, with the numbers put in; null where nothing is ridden.</summary>
    public string? RideWorkingOf(int arc) => Graph.ArcElevator[arc] is var ridden and >= 0
        ? _times.RideWorking(Graph.Plan.Elevators[ridden], Graph.ArcRiseMetres[arc])
        : null;

    /// <summary>Metres of an arc that are walked at the slow pace; 0 for a ride.</summary>
    public double SlowMetresOf(int arc) => Graph.ArcElevator[arc] >= 0 ? 0 : _times.SlowMetres(
        Graph.Plan.Places[Graph.ArcPlace[arc]], Graph.ArcLength[arc], Graph.ArcTurns[arc].Length,
        PassageAtEnd(arc) is { } passage ? Graph.Plan.Passages[passage] : null);

    /// <summary>Times on an arc that rest on a default of the settings because the plan has none, in words: shown as <i>assumed</i>.</summary>
    public ImmutableArray<string> AssumedOf(int arc) =>
        Graph.ArcElevator[arc] is var ridden and >= 0
            ? [.. ArcTimes.Assumed(Graph.Plan.Elevators[ridden])]
            : [
                .. PassageAtEnd(arc) is { } passage ? _times.Assumed(Graph.Plan.Passages[passage]) : [],
                .. ElevatorCalled(arc) is { } called ? _times.AssumedWait(called) : [],
            ];

    /// <summary>Index of the passage through which an arc leaves its place; null where it ends at the standing point.</summary>
    public int? PassageAtEnd(int arc) => Graph.IsTraversal(Graph.ArcTarget[arc]) ? FloorGraph.PassageOf(Graph.ArcTarget[arc]) : null;

    /// <summary>The elevator that is called on an arc over a landing which ends in its car; null elsewhere.</summary>
    public Elevator? ElevatorCalled(int arc) => CarCalled(arc) is var called and >= 0 ? Graph.Plan.Elevators[called] : null;

    private int CarCalled(int arc) =>
        Graph.ArcElevator[arc] < 0 && Graph.IsTraversal(Graph.ArcTarget[arc]) ? _elevatorEntered[Graph.ArcTarget[arc]] : -1;

    private static int[] ElevatorByTraversal(FloorGraph graph)
    {
        var byCar = graph.Plan.Elevators.Select((elevator, i) => (elevator.Car, i)).ToDictionary(pair => pair.Car, pair => pair.i);
        return
        [
            .. Enumerable.Range(0, 2 * graph.PassageCount)
                .Select(v => byCar.TryGetValue(graph.Plan.Places[graph.PlaceEntered(v)].Number, out var elevator) ? elevator : -1)
        ];
    }

    /// <summary>Mean wait in seconds for a car that nobody keeps, in the quarter-hour of departure.</summary>
    public double MeanCallWaitSeconds(Elevator elevator) => _times.MeanCallWaitSeconds(elevator);

    private string NumberOf(int arc) => Graph.Plan.Places[Graph.ArcPlace[arc]].Number;
}
