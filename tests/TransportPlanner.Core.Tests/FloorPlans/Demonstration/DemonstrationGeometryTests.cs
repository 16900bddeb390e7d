using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>The drawing holds together: outlines tile, doors lie on walls, as NetTopologySuite measures it.</summary>
public sealed class DemonstrationGeometryTests
{
    private const double SquareMillimetre = 1e-6, Millimetre = 1e-3;

    private static readonly FloorPlan Plan = DemonstrationHospital.Build();
    private static readonly GeometryFactory Shapes = new();
    private static readonly Dictionary<string, Polygon> Outlines = Plan.Places.ToDictionary(p => p.Number, p => ToPolygon(p.Outline));
    private static readonly Dictionary<string, Place> Places = Plan.Places.ToDictionary(p => p.Number);

    [Fact]
    public void Outlines_of_one_level_do_not_overlap_and_leave_the_shafts_free()
    {
        foreach (var level in Plan.Levels)
        {
            var cars = Plan.Elevators.Where(e => e.Stops.Any(s => s.Level == level.Id)).Select(e => e.Car);
            var numbers = Plan.Places.Where(p => p.Level == level.Id).Select(p => p.Number).Concat(cars).ToList();
            var tree = new STRtree<string>();
            numbers.ForEach(n => tree.Insert(Outlines[n].EnvelopeInternal, n));

            foreach (var number in numbers)
            {
                foreach (var other in tree.Query(Outlines[number].EnvelopeInternal).Where(o => string.CompareOrdinal(o, number) > 0))
                {
                    var overlap = Outlines[number].Intersection(Outlines[other]).Area;
                    Assert.True(overlap < SquareMillimetre, $"Level {level.Id}: {number} and {other} overlap by {overlap:0.000000} m².");
                }
            }
        }
    }

    [Fact]
    public void Outlines_are_simple_rings_and_many_are_not_rectangles()
    {
        Assert.All(Outlines, o => Assert.True(o.Value.IsValid && o.Value.Area > 1, o.Key));
        Assert.True(Plan.Places.Count(p => p.Outline.Corners.Length > 4) > 80);
        Assert.True(Plan.Places.Count(p => p.Kind == PlaceKind.Corridor && p.Outline.Corners.Length > 4) > 25);
    }

    [Fact]
    public void A_passage_lies_on_a_wall_of_both_its_places()
    {
        foreach (var passage in Plan.Passages)
        {
            var line = ToLine(passage.Line);
            Assert.True(Outlines[passage.From].Boundary.Buffer(Millimetre).Covers(line), $"{passage.Id} is off the wall of {passage.From}.");
            Assert.True(
                passage.Kind == PassageKind.StairFlight || Outlines[passage.To].Boundary.Buffer(Millimetre).Covers(line),
                $"{passage.Id} is off the wall of {passage.To}.");
        }
    }

    [Fact]
    public void A_passage_joins_places_of_one_level_or_of_neighbouring_storeys_or_a_landing_with_its_car()
    {
        foreach (var passage in Plan.Passages)
        {
            var (from, to) = (Places[passage.From], Places[passage.To]);
            var expected = passage.Kind switch
            {
                PassageKind.LandingDoor => from.Kind == PlaceKind.ElevatorLanding && to.Kind == PlaceKind.ElevatorCar,
                PassageKind.StairFlight => from.Kind == PlaceKind.Stairwell && to.Kind == PlaceKind.Stairwell && from.Level != to.Level,
                _ => from.Level == to.Level,
            };
            Assert.True(expected, passage.Id);
        }
    }

    [Fact]
    public void No_two_passages_of_a_level_share_a_piece_of_wall()
    {
        foreach (var level in Plan.Passages.Where(p => p.Kind != PassageKind.StairFlight).GroupBy(p => Places[p.From].Level))
        {
            var lines = level.Select(p => (p.Id, Line: ToLine(p.Line))).ToList();
            foreach (var (a, i) in lines.Select((l, i) => (l, i)))
            {
                Assert.All(lines.Skip(i + 1), b => Assert.True(a.Line.Intersection(b.Line).Length < Millimetre, $"{a.Id} and {b.Id}"));
            }
        }
    }

    [Fact]
    public void A_door_line_is_as_long_as_its_clear_width()
    {
        Assert.All(
            Plan.Passages.Where(p => p.ClearWidth.IsKnown && p.Kind != PassageKind.StairFlight),
            p => Assert.Equal(p.ClearWidth.Value.Metres, p.Line.Length, Millimetre / 2));
    }

    private static Polygon ToPolygon(Outline outline) => Shapes.CreatePolygon([.. outline.Corners.Append(outline.Corners[0]).Select(ToCoordinate)]);
    private static LineString ToLine(PlanSegment line) => Shapes.CreateLineString([ToCoordinate(line.A), ToCoordinate(line.B)]);
    private static Coordinate ToCoordinate(PlanPoint point) => new(point.X, point.Y);
}
