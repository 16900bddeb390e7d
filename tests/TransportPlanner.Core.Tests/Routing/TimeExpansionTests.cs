using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>
/// Costs that change with the hour of arrival, as far as the search can have them: a vertex for each arrival. One vertex for all arrivals
/// would lose ways, which is why a request is priced for one quarter-hour.
/// </summary>
public sealed class TimeExpansionTests
{
    /// <summary>
    /// Own example, proved by listing both ways: s → v arrives at 90 with exposure 500 or at 100 with 600; v → t takes 10 and adds 2,000 if
    /// entered before 100, else nothing.
    /// </summary>
    [Fact]
    public void A_later_arrival_that_meets_less_exposure_is_kept_when_each_arrival_has_its_vertex()
    {
        var expanded = new CostGraph(4, 2, [0, 0, 1, 2], [1, 2, 3, 3], [90, 500, 100, 600, 10, 2_000, 10, 0]);

        Assert.Equal([[100, 2_500], [110, 600]], ParetoSearch.Find(expanded, 0, 3).Members.Select(m => m.Costs.ToArray()));
    }

    /// <summary>The same ways through one vertex, at the price of the earlier hour: the second is lost, as it has to be.</summary>
    [Fact]
    public void One_vertex_for_both_arrivals_keeps_only_the_earlier()
    {
        var merged = new CostGraph(3, 2, [0, 0, 1], [1, 1, 2], [90, 500, 100, 600, 10, 2_000]);

        Assert.Equal([[100, 2_500]], ParetoSearch.Find(merged, 0, 2).Members.Select(m => m.Costs.ToArray()));
    }

    /// <summary>
    /// Own example: a car is waited for 60 before time 100 and 10 from then on. Who may linger on the landing boards at the least of both:
    /// the first-in, first-out closure of the wait.
    /// </summary>
    [Theory]
    [InlineData(55, 110)]
    [InlineData(95, 110)]
    [InlineData(45, 105)]
    public void An_elevator_whose_wait_falls_is_boarded_as_early_as_lingering_allows(int arrival, int boarded)
    {
        // Vertices: start, landing on arrival, landing at 100, car.
        var expanded = new CostGraph(4, 1, [0, 1, 1, 2], [1, 3, 2, 3], [arrival, 60, 100 - arrival, 10]);

        Assert.Equal([boarded], Assert.Single(ParetoSearch.Find(expanded, 0, 3).Members).Costs);
    }
}
