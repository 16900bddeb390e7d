using System.Collections;
using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace TransportPlanner.Core.Routing;

/// <summary>
/// The exact set of efficient ways between two vertices, one way for each vector of costs: lazy multi-objective A*. Labels are taken in
/// lexicographic order of cost so far plus bound; a label is tested against the settled labels of its vertex and of the target when it
/// is made and again when it is taken.
/// </summary>
/// <remarks>
/// <para>The bounds turn every arc cost into a reduced cost, cost + bound(target) − bound(source) ≥ 0, and a label into its whole
/// estimate f, so cost so far is never stored: at one vertex, comparing f is comparing costs.</para>
/// <para>Sources: lazy dominance tests, Hernández et al., IJCAI 2023 (LTMOA*) and Artificial Intelligence 314 (2023) (BOA*);
/// dimensionality reduction, Pulido, Mandow and Pérez de la Cruz 2015 (from memory). docs/routing.md has a proof sketch and
/// measurements.</para>
/// </remarks>
public sealed class ParetoSearch
{
    private const int CheckEvery = 4096;

    // A search takes its memory from here and puts it back, so steady work makes no garbage but its answer.
    private static readonly ConcurrentBag<ParetoSearch> Idle = [];

    private readonly record struct Label(int Parent, int Arc);

    private readonly QueryGraph _graph = new();
    private readonly LowerBounds _bounds = new();
    private readonly LabelQueue _queue = new();
    private readonly List<(int First, int Second, int Third, int Fourth, int Label)> _found = [];
    private readonly List<int> _way = [];
    private readonly List<int> _unpacked = [];
    private LeastFronts _least;
    private DenseFronts _dense;
    private StairFronts _stairs;
    private Label[] _labels = new Label[1024];
    private int[] _fourth = [];
    private MergedLabels? _merged;
    private int _settled;
    private long _generated;
    private bool _isComplete;
    private CancellationToken _cancellation;
    private CancellationToken _deadline;

    private ParetoSearch()
    {
    }

