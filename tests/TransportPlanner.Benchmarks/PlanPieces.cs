using System.Diagnostics;
using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Routing;
using PlanRequest = TransportPlanner.Web.Plans.PlanRequest;

namespace TransportPlanner.Benchmarks;

/// <summary>Where the time of one plan goes: the parts that the endpoint calls, called one by one in this process, beside the whole request without a socket.</summary>
internal static class PlanPieces
{
    private const int WarmUp = 200;

    /// <summary>The request of the first plan after a start: five inputs and nothing else.</summary>
    public static string Example { get; } = JsonSerializer.Serialize(new
    {
        siteId = StartUp.DemonstrationSite,
        from = "D-2.14",
        to = "N-4.03",
        support = "invasiveVentilation",
        precautions = new[] { "airborne" },
        cylinders = new[] { new { gas = "oxygen", sizeId = "US-E", gaugePsi = 1500 } },
    });

    public static async Task RunAsync(string dataFolder, string[] bodies)
    {
        await using var application = new WebApplicationFactory<global::Program>().WithWebHostBuilder(host => host
            .UseEnvironment("Production").UseContentRoot(AppContext.BaseDirectory)
            .UseSetting(DataFolder.Setting, dataFolder).UseSetting(RequestLog.QuietSetting, "true"));
        // Its announcement of an address, which nobody listens on here, would stand among the figures.
        var console = Console.Out;
        Console.SetOut(TextWriter.Null);
        using var client = application.CreateClient();
        Console.SetOut(console);
        var heapAfterStart = GC.GetTotalMemory(forceFullCollection: true);
        var json = application.Services.GetRequiredService<IOptions<Microsoft.AspNetCore.Http.Json.JsonOptions>>().Value.SerializerOptions;

        // Requests without a way end early; the parts are compared over plans that are made.
        var made = new List<string>();
        foreach (var body in bodies)
        {
            if (await PlansBenchmark.PostAsync(client, "/api/v1/plans", body) == HttpStatusCode.Created)
            {
                made.Add(body);
            }
        }

        var (whole, empty, sums, sizes) = (0.0, 0.0, new Dictionary<string, double>(), 0L);
        foreach (var (i, body) in made.Concat(made.Take(WarmUp)).Reverse().Index())
        {
            if (i == WarmUp)
            {
                (whole, empty, sums, sizes) = (0.0, 0.0, [], 0L);
            }

            whole += await TimeAsync(() => PlansBenchmark.PostAsync(client, "/api/v1/plans", body));
            empty += await TimeAsync(() => client.GetByteArrayAsync(new Uri(PlansBenchmark.Empty, UriKind.Relative)));
            await using var scope = application.Services.CreateAsyncScope();
            sizes += await PiecesAsync(scope.ServiceProvider, json, body, (name, milliseconds) => sums[name] = sums.GetValueOrDefault(name) + milliseconds);
        }

        var n = made.Count;
        sums["the rest: routing of the request, validation, log, headers, client"] = whole - sums.Values.Sum();
        Figures.Print($"one plan in this process without a socket, mean of {n}: {whole / n:0.000} ms ({PlansBenchmark.Empty}: {empty / n:0.000} ms); the answer has {sizes / n / 1000.0:0.0} kB");
        foreach (var (name, milliseconds) in sums)
        {
            Figures.Print($"  {milliseconds / n,7:0.000} ms {milliseconds / whole,6:0.0%}  {name}");
        }

        var plan = await AllocatedAsync(made, body => PlansBenchmark.PostAsync(client, "/api/v1/plans", body));
        var nothing = await AllocatedAsync(made, _ => client.GetByteArrayAsync(new Uri(PlansBenchmark.Empty, UriKind.Relative)));
        Figures.Print($"managed heap of this process: {heapAfterStart / 1e6:0.0} MB after start, {GC.GetTotalMemory(forceFullCollection: true) / 1e6:0.0} MB after the run, both collected");
        Figures.Print($"allocated for one plan: {plan / 1000:0} kB, client and answer included ({PlansBenchmark.Empty}: {nothing / 1000:0} kB)");
    }

