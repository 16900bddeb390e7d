using System.Diagnostics;
using System.Globalization;
using System.Net;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Benchmarks;

/// <summary>POST /plans on the demonstration hospital: start, answers, load, memory, and where the time goes.</summary>
internal static class PlansBenchmark
{
    public const string Empty = "/health/live";
    public const string FloorPlanAddress = "/api/v1/sites/demonstration/floor-plan";

    private const string Plans = "/api/v1/plans";
    private const int Rounds = 10;
    private const int Clients = 4;

    public static async Task RunAsync(string[] args)
    {
        var given = new Arguments(args, [], "count", "starts", "seed", "server");
        var (count, starts, seed) = (given.Count("count", 1000), given.Count("starts", 5), given.Count("seed", 7));
        var server = Path.GetFullPath(given.Text("server") ?? ServerProcess.BuiltHere);
        if (!File.Exists(server))
        {
            throw new BadInputException($"--server: there is no file {server}.");
        }

        Figures.PrintMachine();
        var folder = Directory.CreateTempSubdirectory("planner-benchmark-");
        try
        {
            var bodies = await StartsAsync(server, folder, starts, count, seed);
            await LoadAsync(server, folder, bodies);
            await PlanPieces.RunAsync(folder.CreateSubdirectory("pieces").FullName, bodies);
        }
        finally
        {
            folder.Delete(recursive: true);
        }

        Figures.PrintMachine();
    }

    /// <summary>The first start warms this program and the machine's file cache, gives the floor plan, and is not counted.</summary>
    private static async Task<string[]> StartsAsync(string server, DirectoryInfo folder, int starts, int count, int seed)
    {
        string[] bodies = [];
        var times = new Dictionary<bool, List<(double Address, double Plan)>> { [true] = [], [false] = [] };
        for (var i = 0; i <= starts; i++)
        {
            var data = folder.CreateSubdirectory($"start-{i}").FullName;
            foreach (var isNew in new[] { true, false })
            {
                var start = Stopwatch.GetTimestamp();
                await using var running = await ServerProcess.StartAsync(server, data);
                if (i == 0)
                {
                    bodies = new MixedRequests(await FloorPlanAsync(running.Client), seed).Plans(count);
                }

                await PostAsync(running.Client, Plans, PlanPieces.Example, HttpStatusCode.Created);
                if (i > 0)
                {
                    times[isNew].Add((running.MillisecondsToAddress, Figures.Since(start)));
                }
            }
        }

        foreach (var (isNew, measured) in times)
        {
            Figures.Print($"process start to first answered plan, {(isNew ? "new" : "known")} data folder, {starts} start(s): {Figures.Spread([.. measured.Select(t => t.Plan)])}; of it until the address is printed P50 {Figures.Percentile(measured.Select(t => t.Address), 50):0.00} ms");
        }

        return bodies;
    }

    /// <summary>Plans and requests to the empty endpoint take turns in rounds, so that other work on the machine meets both.</summary>
    private static async Task LoadAsync(string server, DirectoryInfo folder, string[] bodies)
    {
        await using var running = await ServerProcess.StartAsync(server, folder.CreateSubdirectory("load").FullName);
        var (start, _) = running.ResidentMegabytes();
        await RoundAsync(running.Client, bodies[..Math.Min(bodies.Length, 200)], 1, []);
        await EmptyAsync(running.Client, 1000, 1);
        var (warm, _) = running.ResidentMegabytes();
        foreach (var clients in new[] { 1, Clients })
        {
            var (plans, empty, statuses) = (new List<double>(), new List<double>(), new List<(HttpStatusCode Status, double Milliseconds)>());
            foreach (var round in bodies.Chunk((bodies.Length + Rounds - 1) / Rounds))
            {
                plans.Add(round.Length / await RoundAsync(running.Client, round, clients, statuses));
                empty.Add(1000 / await EmptyAsync(running.Client, 1000, clients));
            }

            var made = statuses.Where(s => s.Status == HttpStatusCode.Created).ToList();
            var (planRate, emptyRate) = (Figures.Percentile(plans, 50), Figures.Percentile(empty, 50));
            Figures.Print($"POST /plans, {clients} client{(clients == 1 ? "" : "s")}, {statuses.Count} mixed requests: {Figures.Spread([.. made.Select(s => s.Milliseconds)])}");
            Figures.Print($"  {string.Join(", ", statuses.GroupBy(s => s.Status).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Count()} answered {(int)g.Key}")))}; the times are those of the plans made");
            Figures.Print($"  requests per second, medians of {plans.Count} rounds: {planRate:0} plans, {emptyRate:0} {Empty}; ratio {planRate / emptyRate:0.000}");
        }

        var (now, most) = running.ResidentMegabytes();
        Figures.Print($"resident memory of the server: {start:0} MB after start, {warm:0} MB after 200 plans, {now:0} MB after {2 * bodies.Length + 200}, at most {most:0} MB");
    }

    /// <returns>Seconds for all of them.</returns>
    private static async Task<double> RoundAsync(HttpClient client, string[] bodies, int clients, List<(HttpStatusCode, double)> answers)
    {
        var start = Stopwatch.GetTimestamp();
        var next = -1;
        var all = await Task.WhenAll(Enumerable.Range(0, clients).Select(_ => Task.Run(async () =>
        {
            var own = new List<(HttpStatusCode, double)>();
            for (var i = Interlocked.Increment(ref next); i < bodies.Length; i = Interlocked.Increment(ref next))
            {
                var begun = Stopwatch.GetTimestamp();
                own.Add((await PostAsync(client, Plans, bodies[i]), Figures.Since(begun)));
            }

            return own;
        })));
        var seconds = Figures.Since(start) / 1000;
        answers.AddRange(all.SelectMany(own => own));
        return seconds;
    }

    /// <returns>Seconds for all of them.</returns>
    private static async Task<double> EmptyAsync(HttpClient client, int count, int clients)
    {
        var start = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, clients).Select(_ => Task.Run(async () =>
        {
            for (var i = 0; i < count / clients; i++)
            {
                await client.GetByteArrayAsync(new Uri(Empty, UriKind.Relative));
            }
        })));
        return Figures.Since(start) / 1000;
    }

    public static async Task<FloorPlan> FloorPlanAsync(HttpClient client) =>
        FloorPlanGeoJson.Read(await client.GetStringAsync(new Uri(FloorPlanAddress, UriKind.Relative))).Plan
        ?? throw new InvalidDataException("The server's own floor plan cannot be read.");

    /// <summary>Posts a body and reads the whole answer.</summary>
    public static async Task<HttpStatusCode> PostAsync(HttpClient client, string address, string body, HttpStatusCode? expected = null)
    {
        using var content = ServerProcess.Json(body);
        using var response = await client.PostAsync(new Uri(address, UriKind.Relative), content);
        var text = await response.Content.ReadAsByteArrayAsync();
        return expected is null || response.StatusCode == expected
            ? response.StatusCode
            : throw new InvalidDataException($"POST {address} answered {(int)response.StatusCode}: {System.Text.Encoding.UTF8.GetString(text)}");
    }
}
