using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>One end of a way through a place: the door's heading along the way, and its clear width in millimetres (−1 unknown). No heading at a standing point.</summary>
internal readonly record struct WayEnd(Heading? Heading, int WidthMillimetres);

/// <summary>The turns of a way, with the clear widths of their arms.</summary>
/// <remarks>
/// A change of direction over 45° is a turn. A shortest way also spreads one turn over several smaller bends (from a door to the inner
/// corner of a short L, and on to the next door). So a bend that exceeds 45° together with its neighbours to the same side within
/// 2.5 m is a turn too, where it has 20° itself or is the sharpest of them (both figures assumed).
/// </remarks>
internal static class TurnMeasure
{
    internal const double TurnDegrees = 45;
    private const double BendDegrees = 20;
    private const double NeighbourMetres = 2.5;
    private const double SampleMetres = 0.5;
    private const double AngleTolerance = 1e-6;

    internal static ImmutableArray<Turn> Of(PlaceShape shape, ReadOnlySpan<PlanPoint> way, WayEnd start, WayEnd end)
    {
        var (points, headings) = Bends(way, start, end);
        var changes = new double[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            changes[i] = headings[i].DegreesTo(headings[i + 1]);
        }

        var turns = ImmutableArray.CreateBuilder<Turn>();
        for (var i = 0; i < points.Count; i++)
        {
            var (first, last) = (i, i);
            var alone = Math.Abs(changes[i]) > TurnDegrees + AngleTolerance;
            if (!alone)
            {
                first = Reach(points, changes, i, -1);
                last = Reach(points, changes, i, 1);
            }

            var run = changes[first..(last + 1)];
            var counts = Math.Abs(changes[i]) >= BendDegrees || Array.IndexOf(run, changes[i] > 0 ? run.Max() : run.Min()) == i - first;
            var degrees = Math.Abs(run.Sum());
            if (counts && degrees > TurnDegrees + AngleTolerance)
            {
                turns.Add(new(Math.Min(degrees, 180), Width(i, -1, headings[first]), Width(i, 1, headings[last + 1])));
            }
        }

        return turns.DrainToImmutable();

        int Width(int at, int side, Heading heading)
        {
            var next = at + side;
            if (next < 0 && start.Heading is not null)
            {
                return start.WidthMillimetres;
            }

            if (next >= points.Count && end.Heading is not null)
            {
                return end.WidthMillimetres;
            }

            var towards = side < 0 ? headings[at].Back : headings[at + 1];
            var far = next < 0 || next >= points.Count ? double.PositiveInfinity : points[at].DistanceTo(points[next]);
            var metres = shape.ArmWidth(towards.Along(points[at], Math.Min(far / 2, SampleMetres)), heading);
            return (int)Math.Floor(metres * 1_000 + 0.01);
        }
    }

    /// <summary>The points where the heading may change, and the headings before, between and after them.</summary>
    private static (List<PlanPoint> Points, List<Heading> Headings) Bends(ReadOnlySpan<PlanPoint> way, WayEnd start, WayEnd end)
    {
        var points = new List<PlanPoint> { way[0] };
        foreach (var point in way)
        {
            if (point.DistanceTo(points[^1]) > PlaceShape.ToleranceMetres)
            {
                points.Add(point);
            }
        }

        var headings = points.Zip(points.Skip(1), Heading.From).ToList();
        if (end.Heading is { } leaving)
        {
            headings.Add(leaving);
        }
        else
        {
            points.RemoveAt(points.Count - 1);
        }

        if (start.Heading is { } entering)
        {
            headings.Insert(0, entering);
        }
        else if (points.Count > 0)
        {
            points.RemoveAt(0);
        }

        return (points, headings);
    }

    /// <summary>The farthest bend to the same side that follows without a break within the neighbourhood of <paramref name="from"/>.</summary>
    private static int Reach(List<PlanPoint> points, double[] changes, int from, int step)
    {
        var (at, metres) = (from, 0.0);
        while (at + step >= 0 && at + step < changes.Length && changes[at + step] * changes[from] > 0)
        {
            metres += points[at].DistanceTo(points[at + step]);
            if (metres > NeighbourMetres)
            {
                break;
            }

            at += step;
        }

        return at;
    }
}