    /// <summary>Calls what the endpoint calls, in its order, and reports each part.</summary>
    /// <returns>Bytes of the answer.</returns>
    private static async Task<int> PiecesAsync(IServiceProvider services, JsonSerializerOptions json, string body, Action<string, double> report)
    {
        var at = Stopwatch.GetTimestamp();
        void Lap(string name)
        {
            report(name, Figures.Since(at));
            at = Stopwatch.GetTimestamp();
        }

        var context = services.GetRequiredService<PlannerContext>();
        Lap("database context");
        var request = JsonSerializer.Deserialize<PlanRequest>(body, json)!;
        Lap("reading the body");
        var site = services.GetRequiredService<FloorPlanStore>().TryFind(request.SiteId, out var found) ? found : throw new InvalidDataException(request.SiteId);
        var now = DateTimeOffset.UnixEpoch;
        await SiteSettings.ReadAsync(context, request.SiteId, default);
        var query = (await SiteRouteQuery.ReadAsync(context, request.ToRouteRequest(), now, default)).Query;
        var parts = Figures.Since(at);
        Lap("settings and closures from the database");

        var callSign = await CallSign.NewAsync(context, request.SiteId, now, default);
        Lap("a call-sign that no plan in force has");

        // The whole plan once, then its parts again: what the parts do not explain is putting the answer together.
        var plan = (await PlanMaker.MakeAsync(context, site, request, (RandomId.New(), callSign, 1), new(new ConfigurationBuilder().Build()), now, default)).Plan!;
        var making = Figures.Since(at);
        at = Stopwatch.GetTimestamp();
        var routes = ((RouteOutcome.Found)RouteFinder.Find(site.Graph, query)).Set;
        parts += Figures.Since(at);
        Lap("ways: fit, time, exposure, exact search, choice, sentences");
        var core = CoreRequest(request, query);
        foreach (var route in routes.Routes)
        {
            GasOfRoute.For(route, core);
        }

        parts += Figures.Since(at);
        Lap("gas on each way");
        var minutes = (routes.Routes.Max(route => route.Time.NearlyAlwaysSeconds) + 59) / 60;
        KitList.For(new()
        {
            WeightGrams = core.WeightGrams,
            GestationWeeks = core.GestationWeeks,
            Support = core.Support,
            Precautions = query.Precautions,
            JourneyMinutes = Math.Max(1, minutes),
        });
        ProtectiveWear.For(query.Precautions);
        parts += Figures.Since(at);
        Lap("kit and protective wear");
        AiringOfPlace.Of(site.Graph, routes, query.To, core.Settings);
        parts += Figures.Since(at);
        Lap("airing");
        report("putting the answer together", making - parts);

        at = Stopwatch.GetTimestamp();
        var size = JsonSerializer.SerializeToUtf8Bytes(plan, json).Length;
        Lap("writing the answer as JSON");
        await PlanStore.AddAsync(context, plan, request, null, now, default);
        Lap("keeping the plan: JSON once more, transaction on disk");
        await PlanOverlaps.AddAsync(context, services.GetRequiredService<FloorPlanStore>(), plan, default);
        Lap("two transports at once: the other plans within a day");
        return size;
    }

    private static Core.Plans.PlanRequest CoreRequest(PlanRequest request, RouteQuery query) => new()
    {
        Route = query,
        Support = request.Support,
        Demand = SupportDemand.For(
            request.Support,
            request.Demand?.FlowLitresPerMinute is { } litres ? GasFlow.FromLitresPerMinute(litres) : null,
            (decimal?)request.Demand?.OxygenFraction),
        Cylinders = CylinderProblems.Find(request.Cylinders, "cylinders", CylinderChoice.Library, out var cylinders) is null ? [.. cylinders] : throw new InvalidDataException("A cylinder is refused."),
        WeightGrams = request.WeightGrams,
        GestationWeeks = request.GestationWeeks,
    };

    private static async Task<double> TimeAsync<T>(Func<Task<T>> action)
    {
        var start = Stopwatch.GetTimestamp();
        await action();
        return Figures.Since(start);
    }

    private static async Task<double> AllocatedAsync<T>(List<string> bodies, Func<string, Task<T>> action)
    {
        var before = GC.GetTotalAllocatedBytes(precise: true);
        foreach (var body in bodies)
        {
            await action(body);
        }

        return (GC.GetTotalAllocatedBytes(precise: true) - before) / (double)bodies.Count;
    }
}
