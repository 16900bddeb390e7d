using System.Collections.Immutable;

namespace TransportPlanner.Core.Routing;

/// <summary>Why a way is shown.</summary>
public enum RouteReason
{
    Quickest,
    LeastExposed,
    LeastHandled,
    /// <summary>Nearest to the ideal point, at which every cost is the least of the whole set, after each cost is scaled to the set's range.</summary>
    BestBalance,
}

/// <summary>
/// From an exact set of time, exposure and handling, the one to four ways that people see: the best of each cost, always, and the best
/// balance. A way may carry several reasons.
/// </summary>
public static class RouteSelection
{
    /// <summary>Two shown ways share at most this part of the shorter one, unless each is the best of a cost.</summary>
    public const double MaxShared = 0.8;

    /// <summary>Positions in the set, quickest first, each with its reasons in the order of <see cref="RouteReason"/>. Empty for an empty set.</summary>
    /// <param name="costs">Vectors of three costs in lexicographic order, none bettered by another.</param>
    /// <param name="shared">Common length ÷ the shorter way's length for two positions, 0 to 1.</param>
    /// <remarks>
    /// Ties in a cost go to the lesser of the costs before and after it, in the order time, exposure, handling. The best balance is the
    /// first, by growing distance to the ideal point, that is one of the ways already chosen or differs enough from all of them.
    /// </remarks>
    public static ImmutableArray<(int Position, ImmutableArray<RouteReason> Reasons)> Choose(
        IReadOnlyList<ImmutableArray<int>> costs, Func<int, int, double> shared)
    {
        ArgumentNullException.ThrowIfNull(costs);
        ArgumentNullException.ThrowIfNull(shared);
        if (costs.Count == 0)
        {
            return [];
        }

        // MinBy takes the first of equals, which is the lexicographically least.
        var positions = Enumerable.Range(0, costs.Count).ToArray();
        var chosen = new List<(int Position, RouteReason Reason)>
        {
            (0, RouteReason.Quickest),
            (positions.MinBy(i => costs[i][1]), RouteReason.LeastExposed),
            (positions.MinBy(i => costs[i][2]), RouteReason.LeastHandled),
        };
        var extremes = chosen.Select(c => c.Position).ToHashSet();
        var balanced = positions.OrderBy(i => DistanceToIdeal(costs, i))
            .First(i => extremes.Contains(i) || extremes.All(e => shared(i, e) <= MaxShared));
        chosen.Add((balanced, RouteReason.BestBalance));
        return
        [
            .. chosen.GroupBy(c => c.Position).OrderBy(way => way.Key)
                .Select(way => (way.Key, way.Select(c => c.Reason).ToImmutableArray()))
        ];
    }

    /// <summary>Squared Euclidean distance after scaling each cost to 0 (least of the set) … 1 (greatest); a cost that does not vary counts nothing.</summary>
    private static double DistanceToIdeal(IReadOnlyList<ImmutableArray<int>> costs, int position)
    {
        var sum = 0.0;
        for (var k = 0; k < 3; k++)
        {
            var (least, greatest) = (costs.Min(c => c[k]), costs.Max(c => c[k]));
            if (greatest > least)
            {
                var scaled = (costs[position][k] - least) / (double)(greatest - least);
                sum += scaled * scaled;
            }
        }

        return sum;
    }
}
