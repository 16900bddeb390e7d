namespace TransportPlanner.Benchmarks;

/// <summary>Compares side by side in one run, and prints. No test asserts a time.</summary>
internal static class Program
{
    private const string Help = """
        Benchmarks of the transport planner: they compare side by side in one run, and no test asserts a time.

          plans [--count 1000] [--starts 5] [--seed 7] [--server FILE]
              POST /plans on the demonstration hospital: from process start to the first answered plan, with a new and
              with a known data folder; mixed requests by one and by four clients, beside requests to an empty endpoint
              of the same server; memory; where the time of one plan goes. FILE is a published TransportPlanner.Web
              (.dll or program); without it, the one that was built with this program.
          pareto FILE.csv ORIGIN TARGET [--repeat 5] [--stop MILLISECONDS] [--out FRONT.csv]
              Every efficient way between two vertices. The file has the header id,source,target,c1[,c2[,c3[,c4]]],
              vertices counted from 1 and whole costs of 0 or more. Prints points, labels, milliseconds (bounds and
              search apart), allocated bytes, and the ratio to QuikGraph's Dijkstra on the first cost alone.
          rooms FILE.csv [--count 200] [--seed 7]
              Every efficient way between random rooms (the last third of the vertices) of such a file.
          versus FILE.csv ORIGIN TARGET [--peers FOLDER] [--rounds 3] [--limit 60] [--rooms COUNT]
              The same search by other programs, in turn in one run, with ratios; what is missing is named. FOLDER holds their drivers:
              rcsp.cpp for Boost, Martin.java for JGraphT, baseline/proto.csproj. A peer that is not ready within --limit seconds is left
              out; --rooms adds random pairs of rooms beside the baseline.
          routes [--count 500] [--seed 7] [--floor-plan FILE.geojson] [--width CENTIMETRES]
              POST /routes with plan B for every shown way, without a socket: the whole request and the parts of the answer, on the
              demonstration hospital and on a floor plan of one's own, with the assumed incubator or one of another width.
          import [--rooms COUNT] [--format geoJson|cobie] [--server FILE]
              From an uploaded file to the first answered way, on generated hospitals of 1,250, 2,500, 5,000 and 10,000 rooms on ten levels, as
              our GeoJSON and as a COBie workbook, and on the clinic's workbook where PLANNER_BUILDINGS leads to it: seconds of each step,
              peak memory of the planner, and how both grow.
          posts
              The fewest officers for 60 posts, and the best use of 20, on invented posts with a fixed seed.
          binder [--rounds 5]
              The downtime binder of the demonstration hospital: 10 rooms to start from × 4 isolation rooms, a day and a night quarter-hour.

        How each figure is measured: docs/performance.md.
        """;

    private static async Task<int> Main(string[] args)
    {
        try
        {
            switch (args)
            {
                case ["plans", .. var rest]:
                    await PlansBenchmark.RunAsync(rest);
                    return 0;
                case ["pareto", .. var rest]:
                    ParetoBenchmark.Run(rest);
                    return 0;
                case ["rooms", .. var rest]:
                    RoomsBenchmark.Run(rest);
                    return 0;
                case ["versus", .. var rest]:
                    await VersusBenchmark.RunAsync(rest);
                    return 0;
                case ["routes", .. var rest]:
                    await RoutesBenchmark.RunAsync(rest);
                    return 0;
                case ["import", .. var rest]:
                    await ImportBenchmark.RunAsync(rest);
                    return 0;
                case ["posts"]:
                    PostsBenchmark.Run(seed: 7);
                    return 0;
                case ["binder", .. var rest]:
                    await BinderBenchmark.RunAsync(rest);
                    return 0;
                case ["help" or "--help" or "-h"]:
                    Console.WriteLine(Help);
                    return 0;
                default:
                    Console.Error.WriteLine(Help);
                    return 2;
            }
        }
        catch (BadInputException e)
        {
            Console.Error.WriteLine(e.Message);
            return 2;
        }
    }
}
