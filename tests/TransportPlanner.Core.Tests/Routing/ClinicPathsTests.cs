using System.Collections;
using System.Globalization;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>
/// The shortest paths of a real two-storey clinic (BSI 2020, "Medical-Dental Test Files", buildingSMART International, CC BY 4.0; paths by
/// networkx 2.8.8 on the same graph), to the millimetre. The data is not part of this project: <c>PLANNER_BUILDINGS</c> names its folder.
/// </summary>
public sealed class ClinicPathsTests
{
    [Fact]
    public void All_207_reference_paths_come_out_to_the_millimetre_with_and_without_stairs()
    {
        var buildings = Environment.GetEnvironmentVariable("PLANNER_BUILDINGS");
        Assert.SkipWhen(
            buildings is null || !Directory.Exists(Path.Combine(buildings, "clinic")),
            "skipped: the clinic's data is not here (PLANNER_BUILDINGS names no folder with clinic/ in it)");
        var folder = Path.Combine(buildings!, "clinic");
        var vertices = Rows(folder, "reference_graph_nodes.csv").Select((row, i) => (Id: row[0], i)).ToDictionary(v => v.Id, v => v.i);
        var edges = Rows(folder, "reference_graph_edges.csv");
        var graph = new CostGraph(
            vertices.Count, 1,
            [.. edges.SelectMany(e => new[] { vertices[e[0]], vertices[e[1]] })],
            [.. edges.SelectMany(e => new[] { vertices[e[1]], vertices[e[0]] })],
            [.. edges.SelectMany(e => new[] { Millimetres(e[3])!.Value, Millimetres(e[3])!.Value })]);
        var withoutStairs = new BitArray([.. edges.SelectMany(e => new[] { e[2] != "stair", e[2] != "stair" })]);
        var paths = Rows(folder, "reference_shortest_paths_networkx.csv");

        Assert.Equal(563, vertices.Count);
        Assert.Equal(2023, edges.Count);
        Assert.Equal(207, paths.Count);
        Assert.All(paths, path =>
        {
            var (from, to) = (vertices[path[0]], vertices[path[1]]);
            Assert.Equal(Millimetres(path[2]), Shortest(graph, from, to, withoutStairs));
            Assert.Equal(Millimetres(path[3]), Shortest(graph, from, to, null));
        });
    }

    private static int? Shortest(CostGraph graph, int from, int to, BitArray? allowed) =>
        ParetoSearch.Find(graph, from, to, allowed).Members.SingleOrDefault()?.Costs[0];

    private static List<string[]> Rows(string folder, string file) =>
        [.. File.ReadLines(Path.Combine(folder, file)).Skip(1).Select(line => line.Split(','))];

    private static int? Millimetres(string metres) =>
        metres.Length == 0 ? null : (int)(decimal.Parse(metres, CultureInfo.InvariantCulture) * 1000);
}
