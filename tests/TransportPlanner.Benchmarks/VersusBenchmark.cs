using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>The exact search beside other programs that answer the same question, in turn in one run. A peer that is not there is named.</summary>
internal static partial class VersusBenchmark
{
    private const string JavaPackages = "/usr/share/java";

    public static async Task RunAsync(string[] args)
    {
        var given = new Arguments(args, ["FILE.csv", "ORIGIN", "TARGET"], "peers", "rounds", "limit", "rooms");
        var file = Path.GetFullPath(given.Words[0]);
        var graph = CostGraphFile.Read(file);
        var (origin, target) = (ParetoBenchmark.Vertex(graph, given.Words[1]), ParetoBenchmark.Vertex(graph, given.Words[2]));
        var (rounds, limit, rooms) = (given.Count("rounds", 3), TimeSpan.FromSeconds(given.Count("limit", 60)), given.Text("rooms") is null ? 0 : given.Count("rooms", 1));
        var peers = given.Folder("peers");
        var query = (File: file, From: given.Words[1], To: given.Words[2]);

        Figures.PrintMachine();
        var build = Directory.CreateTempSubdirectory("planner-peers-");
        try
        {
            var set = ParetoSearch.Find(graph, origin, target);
            Figures.Print($"{Path.GetFileName(file)}: {graph.VertexCount} vertices, {graph.ArcCount} arcs, {graph.CriterionCount} costs; points {set.Members.Length}");

            var baseline = await BaselineAsync(peers, build);
            var (ours, theirs) = (new List<double>(), new List<double>());
            for (var round = 0; round < rounds; round++)
            {
                ours.AddRange(Enumerable.Range(0, 5).Select(_ => Figures.Milliseconds(() => ParetoSearch.Find(graph, origin, target))));
                if (baseline is not null)
                {
                    theirs.AddRange(await BaselineRoundAsync(baseline, query, limit, set.Members.Length));
                }
            }

            var median = Figures.Percentile(ours, 50);
            Figures.Print($"{"ours",-12} {Figures.Spread(ours)}");
            Report("baseline", baseline is null ? null : theirs, median, "no baseline/proto.csproj in --peers, or it does not build");
            Report("Boost", await BoostAsync(peers, build, query, limit), median, "no rcsp.cpp in --peers, no g++ or Boost, more than three costs, or not ready within --limit");
            Report("JGraphT", await JGraphTAsync(peers, build, query, limit), median, "no Martin.java in --peers, no JDK or JGraphT, or not ready within --limit");
            if (rooms > 0)
            {
                await RoomsAsync(graph, file, baseline, rooms, limit);
            }
        }
        finally
        {
            build.Delete(recursive: true);
        }

        Figures.PrintMachine();
    }

    private static void Report(string name, IReadOnlyCollection<double>? milliseconds, double ours, string missing)
    {
        if (milliseconds is not { Count: > 0 })
        {
            Figures.Print($"{name,-12} not measured: {missing}");
            return;
        }

        Figures.Print($"{name,-12} {Figures.Spread(milliseconds)}; ours ÷ {name}: {ours / Figures.Percentile(milliseconds, 50):0.0000}");
    }

    private static async Task RoomsAsync(CostGraph graph, string file, string? baseline, int rooms, TimeSpan limit)
    {
        var (ours, _) = RoomsBenchmark.Measure(graph, rooms, 7);
        Figures.Print($"{rooms} random pairs of rooms, ours: {Figures.Spread(ours)}");
        if (baseline is not null && await OutputAsync("dotnet", [baseline, "multi", file, $"{rooms}", "60"], limit * 10) is { } text && Pairs().Match(text) is { Success: true } match)
        {
            var (median, most) = (Number(match, 1), Number(match, 2));
            Figures.Print($"{rooms} random pairs of rooms, baseline: P50 {median:0.00} ms, P95 {most:0.00} ms; ours ÷ baseline: P50 {Figures.Percentile(ours, 50) / median:0.000}, P95 {Figures.Percentile(ours, 95) / most:0.000}");
        }
    }

