using System.Collections;
using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Fails every door, elevator and place of a way in turn (N−1) and finds the quickest way on from where the team then stands.</summary>
/// <remarks>
/// A* with the unfailed least times to the destination as bounds: what fails only takes arcs away, so they stay below the truth. An
/// elevator that the way on calls for was not held ahead, so its mean call wait is added.
/// </remarks>
internal sealed class Fallbacks
{
    private readonly PricedGraph _priced;
    private readonly FloorGraph _floor;
    private readonly int _target;
    private readonly Reachable _usual;
    private readonly Lazy<Reachable> _throughRooms;
    private readonly Lazy<(Reachable Usual, Reachable ThroughRooms)> _anywhere;
    private readonly int[] _waits;
    private readonly int[] _cost;
    private readonly int[] _arc;
    private readonly int[] _stamp;
    private int _run;

    public Fallbacks(PricedGraph priced, int target)
    {
        (_priced, _floor, _target) = (priced, priced.Floor, target);
        _usual = Reachable.Over(priced, target, priced.Allowed);
        _throughRooms = new(() => Reachable.Over(priced, target, priced.AllowedThroughRooms));
        _anywhere = new(() => (new(priced.Allowed, new int[_floor.VertexCount]), new(priced.AllowedThroughRooms, new int[_floor.VertexCount])));
        _waits = [.. Enumerable.Range(0, _floor.ArcCount).Select(UnheldWaitTenths)];
        (_cost, _arc, _stamp) = (new int[_floor.VertexCount], new int[_floor.VertexCount], new int[_floor.VertexCount]);
    }

    /// <param name="arcs">The way, from origin to destination.</param>
    /// <param name="legOf">Position of the leg that each of the arcs belongs to.</param>
    public ImmutableArray<PlanB> Of(ImmutableArray<int> arcs, ReadOnlySpan<int> legOf)
    {
        var found = ImmutableArray.CreateBuilder<PlanB>();
        var tenths = 0;
        for (var i = 0; i < arcs.Length; i++)
        {
            var (arc, end) = (arcs[i], _floor.ArcTarget[arcs[i]]);
            var time = _priced.Travel.TimeOf(arc);
            if (_priced.Travel.ElevatorCalled(arc) is { } called)
            {
                var atLanding = tenths + Tenths(time.Walking.ExpectedSeconds);
                var elevator = _floor.ArcElevator[arcs[i + 1]];
                found.Add(Way(ClosureTarget.Elevator, called.Id, atLanding, i, other => _floor.ArcElevator[other] == elevator, arcs, legOf[i]));
            }
            else if (_floor.IsTraversal(end) && _floor.ArcElevator[arc] < 0 && _floor.Plan.Passages[FloorGraph.PassageOf(end)] is { IsDoor: true } door)
            {
                var passage = FloorGraph.PassageOf(end);
                var atDoor = tenths + Tenths(time.Walking.ExpectedSeconds + time.Wait.ExpectedSeconds);
                found.Add(Way(
                    ClosureTarget.Passage, door.Id, atDoor, i,
                    other => _floor.IsTraversal(_floor.ArcTarget[other]) && FloorGraph.PassageOf(_floor.ArcTarget[other]) == passage, arcs, legOf[i]));
            }

            tenths += _priced.TimeTenths(arc);
            if (i + 2 < arcs.Length && _floor.ArcElevator[arcs[i + 1]] < 0)
            {
                var place = _floor.ArcPlace[arcs[i + 1]];
                found.Add(Way(ClosureTarget.Place, _floor.Plan.Places[place].Number, tenths, i, other => _floor.ArcPlace[other] == place, arcs, legOf[i]));
            }
        }

        return found.ToImmutable();
    }

    /// <summary>Arcs that may be used, and the least time over them from every vertex to the destination.</summary>
    private sealed record Reachable(BitArray Allowed, int[] Bounds)
    {
        public static Reachable Over(PricedGraph priced, int target, BitArray allowed) =>
            new(allowed, QuickestTree.To(priced.Costs, [target], allowed).Cost);
    }

    private PlanB Way(ClosureTarget kind, string id, int tenths, int at, Func<int, bool> failed, ImmutableArray<int> arcs, int leg)
    {
        var (start, back) = Standing(arcs[at]);
        var way = Quickest(start, IsTarget, failed, _usual) ?? Quickest(start, IsTarget, failed, _throughRooms.Value);
        var joined = way is null ? 0 : CommonEnd(way, arcs);
        var apart = way?.Take(way.Count - joined).ToList() ?? [];
        return new()
        {
            FailedKind = kind,
            FailedId = id,
            DiscoveredAt = _floor.Plan.Places[_floor.ArcPlace[arcs[at]]].Number,
            DiscoveredSeconds = tenths / 10.0,
            Leg = leg,
            ArrivalSeconds = way is null ? null : (tenths + back + way.Sum(CostOf)) / 10.0,
            Via = [.. apart.Select(NameOf)],
            ThroughRooms = _priced.Rooms.Of([.. apart]),
            RejoinsAt = joined == 0 ? null : _floor.Plan.Places[_floor.ArcPlace[way![^joined]]].Number,
            BailOut = way is null ? BailOut(_floor.ArcPlace[arcs[at]], start, back, failed) : null,
        };
    }

