using System.Diagnostics;
using System.Globalization;
using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>Times <see cref="ParetoSearch"/> on a graph from a file, beside a single-cost search of the same graph.</summary>
internal static class ParetoBenchmark
{
    public static int Run(string[] args)
    {
        var options = Options.Parse(args, out var error);
        if (options is null)
        {
            Console.Error.WriteLine(error);
            return 2;
        }

        CostGraph graph;
        try
        {
            graph = Read(options.File);
        }
        catch (Exception e) when (e is IOException or FormatException or ArgumentException)
        {
            Console.Error.WriteLine($"{options.File}: {e.Message}");
            return 2;
        }

        var (origin, target) = (options.Origin - 1, options.Target - 1);
        if ((uint)origin >= (uint)graph.VertexCount || (uint)target >= (uint)graph.VertexCount)
        {
            Console.Error.WriteLine($"Vertices are 1 to {graph.VertexCount}; got {options.Origin} and {options.Target}.");
            return 2;
        }

        var bounds = new LowerBounds();
        var set = ParetoSearch.Find(graph, origin, target);
        bounds.Compute(graph, target, null, default, default);
        var (whole, bound) = (new double[options.Repeat], new double[options.Repeat]);
        var allocated = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < options.Repeat; i++)
        {
            whole[i] = Milliseconds(() => set = ParetoSearch.Find(graph, origin, target));
        }

        allocated = (GC.GetAllocatedBytesForCurrentThread() - allocated) / options.Repeat;
        for (var i = 0; i < options.Repeat; i++)
        {
            bound[i] = Milliseconds(() => bounds.Compute(graph, target, null, default, default));
        }

        var quik = QuikGraphDijkstra(graph, origin, target, options.Repeat);
        var (wholeMedian, boundMedian, quikMedian) = (Median(whole), Median(bound), Median(quik));
        Print($"{Path.GetFileName(options.File)}: {graph.VertexCount} vertices, {graph.ArcCount} arcs, {graph.CriterionCount} costs");
        Print($"points {set.Members.Length}, expanded {set.Expanded}, generated {set.Generated}");
        Print($"milliseconds, median of {options.Repeat} warm runs: {wholeMedian:0.000} (bounds {boundMedian:0.000}, search {wholeMedian - boundMedian:0.000}); least {whole.Min():0.000}");
        Print($"allocated per search: {allocated} bytes, the answer included");
        Print($"QuikGraph Dijkstra on the first cost: {quikMedian:0.000} ms; ratio {wholeMedian / quikMedian:0.000}");
        if (options.Out is not null)
        {
            File.WriteAllLines(options.Out, set.Members.Select(m => string.Join(',', m.Costs)));
        }

        return 0;
    }

    private static CostGraph Read(string file)
    {
        var (source, target, costs) = (new List<int>(), new List<int>(), new List<int>());
        using var reader = new StreamReader(file);
        var criteria = (reader.ReadLine() ?? throw new FormatException("The file is empty.")).Split(',').Length - 3;
        for (var number = 2; reader.ReadLine() is { } line; number++)
        {
            var cells = line.Split(',');
            if (cells.Length != criteria + 3)
            {
                throw new FormatException($"Line {number} has {cells.Length} cells; the header has {criteria + 3}.");
            }

            source.Add(int.Parse(cells[1], CultureInfo.InvariantCulture) - 1);
            target.Add(int.Parse(cells[2], CultureInfo.InvariantCulture) - 1);
            costs.AddRange(cells.Skip(3).Select(c => int.Parse(c, CultureInfo.InvariantCulture)));
        }

        var vertices = source.Concat(target).DefaultIfEmpty().Max() + 1;
        return new(vertices, criteria, source.ToArray(), target.ToArray(), costs.ToArray());
    }

    private static double[] QuikGraphDijkstra(CostGraph graph, int origin, int target, int repeat)
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

        return [.. Enumerable.Range(0, repeat).Select(_ => Milliseconds(() => quik.ShortestPathsDijkstra(e => costs[(e.Source, e.Target)], origin)(target, out IEnumerable<Edge<int>> _)))];
    }

    private static double Milliseconds(Action action)
    {
        var start = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    private static double Median(double[] values) => values.Order().ElementAt(values.Length / 2);

    private static void Print(FormattableString line) => Console.WriteLine(FormattableString.Invariant(line));

    private sealed record Options(string File, int Origin, int Target, int Repeat, string? Out)
    {
        public static Options? Parse(string[] args, out string error)
        {
            error = "Give FILE.csv ORIGIN TARGET, vertices counted from 1.";
            if (args.Length < 3 || !int.TryParse(args[1], out var origin) || !int.TryParse(args[2], out var target))
            {
                return null;
            }

            var (repeat, output) = (5, (string?)null);
            for (var i = 3; i < args.Length; i += 2)
            {
                switch (args[i])
                {
                    case "--repeat" when i + 1 < args.Length && int.TryParse(args[i + 1], out repeat) && repeat > 0:
                        break;
                    case "--out" when i + 1 < args.Length:
                        output = args[i + 1];
                        break;
                    default:
                        error = $"{args[i]}: unknown, or without a value it can use. Known: --repeat N (1 or more), --out FILE.";
                        return null;
                }
            }

            return new(args[0], origin, target, repeat, output);
        }
    }
}
