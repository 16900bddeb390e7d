namespace TransportPlanner.Core.Routing;

/// <summary>A way made of a settled label, one arc more, and a tree of least weighted cost from there on.</summary>
internal readonly record struct CompletedWay(int Parent, int Arc, int Tree);

/// <summary>
/// What a search answers with once its deadline has passed: waiting labels of nearly equal estimate are merged into one group, and each
/// group is represented by a label completed along the best of a few trees. Every way not searched costs at least the least estimates of
/// its group (the apex), so how far the nearest answer lies above each apex bounds what the answer lacks.
/// </summary>
/// <remarks>
/// Source of merging under an apex: Zhang et al., <i>A*pex: efficient approximate multi-objective search on graphs</i>, ICAPS 2022. Merging
/// all that waits, once, is ours.
/// </remarks>
internal sealed class MergedLabels
{
    /// <summary>Estimates within about this share of each other are merged.</summary>
    private const double Grain = 0.01;

    private readonly QueryGraph _graph;
    private readonly LowerBounds _bounds;
    private readonly CompletionTree[] _trees;
    private readonly Dictionary<(int, int, int, int), Group> _groups = [];

    private sealed class Group(int[] apex)
    {
        public int[] Apex { get; } = apex;
        public double Ratio { get; set; } = double.PositiveInfinity;
        public int[] Costs { get; } = new int[apex.Length];
        public CompletedWay? Way { get; set; }
    }

    /// <param name="graph">Rows of the search.</param>
    /// <param name="bounds">Bounds of the search.</param>
    /// <param name="start">Least estimates at the origin: the scale on which costs are weighed against each other.</param>
    public MergedLabels(QueryGraph graph, LowerBounds bounds, ReadOnlySpan<int> start)
    {
        (_graph, _bounds) = (graph, bounds);
        var scale = start.ToArray().Select(least => 1.0 / Math.Max(1, least)).ToArray();
        // Each cost nearly alone, each left nearly out, and all alike.
        var weights = Enumerable.Range(0, scale.Length).SelectMany(k => new[] { Weights(k, 1, 0.01), Weights(k, 0.1, 1) })
            .Append(Weights(0, 1, 1)).ToArray();
        _trees = new CompletionTree[weights.Length];
        Parallel.For(0, weights.Length, i => _trees[i] = new(graph, weights[i]));

        double[] Weights(int criterion, double own, double others) => [.. scale.Select((s, k) => s * (k == criterion ? own : others))];
    }

    /// <param name="estimate">Whole estimate of a label that waits.</param>
    /// <param name="parent">The settled label it comes from.</param>
    /// <param name="arc">The arc it came by, −1 at the origin.</param>
    public void Add(ReadOnlySpan<int> estimate, int parent, int arc)
    {
        unchecked
        {
            var key = (Cell(estimate, 0), Cell(estimate, 1), Cell(estimate, 2), Cell(estimate, 3));
            if (!_groups.TryGetValue(key, out var group))
            {
                _groups[key] = group = new(estimate.ToArray());
            }

            var vertex = arc < 0 ? _graph.Origin : _graph.Out[arc].End;
            for (var k = 0; k < estimate.Length; k++)
            {
                group.Apex[k] = Math.Min(group.Apex[k], estimate[k]);
            }

            Span<int> costs = stackalloc int[estimate.Length];
            for (var tree = 0; tree < _trees.Length; tree++)
            {
                var rest = _trees[tree].Costs(vertex);
                var fits = true;
                for (var k = 0; k < costs.Length; k++)
                {
                    costs[k] = estimate[k] - _bounds.Of(k)[vertex] + rest[k];
                    fits &= costs[k] >= 0;
                }

                var ratio = Ratio(costs, estimate);
                if (fits && (ratio < group.Ratio || group.Way is null))
                {
                    (group.Ratio, group.Way) = (ratio, new(parent, arc, tree));
                    costs.CopyTo(group.Costs);
                }
            }
        }
    }

    /// <summary>Costs of a representative of each group, and its way.</summary>
    public IEnumerable<(int[] Costs, CompletedWay Way)> Representatives =>
        _groups.Values.Where(group => group.Way is not null).Select(group => (group.Costs, group.Way!.Value));