    private bool IsTarget(int vertex) => vertex == _target;

    /// <summary>The nearest one with what has failed taken away, since the one that the leg names may lie behind it.</summary>
    private NearbyPlace? BailOut(int standingIn, int start, int backTenths, Func<int, bool> failed)
    {
        if (_floor.Plan.Places[standingIn] is var here && here.Has(FacilityKind.BailOut))
        {
            return new(here.Number, here.Level!, 0, 0);
        }

        var way = Quickest(start, IsArrivalAtBailOut, failed, _anywhere.Value.Usual) ?? Quickest(start, IsArrivalAtBailOut, failed, _anywhere.Value.ThroughRooms);
        if (way is not [.., var last])
        {
            return null;
        }

        var place = _floor.Plan.Places[PlaceOf(_floor.ArcTarget[last])];
        return new(place.Number, place.Level!, Math.Round(way.Sum(arc => (long)_floor.ArcLength[arc]) / 1000.0, 1), (backTenths + way.Sum(CostOf)) / 10.0);
    }

    private int PlaceOf(int arrival) => (arrival - _floor.ArrivalVertex(0)) / 2;

    private bool IsArrivalAtBailOut(int vertex) =>
        vertex >= _floor.ArrivalVertex(0) && (vertex - _floor.ArrivalVertex(0)) % 2 == 0 && _floor.Plan.Places[PlaceOf(vertex)].Has(FacilityKind.BailOut);

    /// <summary>
    /// The vertex from which the team goes on after an arc that it could not leave by its end: as if it had come in through that passage.
    /// A one-way passage has no such vertex: the team goes back to where the arc began, which takes the arc's time once more.
    /// </summary>
    private (int Vertex, int Tenths) Standing(int arc)
    {
        var end = _floor.ArcTarget[arc];
        return _floor.Plan.Passages[FloorGraph.PassageOf(end)].Direction == PassageDirection.BothWays
            ? (end ^ 1, 0)
            : (_floor.ArcSource[arc], _priced.TimeTenths(arc));
    }

    private List<int>? Quickest(int start, Func<int, bool> isGoal, Func<int, bool> failed, Reachable over)
    {
        _run++;
        var queue = new VertexQueue();
        Reach(start, 0, -1);
        while (queue.TryPop(out var estimate, out var v))
        {
            if (isGoal(v))
            {
                return Arcs(start, v);
            }

            if (estimate > _cost[v] + over.Bounds[v])
            {
                continue;
            }

            for (var arc = _floor.FirstArc[v]; arc < _floor.FirstArc[v + 1]; arc++)
            {
                if (over.Allowed[arc] && !failed(arc))
                {
                    Reach(_floor.ArcTarget[arc], _cost[v] + CostOf(arc), arc);
                }
            }
        }

        return null;

        void Reach(int vertex, int cost, int arc)
        {
            if (over.Bounds[vertex] != QuickestTree.Unreachable && (_stamp[vertex] != _run || cost < _cost[vertex]))
            {
                (_stamp[vertex], _cost[vertex], _arc[vertex]) = (_run, cost, arc);
                queue.Push(cost + over.Bounds[vertex], vertex);
            }
        }
    }

    private List<int> Arcs(int start, int goal)
    {
        var arcs = new List<int>();
        for (var at = goal; at != start; at = _floor.ArcSource[_arc[at]])
        {
            arcs.Add(_arc[at]);
        }

        arcs.Reverse();
        return arcs;
    }

    private int CostOf(int arc) => _priced.TimeTenths(arc) + _waits[arc];

    private int UnheldWaitTenths(int arc) => _priced.Travel.ElevatorCalled(arc) is { } called && _priced.Query.Travel.HeldElevators && called.CanBeHeld
        ? Tenths(_priced.Travel.MeanCallWaitSeconds(called))
        : 0;

    private string NameOf(int arc) =>
        _floor.ArcElevator[arc] is var elevator and >= 0 ? _floor.Plan.Elevators[elevator].Id : _floor.Plan.Places[_floor.ArcPlace[arc]].Number;

    private static int CommonEnd(List<int> way, ImmutableArray<int> planned)
    {
        var common = 0;
        while (common < way.Count && common < planned.Length && way[^(common + 1)] == planned[^(common + 1)])
        {
            common++;
        }

        return common;
    }

    private static int Tenths(double seconds) => (int)Math.Round(seconds * 10, MidpointRounding.AwayFromZero);
}
