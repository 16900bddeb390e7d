using System.Collections;

namespace TransportPlanner.Core.Routing;

/// <summary>An arc seen from one of its ends: the vertex at the other end and up to three costs, 16 bytes.</summary>
internal readonly record struct RowArc(int End, int First, int Second, int Third)
{
    /// <summary>Integers in one of these, <see cref="End"/> first.</summary>
    public const int Numbers = 4;
}

/// <summary>
/// The rows that one search reads: what the contraction left, and around origin and target the vertices that it took out. Keeps its
/// memory between searches.
/// </summary>
/// <remarks>
/// A way leaves the origin through taken-out vertices (from which the arcs of the graph itself are here), goes on over what is left, and
/// enters the target through taken-out vertices again (to which the arcs are here); so every way has its like, and nothing more is needed.
/// </remarks>
internal sealed class QueryGraph
{
    private const byte FromOrigin = 1;
    private const byte ToTarget = 2;

    private readonly List<int> _local = [];
    private readonly Stack<int> _stack = [];
    private readonly List<(int Tail, int Head, int Arc)> _around = [];
    private CostGraph _graph = null!;
    private int[] _stayCosts = [];
    private int[] _localOf = [];
    private byte[] _side = [];
    private bool[] _usable = [];
    private int[] _next = [];
    private int[] _fourthIn = [];

    public int VertexCount { get; private set; }
    public int Criteria { get; private set; }
    public int Origin { get; private set; }
    public int Target { get; private set; }

    /// <summary>Arcs into v are <c>In[FirstIn[v] .. FirstIn[v + 1]]</c>, with their tails and costs.</summary>
    public int[] FirstIn { get; private set; } = [];

    public RowArc[] In { get; private set; } = [];

    /// <summary>Numbers of <see cref="In"/> in the contraction.</summary>
    public int[] ArcIn { get; private set; } = [];

    /// <summary>Arcs out of v from which the target can be reached, with their heads and reduced costs.</summary>
    public int[] FirstOut { get; private set; } = [];

    public RowArc[] Out { get; private set; } = [];

    /// <summary>Reduced fourth costs of <see cref="Out"/>, where there are four.</summary>
    public int[] FourthOut { get; private set; } = [];

    /// <summary>Numbers of <see cref="Out"/> in the contraction.</summary>
    public int[] ArcOut { get; private set; } = [];

    public Contraction Contraction { get; private set; } = null!;

    public int FourthIn(int i) => _fourthIn[i];

    /// <summary>Gathers the arcs that a search may use and sorts them by head.</summary>
    public void Load(CostGraph graph, int origin, int target, BitArray? allowed, bool contracted)
    {
        unchecked
        {
            _graph = graph;
            var stay = contracted ? graph.ContractedCosts : null;
            Contraction = stay is null ? graph.Uncontracted : graph.Contraction;
            _stayCosts = stay ?? graph.UncontractedCosts;
            Criteria = graph.CriterionCount;
            Allow(allowed);
            Surround(origin, target);
            SortByHead();
        }
    }

    private void Allow(BitArray? allowed)
    {
        var (arcs, shortcuts) = (Contraction.ArcCount, Contraction.Shortcuts);
        Grow(ref _usable, arcs + shortcuts.Length);
        var usable = _usable;
        if (allowed is null)
        {
            usable.AsSpan(0, arcs + shortcuts.Length).Fill(true);
            return;
        }

        allowed.CopyTo(usable, 0);
        for (var i = 0; i < shortcuts.Length; i++)
        {
            usable[arcs + i] = usable[shortcuts[i].Left] && usable[shortcuts[i].Right];
        }
    }

    /// <summary>Numbers the taken-out vertices that the origin reaches, and those that reach the target, through their like.</summary>
    private void Surround(int origin, int target)
    {
        foreach (var v in _local)
        {
            (_localOf[v], _side[v]) = (0, 0);
        }

        _local.Clear();
        _around.Clear();
        Grow(ref _localOf, _graph.VertexCount);
        Grow(ref _side, _graph.VertexCount);
        VertexCount = Contraction.VertexCount;
        Spread(origin, FromOrigin, _graph.FirstOut, _graph.OutArc, _graph.Target);
        Spread(target, ToTarget, _graph.FirstIn, _graph.InArc, _graph.Source);
        foreach (var v in _local)
        {
            for (var row = _graph.FirstOut[v]; (_side[v] & FromOrigin) != 0 && row < _graph.FirstOut[v + 1]; row++)
            {
                Around(_graph.OutArc[row]);
            }

            for (var row = _graph.FirstIn[v]; (_side[v] & ToTarget) != 0 && row < _graph.FirstIn[v + 1]; row++)
            {
                // Arcs out of the origin's side are there already.
                if ((_side[_graph.Source[_graph.InArc[row]]] & FromOrigin) == 0)
                {
                    Around(_graph.InArc[row]);
                }
            }
        }

        (Origin, Target) = (Number(origin), Number(target));
    }

    private void Spread(int start, byte side, ReadOnlySpan<int> first, ReadOnlySpan<int> rows, ReadOnlySpan<int> ends)
    {
        Meet(start, side);
        while (_stack.TryPop(out var v))
        {
            for (var row = first[v]; row < first[v + 1]; row++)
            {
                if (_usable[rows[row]])
                {
                    Meet(ends[rows[row]], side);
                }
            }
        }
    }

