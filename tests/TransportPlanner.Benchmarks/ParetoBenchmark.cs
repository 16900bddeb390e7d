using System.Globalization;
using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>Times <see cref="ParetoSearch"/> on a graph from a file, beside a single-cost search of the same graph.</summary>
internal static class ParetoBenchmark
{
    public static void Run(string[] args)
    {
        var given = new Arguments(args, ["FILE.csv", "ORIGIN", "TARGET"], "repeat", "out", "stop");
        var (file, repeat) = (given.Words[0], given.Count("repeat", 5));
        var graph = CostGraphFile.Read(file);
        var (origin, target) = (Vertex(graph, given.Words[1]), Vertex(graph, given.Words[2]));

        Figures.PrintMachine();
        var bounds = new LowerBounds();
        var set = ParetoSearch.Find(graph, origin, target);
        bounds.Compute(graph, target, null, default, default);
        var (whole, bound) = (new double[repeat], new double[repeat]);
        var allocated = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < repeat; i++)
        {
            whole[i] = Figures.Milliseconds(() => set = ParetoSearch.Find(graph, origin, target));
        }

        allocated = (GC.GetAllocatedBytesForCurrentThread() - allocated) / repeat;
        for (var i = 0; i < repeat; i++)
        {
            bound[i] = Figures.Milliseconds(() => bounds.Compute(graph, target, null, default, default));
        }

        var quik = QuikGraphDijkstra(graph, origin, target, repeat);
        var (wholeMedian, boundMedian, quikMedian) = (Figures.Percentile(whole, 50), Figures.Percentile(bound, 50), Figures.Percentile(quik, 50));
        Figures.Print($"{Path.GetFileName(file)}: {graph.VertexCount} vertices, {graph.ArcCount} arcs, {graph.CriterionCount} costs");
        Figures.Print($"points {set.Members.Length}, expanded {set.Expanded}, generated {set.Generated}");
        Figures.Print($"milliseconds, median of {repeat} warm runs: {wholeMedian:0.000} (bounds {boundMedian:0.000}, search {wholeMedian - boundMedian:0.000}); least {whole.Min():0.000}");
        Figures.Print($"allocated per search: {allocated} bytes, the answer included");
        Figures.Print($"QuikGraph Dijkstra on the first cost: {quikMedian:0.000} ms; ratio {wholeMedian / quikMedian:0.000}");
        if (given.Text("stop") is not null)
        {
            CutShort(graph, origin, target, TimeSpan.FromMilliseconds(given.Count("stop", 300)), repeat);
        }

        if (given.Text("out") is { } output)
        {
            File.WriteAllLines(output, set.Members.Select(m => string.Join(',', m.Costs)));
        }
    }

    /// <summary>The same search told to stop after a while: when its answer is there, how many points it has, and the ε that it states.</summary>
    private static void CutShort(CostGraph graph, int origin, int target, TimeSpan stop, int repeat)
    {
        var (whole, epsilon, points) = (new double[repeat], new double[repeat], new double[repeat]);
        for (var i = 0; i < repeat; i++)
        {
            whole[i] = Figures.Milliseconds(() =>
            {
                using var deadline = new CancellationTokenSource(stop);
                var set = ParetoSearch.Find(graph, origin, target, deadline: deadline.Token);
                (epsilon[i], points[i]) = (set.Epsilon, set.Members.Length);
            });
        }

        Figures.Print($"told to stop after {stop.TotalMilliseconds:0} ms: answered after {Figures.Spread(whole)}; ε {epsilon.Min():0.00} to {epsilon.Max():0.00}; points {points.Min():0} to {points.Max():0}");
    }

    /// <summary>Milliseconds of repeated single-cost searches by QuikGraph, on the first cost: a scale that anybody can reproduce.</summary>
    public static double[] QuikGraphDijkstra(CostGraph graph, int origin, int target, int repeat)
    {
        var costs = new Dictionary<(int, int), double>();
        var quik = new AdjacencyGraph<int, Edge<int>>();
        quik.AddVertexRange(Enumerable.Range(0, graph.VertexCount));
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            var (u, v, cost) = (graph.Source[arc], graph.Target[arc], graph.Costs[arc * graph.CriterionCount]);
            if (!costs.TryGetValue((u, v), out var known) || cost < known)
            {
                costs[(u, v)] = cost;
            }

            quik.AddEdge(new(u, v));
        }

        return [.. Enumerable.Range(0, repeat).Select(_ => Figures.Milliseconds(() => quik.ShortestPathsDijkstra(e => costs[(e.Source, e.Target)], origin)(target, out IEnumerable<Edge<int>> _)))];
    }

    public static int Vertex(CostGraph graph, string text) =>
        int.TryParse(text, CultureInfo.InvariantCulture, out var number) && number >= 1 && number <= graph.VertexCount
            ? number - 1
            : throw new BadInputException($"{text}: vertices are 1 to {graph.VertexCount}.");
}
