using System.Collections.Immutable;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

public sealed class RouteSelectionTests
{
    [Fact]
    public void The_best_of_each_cost_and_the_best_balance_are_shown_quickest_first()
    {
        // Scaled: (0,1,1) (.2,.2,.5) (.6,0,.75) (1,.9,0); squared distances 2, .33, .92, 1.81.
        var shown = Choose([[100, 1000, 4], [120, 200, 2], [160, 0, 3], [200, 900, 0]], shared: 0);

        Assert.Equal("0 Quickest; 1 BestBalance; 2 LeastExposed; 3 LeastHandled", shown);
    }

    [Fact]
    public void A_single_way_carries_every_reason() =>
        Assert.Equal("0 Quickest,LeastExposed,LeastHandled,BestBalance", Choose([[100, 5, 2]], shared: 1));

    [Fact]
    public void A_balanced_way_that_mostly_repeats_another_gives_way_to_the_next_in_balance()
    {
        ImmutableArray<int>[] costs = [[100, 1000, 4], [120, 200, 2], [130, 250, 2], [160, 0, 3], [200, 900, 0]];

        var shown = Text(RouteSelection.Choose(costs, (i, _) => i == 1 ? 0.81 : 0.8));

        Assert.Equal("0 Quickest; 2 BestBalance; 3 LeastExposed; 4 LeastHandled", shown);
    }

    [Fact]
    public void The_best_of_each_cost_stay_however_much_they_share() =>
        Assert.Equal("0 Quickest,BestBalance; 1 LeastExposed; 2 LeastHandled", Choose([[100, 10, 1], [101, 9, 2], [101, 11, 0]], shared: 1));

    [Fact]
    public void Of_two_equally_exposed_ways_the_quicker_is_the_least_exposed() =>
        Assert.Equal("0 Quickest,LeastExposed,BestBalance; 1 LeastHandled", Choose([[100, 0, 1], [150, 0, 0]], shared: 1));

    [Fact]
    public void Nothing_is_chosen_from_nothing() => Assert.Empty(Choose([], shared: 0));

    private static string Choose(ImmutableArray<int>[] costs, double shared) => Text(RouteSelection.Choose(costs, (_, _) => shared));

    private static string Text(ImmutableArray<(int Position, ImmutableArray<RouteReason> Reasons)> shown) =>
        string.Join("; ", shown.Select(way => $"{way.Position} {string.Join(',', way.Reasons)}"));
}
