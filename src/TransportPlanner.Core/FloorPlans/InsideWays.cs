namespace TransportPlanner.Core.FloorPlans;

/// <summary>Shortest ways between points of one place that stay inside its outline: Dijkstra on the visibility graph of the points and the reflex corners.</summary>
/// <remarks>Exact, since a shortest way inside a simple outline bends at reflex corners only. Equal ways: the one found first by corner number.</remarks>
internal static class InsideWays
{
    /// <summary>For each pair of points the way, ends included; null where an outline that crosses itself has none.</summary>
    internal static PlanPoint[]?[,] Between(PlaceShape shape, IReadOnlyList<PlanPoint> ends)
    {
        PlanPoint[] points = [.. ends, .. shape.ReflexCorners];
        var metres = Visible(shape, points);
        var ways = new PlanPoint[ends.Count, ends.Count][];
        for (var from = 0; from < ends.Count; from++)
        {
            var previous = Dijkstra(metres, from, ends.Count);
            for (var to = from + 1; to < ends.Count; to++)
            {
                if (previous[to] < 0)
                {
                    continue;
                }

                var way = new List<PlanPoint> { points[to] };
                for (var at = to; at != from; at = previous[at])
                {
                    way.Add(points[previous[at]]);
                }

                ways[to, from] = [.. way];
                way.Reverse();
                ways[from, to] = [.. way];
            }
        }

        return ways;
    }

    private static double[,] Visible(PlaceShape shape, PlanPoint[] points)
    {
        var metres = new double[points.Length, points.Length];
        for (var i = 0; i < points.Length; i++)
        {
            for (var j = i + 1; j < points.Length; j++)
            {
                var seen = shape.ReflexCorners.IsEmpty || shape.Sees(points[i], points[j]);
                metres[i, j] = metres[j, i] = seen ? points[i].DistanceTo(points[j]) : double.PositiveInfinity;
            }
        }

        return metres;
    }

    /// <summary>Ends are never passed through: only corners (numbered from <paramref name="corners"/>) lie on a way.</summary>
    private static int[] Dijkstra(double[,] metres, int from, int corners)
    {
        var count = metres.GetLength(0);
        var (previous, best, done) = (new int[count], new double[count], new bool[count]);
        Array.Fill(previous, -1);
        Array.Fill(best, double.PositiveInfinity);
        best[from] = 0;
        for (var at = from; at >= 0; at = Next())
        {
            done[at] = true;
            for (var to = 0; to < count; to++)
            {
                if (!done[to] && best[at] + metres[at, to] < best[to] - 1e-9)
                {
                    (best[to], previous[to]) = (best[at] + metres[at, to], at);
                }
            }
        }

        return previous;

        int Next()
        {
            var next = -1;
            for (var i = corners; i < count; i++)
            {
                if (!done[i] && double.IsFinite(best[i]) && (next < 0 || best[i] < best[next]))
                {
                    next = i;
                }
            }

            return next;
        }
    }
}
