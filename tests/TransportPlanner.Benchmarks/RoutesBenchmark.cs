using System.Collections.Immutable;
using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>POST /routes with plan B for every shown way, on one server after the other site: the whole request, and the parts of the answer.</summary>
internal static class RoutesBenchmark
{
    private const string Routes = "/api/v1/routes";
    private const int WarmUp = 300;

    public static async Task RunAsync(string[] args)
    {
        var given = new Arguments(args, [], "count", "seed", "floor-plan", "width");
        var (count, seed) = (given.Count("count", 500), given.Count("seed", 7));
        var width = given.Text("width") is null ? null : (double?)given.Count("width", 1) / 100;
        Figures.PrintMachine();
        var folder = Directory.CreateTempSubdirectory("planner-benchmark-");
        try
        {
            await using var application = new WebApplicationFactory<global::Program>().WithWebHostBuilder(host => host
                .UseEnvironment("Production").UseContentRoot(AppContext.BaseDirectory)
                .UseSetting(DataFolder.Setting, folder.FullName).UseSetting(RequestLog.QuietSetting, "true"));
            var console = Console.Out;
            Console.SetOut(TextWriter.Null);
            using var client = application.CreateClient();
            Console.SetOut(console);
            var sites = new List<string> { StartUp.DemonstrationSite };
            if (given.Text("floor-plan") is { } file)
            {
                sites.Add(await PublishAsync(client, file));
            }

            foreach (var site in sites)
            {
                await SiteAsync(application.Services, client, site, count, seed, width);
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }

        Figures.PrintMachine();
    }

    /// <returns>Id of the site of the file.</returns>
    private static async Task<string> PublishAsync(HttpClient client, string file)
    {
        var text = await File.ReadAllTextAsync(file);
        var plan = FloorPlanGeoJson.Read(text).Plan ?? throw new BadInputException($"--floor-plan: {file} cannot be read.");
        using var content = ServerProcess.Json(text);
        var address = $"/api/v1/sites/{plan.SiteId}/floor-plan";
        using var put = new HttpRequestMessage(HttpMethod.Put, new Uri(address, UriKind.Relative)) { Content = content };
        put.Headers.Add("If-None-Match", "*");
        using var answer = await client.SendAsync(put);
        return answer.IsSuccessStatusCode ? plan.SiteId : throw new BadInputException($"--floor-plan: {await answer.Content.ReadAsStringAsync()}");
    }

    private static async Task SiteAsync(IServiceProvider services, HttpClient client, string siteId, int count, int seed, double? width)
    {
        var site = services.GetRequiredService<FloorPlanStore>().TryFind(siteId, out var found) ? found : throw new InvalidDataException(siteId);
        var json = services.GetRequiredService<IOptions<Microsoft.AspNetCore.Http.Json.JsonOptions>>().Value.SerializerOptions;
        var (answered, bodies) = (new List<string>(), new MixedRequests(site.Plan, seed).Routes(count, width));
        foreach (var body in bodies.Concat(bodies.Take(WarmUp)))
        {
            if (await PlansBenchmark.PostAsync(client, Routes, body) == HttpStatusCode.OK && answered.Count < count)
            {
                answered.Add(body);
            }
        }

        if (answered.Count == 0)
        {
            Figures.Print($"{siteId}: none of {count} journeys has a way: give the incubator another --width.");
            return;
        }

        var (whole, find, sums) = (new List<double>(), new List<double>(), new Dictionary<string, double>());
        foreach (var body in answered)
        {
            var at = System.Diagnostics.Stopwatch.GetTimestamp();
            await PlansBenchmark.PostAsync(client, Routes, body);
            whole.Add(Figures.Since(at));
            await using var scope = services.CreateAsyncScope();
            var request = JsonSerializer.Deserialize<RouteRequest>(body, json)!;
            var query = (await SiteRouteQuery.ReadAsync(scope.ServiceProvider.GetRequiredService<PlannerContext>(), request, DateTimeOffset.UnixEpoch, default)).Query;
            find.Add(Figures.Milliseconds(() => RouteFinder.Find(site.Graph, query)));
            Parts(site.Graph, query, (name, milliseconds) => sums[name] = sums.GetValueOrDefault(name) + milliseconds);
        }

        Figures.Print($"{siteId}: {site.Plan.Places.Length} places, {answered.Count} of {bodies.Length + WarmUp} journeys with a way");
        Figures.Print($"  POST /routes without a socket: {Figures.Spread(whole)}");
        Figures.Print($"  of it RouteFinder.Find:        {Figures.Spread(find)}");
        foreach (var (name, milliseconds) in sums)
        {
            Figures.Print($"  {milliseconds / answered.Count,7:0.000} ms  {name}");
        }
    }

    /// <summary>What the search for ways calls, one by one.</summary>
    private static void Parts(FloorGraph graph, RouteQuery query, Action<string, double> report)
    {
        T Part<T>(string name, Func<T> part)
        {
            var start = System.Diagnostics.Stopwatch.GetTimestamp();
            var made = part();
            report(name, Figures.Since(start));
            return made;
        }

        var (origin, target) = (graph.DepartureVertex(graph.PlaceIndex[query.From]), graph.ArrivalVertex(graph.PlaceIndex[query.To]));
        var priced = Part("pricing: fit, times, exposure of every arc", () => new PricedGraph(graph, query));
        var set = Part("exact search", () => ParetoSearch.Find(priced.Costs, origin, target, priced.Allowed, default));
        if (set.Members.IsEmpty)
        {
            priced = new(graph, query with { ThroughRooms = true });
            set = ParetoSearch.Find(priced.Costs, origin, target, priced.Allowed, default);
        }

        ImmutableArray<ParetoMember> shown = [.. set.Members.Take(4)];
        var fallbacks = Part("plan B: least times, waits", () => new Fallbacks(priced, target));
        Part("plan B of up to four ways", () => shown.Sum(member => fallbacks.Of(member.Arcs, new int[member.Arcs.Length]).Length));
        var legs = Part("ways out: least times to bail-outs, oxygen, fire doors", () => new LegAssembly(priced));
        Part("legs of up to four ways", () => shown.Sum(member => legs.Legs(member.Arcs.AsSpan(), Core.Travel.ArrivalTimes.Of([.. member.Arcs.Select(priced.Travel.TimeOf)])).Length));
        Part("times of up to four ways", () => shown.Sum(member => Core.Travel.JourneyTime.Of(member.Arcs.Select(priced.Travel.TimeOf)).NearlyAlwaysSeconds));
    }
}
