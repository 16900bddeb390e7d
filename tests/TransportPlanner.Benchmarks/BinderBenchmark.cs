using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Benchmarks;

/// <summary>The downtime binder of the demonstration hospital: ten delivery and operating rooms, four isolation rooms, a day and a night quarter-hour.</summary>
internal static class BinderBenchmark
{
    public static async Task RunAsync(string[] args)
    {
        var rounds = new Arguments(args, [], "rounds").Count("rounds", 5);
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
            application.Services.GetRequiredService<FloorPlanStore>().TryFind(StartUp.DemonstrationSite, out var site);
            List<double> times = [];
            var sheets = 0;

            // The first round warms up and is not counted.
            for (var i = -1; i < rounds; i++)
            {
                await using var scope = application.Services.CreateAsyncScope();
                var start = System.Diagnostics.Stopwatch.GetTimestamp();
                var made = await BinderMaker.MakeAsync(
                    scope.ServiceProvider.GetRequiredService<PlannerContext>(), site!, new(), TimeProvider.System.GetUtcNow(), (_, _) => { }, default);
                sheets = made.Sheets.Count;
                if (i >= 0)
                {
                    times.Add(Figures.Since(start));
                }
                else
                {
                    Figures.Print($"the first set after a start: {Figures.Since(start):0} ms");
                }
            }

            Figures.Print($"{sheets} sheets ({sheets / 2} pairs, day and night), {rounds} sets: {Figures.Spread(times)}; {Figures.Percentile(times, 50) / sheets:0.0} ms a sheet");
        }
        finally
        {
            folder.Delete(recursive: true);
        }

        Figures.PrintMachine();
    }
}