    private static async Task<string?> BaselineAsync(string? peers, DirectoryInfo build)
    {
        var project = peers is null ? null : Path.Combine(peers, "baseline", "proto.csproj");
        if (project is null || !File.Exists(project))
        {
            return null;
        }

        // A copy, so that nothing is built into somebody's folder.
        var copy = build.CreateSubdirectory("baseline");
        foreach (var source in Directory.EnumerateFiles(Path.GetDirectoryName(project)!, "*.cs*").Where(path => Path.GetExtension(path) is ".cs" or ".csproj"))
        {
            File.Copy(source, Path.Combine(copy.FullName, Path.GetFileName(source)));
        }

        await OutputAsync("dotnet", ["build", "-c", "Release", "-v", "q", "-o", Path.Combine(copy.FullName, "out"), Path.Combine(copy.FullName, "proto.csproj")], TimeSpan.FromMinutes(5));
        var built = Path.Combine(copy.FullName, "out", "proto.dll");
        return File.Exists(built) ? built : null;
    }

    /// <summary>Five warm searches: the first of six warms the program up.</summary>
    private static async Task<IEnumerable<double>> BaselineRoundAsync(string program, (string File, string From, string To) query, TimeSpan limit, int points)
    {
        var text = await OutputAsync("dotnet", [program, "moa", query.File, query.From, query.To, $"{limit.TotalSeconds:0}", "0", "6"], limit * 7) ?? "";
        var runs = Totals().Matches(text);
        if (runs.Any(run => Number(run, 1) != points))
        {
            throw new InvalidDataException($"The baseline found other points than {points}: {text}");
        }

        return runs.Skip(1).Select(run => Number(run, 2));
    }

    private static async Task<double[]?> BoostAsync(string? peers, DirectoryInfo build, (string File, string From, string To) query, TimeSpan limit)
    {
        var (source, program) = (Path.Combine(peers ?? "", "rcsp.cpp"), Path.Combine(build.FullName, "rcsp"));
        if (!File.Exists(source))
        {
            return null;
        }

        await OutputAsync("g++", ["-O3", "-std=c++17", "-DNDEBUG", source, "-o", program], TimeSpan.FromMinutes(3));
        return File.Exists(program) && await OutputAsync(program, [query.File, query.From, query.To], limit) is { } text && Boost().Match(text) is { Success: true } match
            ? [Number(match, 1) * 1000]
            : null;
    }

    private static async Task<double[]?> JGraphTAsync(string? peers, DirectoryInfo build, (string File, string From, string To) query, TimeSpan limit)
    {
        var source = Path.Combine(peers ?? "", "Martin.java");
        if (!File.Exists(source) || !Directory.Exists(JavaPackages))
        {
            return null;
        }

        var classes = string.Join(':', Directory.EnumerateFiles(JavaPackages, "*.jar").Where(jar => JGraphTAndItsNeeds().IsMatch(Path.GetFileName(jar))).Append(build.FullName));
        await OutputAsync("javac", ["-cp", classes, "-d", build.FullName, source], TimeSpan.FromMinutes(3));
        var text = await OutputAsync("java", ["-Xmx4g", "-cp", classes, "Martin", query.File, query.From, query.To], limit * 3) ?? "";
        double[] runs = [.. JGraphT().Matches(text).Select(match => Number(match, 1) * 1000)];
        return runs.Length > 1 ? runs[1..] : null;
    }

    /// <returns>Standard output; null where the program is missing, fails, or is not ready in time.</returns>
    private static async Task<string?> OutputAsync(string program, string[] arguments, TimeSpan limit)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            using var time = new CancellationTokenSource(limit);
            var (output, errors) = (process.StandardOutput.ReadToEndAsync(time.Token), process.StandardError.ReadToEndAsync(time.Token));
            try
            {
                await process.WaitForExitAsync(time.Token);
                await errors;
                return process.ExitCode == 0 ? await output : null;
            }
            catch (OperationCanceledException)
            {
                process.Kill(entireProcessTree: true);
                return null;
            }
        }
        catch (Win32Exception)
        {
            return null;
        }
    }

    private static double Number(Match match, int group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"sol=(\d+) .*total_ms=([\d.]+)")]
    private static partial Regex Totals();

    [GeneratedRegex(@"ms median ([\d.]+) p95 ([\d.]+)")]
    private static partial Regex Pairs();

    [GeneratedRegex(@" s=([\d.e+-]+)")]
    private static partial Regex Boost();

    [GeneratedRegex(@"nondominated=\d+  ([\d.]+) s")]
    private static partial Regex JGraphT();

    [GeneratedRegex(@"^(jgrapht|jheaps|apfloat|antlr4|commons-text|commons-lang3)")]
    private static partial Regex JGraphTAndItsNeeds();
}
