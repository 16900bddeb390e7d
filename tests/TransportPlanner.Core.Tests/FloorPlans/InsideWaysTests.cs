using CsCheck;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Ways inside outlines against two independent computations: NetTopologySuite's predicates, and a fine grid.</summary>
public sealed class InsideWaysTests
{
    /// <summary>
    /// Corridors with alcoves and pillars on both sides: a band 0 ≤ y ≤ 3 whose south and north wall step in and out every metre, at
    /// least 0.6 m apart, turned by a quarter now and then.
    /// </summary>
    private static readonly Gen<(Outline Outline, PlanPoint A, PlanPoint B)> Place = Gen.Select(
        Gen.Int[-8, 11].Array[2, 9], Gen.Int[17, 38].Array[9, 9], Gen.Bool, Gen.Bool,
        (south, north, turned, slanted) =>
        {
            var ring = new List<PlanPoint>();
            for (var i = 0; i < south.Length; i++)
            {
                ring.Add(new(i, south[i] / 10.0));
                ring.Add(new(i + (slanted ? 0.7 : 1), south[i] / 10.0));
            }

            for (var i = south.Length - 1; i >= 0; i--)
            {
                ring.Add(new(i + (slanted ? 0.7 : 1), north[i] / 10.0));
                ring.Add(new(i, north[i] / 10.0));
            }

            var (a, b) = (new PlanPoint(0, (south[0] + north[0]) / 20.0), new PlanPoint(south.Length - (slanted ? 0.3 : 0), (south[^1] + north[south.Length - 1]) / 20.0));
            PlanPoint Turn(PlanPoint p) => turned ? new(-p.Y, p.X) : p;
            return (new Outline([.. ring.Distinct().Select(Turn)]), Turn(a), Turn(b));
        });

    [Fact]
    public void A_way_stays_inside_and_is_no_shorter_than_the_straight_line() =>
        Place.Sample(
            sample =>
            {
                var way = Way(sample.Outline, sample.A, sample.B);
                var walls = Polygon(sample.Outline).Buffer(0.001);

                Assert.Equal((sample.A, sample.B), (way[0], way[^1]));
                Assert.True(Metres(way) >= sample.A.DistanceTo(sample.B) - 1e-9);
                Assert.All(way.Zip(way.Skip(1)), piece => Assert.True(
                    walls.Covers(new LineString([Coordinate(piece.First), Coordinate(piece.Second)])), $"{piece} leaves the outline"));
            },
            iter: 400);

    [Fact]
    public void A_way_is_as_short_as_a_visibility_graph_made_by_another_library() =>
        Place.Sample(
            sample => Assert.Equal(OtherLibrary(sample.Outline, sample.A, sample.B), Metres(Way(sample.Outline, sample.A, sample.B)), 0.002),
            iter: 40);

    [Fact]
    public void A_way_is_never_longer_than_on_a_fine_grid_and_at_most_8_percent_shorter()
    {
        // Steps to the eight neighbours overrate a straight line by at most 1 / cos 22.5° = 1.0824.
        PlanPoint[] ring = [new(0, 0), new(8, 0), new(8, 6), new(5, 6), new(5, 5), new(7, 5), new(7, 1), new(3, 1), new(3, 4), new(2, 4), new(2, 1), new(0, 1)];
        var (a, b) = (new PlanPoint(2.5, 3.75), new PlanPoint(5.25, 5.5));

        var exact = Metres(Way(new([.. ring]), a, b));
        var grid = Grid(new([.. ring]), a, b, 0.125);

        Assert.InRange(exact, grid / 1.0824, grid + 1e-9);
    }

    [Fact]
    public void In_a_convex_place_every_way_is_a_straight_line() =>
        Gen.Select(Gen.Double[0.1, 7.9], Gen.Double[0.1, 4.9], Gen.Double[0.1, 7.9], Gen.Double[0.1, 4.9]).Sample(
            (x1, y1, x2, y2) =>
            {
                var way = Way(Outline.Rectangle(0, 0, 8, 5), new(x1, y1), new(x2, y2));

                Assert.Equal([new(x1, y1), new(x2, y2)], way);
            });

    [Fact]
    public void A_way_may_run_along_a_wall_and_through_a_corner()
    {
        Outline ell = new([new(0, 0), new(4, 0), new(4, 4), new(2, 4), new(2, 2), new(0, 2)]);

        Assert.Equal(4, Metres(Way(ell, new(0, 2), new(2, 4))), 9);
        Assert.Equal(4, Metres(Way(ell, new(0, 0), new(4, 0))), 9);
        Assert.Equal(Math.Sqrt(8), Metres(Way(ell, new(1, 1), new(3, 3))), 9);
    }

    private static PlanPoint[] Way(Outline outline, PlanPoint a, PlanPoint b) => InsideWays.Between(new PlaceShape(outline), [a, b])[0, 1]!;

    private static double Metres(PlanPoint[] way) => way.Zip(way.Skip(1), (a, b) => a.DistanceTo(b)).Sum();

    private static Coordinate Coordinate(PlanPoint p) => new(p.X, p.Y);

    private static Polygon Polygon(Outline outline) => new(new LinearRing([.. outline.Corners.Append(outline.Corners[0]).Select(Coordinate)]));

    /// <summary>Every pair of all corners tested by NetTopologySuite, lengths by Floyd and Warshall.</summary>
    private static double OtherLibrary(Outline outline, PlanPoint a, PlanPoint b)
    {
        var walls = PreparedGeometryFactory.Prepare(Polygon(outline).Buffer(0.0005));
        PlanPoint[] points = [a, b, .. outline.Corners];
        var n = points.Length;
        var metres = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                metres[i, j] = metres[j, i] = walls.Covers(new LineString([Coordinate(points[i]), Coordinate(points[j])])) ? points[i].DistanceTo(points[j]) : 1e9;
            }
        }

        for (var k = 0; k < n; k++)
        {
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    metres[i, j] = Math.Min(metres[i, j], metres[i, k] + metres[k, j]);
                }
            }
        }

        return metres[0, 1];
    }

    private static double Grid(Outline outline, PlanPoint a, PlanPoint b, double step)
    {
        var polygon = Polygon(outline);
        var best = new Dictionary<(int, int), double> { [(0, 0)] = 0 };
        var open = new PriorityQueue<(int X, int Y), double>([((0, 0), 0)]);
        PlanPoint At((int X, int Y) cell) => new(a.X + cell.X * step, a.Y + cell.Y * step);
        while (open.TryDequeue(out var cell, out var metres))
        {
            if (At(cell).DistanceTo(b) < 1e-9)
            {
                return metres;
            }

            foreach (var (dx, dy) in new[] { (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1) })
            {
                var next = (cell.X + dx, cell.Y + dy);
                var further = metres + step * Math.Sqrt(dx * dx + dy * dy);
                if (further < best.GetValueOrDefault(next, double.PositiveInfinity) - 1e-12
                    && polygon.Covers(new LineString([Coordinate(At(cell)), Coordinate(At(next))])))
                {
                    best[next] = further;
                    open.Enqueue(next, further);
                }
            }
        }

        return double.PositiveInfinity;
    }
}
