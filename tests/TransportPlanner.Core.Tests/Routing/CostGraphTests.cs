using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

public sealed class CostGraphTests
{
    [Fact]
    public void A_negative_cost_is_refused_with_its_arc()
    {
        var error = Assert.Throws<ArgumentException>(() => new CostGraph(2, 2, [0, 1], [1, 0], [1, 2, 3, -4]));

        Assert.Contains("Arc 1 costs -4", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cost_above_the_largest_is_refused() =>
        Assert.Throws<ArgumentException>(() => new CostGraph(2, 1, [0], [1], [CostGraph.MaxCost + 1]));

    [Fact]
    public void A_vertex_that_does_not_exist_is_refused() =>
        Assert.Throws<ArgumentException>(() => new CostGraph(2, 1, [0], [2], [1]));

    [Fact]
    public void Costs_that_do_not_match_the_arcs_are_refused() =>
        Assert.Throws<ArgumentException>(() => new CostGraph(2, 2, [0], [1], [1]));

    [Fact]
    public void Rows_list_the_arcs_of_a_vertex_in_their_order()
    {
        var graph = new CostGraph(3, 1, [2, 0, 2, 1], [0, 1, 1, 1], [1, 2, 3, 4]);

        Assert.Equal([0, 1, 2, 4], graph.FirstOut);
        Assert.Equal([1, 3, 0, 2], graph.OutArc);
        Assert.Equal([0, 1, 4, 4], graph.FirstIn);
        Assert.Equal([0, 1, 2, 3], graph.InArc);
    }

    [Fact]
    public void Other_costs_on_the_same_arcs_change_the_answer_only()
    {
        var graph = new CostGraph(2, 1, [0, 0], [1, 1], [5, 9]);

        var other = graph.WithCosts(2, [5, 9, 9, 5]);

        Assert.Single(ParetoSearch.Find(graph, 0, 1).Members);
        Assert.Equal(2, ParetoSearch.Find(other, 0, 1).Members.Length);
    }
}
