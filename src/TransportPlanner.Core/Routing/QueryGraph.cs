using System.Collections;

namespace TransportPlanner.Core.Routing;

/// <summary>An arc seen from one of its ends: the vertex at the other end and up to three costs, 16 bytes.</summary>
internal readonly record struct RowArc(int End, int First, int Second, int Third);

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
    private int[] _costs = [];
    private int[] _shortcutCosts = [];
    private int[] _localOf = [];
    private byte[] _side = [];
    private bool[] _usable = [];
    private int[] _tail = [];
    private int[] _head = [];
    private int[] _arc = [];
    private int[] _next = [];
    private int[] _fourthIn = [];
    private int _arcs;

    public int VertexCount { get; private set; }
    public int Criteria { get; private set; }
    public int Origin { get; private set; }
    public int Target { get; private set; }

    /// <summary>Arcs into v are <c>In[FirstIn[v] .. FirstIn[v + 1]]</c>, with their tails and costs.</summary>
    public int[] FirstIn { get; private set; } = [];

    public RowArc[] In { get; private set; } = [];

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
            _costs = graph.CostArray;
            _shortcutCosts = [];
            Contraction = contracted && graph.ShortcutCosts is { } costs ? Use(graph.Contraction, costs) : graph.Uncontracted;
            Criteria = graph.CriterionCount;
            Allow(allowed);
            Surround(origin, target);
            Gather();
            SortByHead();
        }
    }

    private Contraction Use(Contraction contraction, int[] costs)
    {
        _shortcutCosts = costs;
        return contraction;
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

    /// <summary>Numbers the taken-out vertices that the origin reaches, and those that reach the target, through others of their kind.</summary>
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

    private void Gather()
    {
        var (tail, head, arc) = (Contraction.Tail, Contraction.Head, Contraction.Arc);
        var most = arc.Length + _around.Count;
        Grow(ref _tail, most);
        Grow(ref _head, most);
        Grow(ref _arc, most);
        var count = 0;
        for (var i = 0; i < arc.Length; i++)
        {
            if (_usable[arc[i]])
            {
                (_tail[count], _head[count], _arc[count++]) = (tail[i], head[i], arc[i]);
            }
        }

        foreach (var (from, to, number) in _around)
        {
            (_tail[count], _head[count], _arc[count++]) = (from, to, number);
        }

        _arcs = count;
    }

    private void SortByHead()
    {
        (FirstIn, In) = (Sized(FirstIn, VertexCount + 1), Sized(In, _arcs));
        Sized(ref _fourthIn, Criteria == 4 ? _arcs : 0);
        var next = Starts(_head, FirstIn);
        for (var i = 0; i < _arcs; i++)
        {
            var costs = CostsOf(_arc[i]);
            var at = next[_head[i]]++;
            In[at] = new(_tail[i], costs[0], Criteria > 1 ? costs[1] : 0, Criteria > 2 ? costs[2] : 0);
            if (Criteria > 3)
            {
                _fourthIn[at] = costs[3];
            }
        }
    }

    /// <summary>Sorts the arcs from which the target can be reached by tail, with costs reduced by the bounds: none is negative.</summary>
    public void Reduce(LowerBounds bounds)
    {
        unchecked
        {
            var (first, second, third, fourth) = (bounds.Of(0), bounds.Of(1), bounds.Of(2), bounds.Of(3));
            var kept = 0;
            for (var i = 0; i < _arcs; i++)
            {
                if (first[_head[i]] != LowerBounds.Unreachable)
                {
                    (_tail[kept], _head[kept], _arc[kept++]) = (_tail[i], _head[i], _arc[i]);
                }
            }

            _arcs = kept;
            (FirstOut, Out, ArcOut) = (Sized(FirstOut, VertexCount + 1), Sized(Out, kept), Sized(ArcOut, kept));
            FourthOut = Sized(FourthOut, Criteria == 4 ? kept : 0);
            var next = Starts(_tail, FirstOut);
            for (var i = 0; i < kept; i++)
            {
                var (u, v) = (_tail[i], _head[i]);
                var costs = CostsOf(_arc[i]);
                var at = next[u]++;
                ArcOut[at] = _arc[i];
                Out[at] = new(
                    v, costs[0] + first[v] - first[u],
                    Criteria > 1 ? costs[1] + second[v] - second[u] : 0,
                    Criteria > 2 ? costs[2] + third[v] - third[u] : 0);
                if (Criteria > 3)
                {
                    FourthOut[at] = costs[3] + fourth[v] - fourth[u];
                }
            }
        }
    }

    private ReadOnlySpan<int> CostsOf(int arc) => arc < Contraction.ArcCount
        ? _costs.AsSpan(arc * Criteria, Criteria)
        : _shortcutCosts.AsSpan((arc - Contraction.ArcCount) * Criteria, Criteria);

    /// <summary>Counting sort, first half: where the row of each vertex begins.</summary>
    private int[] Starts(int[] ends, int[] first)
    {
        first.AsSpan(0, VertexCount + 1).Clear();
        for (var i = 0; i < _arcs; i++)
        {
            first[ends[i] + 1]++;
        }

        for (var v = 0; v < VertexCount; v++)
        {
            first[v + 1] += first[v];
        }

        Grow(ref _next, VertexCount);
        first.AsSpan(0, VertexCount).CopyTo(_next);
        return _next;
    }

    private static void Grow<T>(ref T[] array, int length) => array = Sized(array, length);

    private static void Sized<T>(ref T[] array, int length) => array = Sized(array, length);

    private static T[] Sized<T>(T[] array, int length)
    {
        if (array.Length < length)
        {
            Array.Resize(ref array, Math.Max(length, 2 * array.Length));
        }

        return array;
    }
}
