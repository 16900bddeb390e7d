using NetTopologySuite.Geometries;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>A floor area with square corners, in metres to the millimetre. Walls are lines: neighbours share them, so that outlines tile.</summary>
internal sealed class Area
{
    private static readonly GeometryFactory Millimetres = new(new PrecisionModel(1_000));
    private readonly Geometry _shape;

    private Area(Geometry shape) => _shape = shape;

    public static Area Rectangle(double west, double south, double east, double north) =>
        new(Millimetres.CreatePolygon(
        [
            At(west, south), At(east, south), At(east, north), At(west, north), At(west, south),
        ]));

    public double SquareMetres => _shape.Area;

    public Area Plus(Area other) => new(_shape.Union(other._shape));

    public Area Minus(Area other) => new(_shape.Difference(other._shape));

    /// <summary>The ring from its south-west corner, counter-clockwise, without corners on a straight wall.</summary>
    public Outline ToOutline()
    {
        var corners = Corners();
        var first = corners.Index().MinBy(c => (c.Item.X, c.Item.Y)).Index;
        return new([.. corners[first..], .. corners[..first]]);
    }

    /// <summary>The straight pieces of wall that both areas have in common.</summary>
    public IEnumerable<PlanSegment> WallsSharedWith(Area other)
    {
        foreach (var mine in Walls())
        {
            foreach (var theirs in other.Walls())
            {
                if (Overlap(mine, theirs) is { } shared)
                {
                    yield return shared;
                }
            }
        }
    }

    private static Coordinate At(double x, double y) => new(Math.Round(x, 3), Math.Round(y, 3));

    private List<PlanPoint> Corners()
    {
        if (_shape is not Polygon { NumInteriorRings: 0 } polygon)
        {
            throw new InvalidOperationException($"A place is one ring without holes, got {_shape}.");
        }

        var ring = polygon.Shell.IsCCW ? polygon.Shell.Coordinates : [.. polygon.Shell.Coordinates.Reverse()];
        var points = ring.SkipLast(1).Select(c => new PlanPoint(Math.Round(c.X, 3), Math.Round(c.Y, 3))).ToList();
        return [.. points.Where((p, i) => !IsStraight(points[(i + points.Count - 1) % points.Count], p, points[(i + 1) % points.Count]))];
    }

    private static bool IsStraight(PlanPoint a, PlanPoint b, PlanPoint c) => (a.X == b.X && b.X == c.X) || (a.Y == b.Y && b.Y == c.Y);

    private IEnumerable<PlanSegment> Walls()
    {
        var corners = Corners();
        return corners.Select((corner, i) => new PlanSegment(corner, corners[(i + 1) % corners.Count]));
    }

    private static PlanSegment? Overlap(PlanSegment a, PlanSegment b)
    {
        if (a.A.X == a.B.X && b.A.X == b.B.X && a.A.X == b.A.X)
        {
            var (from, to) = Common(a.A.Y, a.B.Y, b.A.Y, b.B.Y);
            return to > from ? new(new(a.A.X, from), new(a.A.X, to)) : null;
        }

        if (a.A.Y == a.B.Y && b.A.Y == b.B.Y && a.A.Y == b.A.Y)
        {
            var (from, to) = Common(a.A.X, a.B.X, b.A.X, b.B.X);
            return to > from ? new(new(from, a.A.Y), new(to, a.A.Y)) : null;
        }

        return null;
    }

    private static (double From, double To) Common(double a, double b, double c, double d) =>
        (Math.Max(Math.Min(a, b), Math.Min(c, d)), Math.Min(Math.Max(a, b), Math.Max(c, d)));
}
