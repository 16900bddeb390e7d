using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>Fit and time of one conveyance on one published floor graph: what each arc forbids, leaves unknown, and takes. Immutable.</summary>
/// <remarks>
/// An arc answers for the place it crosses, for the turns in it, and for the passage at its end; the passage it came through was answered
/// for by the arc before. Findings are made once per passage, place, car and pair of widths, so that a query over all arcs is cheap.
/// </remarks>
public sealed class TravelProfile
{
    private readonly ImmutableArray<LimitFindings> _passages;
    private readonly ImmutableArray<LimitFindings> _places;
    private readonly ImmutableArray<LimitFindings> _elevators;
    private readonly Dictionary<(int, int), double?> _longestBoxes = [];
    private readonly Dictionary<string, int> _elevatorOfCar;
    private readonly FitLimits _limits;
    private readonly ArcTimes _times;

    private TravelProfile(FloorGraph graph, TravelQuery query)
    {
        (Graph, Query) = (graph, query);
        var plan = graph.Plan;
        Quarter = LocalQuarterHour.At(plan.TimeZone, query.Departure);
        _limits = new(query, plan.TimeZone);
        _times = new(plan, query, Quarter);
        _passages = [.. plan.Passages.Select(_limits.Of)];
        _places = [.. plan.Places.Select(_limits.Of)];
        _elevators = [.. plan.Elevators.Select(_limits.Of)];
        _elevatorOfCar = plan.Elevators.Select((elevator, i) => (elevator.Car, i)).ToDictionary(pair => pair.Car, pair => pair.i);
        foreach (var turn in graph.ArcTurns.SelectMany(turns => turns))
        {
            if (!_longestBoxes.ContainsKey(Widths(turn)))
            {
                _longestBoxes[Widths(turn)] = _limits.LongestBox(turn);
            }
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

        foreach (var turn in Graph.ArcTurns[arc])
        {
            if (_limits.Corner(NumberOf(arc), turn, _longestBoxes[Widths(turn)]) is { } corner)
            {
                return corner;
            }
        }

        return null;
    }

    /// <summary>Every check that could not be made on an arc. Empty: all were made.</summary>
    public ImmutableArray<UnknownLimit> UnknownOf(int arc)
    {
        var unknown = _places[Graph.ArcPlace[arc]].Unknown;
        if (Graph.ArcElevator[arc] is var elevator and >= 0)
        {
            unknown = unknown.AddRange(_elevators[elevator].Unknown);
        }

        if (Graph.ArcTurns[arc].Any(turn => _longestBoxes[Widths(turn)] is null))
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
                DurationEstimate.Zero, DurationEstimate.Zero, DurationEstimate.Zero, _times.Ride(elevator, Graph.ArcRiseMetres[arc]),
                elevator.StallProbability.Or(Query.Settings.StallProbability), elevator.StallDuration.Or(Query.Settings.StallDuration));
        }

        var end = PassageAtEnd(arc) is { } index ? Graph.Plan.Passages[index] : null;
        return new(
            _times.Walking(Graph.Plan.Places[Graph.ArcPlace[arc]], Graph.ArcLength[arc], Graph.ArcTurns[arc].Length, end),
            end is null ? DurationEstimate.Zero : _times.Door(end),
            ElevatorCalled(arc) is { } called ? _times.Wait(called) : DurationEstimate.Zero,
            DurationEstimate.Zero, 0, DurationEstimate.Zero);
    }

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
    public Elevator? ElevatorCalled(int arc) =>
        Graph.ArcElevator[arc] < 0 && Graph.IsTraversal(Graph.ArcTarget[arc])
        && _elevatorOfCar.TryGetValue(Graph.Plan.Places[Graph.PlaceEntered(Graph.ArcTarget[arc])].Number, out var index)
            ? Graph.Plan.Elevators[index]
            : null;

    private string NumberOf(int arc) => Graph.Plan.Places[Graph.ArcPlace[arc]].Number;

    private static (int, int) Widths(Turn turn) => (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres);
}
