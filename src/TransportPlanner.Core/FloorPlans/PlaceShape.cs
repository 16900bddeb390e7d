using System.Collections.Immutable;
using NetTopologySuite.Algorithm.Construct;
using NetTopologySuite.Geometries;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>A direction in the plan, of length 1.</summary>
internal readonly record struct Heading(double X, double Y)
{
    internal Heading Left => new(-Y, X);
    internal Heading Back => new(-X, -Y);

    internal static Heading From(PlanPoint a, PlanPoint b)
    {
        var length = a.DistanceTo(b);
        return new((b.X - a.X) / length, (b.Y - a.Y) / length);
    }

    internal double Dot(Heading other) => X * other.X + Y * other.Y;

    /// <summary>Degrees from this heading to the other, positive to the left, −180 to 180.</summary>
    internal double DegreesTo(Heading other) => Math.Atan2(X * other.Y - Y * other.X, Dot(other)) * (180 / Math.PI);

    internal PlanPoint Along(PlanPoint from, double metres) => new(from.X + X * metres, from.Y + Y * metres);
}

/// <summary>
/// The outline of a place as something to measure in: what sees what, how far a wall is, how wide an arm is. Walls are closed (a way
/// may run along them) and half a millimetre thick, so that doors on a wall line and rounded coordinates do no harm.
/// </summary>
internal sealed class PlaceShape
{
    internal const double ToleranceMetres = 0.0005;

    /// <summary>How far a wall chord may lean from the square of the way to count as the width of its arm.</summary>
    private const double LeanDegrees = 45.5;

    private static readonly double MinLean = Math.Cos(LeanDegrees * (Math.PI / 180));

    private readonly PlanPoint[] _corners;
    private readonly double[] _cuts;

    internal PlaceShape(Outline outline)
    {
        _corners = [.. outline.Corners];
        if (SignedArea() < 0)
        {
            Array.Reverse(_corners);
        }

        _cuts = new double[_corners.Length * 2 + 2];
        ReflexCorners = [.. Enumerable.Range(0, _corners.Length).Where(IsReflex).Select(i => _corners[i])];
    }

    /// <summary>Corners where the outline bends inward: the only points around which a shortest way turns.</summary>
    internal ImmutableArray<PlanPoint> ReflexCorners { get; }

    /// <summary>The middle of a convex outline; else the centre of the largest circle that fits inside, to 1 cm.</summary>
    internal PlanPoint InteriorPoint()
    {
        var polygon = new Polygon(new LinearRing([.. _corners.Append(_corners[0]).Select(p => new Coordinate(p.X, p.Y))]));
        var point = ReflexCorners.IsEmpty || !polygon.IsValid
            ? polygon.Centroid.Coordinate
            : MaximumInscribedCircle.GetCenter(polygon, 0.01).Coordinate;
        var middle = new PlanPoint(Math.Round(point.X, 3), Math.Round(point.Y, 3));
        return Contains(middle) ? middle : Nearest(middle, null).Point;
    }

    internal bool Contains(PlanPoint point)
    {
        var inside = false;
        for (int i = 0, j = _corners.Length - 1; i < _corners.Length; j = i++)
        {
            var (a, b) = (_corners[j], _corners[i]);
            if (a.Y > point.Y != b.Y > point.Y && point.X < (b.X - a.X) * (point.Y - a.Y) / (b.Y - a.Y) + a.X)
            {
                inside = !inside;
            }
        }

        return inside || Nearest(point, null).Metres <= ToleranceMetres;
    }

    /// <summary>The nearest point of the wall and the heading from that wall into the place; of equally near walls, the one most parallel to <paramref name="line"/>.</summary>
    internal (PlanPoint Point, double Metres, Heading Inward) Nearest(PlanPoint point, Heading? line)
    {
        var best = (Point: point, Metres: double.PositiveInfinity, Inward: default(Heading));
        for (var i = 0; i < _corners.Length; i++)
        {
            var (a, b) = Edge(i);
            if (a == b)
            {
                continue;
            }

            var along = Heading.From(a, b);
            var t = Math.Clamp((point.X - a.X) * along.X + (point.Y - a.Y) * along.Y, 0, a.DistanceTo(b));
            var foot = along.Along(a, t);
            var metres = foot.DistanceTo(point);
            var tie = Math.Abs(metres - best.Metres) <= ToleranceMetres;
            if (tie ? line is { } wall && Math.Abs(wall.Dot(along)) > Math.Abs(wall.Dot(best.Inward.Left)) + 0.001 : metres < best.Metres)
            {
                best = (foot, metres, along.Left);
            }
        }

        return best;
    }

