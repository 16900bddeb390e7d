using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>What runs on several cores gives what one core gives: on a graph large enough for its bounds to be made in parallel.</summary>
public sealed class SeveralCoresTests
{
    [Fact]
    public void Bounds_made_together_are_those_made_one_at_a_time()
    {
        var (graph, _, target) = GeneratedInstance.Hospital(50, 50, floors: 4, start: 1);
        var together = new QueryGraph();
        together.Load(graph, target, target, null, contracted: true);
        var bounds = new LowerBounds();
        bounds.Compute(together, default, default);

        Assert.True(together.VertexCount >= 4_096, "too small to be made in parallel");
        for (var k = 0; k < graph.CriterionCount; k++)
        {
            // The same shape with one cost: one search, on one core.
            var alone = new QueryGraph();
            var costs = Enumerable.Range(0, graph.ArcCount).Select(arc => graph.Costs[arc * graph.CriterionCount + k]).ToArray();
            alone.Load(new CostGraph(graph.VertexCount, 1, graph.Source.ToArray(), graph.Target.ToArray(), costs), target, target, null, contracted: true);
            var single = new LowerBounds();
            single.Compute(alone, default, default);

            Assert.Equal(single.Of(0)[..alone.VertexCount], bounds.Of(k)[..together.VertexCount]);
        }
    }

    [Fact]
    public void Searches_made_at_the_same_time_give_what_they_give_one_after_another()
    {
        var (graph, _, _) = GeneratedInstance.Hospital(50, 50, floors: 4, start: 1);
        (int From, int To)[] pairs = [.. Enumerable.Range(0, 12).Select(i => (1_009 * (i + 1) % graph.VertexCount, 3_571 * (i + 2) % graph.VertexCount))];
        var one = pairs.Select(pair => ParetoSearch.Find(graph, pair.From, pair.To)).ToList();
        var several = new ParetoSet[pairs.Length];

        Parallel.For(0, pairs.Length, new() { MaxDegreeOfParallelism = 6 }, i => several[i] = ParetoSearch.Find(graph, pairs[i].From, pairs[i].To));

        Assert.All(one.Zip(several), pair => Assert.Equal(
            pair.First.Members.Select(member => (string.Join(',', member.Costs), string.Join(',', member.Arcs))),
            pair.Second.Members.Select(member => (string.Join(',', member.Costs), string.Join(',', member.Arcs)))));
        Assert.Contains(one, set => set.Members.Length > 10);
    }
}