    private void Meet(int vertex, byte side)
    {
        if (Contraction.Position[vertex] >= 0 || (_side[vertex] & side) != 0)
        {
            return;
        }

        if (_side[vertex] == 0)
        {
            _local.Add(vertex);
            _localOf[vertex] = ++VertexCount;
        }

        _side[vertex] |= side;
        _stack.Push(vertex);
    }

    private void Around(int arc)
    {
        var (tail, head) = (Number(_graph.Source[arc]), Number(_graph.Target[arc]));
        if (_usable[arc] && tail >= 0 && head >= 0)
        {
            _around.Add((tail, head, arc));
        }
    }

    private int Number(int vertex) => Contraction.Position[vertex] is var position and >= 0 ? position : _localOf[vertex] - 1;

    private void SortByHead()
    {
        unchecked
        {
            var (tail, head, arc) = (Contraction.Tail, Contraction.Head, Contraction.Arc);
            var (usable, costs, criteria) = (_usable, _stayCosts, Criteria);
            var most = arc.Length + _around.Count;
            var first = FirstIn = Sized(FirstIn, VertexCount + 1);
            var rows = In = Sized(In, most);
            var arcs = ArcIn = Sized(ArcIn, most);
            _fourthIn = Sized(_fourthIn, criteria == 4 ? most : 0);
            first.AsSpan(0, VertexCount + 1).Clear();
            for (var i = 0; i < arc.Length; i++)
            {
                first[head[i] + 1] += usable[arc[i]] ? 1 : 0;
            }

            foreach (var around in _around)
            {
                first[around.Head + 1]++;
            }

            for (var v = 0; v < VertexCount; v++)
            {
                first[v + 1] += first[v];
            }

            var next = _next = Sized(_next, VertexCount);
            first.AsSpan(0, VertexCount).CopyTo(next);
            for (var i = 0; i < arc.Length; i++)
            {
                if (usable[arc[i]])
                {
                    Into(tail[i], head[i], arc[i], costs.AsSpan(i * criteria, criteria));
                }
            }

            foreach (var (from, to, number) in _around)
            {
                Into(from, to, number, _graph.CostArray.AsSpan(number * criteria, criteria));
            }

            void Into(int from, int to, int number, ReadOnlySpan<int> cost)
            {
                var at = next[to]++;
                arcs[at] = number;
                rows[at] = new(from, cost[0], cost.Length > 1 ? cost[1] : 0, cost.Length > 2 ? cost[2] : 0);
                if (cost.Length > 3)
                {
                    _fourthIn[at] = cost[3];
                }
            }
        }
    }

    /// <summary>Rows by tail of the arcs from which the target can be reached, costs reduced by the bounds: none is negative.</summary>
    public void Reduce(LowerBounds bounds)
    {
        unchecked
        {
            var (head, arc) = (Contraction.Head, Contraction.Arc);
            var (usable, costs, criteria) = (_usable, _stayCosts, Criteria);
            var (h1, h2, h3, h4) = (bounds.Of(0), bounds.Of(1), bounds.Of(2), bounds.Of(3));
            var most = arc.Length + _around.Count;
            var first = FirstOut = Sized(FirstOut, VertexCount + 1);
            var rows = Out = Sized(Out, most);
            var arcs = ArcOut = Sized(ArcOut, most);
            FourthOut = Sized(FourthOut, criteria == 4 ? most : 0);
            _around.Sort();
            var (count, around) = (0, 0);
            for (var v = 0; v < VertexCount; v++)
            {
                first[v] = count;
                var end = v < Contraction.VertexCount ? Contraction.FirstOut[v + 1] : 0;
                for (var i = v < Contraction.VertexCount ? Contraction.FirstOut[v] : 0; i < end; i++)
                {
                    if (usable[arc[i]])
                    {
                        OutOf(v, head[i], arc[i], costs.AsSpan(i * criteria, criteria));
                    }
                }

                for (; around < _around.Count && _around[around].Tail == v; around++)
                {
                    var number = _around[around].Arc;
                    OutOf(v, _around[around].Head, number, _graph.CostArray.AsSpan(number * criteria, criteria));
                }
            }

            first[VertexCount] = count;

            void OutOf(int from, int to, int number, ReadOnlySpan<int> cost)
            {
                if (h1[to] == LowerBounds.Unreachable)
                {
                    return;
                }

                arcs[count] = number;
                rows[count] = new(
                    to, cost[0] + h1[to] - h1[from],
                    cost.Length > 1 ? cost[1] + h2[to] - h2[from] : 0,
                    cost.Length > 2 ? cost[2] + h3[to] - h3[from] : 0);
                if (cost.Length > 3)
                {
                    FourthOut[count] = cost[3] + h4[to] - h4[from];
                }

                count++;
            }
        }
    }

    private static void Grow<T>(ref T[] array, int length) => array = Sized(array, length);

    private static T[] Sized<T>(T[] array, int length)
    {
        if (array.Length < length)
        {
            Array.Resize(ref array, Math.Max(length, 2 * array.Length));
        }

        return array;
    }
}
