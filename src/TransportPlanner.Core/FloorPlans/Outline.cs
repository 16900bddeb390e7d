using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>A point in the site's local metres: x to the east, y to the north.</summary>
public readonly record struct PlanPoint(double X, double Y)
{
    public double DistanceTo(PlanPoint other) => Math.Sqrt((X - other.X) * (X - other.X) + (Y - other.Y) * (Y - other.Y));
}

/// <summary>A straight piece of wall line in local metres, such as the clear line of a door from jamb to jamb.</summary>
public readonly record struct PlanSegment(PlanPoint A, PlanPoint B)
{
    public PlanPoint Midpoint => new((A.X + B.X) / 2, (A.Y + B.Y) / 2);
    public double Length => A.DistanceTo(B);
}

/// <summary>The floor outline of a place: one simple ring in local metres, corners in order, the first not repeated at the end. No holes.</summary>
public sealed record Outline(ImmutableArray<PlanPoint> Corners)
{
    public static Outline Rectangle(double minX, double minY, double maxX, double maxY) =>
        new([new(minX, minY), new(maxX, minY), new(maxX, maxY), new(minX, maxY)]);

    /// <summary>Signed shoelace area made positive, in square metres.</summary>
    public double AreaSquareMetres
    {
        get
        {
            var twice = 0.0;
            for (var i = 0; i < Corners.Length; i++)
            {
                var (a, b) = (Corners[i], Corners[(i + 1) % Corners.Length]);
                twice += a.X * b.Y - b.X * a.Y;
            }

            return Math.Abs(twice) / 2;
        }
    }

    /// <summary>Metres from a point, inside or outside, to the nearest spot of the wall; infinite without corners.</summary>
    public double DistanceTo(PlanPoint point)
    {
        var least = double.PositiveInfinity;
        for (var i = 0; i < Corners.Length; i++)
        {
            var (a, b) = (Corners[i], Corners[(i + 1) % Corners.Length]);
            var (x, y) = (b.X - a.X, b.Y - a.Y);
            var length2 = x * x + y * y;
            var t = length2 == 0 ? 0 : Math.Clamp(((point.X - a.X) * x + (point.Y - a.Y) * y) / length2, 0, 1);
            least = Math.Min(least, new PlanPoint(a.X + t * x, a.Y + t * y).DistanceTo(point));
        }

        return least;
    }

    public bool Equals(Outline? other) => other is not null && Corners.AsSpan().SequenceEqual(other.Corners.AsSpan());
    public override int GetHashCode() => Corners.IsEmpty ? 0 : HashCode.Combine(Corners.Length, Corners[0]);
}
