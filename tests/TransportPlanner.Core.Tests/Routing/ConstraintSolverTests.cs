using Google.OrTools.Sat;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>An oracle that shares no idea with the search: Google OR-Tools CP-SAT finds one efficient way after the other.</summary>
public sealed class ConstraintSolverTests
{
    [Theory]
    [InlineData(6, 2)]
    [InlineData(5, 3)]
    public void A_constraint_solver_finds_the_same_vectors(int side, int criteria)
    {
        var (graph, origin, target) = GeneratedInstance.Grid(side, side, criteria, start: 2);

        var found = ParetoSearch.Find(graph, origin, target).Members.Select(m => string.Join(',', m.Costs)).ToList();

        Assert.True(found.Count > 3);
        Assert.Equal(found.Order(), Solve(graph, origin, target).Select(costs => string.Join(',', costs)).Order());
    }

    /// <summary>
    /// A way is a flow of one; the sum of costs is minimized, each time in the space where no vector found so far is at least as good in
    /// every cost. Every optimum is efficient, and when nothing is left all are found. Costs are positive, so no loop hangs on.
    /// </summary>
    private static List<long[]> Solve(CostGraph graph, int origin, int target)
    {
        var criteria = graph.CriterionCount;
        var model = new CpModel();
        var used = Enumerable.Range(0, graph.ArcCount).Select(arc => model.NewBoolVar($"arc {arc}")).ToArray();
        for (var v = 0; v < graph.VertexCount; v++)
        {
            var outOf = LinearExpr.Sum(used.Where((_, arc) => graph.Source[arc] == v));
            var into = LinearExpr.Sum(used.Where((_, arc) => graph.Target[arc] == v));
            model.Add(outOf - into == (v == origin ? 1 : 0) - (v == target ? 1 : 0));
        }

        var costs = Enumerable.Range(0, criteria)
            .Select(k => LinearExpr.WeightedSum(used, Enumerable.Range(0, graph.ArcCount).Select(arc => (long)graph.Costs[arc * criteria + k])))
            .ToArray();
        model.Minimize(LinearExpr.Sum(costs));
        var vectors = new List<long[]>();
        var solver = new CpSolver { StringParameters = "num_workers:1" };
        while (solver.Solve(model) == CpSolverStatus.Optimal)
        {
            long[] vector = [.. costs.Select(solver.Value)];
            vectors.Add(vector);
            var better = vector.Select((_, k) => model.NewBoolVar($"better in {k}")).ToArray();
            model.AddBoolOr(better);
            for (var k = 0; k < criteria; k++)
            {
                model.Add(costs[k] <= vector[k] - 1).OnlyEnforceIf(better[k]);
            }
        }

        return vectors;
    }
}