    /// <summary>
    /// The least ε for which every way not searched has an answer at most (1 + ε) times as costly in each cost; +∞ where an estimate of
    /// 0 has only answers above it.
    /// </summary>
    public double Epsilon(IReadOnlyList<int[]> answers)
    {
        var (worst, last) = (1.0, 0);
        foreach (var group in _groups.Values.OrderByDescending(group => group.Ratio))
        {
            var nearest = double.PositiveInfinity;
            for (var i = 0; i < answers.Count && nearest > worst; i++)
            {
                // The answer that served the group before often serves this one.
                var answer = (last + i) % answers.Count;
                if (Ratio(answers[answer], group.Apex) is var ratio && ratio < nearest)
                {
                    (nearest, last) = (ratio, answer);
                }
            }

            worst = Math.Max(worst, nearest);
        }

        return worst - 1;
    }

    /// <summary>Arcs of a tree's way from the end of an arc to the target, by their numbers in the contraction.</summary>
    public void Complete(CompletedWay way, List<int> into) =>
        _trees[way.Tree].Follow(way.Arc < 0 ? _graph.Origin : _graph.Out[way.Arc].End, into);

    private static double Ratio(ReadOnlySpan<int> costs, ReadOnlySpan<int> least)
    {
        var ratio = 1.0;
        for (var k = 0; k < costs.Length; k++)
        {
            if (costs[k] > least[k])
            {
                ratio = Math.Max(ratio, least[k] == 0 ? double.PositiveInfinity : (double)costs[k] / least[k]);
            }
        }

        return ratio;
    }

    private static int Cell(ReadOnlySpan<int> estimate, int criterion) =>
        criterion < estimate.Length ? (int)(Math.Log(estimate[criterion] + 1.0) / Grain) : 0;

    /// <summary>Ways of least weighted cost from every vertex to the target.</summary>
    private sealed class CompletionTree
    {
        private readonly int _criteria;
        private readonly int[] _costs;
        private readonly int[] _arc;
        private readonly int[] _next;

        public CompletionTree(QueryGraph graph, double[] weights)
        {
            unchecked
            {
                _criteria = weights.Length;
                _costs = new int[graph.VertexCount * _criteria];
                (_arc, _next) = (new int[graph.VertexCount], new int[graph.VertexCount]);
                var distance = new float[graph.VertexCount];
                distance.AsSpan().Fill(float.PositiveInfinity);
                (distance[graph.Target], _next[graph.Target]) = (0, -1);
                // The bits of floats from 0 on stand in the order of the floats.
                var queue = new VertexQueue();
                queue.Push(0, graph.Target);
                Span<int> costs = stackalloc int[4];
                while (queue.TryPop(out var bits, out var v))
                {
                    var near = BitConverter.Int32BitsToSingle(bits);
                    for (var i = graph.FirstIn[v]; near <= distance[v] && i < graph.FirstIn[v + 1]; i++)
                    {
                        var arc = graph.In[i];
                        (costs[0], costs[1], costs[2]) = (arc.First, arc.Second, arc.Third);
                        costs[3] = _criteria == 4 ? graph.FourthIn(i) : 0;
                        var through = near;
                        for (var k = 0; k < _criteria; k++)
                        {
                            through += (float)weights[k] * costs[k];
                        }

                        if (through < distance[arc.End])
                        {
                            (distance[arc.End], _next[arc.End], _arc[arc.End]) = (through, v, graph.ArcIn[i]);
                            for (var k = 0; k < _criteria; k++)
                            {
                                // A sum that leaves the range stays far above every other.
                                _costs[arc.End * _criteria + k] = (int)Math.Min(int.MaxValue, (long)costs[k] + _costs[v * _criteria + k]);
                            }

                            queue.Push(BitConverter.SingleToInt32Bits(through), arc.End);
                        }
                    }
                }
            }
        }

        public ReadOnlySpan<int> Costs(int vertex) => _costs.AsSpan(vertex * _criteria, _criteria);

        public void Follow(int vertex, List<int> into)
        {
            for (var at = vertex; _next[at] >= 0; at = _next[at])
            {
                into.Add(_arc[at]);
            }
        }
    }
}
