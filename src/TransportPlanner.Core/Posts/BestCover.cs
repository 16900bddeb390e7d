namespace TransportPlanner.Core.Posts;

/// <summary>
/// Chains of at most a given number that together hold the greatest weight, of these the most elements, of these with the least walking.
/// Exact: a minimum-cost flow of unit capacities by successive shortest paths with potentials.
/// </summary>
/// <remarks>
/// Each element is split in two, joined by an edge of capacity 1 that earns its weight. A unit of flow is one officer: from the source, or from
/// the officer's own node where officers have starting places, through elements, to the sink. Path costs never fall from one officer to the
/// next, so the flow stops where one more earns nothing; every element earns something, so each is manned that can be.
/// </remarks>
internal sealed class BestCover
{
    // One number orders all: weight first, then the number of elements, then walking. 240 elements of 2³⁰ weight stay far below 2¹²⁷.
    private const int WeightShift = 60;
    private const int CountShift = 40;
    private static readonly Int128 Unreached = Int128.MaxValue;

    private readonly int _count;
    private readonly List<(int To, int Capacity, Int128 Cost)> _edges = [];
    private readonly List<int>[] _out;
    private readonly int[] _own;

    private BestCover(int count, int officers)
    {
        (_count, _own) = (count, new int[count]);
        _out = [.. Enumerable.Range(0, 2 * count + officers + 2).Select(_ => new List<int>())];
    }

    private int Source => _out.Length - 2;
    private int Sink => _out.Length - 1;

    /// <summary>Chains of element numbers, one per officer, empty where there is nothing to do; elements in no chain are left open.</summary>
    public int[][] Chains { get; private set; } = [];

    /// <summary>What the best use of 0, 1, 2 … officers leaves open, up to the last that earns something, be it less walking.</summary>
    public List<int[]> Open { get; } = [];

    /// <summary>The best chains.</summary>
    /// <param name="weights">Weight of each element, 0 to 2⁵⁰; elements in an order in which nothing follows what comes after it.</param>
    /// <param name="walk">Seconds from the first to the second, which may follow directly; −1 where it may not.</param>
    /// <param name="officers">How many; 0 or more.</param>
    /// <param name="start">Seconds from where an officer is to an element, −1 where it cannot be reached in time; null: officers begin anywhere.</param>
    public static BestCover Find(long[] weights, Func<int, int, int> walk, int officers, Func<int, int, int>? start)
    {
        var n = weights.Length;
        var flow = new BestCover(n, officers);
        for (var officer = 0; officer < officers; officer++)
        {
            flow.Join(flow.Source, 2 * n + officer, 0);
            for (var j = 0; j < n; j++)
            {
                if ((start?.Invoke(officer, j) ?? 0) is var seconds and >= 0)
                {
                    flow.Join(2 * n + officer, 2 * j, seconds);
                }
            }
        }

        for (var i = 0; i < n; i++)
        {
            flow._own[i] = flow._edges.Count;
            flow.Join(2 * i, 2 * i + 1, -(((Int128)weights[i] << WeightShift) + ((Int128)1 << CountShift)));
            flow.Join(2 * i + 1, flow.Sink, 0);
            for (var j = i + 1; j < n; j++)
            {
                if (walk(i, j) is var seconds and >= 0)
                {
                    flow.Join(2 * i + 1, 2 * j, seconds);
                }
            }
        }

        flow.Send();
        flow.Chains = [.. Enumerable.Range(0, officers).Select(flow.Chain)];
        return flow;
    }

    private void Join(int from, int to, Int128 cost)
    {
        _out[from].Add(_edges.Count);
        _edges.Add((to, 1, cost));
        _out[to].Add(_edges.Count);
        _edges.Add((from, 0, -cost));
    }

    private void Send()
    {
        var potential = FirstPotentials();
        Open.Add([.. Enumerable.Range(0, _count)]);
        while (potential[Sink] != Unreached)
        {
            var (distance, by) = Nearest(potential);
            if (distance[Sink] == Unreached)
            {
                return;
            }

            for (var v = 0; v < distance.Length; v++)
            {
                // Whatever is farther than the sink, or cut off, moves with it: reduced costs stay at least 0.
                potential[v] += Int128.Min(distance[v], distance[Sink]);
            }

            if (potential[Sink] - potential[Source] >= 0)
            {
                return;
            }

            for (var v = Sink; v != Source; v = _edges[by[v] ^ 1].To)
            {
                _edges[by[v]] = _edges[by[v]] with { Capacity = 0 };
                _edges[by[v] ^ 1] = _edges[by[v] ^ 1] with { Capacity = 1 };
            }

            Open.Add([.. Enumerable.Range(0, _count).Where(i => _edges[_own[i]].Capacity > 0)]);
        }
    }

    /// <summary>Least costs from the source before anything flows: nodes in the order source, officers, elements, sink have no edge back.</summary>
    private Int128[] FirstPotentials()
    {
        var cost = new Int128[_out.Length];
        Array.Fill(cost, Unreached);
        cost[Source] = 0;
        foreach (var v in Enumerable.Range(2 * _count, Source - 2 * _count).Prepend(Source).Concat(Enumerable.Range(0, 2 * _count)))
        {
            foreach (var edge in cost[v] == Unreached ? [] : _out[v].Where(e => _edges[e].Capacity > 0))
            {
                cost[_edges[edge].To] = Int128.Min(cost[_edges[edge].To], cost[v] + _edges[edge].Cost);
            }
        }

        // Cut off from the source now, it stays cut off: its potential is never used, and must not overflow.
        var least = cost.Min();
        return [.. cost.Select((c, v) => c == Unreached && v != Sink ? least : c)];
    }

    /// <summary>Dijkstra on reduced costs without a queue: the graph is dense.</summary>
    private (Int128[] Distance, int[] By) Nearest(Int128[] potential)
    {
        var (distance, by, done) = (new Int128[_out.Length], new int[_out.Length], new bool[_out.Length]);
        Array.Fill(distance, Unreached);
        distance[Source] = 0;
        while (true)
        {
            var v = -1;
            for (var u = 0; u < distance.Length; u++)
            {
                v = !done[u] && distance[u] != Unreached && (v < 0 || distance[u] < distance[v]) ? u : v;
            }

            if (v < 0)
            {
                return (distance, by);
            }

            done[v] = true;
            foreach (var e in _out[v])
            {
                var (to, capacity, cost) = _edges[e];
                if (capacity > 0 && !done[to] && distance[v] + cost + potential[v] - potential[to] is var through && through < distance[to])
                {
                    (distance[to], by[to]) = (through, e);
                }
            }
        }
    }

    private int[] Chain(int officer)
    {
        var chain = new List<int>();
        for (var v = Next(2 * _count + officer); v >= 0 && v != Sink; v = Next(v + 1))
        {
            chain.Add(v / 2);
        }

        return [.. chain];

        // The forward edge that carries flow: an even number, its capacity used up.
        int Next(int from) => _out[from].Where(e => (e & 1) == 0 && _edges[e].Capacity == 0).Select(e => _edges[e].To).DefaultIfEmpty(-1).First();
    }
}
