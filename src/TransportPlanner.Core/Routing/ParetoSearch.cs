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
/// dimensionality reduction, Pulido, Mandow and Pérez de la Cruz 2015 (from memory). docs/routing.md has proof sketch and measurements.</para>
/// </remarks>
public sealed class ParetoSearch
{
    private const int CheckEvery = 4096;

    // A search takes its memory from here and puts it back, so steady work makes no garbage but its answer.
    private static readonly ConcurrentBag<ParetoSearch> Idle = [];

    private readonly record struct Label(int Vertex, int Parent, int Arc);

    private readonly LowerBounds _bounds = new();
    private readonly LabelQueue _queue = new();
    private readonly ParetoFronts _fronts = new();
    private readonly List<(int First, int Second, int Third, int Fourth, int Label)> _found = [];
    private Label[] _labels = new Label[1024];
    private int[] _fourth = [];
    private int[] _firstOut = [];
    private int[] _head = [];
    private int[] _arc = [];
    private int[] _reduced = [];
    private bool _hasFourth;
    private int _labelCount;
    private int _freeLabel;

    private ParetoSearch()
    {
    }

    /// <summary>All efficient ways from origin to target; the empty way alone when they are the same vertex.</summary>
    /// <param name="graph">Vertices, arcs and costs.</param>
    /// <param name="origin">Vertex to leave.</param>
    /// <param name="target">Vertex to reach.</param>
    /// <param name="allowed">Arcs that may be used, by arc number; null: all.</param>
    /// <param name="cancellation">The caller gives up: the search throws.</param>
    /// <param name="deadline">Time is over: the search answers with what is settled and says that it is not complete.</param>
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