    /// <summary>All efficient ways from origin to target; the empty way alone when they are the same vertex.</summary>
    /// <param name="graph">Vertices, arcs and costs.</param>
    /// <param name="origin">Vertex to leave.</param>
    /// <param name="target">Vertex to reach.</param>
    /// <param name="allowed">Arcs that may be used, by arc number; null: all.</param>
    /// <param name="cancellation">The caller gives up: the search throws.</param>
    /// <param name="deadline">Time is over: the search answers with what is settled and merges what waits and states its ε. It has a way wherever there is one: bounds are never cut short.</param>
    /// <exception cref="ArgumentException">A vertex that does not exist, or a bitset of another length than the arcs.</exception>
    /// <exception cref="OverflowException">Costs of one way add up beyond an <see cref="int"/>.</exception>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public static ParetoSet Find(
        CostGraph graph, int origin, int target, BitArray? allowed = null,
        CancellationToken cancellation = default, CancellationToken deadline = default)
    {
        ArgumentNullException.ThrowIfNull(graph);
        ArgumentOutOfRangeException.ThrowIfNegative(origin);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(origin, graph.VertexCount);
        ArgumentOutOfRangeException.ThrowIfNegative(target);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(target, graph.VertexCount);
        if (allowed is not null && allowed.Length != graph.ArcCount)
        {
            throw new ArgumentException($"Give one bit for each of {graph.ArcCount} arcs, not {allowed.Length}.", nameof(allowed));
        }

        return Find(graph, origin, target, allowed, contracted: true, cancellation, deadline);
    }

    /// <summary>The same with or without contraction.</summary>
    internal static ParetoSet Find(
        CostGraph graph, int origin, int target, BitArray? allowed, bool contracted,
        CancellationToken cancellation, CancellationToken deadline)
    {
        var search = Idle.TryTake(out var idle) ? idle : new ParetoSearch();
        try
        {
            return search.Run(graph, origin, target, allowed, contracted, cancellation, deadline);
        }
        finally
        {
            Idle.Add(search);
        }
    }

    private ParetoSet Run(
        CostGraph graph, int origin, int target, BitArray? allowed, bool contracted,
        CancellationToken cancellation, CancellationToken deadline)
    {
        cancellation.ThrowIfCancellationRequested();
        _graph.Load(graph, origin, target, allowed, contracted);

        // Without bounds there is nothing to answer with: they are not cut short.
        _bounds.Compute(_graph, cancellation, deadline: default);
        var criteria = graph.CriterionCount;
        var start = new WholeCosts(Bound(0), Bound(1), Bound(2), Bound(3));
        if (start.First == LowerBounds.Unreachable)
        {
            return new([], IsComplete: true, 0, 0, 0);
        }

        _graph.Reduce(_bounds);
        _queue.Clear(start.First);
        _found.Clear();
        (_settled, _generated, _isComplete, _cancellation, _deadline) = (0, 1, true, cancellation, deadline);
        _queue.Push(start.First, new(start.Second, start.Third, -1, -1));
        switch (criteria)
        {
            case 1 or 2:
                _least.Clear(_graph.VertexCount);
                Settle(ref _least, start);
                break;
            case 3:
                _dense.Clear(_graph.VertexCount, start.Third);
                if (!Settle(ref _dense, start))
                {
                    _stairs.Clear(_graph.VertexCount, hasFourth: false);
                    _dense.CopyTo(ref _stairs);
                    Settle(ref _stairs, start);
                }

                break;
            default:
                _stairs.Clear(_graph.VertexCount, hasFourth: true);
                Settle(ref _stairs, start);
                break;
        }

        return _isComplete
            ? new(Members(criteria), true, 0, _settled - _found.Count, _generated)
            : Merged();

        int Bound(int criterion) => criterion < criteria ? _bounds.Of(criterion)[_graph.Origin] : 0;
    }

    private readonly record struct WholeCosts(int First, int Second, int Third, int Fourth);

    /// <summary>Takes labels until none is left or the deadline has passed.</summary>
    /// <returns>False where the fronts cannot hold a cost: the label went back into the queue.</returns>
    private bool Settle<TFronts>(ref TFronts kept, WholeCosts start)
        where TFronts : struct, IFronts<TFronts>
    {
        unchecked
        {
            // A copy whose address nobody takes: its fields stay in registers.
            var (fronts, generated) = (kept, _generated);
            var (queue, rows, firstOut, target, hasFourth) = (_queue, _graph.Out, _graph.FirstOut, _graph.Target, _graph.Criteria == 4);
            for (var pops = 1L; queue.TryPop(out var f1, out var label); pops++)
            {
                if (pops % CheckEvery == 1)
                {
                    _cancellation.ThrowIfCancellationRequested();
                    if (_deadline.IsCancellationRequested)
                    {
                        (kept, _isComplete) = (fronts, false);
                        queue.Push(f1, label);
                        MergeWaiting(ref kept, start);
                        break;
                    }
                }

                var (f2, f3, f4) = (label.Second, label.Third, start.Fourth);
                var vertex = _graph.Origin;
                if (label.Arc >= 0)
                {
                    vertex = rows[label.Arc].End;
                    f4 = hasFourth ? _fourth[label.Parent] + _graph.FourthOut[label.Arc] : 0;
                }

                if (fronts.Dominates(target, f2, f3, f4) || fronts.Dominates(vertex, f2, f3, f4))
                {
                    continue;
                }

                if (!fronts.Holds(f3))
                {
                    if (!fronts.TryWiden(f3, out var wide))
                    {
                        queue.Push(f1, label);
                        (kept, _generated) = (fronts, generated);
                        return false;
                    }

                    fronts = wide;
                }

                fronts.Settle(vertex, f2, f3, f4);
                var index = Keep(new(label.Parent, label.Arc), f4, hasFourth);
                if (vertex == target)
                {
                    _found.Add((f1, f2, f3, f4, index));
                    continue;
                }

                var end = firstOut[vertex + 1];
                for (var i = firstOut[vertex]; i < end; i++)
                {
                    ref readonly var arc = ref rows[i];
                    var (n1, n2, n3) = (f1 + arc.First, f2 + arc.Second, f3 + arc.Third);
                    var n4 = hasFourth ? f4 + _graph.FourthOut[i] : 0;
                    // Non-negative numbers below 2^31: a sum that leaves the range has its sign bit set.
                    if ((n1 | n2 | n3 | n4) < 0)
                    {
                        throw new OverflowException($"The costs of a way exceed {int.MaxValue}; give the costs in a larger unit.");
                    }

                    if (!fronts.Dominates(target, n2, n3, n4) && !fronts.Dominates(arc.End, n2, n3, n4))
                    {
                        queue.Push(n1, new(n2, n3, index, i));
                        generated++;
                    }
                }
            }

            (kept, _generated) = (fronts, generated);
            return true;
        }
    }

    private int Keep(Label label, int fourth, bool hasFourth)
    {
        var index = _settled++;
        if (index == _labels.Length)
        {
            Array.Resize(ref _labels, 2 * index);
        }

        _labels[index] = label;
        if (hasFourth)
        {
            if (_fourth.Length < _labels.Length)
            {
                Array.Resize(ref _fourth, _labels.Length);
            }

            _fourth[index] = fourth;
        }

        return index;
    }

    /// <summary>The queue orders by three costs; of members that differ in the fourth only, the least stays.</summary>
    private ImmutableArray<ParetoMember> Members(int criteria)
    {
        if (criteria == 4)
        {
            _found.Sort();
        }

        var members = ImmutableArray.CreateBuilder<ParetoMember>(_found.Count);
        for (var i = 0; i < _found.Count; i++)
        {
            var (f1, f2, f3, f4, label) = _found[i];
            if (criteria == 4 && i > 0 && (_found[i - 1].First, _found[i - 1].Second, _found[i - 1].Third) == (f1, f2, f3))
            {
                continue;
            }

            ReadOnlySpan<int> costs = [f1, f2, f3, f4];
            members.Add(new([.. costs[..criteria]], Arcs(label, null)));
        }

        return members.DrainToImmutable();
    }

    /// <summary>Merges the labels that wait, but for those that would not be taken: a settled label that matches one goes on for it.</summary>
    private void MergeWaiting<TFronts>(ref TFronts fronts, WholeCosts start)
        where TFronts : struct, IFronts<TFronts>
    {
        ReadOnlySpan<int> least = [start.First, start.Second, start.Third, start.Fourth];
        var criteria = _graph.Criteria;
        var merged = _merged = new(_graph, _bounds, least[..criteria]);
        Span<int> estimate = stackalloc int[4];
        while (_queue.TryPop(out var f1, out var label))
        {
            var vertex = label.Arc < 0 ? _graph.Origin : _graph.Out[label.Arc].End;
            var f4 = criteria < 4 ? 0 : label.Arc < 0 ? start.Fourth : _fourth[label.Parent] + _graph.FourthOut[label.Arc];
            (estimate[0], estimate[1], estimate[2], estimate[3]) = (f1, label.Second, label.Third, f4);
            if (!fronts.Dominates(_graph.Target, estimate[1], estimate[2], f4) && !fronts.Dominates(vertex, estimate[1], estimate[2], f4))
            {
                merged.Add(estimate[..criteria], label.Parent, label.Arc);
            }
        }
    }

    /// <summary>What is settled, and for what still waits the best of a few completions of each group of like labels.</summary>
    private ParetoSet Merged()
    {
        var merged = _merged!;
        var criteria = _graph.Criteria;
        _merged = null;
        var all = _found
            .Select(m => (Costs: new[] { m.First, m.Second, m.Third, m.Fourth }[..criteria], Way: new CompletedWay(m.Label, -1, -1)))
            .Concat(merged.Representatives)
            .OrderBy(m => m.Costs, Comparer<int[]>.Create((a, b) => a.AsSpan().SequenceCompareTo(b)));
        var kept = new List<(int[] Costs, CompletedWay Way)>();
        foreach (var member in all)
        {
            if (!kept.Exists(earlier => IsAtMost(earlier.Costs, member.Costs)))
            {
                kept.Add(member);
            }
        }

        var members = kept.Select(m => new ParetoMember([.. m.Costs], Arcs(m.Way.Parent, Rest(m.Way)))).ToImmutableArray();
        var epsilon = merged.Epsilon([.. kept.Select(m => m.Costs)]);

        // With ε 0 every efficient vector has an equal member: nothing is missing.
        return new(members, epsilon == 0, epsilon, _settled - _found.Count, _generated);

        List<int> Rest(CompletedWay way)
        {
            var rest = new List<int>();
            if (way.Tree >= 0)
            {
                if (way.Arc >= 0)
                {
                    rest.Add(_graph.ArcOut[way.Arc]);
                }

                merged.Complete(way, rest);
            }

            return rest;
        }

        static bool IsAtMost(int[] a, int[] b)
        {
            for (var k = 0; k < a.Length; k++)
            {
                if (a[k] > b[k])
                {
                    return false;
                }
            }

            return true;
        }
    }

    /// <summary>Arcs of the graph from the origin to a label, and on by the given arcs of the contraction.</summary>
    private ImmutableArray<int> Arcs(int label, List<int>? rest)
    {
        _way.Clear();
        _unpacked.Clear();
        for (var at = label; at >= 0 && _labels[at].Arc >= 0; at = _labels[at].Parent)
        {
            _way.Add(_graph.ArcOut[_labels[at].Arc]);
        }

        for (var i = _way.Count - 1; i >= 0; i--)
        {
            _graph.Contraction.Unpack(_way[i], _unpacked);
        }

        for (var i = 0; rest is not null && i < rest.Count; i++)
        {
            _graph.Contraction.Unpack(rest[i], _unpacked);
        }

        return [.. _unpacked];
    }
}