    /// <summary>True where the straight way from a to b stays inside.</summary>
    internal bool Sees(PlanPoint a, PlanPoint b)
    {
        var length = a.DistanceTo(b);
        if (length <= ToleranceMetres)
        {
            return Contains(a);
        }

        var along = Heading.From(a, b);
        var count = 0;
        _cuts[count++] = 0;
        var last = _corners[^1];
        var lastOff = Off(last);
        foreach (var corner in _corners)
        {
            var off = Off(corner);
            if (Math.Abs(off) <= ToleranceMetres)
            {
                Cut((corner.X - a.X) * along.X + (corner.Y - a.Y) * along.Y);
            }
            else if (Math.Abs(lastOff) > ToleranceMetres && off > 0 != lastOff > 0)
            {
                var s = lastOff / (lastOff - off);
                Cut((last.X + s * (corner.X - last.X) - a.X) * along.X + (last.Y + s * (corner.Y - last.Y) - a.Y) * along.Y);
            }

            (last, lastOff) = (corner, off);
        }

        _cuts[count++] = length;
        Array.Sort(_cuts, 0, count);
        for (var i = 1; i < count; i++)
        {
            if (_cuts[i] - _cuts[i - 1] > ToleranceMetres && !Contains(along.Along(a, (_cuts[i] + _cuts[i - 1]) / 2)))
            {
                return false;
            }
        }

        return true;

        double Off(PlanPoint p) => along.X * (p.Y - a.Y) - along.Y * (p.X - a.X);

        void Cut(double metres)
        {
            if (metres > 0 && metres < length)
            {
                _cuts[count++] = metres;
            }
        }
    }

    /// <summary>
    /// Clear width of the arm in which somebody at <paramref name="point"/> moves along <paramref name="heading"/>: the shortest chord
    /// square to a wall beside the way, from wall to wall; where no wall is beside it, the chord square to the way.
    /// </summary>
    internal double ArmWidth(PlanPoint point, Heading heading)
    {
        var best = double.PositiveInfinity;
        for (var i = 0; i < _corners.Length; i++)
        {
            var (a, b) = Edge(i);
            var length = a.DistanceTo(b);
            if (length <= ToleranceMetres)
            {
                continue;
            }

            var along = Heading.From(a, b);
            var t = (point.X - a.X) * along.X + (point.Y - a.Y) * along.Y;
            var inward = along.Left;
            var off = (point.X - a.X) * inward.X + (point.Y - a.Y) * inward.Y;
            if (Math.Abs(along.Dot(heading)) < MinLean || t < -ToleranceMetres || t > length + ToleranceMetres || off < -ToleranceMetres
                || (off > ToleranceMetres && ToWall(point, inward.Back) < off - ToleranceMetres))
            {
                continue;
            }

            best = Math.Min(best, Math.Max(off, 0) + ToWall(point, inward));
        }

        return double.IsFinite(best) ? best : ToWall(point, heading.Left) + ToWall(point, heading.Left.Back);
    }

    /// <summary>Metres from a point straight on to the first wall; 0 where the wall is right there.</summary>
    private double ToWall(PlanPoint point, Heading heading)
    {
        const double Step = 4 * ToleranceMetres;
        if (!Contains(heading.Along(point, Step)))
        {
            return 0;
        }

        var best = double.PositiveInfinity;
        for (var i = 0; i < _corners.Length; i++)
        {
            var (a, b) = Edge(i);
            var offA = heading.X * (a.Y - point.Y) - heading.Y * (a.X - point.X);
            var offB = heading.X * (b.Y - point.Y) - heading.Y * (b.X - point.X);
            if (offA == offB || offA > 0 && offB > 0 || offA < 0 && offB < 0)
            {
                continue;
            }

            var s = offA / (offA - offB);
            var t = (a.X + s * (b.X - a.X) - point.X) * heading.X + (a.Y + s * (b.Y - a.Y) - point.Y) * heading.Y;
            if (t > Step && t < best)
            {
                best = t;
            }
        }

        return double.IsFinite(best) ? best : 0;
    }

    private (PlanPoint A, PlanPoint B) Edge(int i) => (_corners[i], _corners[(i + 1) % _corners.Length]);

    private bool IsReflex(int i)
    {
        var (a, b, c) = (_corners[(i + _corners.Length - 1) % _corners.Length], _corners[i], _corners[(i + 1) % _corners.Length]);
        return a != b && b != c && Heading.From(a, b).DegreesTo(Heading.From(b, c)) < -0.01;
    }

    private double SignedArea()
    {
        var twice = 0.0;
        for (var i = 0; i < _corners.Length; i++)
        {
            var (a, b) = Edge(i);
            twice += a.X * b.Y - b.X * a.Y;
        }

        return twice / 2;
    }
}
