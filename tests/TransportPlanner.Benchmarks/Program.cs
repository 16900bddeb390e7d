using TransportPlanner.Benchmarks;

return args switch
{
    ["pareto", .. var rest] => ParetoBenchmark.Run(rest),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("""
        Benchmarks of the transport planner: they compare side by side in one run, and no test asserts a time.

          pareto FILE.csv ORIGIN TARGET [--repeat N] [--out FRONT.csv]
              Every efficient way between two vertices. The file has the header id,source,target,c1[,c2[,c3[,c4]]],
              vertices counted from 1 and whole costs of 0 or more. Prints points, labels, milliseconds (bounds and
              search apart), allocated bytes, and the ratio to QuikGraph's Dijkstra on the first cost alone.
        """);
    return 2;
}
