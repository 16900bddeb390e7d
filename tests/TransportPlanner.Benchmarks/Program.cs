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
          pareto FILE.csv ORIGIN TARGET [--repeat 5] [--out FRONT.csv]
              Every efficient way between two vertices. The file has the header id,source,target,c1[,c2[,c3[,c4]]],
              vertices counted from 1 and whole costs of 0 or more. Prints points, labels, milliseconds (bounds and
              search apart), allocated bytes, and the ratio to QuikGraph's Dijkstra on the first cost alone.
          posts
              The fewest officers for 60 posts, and the best use of 20, on invented posts with a fixed seed.

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
                case ["posts"]:
                    PostsBenchmark.Run(seed: 7);
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
