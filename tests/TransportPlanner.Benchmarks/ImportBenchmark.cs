using System.Diagnostics;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Benchmarks;

/// <summary>
/// From an uploaded file to the first answered way: seconds of each step and the memory of the planner, as a process of its own with a new data folder,
/// for generated hospitals of growing size and, where it is there, a real clinic's workbook.
/// </summary>
internal static class ImportBenchmark
{
    private const string Imports = "/api/v1/imports";
    private const string Site = "generated";

    private sealed record Steps(int Rooms, double FileMegabytes, double Upload, double Read, double Decide, double Publish, double FirstRoutes, double NextRoutes, double MemoryBefore, double MemoryMost)
    {
        public double Whole => Upload + Read + Decide + Publish;
    }

    public static async Task RunAsync(string[] args)
    {
        var given = new Arguments(args, [], "rooms", "format", "server");
        var server = Path.GetFullPath(given.Text("server") ?? ServerProcess.BuiltHere);
        int[] sizes = given.Text("rooms") is null ? [1_250, 2_500, 5_000, 10_000] : [given.Count("rooms", 1)];
        string[] formats = given.Text("format") is { } format ? [format] : ["geoJson", "cobie"];
        Figures.PrintMachine();
        Figures.Print($"Seconds: upload, read (until the draft stands), decide (joins and warnings), publish (stored, graph built), first and second POST /routes across the building. Memory: resident megabytes of the planner before, and the most that ever was.");
        var clinic = Environment.GetEnvironmentVariable("PLANNER_BUILDINGS") is { } buildings ? Path.Combine(buildings, "clinic", "clinic.cobie.xlsx") : null;
        if (clinic is not null && File.Exists(clinic))
        {
            Print("clinic", await MeasureAsync(server, "cobie", 269, await File.ReadAllBytesAsync(clinic), null));
        }
        else
        {
            Figures.Print($"clinic: skipped, PLANNER_BUILDINGS does not lead to its workbook.");
        }

        foreach (var kind in formats)
        {
            Steps? before = null;
            foreach (var rooms in sizes)
            {
                var hospital = new GeneratedHospital(rooms);
                var file = kind == "cobie" ? hospital.Workbook() : Encoding.UTF8.GetBytes(FloorPlanGeoJson.Write(hospital.Plan(Site)));
                var steps = await MeasureAsync(server, kind, rooms, file, hospital.Ends);
                Print(kind, steps);
                if (before is not null)
                {
                    Figures.Print($"  against {before.Rooms} rooms: seconds × {steps.Whole / before.Whole:0.0}, memory above the start × {(steps.MemoryMost - steps.MemoryBefore) / (before.MemoryMost - before.MemoryBefore):0.0}");
                }

                before = steps;
            }
        }

        Figures.PrintMachine();
    }

    private static void Print(string name, Steps s) => Figures.Print(
        $"{name} {s.Rooms} rooms, {s.FileMegabytes:0.0} MB: upload {s.Upload:0.00}, read {s.Read:0.00}, decide {s.Decide:0.00}, publish {s.Publish:0.00}, together {s.Whole:0.00} s; routes {s.FirstRoutes:0.00} s, then {s.NextRoutes:0.00} s; memory {s.MemoryBefore:0} MB, most {s.MemoryMost:0} MB");

    private static async Task<Steps> MeasureAsync(string server, string format, int rooms, byte[] file, (string From, string To)? ends)
    {
        var folder = Directory.CreateTempSubdirectory("planner-benchmark-");
        try
        {
            await using var running = await ServerProcess.StartAsync(server, folder.FullName);
            var client = running.Client;
            client.Timeout = TimeSpan.FromMinutes(15);
            var before = running.ResidentMegabytes().Now;
            var begun = await AskAsync(client, HttpMethod.Post, Imports, new { siteId = Site, siteName = "Generated", timeZone = "Etc/UTC", fileName = "generated", format, by = "Facilities" });
            var address = $"{Imports}/{begun["id"]}";
            var start = Stopwatch.GetTimestamp();
            (await client.PutAsync($"{address}/file", new ByteArrayContent(file))).EnsureSuccessStatusCode();
            var (upload, import) = (Figures.Since(start) / 1000, begun);
            start = Stopwatch.GetTimestamp();
            while (true)
            {
                // The list is small at any size; the import itself is asked for once it stands.
                var state = (await AskAsync(client, HttpMethod.Get, Imports))["imports"]!.AsArray().Single()!;
                if ($"{state["state"]}" != "reading")
                {
                    break;
                }

                await Task.Delay(20);
            }

            import = await AskAsync(client, HttpMethod.Get, address);
            var read = Figures.Since(start) / 1000;
            if ($"{import["import"]!["state"]}" != "draft" || import["errors"]!.GetValue<int>() > 0)
            {
                throw new BadInputException($"The generated file was not taken: {import["findings"]}");
            }

            start = Stopwatch.GetTimestamp();
            import = await DecideAsync(client, address, import);
            var decide = Figures.Since(start) / 1000;
            start = Stopwatch.GetTimestamp();
            await AskAsync(client, HttpMethod.Post, $"{address}/publish", new { by = "Facilities", comparedWithVersion = import["comparedWithVersion"]!.GetValue<int>() });
            var publish = Figures.Since(start) / 1000;
            double first = 0, next = 0;
            if (ends is var (from, to))
            {
                (first, next) = (await RouteAsync(client, from, to), await RouteAsync(client, from, to));
            }

            return new(rooms, file.Length / 1e6, upload, read, decide, publish, first, next, before, running.ResidentMegabytes().Most);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>Confirms every join and accepts every warning, as a person would who looked at each.</summary>
    private static async Task<JsonNode> DecideAsync(HttpClient client, string address, JsonNode import)
    {
        var joins = import["joins"]!.AsArray().Where(join => $"{join!["state"]}" == "open").Select(join => new { key = $"{join!["id"]}", answer = "confirmed", reason = (string?)null });
        foreach (var batch in joins.Chunk(500))
        {
            await AskAsync(client, HttpMethod.Post, $"{address}/decisions", new { by = "Facilities", decisions = batch });
        }

        import = await AskAsync(client, HttpMethod.Get, address);
        var warnings = import["findings"]!.AsArray().Where(finding => finding!["answer"] is null).Select(finding => new { key = $"{finding!["key"]}", answer = "accepted", reason = "Generated" });
        foreach (var batch in warnings.Chunk(500))
        {
            await AskAsync(client, HttpMethod.Post, $"{address}/decisions", new { by = "Facilities", decisions = batch });
        }

        return await AskAsync(client, HttpMethod.Get, address);
    }

    private static async Task<double> RouteAsync(HttpClient client, string from, string to)
    {
        var start = Stopwatch.GetTimestamp();
        await AskAsync(client, HttpMethod.Post, "/api/v1/routes", new { siteId = Site, from, to, precautions = new[] { "airborne" } });
        return Figures.Since(start) / 1000;
    }

    private static async Task<JsonNode> AskAsync(HttpClient client, HttpMethod method, string address, object? body = null)
    {
        using var request = new HttpRequestMessage(method, address);
        if (body is not null)
        {
            request.Content = ServerProcess.Json(System.Text.Json.JsonSerializer.Serialize(body));
            request.Headers.TryAddWithoutValidation("If-Match", "*");
        }

        using var answer = await client.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode ? JsonNode.Parse(text)! : throw new BadInputException($"{method} {address}: {(int)answer.StatusCode} {text}");
    }
}
