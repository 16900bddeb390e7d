namespace TransportPlanner.Core.Routing;

/// <summary>
/// What is left of a graph when vertices that decide nothing are taken out: dead ends, chains, one-way passages. An arc of what is left
/// is an arc of the graph or a <i>shortcut</i> for two arcs through a vertex that was taken out. Belongs to the shape alone, so it is
/// made once and serves every pricing. Immutable.
/// </summary>
/// <remarks>
/// A vertex goes when fewer shortcuts replace its arcs than arcs leave with it; shortcuts that would return to their own start are left
/// out, since no cost is negative. Parallel shortcuts all stay: which of them is efficient depends on the costs.
/// </remarks>
internal sealed class Contraction
{
    /// <summary>A vertex with more pairs of arcs than this stays.</summary>
    private const int MostPairs = 64;

    private Contraction(int arcCount, List<(int Left, int Right)> shortcuts, int[] position, int[] tail, int[] head, int[] arc)
    {
        ArcCount = arcCount;
        Shortcuts = [.. shortcuts];
        Position = position;
        (Tail, Head, Arc) = (tail, head, arc);
        VertexCount = position.Max() + 1;
        FirstOut = new int[VertexCount + 1];
        foreach (var v in tail)
        {
            FirstOut[v + 1]++;
        }

        for (var v = 0; v < VertexCount; v++)
        {
            FirstOut[v + 1] += FirstOut[v];
        }
    }

    /// <summary>Arcs of the graph; arc <c>ArcCount + i</c> is shortcut i.</summary>
    public int ArcCount { get; }

    /// <summary>The two arcs that each shortcut stands for, in walking order; shortcuts among them come earlier in the list.</summary>
    public (int Left, int Right)[] Shortcuts { get; }

    /// <summary>Number of each vertex among those that stay; −1: taken out.</summary>
    public int[] Position { get; }

    /// <summary>Vertices that stay.</summary>
    public int VertexCount { get; }

    /// <summary>The arcs that stay, sorted by tail: those out of v are at <c>FirstOut[v] .. FirstOut[v + 1]</c>.</summary>
    public int[] FirstOut { get; }

    /// <summary>Ends of the arcs that stay, by <see cref="Position"/>, and their numbers.</summary>
    public int[] Tail { get; }

    public int[] Head { get; }

    public int[] Arc { get; }

    /// <summary>The graph as it is.</summary>
    public static Contraction None(CostGraph graph)
    {
        var arcs = graph.OutArc.ToArray();
        var (source, target) = (graph.Source.ToArray(), graph.Target.ToArray());
        return new(
            graph.ArcCount, [], [.. Enumerable.Range(0, graph.VertexCount)],
            Array.ConvertAll(arcs, arc => source[arc]), Array.ConvertAll(arcs, arc => target[arc]), arcs);
    }

    public static Contraction Of(CostGraph graph) => new Builder(graph).Build();

    /// <summary>Arcs of the graph for which an arc of the contraction stands, in walking order.</summary>
    public void Unpack(int arc, List<int> into)
    {
        if (arc < ArcCount)
        {
            into.Add(arc);
            return;
        }

        var (left, right) = Shortcuts[arc - ArcCount];
        Unpack(left, into);
        Unpack(right, into);
    }

    private sealed class Builder
    {
        private readonly CostGraph _graph;
        private readonly List<int> _tail;
        private readonly List<int> _head;
        private readonly List<(int, int)> _shortcuts = [];
        private readonly List<int>[] _into;
        private readonly List<int>[] _outOf;
        private readonly bool[] _gone;

        public Builder(CostGraph graph)
        {
            _graph = graph;
            (_tail, _head) = ([.. graph.Source], [.. graph.Target]);
            _into = new List<int>[graph.VertexCount];
            _outOf = new List<int>[graph.VertexCount];
            _gone = new bool[graph.VertexCount];
            for (var v = 0; v < graph.VertexCount; v++)
            {
                (_into[v], _outOf[v]) = ([], []);
            }

            for (var arc = 0; arc < graph.ArcCount; arc++)
            {
                if (_tail[arc] != _head[arc])
                {
                    _outOf[_tail[arc]].Add(arc);
                    _into[_head[arc]].Add(arc);
                }
            }
        }

        public Contraction Build()
        {
            var queue = new Queue<int>(Enumerable.Range(0, _graph.VertexCount));
            while (queue.TryDequeue(out var v))
            {
                if (_gone[v] || !DecidesNothing(v))
                {
                    continue;
                }

                foreach (var neighbour in TakeOut(v))
                {
                    queue.Enqueue(neighbour);
                }
            }

            var (position, count) = (new int[_graph.VertexCount], 0);
            for (var v = 0; v < position.Length; v++)
            {
                position[v] = _gone[v] ? -1 : count++;
            }

            int[] arcs = [.. Enumerable.Range(0, position.Length).SelectMany(v => _outOf[v])];
            return new(
                _graph.ArcCount, _shortcuts, position,
                Array.ConvertAll(arcs, arc => position[_tail[arc]]), Array.ConvertAll(arcs, arc => position[_head[arc]]), arcs);
        }

        private bool DecidesNothing(int v)
        {
            var (into, outOf) = (_into[v], _outOf[v]);
            if (into.Count * outOf.Count > MostPairs)
            {
                return false;
            }

            var shortcuts = 0;
            foreach (var left in into)
            {
                foreach (var right in outOf)
                {
                    shortcuts += _tail[left] == _head[right] ? 0 : 1;
                }
            }

            return shortcuts < into.Count + outOf.Count || into.Count + outOf.Count == 0;
        }

        private HashSet<int> TakeOut(int v)
        {
            var (into, outOf) = (_into[v], _outOf[v]);
            HashSet<int> neighbours = [.. into.Select(arc => _tail[arc]), .. outOf.Select(arc => _head[arc])];
            foreach (var left in into)
            {
                _outOf[_tail[left]].Remove(left);
            }

            foreach (var right in outOf)
            {
                _into[_head[right]].Remove(right);
            }

            foreach (var left in into)
            {
                foreach (var right in outOf)
                {
                    if (_tail[left] != _head[right])
                    {
                        var shortcut = _tail.Count;
                        _tail.Add(_tail[left]);
                        _head.Add(_head[right]);
                        _shortcuts.Add((left, right));
                        _outOf[_tail[left]].Add(shortcut);
                        _into[_head[right]].Add(shortcut);
                    }
                }
            }

            _gone[v] = true;
            (_into[v], _outOf[v]) = ([], []);
            return neighbours;
        }
    }
}
