using TransportPlanner.Core.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>Exact searches between random rooms of a graph from a file: the last third of its vertices, as generated hospitals number them.</summary>
internal static class RoomsBenchmark
{
    public static void Run(string[] args)
    {
        var given = new Arguments(args, ["FILE.csv"], "count", "seed");
        var graph = CostGraphFile.Read(given.Words[0]);
        Figures.PrintMachine();
        var (times, points) = Measure(graph, given.Count("count", 200), given.Count("seed", 7));
        Figures.Print($"{Path.GetFileName(given.Words[0])}: {graph.VertexCount} vertices, {times.Length} random pairs of rooms: {Figures.Spread(times)}");
        Figures.Print($"points: median {Figures.Percentile(points, 50)}, P95 {Figures.Percentile(points, 95)}, most {points.Max()}");
    }

    /// <summary>Milliseconds and points of each pair, bounds included; the graph is contracted and the program warm before.</summary>
    public static (double[] Milliseconds, double[] Points) Measure(CostGraph graph, int count, int seed)
    {
        var (random, first) = (new SplitMix64((ulong)seed), graph.VertexCount * 2 / 3);
        int Room() => first + (int)(random.Next() % (ulong)(graph.VertexCount - first));
        ParetoSearch.Find(graph, first, graph.VertexCount - 1);
        var (times, points) = (new double[count], new double[count]);
        for (var i = 0; i < count; i++)
        {
            var (origin, target) = (Room(), Room());
            times[i] = Figures.Milliseconds(() => points[i] = ParetoSearch.Find(graph, origin, target).Members.Length);
        }

        return (times, points);
    }

    /// <summary>Alike on every machine and in every language. Source: Steele, Lea and Flood, <i>Fast splittable pseudorandom number generators</i>, OOPSLA 2014.</summary>
    private sealed class SplitMix64(ulong state)
    {
        private ulong _state = state;

        public ulong Next()
        {
            unchecked
            {
                _state += 0x9E3779B97F4A7C15UL;
                var z = _state;
                z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
                z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
                return z ^ (z >> 31);
            }
        }
    }
}
