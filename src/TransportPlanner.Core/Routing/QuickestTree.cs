using System.Collections;

namespace TransportPlanner.Core.Routing;

/// <summary>Least sums of one criterion between a set of roots and every vertex, and the ways themselves: a single-cost Dijkstra.</summary>
internal sealed class QuickestTree
{
    public const int Unreachable = int.MaxValue;

    private readonly CostGraph _graph;
    private readonly bool _backwards;
    private readonly int[] _arc;

    private QuickestTree(CostGraph graph, bool backwards)
    {
        (_graph, _backwards) = (graph, backwards);
        Cost = new int[graph.VertexCount];
        _arc = new int[graph.VertexCount];
        Cost.AsSpan().Fill(Unreachable);
        _arc.AsSpan().Fill(-1);
    }

    /// <summary>Least sum by vertex; <see cref="Unreachable"/> where no way leads.</summary>
    public int[] Cost { get; }

    /// <summary>Ways from the nearest root to every vertex, by the graph's first criterion.</summary>
    public static QuickestTree From(CostGraph graph, ReadOnlySpan<int> roots, BitArray? allowed) => new QuickestTree(graph, false).Grow(roots, allowed);

    /// <summary>Ways from every vertex to the nearest root, by the graph's first criterion.</summary>
    public static QuickestTree To(CostGraph graph, ReadOnlySpan<int> roots, BitArray? allowed) => new QuickestTree(graph, true).Grow(roots, allowed);

    /// <summary>Arcs between root and vertex, in the order in which they are walked. Empty for a root and where no way leads.</summary>
    public List<int> Arcs(int vertex)
    {
        var arcs = new List<int>();
        for (var at = vertex; _arc[at] >= 0; at = (_backwards ? _graph.Target : _graph.Source)[_arc[at]])
        {
            arcs.Add(_arc[at]);
        }

        if (!_backwards)
        {
            arcs.Reverse();
        }

        return arcs;
    }

    private QuickestTree Grow(ReadOnlySpan<int> roots, BitArray? allowed)
    {
        var first = _backwards ? _graph.FirstIn : _graph.FirstOut;
        var row = _backwards ? _graph.InArc : _graph.OutArc;
        var far = _backwards ? _graph.Source : _graph.Target;
        var costs = _graph.Costs;
        var queue = new VertexQueue();
        foreach (var root in roots)
        {
            Cost[root] = 0;
            queue.Push(0, root);
        }

        while (queue.TryPop(out var cost, out var v))
        {
            if (cost > Cost[v])
            {
                continue;
            }

            for (var i = first[v]; i < first[v + 1]; i++)
            {
                var arc = row[i];
                if (allowed is not null && !allowed[arc])
                {
                    continue;
                }

                var through = checked(cost + costs[arc * _graph.CriterionCount]);
                if (through < Cost[far[arc]])
                {
                    Cost[far[arc]] = through;
                    _arc[far[arc]] = arc;
                    queue.Push(through, far[arc]);
                }
            }
        }

        return this;
    }
}