        var search = Idle.TryTake(out var idle) ? idle : new ParetoSearch();
        try
        {
            return search.Run(graph, origin, target, allowed, cancellation, deadline);
        }
        finally
        {
            Idle.Add(search);
        }
    }

    private ParetoSet Run(
        CostGraph graph, int origin, int target, BitArray? allowed, CancellationToken cancellation, CancellationToken deadline)
    {
        cancellation.ThrowIfCancellationRequested();
        var criteria = graph.CriterionCount;
        if (deadline.IsCancellationRequested || !_bounds.Compute(graph, target, allowed, cancellation, deadline))
        {
            return new([], IsComplete: false, 0, 0);
        }

        var start = _bounds.Least.Slice(origin * criteria, criteria);
        if (start[0] == LowerBounds.Unreachable)
        {
            return new([], IsComplete: true, 0, 0);
        }

        Reduce(graph, allowed);
        _hasFourth = criteria == 4;
        _fronts.Clear(graph.VertexCount, _hasFourth);
        _queue.Clear();
        _found.Clear();
        (_labelCount, _freeLabel) = (0, -1);
        var (expanded, generated, complete) = (0L, 1L, true);
        Push(start[0], At(start, 1), At(start, 2), At(start, 3), new(origin, -1, -1));
        for (var pops = 1L; _queue.Count > 0; pops++)
        {
            if (pops % CheckEvery == 0)
            {
                cancellation.ThrowIfCancellationRequested();
                complete = !deadline.IsCancellationRequested;
            }

            var item = _queue.Pop();
            var index = (int)(item.Low & uint.MaxValue);
            var (f1, f2, f3) = ((int)(item.High >> 32), (int)(item.High & uint.MaxValue), (int)(item.Low >> 32));
            var f4 = _hasFourth ? _fourth[index] : 0;
            if (!complete)
            {
                ForgetVectorUnderWay(f1, f2, f3);
                break;
            }

            var vertex = _labels[index].Vertex;
            if (_fronts.Dominates(target, f2, f3, f4) || (vertex != target && _fronts.Dominates(vertex, f2, f3, f4)))
            {
                // Nothing descends from it, so its place can be used again.
                _labels[index] = new(-1, _freeLabel, -1);
                _freeLabel = index;
                continue;
            }

            _fronts.Insert(vertex, f2, f3, f4);
            if (vertex == target)
            {
                _found.Add((f1, f2, f3, f4, index));
                continue;
            }

            expanded++;
            generated += Expand(target, index, vertex, f1, f2, f3, f4, criteria);
        }

        return new(Members(criteria), complete, expanded, generated);
    }

    /// <returns>Labels that entered the queue.</returns>
    private int Expand(int target, int index, int vertex, int f1, int f2, int f3, int f4, int criteria)
    {
        var pushed = 0;
        for (var i = _firstOut[vertex]; i < _firstOut[vertex + 1]; i++)
        {
            int n1, n2, n3 = f3, n4 = f4;
            unchecked
            {
                // Non-negative numbers below 2^31: a sum that leaves the range has its sign bit set.
                var at = i * criteria;
                n1 = f1 + _reduced[at];
                n2 = criteria > 1 ? f2 + _reduced[at + 1] : 0;
                if (criteria > 2)
                {
                    n3 = f3 + _reduced[at + 2];
                    if (criteria > 3)
                    {
                        n4 = f4 + _reduced[at + 3];
                    }
                }
            }

            if ((n1 | n2 | n3 | n4) < 0)
            {
                throw new OverflowException($"The costs of a way exceed {int.MaxValue}; give the costs in a larger unit.");
            }

            var head = _head[i];
            if (_fronts.Dominates(target, n2, n3, n4) || (head != target && _fronts.Dominates(head, n2, n3, n4)))
            {
                continue;
            }

            Push(n1, n2, n3, n4, new(head, index, _arc[i]));
            pushed++;
        }

        return pushed;
    }

    private void Push(int f1, int f2, int f3, int f4, Label label)
    {
        var index = _freeLabel;
        if (index >= 0)
        {
            _freeLabel = _labels[index].Parent;
        }
        else
        {
            index = _labelCount++;
            if (index == _labels.Length)
            {
                Array.Resize(ref _labels, 2 * index);
            }
        }

        _labels[index] = label;
        if (_hasFourth)
        {
            if (_fourth.Length < _labels.Length)
            {
                Array.Resize(ref _fourth, _labels.Length);
            }

            _fourth[index] = f4;
        }

        _queue.Push(new(((ulong)(uint)f1 << 32) | (uint)f2, ((ulong)(uint)f3 << 32) | (uint)index));
    }

    /// <summary>Rows of the allowed arcs from which the target can be reached, with reduced costs.</summary>
    private void Reduce(CostGraph graph, BitArray? allowed)
    {
        var criteria = graph.CriterionCount;
        if (_firstOut.Length <= graph.VertexCount)
        {
            _firstOut = new int[graph.VertexCount + 1];
        }

        if (_head.Length < graph.ArcCount || _reduced.Length < graph.ArcCount * criteria)
        {
            _head = new int[graph.ArcCount];
            _arc = new int[graph.ArcCount];
            _reduced = new int[graph.ArcCount * criteria];
        }

        var least = _bounds.Least;
        var costs = graph.Costs;
        var heads = graph.Target;
        var first = graph.FirstOut;
        var outArc = graph.OutArc;
        var count = 0;
        for (var v = 0; v < graph.VertexCount; v++)
        {
            _firstOut[v] = count;
            for (var i = first[v]; i < first[v + 1]; i++)
            {
                var arc = outArc[i];
                var head = heads[arc];
                if (least[head * criteria] == LowerBounds.Unreachable || (allowed is not null && !allowed[arc]))
                {
                    continue;
                }

                for (var k = 0; k < criteria; k++)
                {
                    _reduced[count * criteria + k] = costs[arc * criteria + k] + least[head * criteria + k] - least[v * criteria + k];
                }

                _head[count] = head;
                _arc[count++] = arc;
            }
        }

        _firstOut[graph.VertexCount] = count;
    }

    /// <summary>The queue orders by three costs: of the vector it was at when the deadline passed, a better fourth cost may be missing.</summary>
    private void ForgetVectorUnderWay(int f1, int f2, int f3) =>
        _found.RemoveAll(m => _hasFourth && (m.First, m.Second, m.Third) == (f1, f2, f3));

    private ImmutableArray<ParetoMember> Members(int criteria)
    {
        // The queue orders by three costs; of members that differ in the fourth only, the least stays.
        if (criteria == 4)
        {
            _found.Sort();
        }

        var members = ImmutableArray.CreateBuilder<ParetoMember>(_found.Count);
        var arcs = new List<int>();
        for (var i = 0; i < _found.Count; i++)
        {
            var (f1, f2, f3, f4, label) = _found[i];
            if (criteria == 4 && i > 0 && (_found[i - 1].First, _found[i - 1].Second, _found[i - 1].Third) == (f1, f2, f3))
            {
                continue;
            }

            arcs.Clear();
            for (var at = label; _labels[at].Parent >= 0; at = _labels[at].Parent)
            {
                arcs.Add(_labels[at].Arc);
            }

            arcs.Reverse();
            ReadOnlySpan<int> costs = [f1, f2, f3, f4];
            members.Add(new([.. costs[..criteria]], [.. arcs]));
        }

        return members.DrainToImmutable();
    }

    private static int At(ReadOnlySpan<int> values, int index) => index < values.Length ? values[index] : 0;
}
