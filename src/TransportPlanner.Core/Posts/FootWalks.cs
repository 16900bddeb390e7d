using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Posts;

/// <summary>
/// Walking times of people on foot over a floor graph: every passage and stair flight, no fit limits, no elevators, through closures never.
/// Whoever walks has the badges and keys (assumed). Times from one passage are computed once and kept with the published plan.
/// </summary>
public sealed class FootWalks
{
    private static readonly ConditionalWeakTable<FloorGraph, FootWalks> Latest = [];

    private readonly FloorGraph _graph;
    private readonly (WalkingSpeed Level, WalkingSpeed Stairs, string Closed) _basis;
    private readonly CostGraph _times;
    private readonly System.Collections.BitArray _usable;
    private readonly ConcurrentDictionary<int, int[]> _fromVertex = [];

    private FootWalks(FloorGraph graph, (WalkingSpeed Level, WalkingSpeed Stairs, string Closed) basis, HashSet<(ClosureTarget, string)> closed)
    {
        (_graph, _basis, _usable) = (graph, basis, new(graph.ArcCount));
        var milliseconds = new int[graph.ArcCount];
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            var end = graph.IsTraversal(graph.ArcTarget[arc]) ? FloorGraph.PassageOf(graph.ArcTarget[arc]) : -1;
            milliseconds[arc] = Milliseconds(graph.ArcLength[arc], basis.Level) + (end < 0 ? 0 : Milliseconds(graph.FlightLength[end], basis.Stairs));
            var place = graph.Plan.Places[graph.ArcPlace[arc]];
            _usable[arc] = graph.ArcElevator[arc] < 0 && !place.Flags.HasFlag(PlaceFlags.NoEntry) && !IsThroughRoom(arc, place)
                && !closed.Contains((ClosureTarget.Place, place.Number))
                && (end < 0 || !closed.Contains((ClosureTarget.Passage, graph.Plan.Passages[end].Id)));
        }

        _times = new(graph.VertexCount, 1, graph.ArcSource.AsSpan(), graph.ArcTarget.AsSpan(), milliseconds);
    }

    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="settings">Speeds; neither may be zero.</param>
    /// <param name="travel">Its closures that touch the hour after departure are not walked through.</param>
    /// <exception cref="ArgumentException">A speed is zero.</exception>
    public static FootWalks For(FloorGraph graph, PostSettings settings, TravelQuery travel)
    {
        ArgumentNullException.ThrowIfNull(travel);
        return Around(graph, settings, travel.Closures.Where(closure => closure.Overlaps(travel.Departure, travel.Departure + travel.Settings.ClosureWindow)));
    }

    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="settings">Speeds; neither may be zero.</param>
    /// <param name="closures">What is never walked through.</param>
    /// <exception cref="ArgumentException">A speed is zero.</exception>
    public static FootWalks Around(FloorGraph graph, PostSettings settings, IEnumerable<Closure> closures)
    {
        ArgumentNullException.ThrowIfNull(graph);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(closures);
        if (settings.OfficerSpeed == WalkingSpeed.Zero || settings.OfficerStairSpeed == WalkingSpeed.Zero)
        {
            throw new ArgumentException("Give officers a speed above 0 on the level and on stairs.", nameof(settings));
        }

        var closed = closures.Select(closure => (closure.Target, closure.TargetId)).ToHashSet();
        var basis = (settings.OfficerSpeed, settings.OfficerStairSpeed, string.Join('\n', closed.Select(c => $"{c.Target} {c.TargetId}").Order(StringComparer.Ordinal)));
        if (!Latest.TryGetValue(graph, out var walks) || walks._basis != basis)
        {
            walks = new(graph, basis, closed);
            Latest.AddOrUpdate(graph, walks);
        }

        return walks;
    }

    /// <summary>Whole seconds, rounded up, from the middle of one passage to the middle of another; 0 for the same; null where nobody can walk there.</summary>
    /// <exception cref="KeyNotFoundException">No passage of the floor plan has the id.</exception>
    public int? SecondsBetween(string passage, string other)
    {
        var (from, to) = (_graph.PassageIndex[passage], _graph.PassageIndex[other]);
        return from == to ? 0 : Least([2 * from, 2 * from + 1], to);
    }

    /// <summary>Whole seconds, rounded up, from the standing point of a place to the middle of a passage; null where nobody can walk there.</summary>
    /// <exception cref="KeyNotFoundException">The floor plan has no such place or passage.</exception>
    public int? SecondsFrom(string place, string passage) =>
        Least([_graph.DepartureVertex(_graph.PlaceIndex[place])], _graph.PassageIndex[passage], _graph.ArrivalVertex(_graph.PlaceIndex[place]));

    private int? Least(ImmutableArray<int> roots, int passage, int start = -1)
    {
        var cost = _fromVertex.GetOrAdd(roots[0], _ => QuickestTree.From(_times, roots.AsSpan(), _usable).Cost);
        var least = Math.Min(cost[2 * passage], cost[2 * passage + 1]);
        return (least = Math.Min(least, StandingBefore(cost, passage, start))) == QuickestTree.Unreachable ? null : (least + 999) / 1000;
    }

    /// <summary>
    /// Who keeps a one-way door need not go through it: the least cost of coming into a place beside it by any other passage, and of walking
    /// up to it from there, which is as far as from it to there. Whoever starts in that place, at <paramref name="start"/>, only walks up to it.
    /// </summary>
    private int StandingBefore(int[] cost, int passage, int start)
    {
        var least = QuickestTree.Unreachable;
        for (var arc = _graph.FirstArc[2 * passage]; arc < _graph.FirstArc[2 * passage + 2]; arc++)
        {
            // The other traversal of the passage that the arc leaves by enters the place that the arc crosses.
            var target = _graph.ArcTarget[arc];
            if (_usable[arc] && target == start)
            {
                least = Math.Min(least, Milliseconds(_graph.ArcLength[arc], _basis.Level));
            }
            else if (_usable[arc] && _graph.IsTraversal(target) && cost[target ^ 1] is var before and not QuickestTree.Unreachable)
            {
                least = Math.Min(least, before + Milliseconds(_graph.ArcLength[arc], _basis.Level));
            }
        }

        return least;
    }

    /// <summary>A room where people are cared for or work is no corridor for an officer either: in and out by one door only.</summary>
    private bool IsThroughRoom(int arc, Place place) => RoomsOnTheWay.IsRoom(place.Kind) && _graph.IsTraversal(_graph.ArcSource[arc]) && _graph.IsTraversal(_graph.ArcTarget[arc])
        && FloorGraph.PassageOf(_graph.ArcSource[arc]) != FloorGraph.PassageOf(_graph.ArcTarget[arc]);

    private static int Milliseconds(int millimetres, WalkingSpeed speed) =>
        (int)Math.Ceiling(millimetres * 1000.0 / speed.MillimetresPerSecond);
}
