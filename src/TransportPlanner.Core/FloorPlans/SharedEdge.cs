namespace TransportPlanner.Core.FloorPlans;

/// <summary>Where the outlines of two places run along each other.</summary>
internal static class SharedEdge
{
    private const double CollinearMetres = 0.001;

    /// <summary>
    /// How much of the first outline lies within <paramref name="gapMetres"/> of the second, and the longest straight stretch of it; null
    /// where there is none. Corners on a straight wall do not cut a stretch.
    /// </summary>
    internal static (PlanSegment Longest, double Metres)? Between(Outline first, Outline second, double gapMetres)
    {
        var others = Edges(second);
        PlanSegment? longest = null;
        var metres = 0.0;
        foreach (var edge in Edges(first))
        {
            var along = Heading.From(edge.A, edge.B);
            var stretches = others.Select(other => Overlap(edge, along, other, gapMetres)).Where(stretch => stretch.To > stretch.From).Order().ToArray();
            for (var i = 0; i < stretches.Length;)
            {
                var (from, to) = stretches[i];
                for (i++; i < stretches.Length && stretches[i].From <= to + gapMetres; i++)
                {
                    to = Math.Max(to, stretches[i].To);
                }

                metres += to - from;
                if (to - from > (longest?.Length ?? 0))
                {
                    longest = new(along.Along(edge.A, from), along.Along(edge.A, to));
                }
            }
        }

        return longest is { } stretch ? (stretch, metres) : null;
    }

    private static (double From, double To) Overlap(PlanSegment edge, Heading along, PlanSegment other, double gapMetres)
    {
        var (a, b) = (Project(edge.A, along, other.A), Project(edge.A, along, other.B));
        return Math.Abs(a.Aside) <= gapMetres && Math.Abs(b.Aside) <= gapMetres
            ? (Math.Max(0, Math.Min(a.Ahead, b.Ahead)), Math.Min(edge.Length, Math.Max(a.Ahead, b.Ahead)))
            : default;
    }

    private static (double Ahead, double Aside) Project(PlanPoint origin, Heading along, PlanPoint point)
    {
        var (x, y) = (point.X - origin.X, point.Y - origin.Y);
        return (x * along.X + y * along.Y, x * along.Left.X + y * along.Left.Y);
    }

    private static PlanSegment[] Edges(Outline outline)
    {
        var corners = outline.Corners.ToList();
        for (var i = 0; i < corners.Count && corners.Count > 3;)
        {
            var (before, after) = (corners[(i + corners.Count - 1) % corners.Count], corners[(i + 1) % corners.Count]);
            if (before.DistanceTo(after) > 0 && Math.Abs(Project(before, Heading.From(before, after), corners[i]).Aside) < CollinearMetres)
            {
                corners.RemoveAt(i);
            }
            else
            {
                i++;
            }
        }

        return [.. corners.Select((corner, i) => new PlanSegment(corner, corners[(i + 1) % corners.Count])).Where(edge => edge.Length > 0)];
    }
}
