using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using NetTopologySuite.Operation.OverlayNG;
using NetTopologySuite.Operation.Valid;
using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Whether outlines and lines make sense on the floor. Needs a plan whose structure holds.</summary>
internal static class OutlineCheck
{
    private const double LeastAreaSquareMetres = 0.01;
    private const double OverlapSquareMetres = 0.01;

    internal static IEnumerable<Finding> Run(FloorPlan plan)
    {
        var findings = new List<Finding>();
        var shapes = new Dictionary<string, Polygon>(StringComparer.Ordinal);
        foreach (var place in plan.Places)
        {
            var polygon = PolygonOf(place.Outline);
            if (Broken(place, polygon) is { } broken)
            {
                findings.Add(broken);
            }
            else
            {
                shapes.Add(place.Number, polygon);
                findings.AddRange(StandingPoint(place, polygon));
            }
        }

        findings.AddRange(plan.Places.Where(place => place.Level is not null && shapes.ContainsKey(place.Number))
            .GroupBy(place => place.Level).SelectMany(level => Overlaps([.. level], shapes)));
        findings.AddRange(Passages(plan, shapes));
        return findings;
    }

    /// <summary>The part, 0 to 1, of the smaller outline that lies on the other.</summary>
    internal static double Overlap(Outline a, Outline b)
    {
        var (first, second) = (PolygonOf(a), PolygonOf(b));
        return first.IsValid && second.IsValid
            ? OverlayNGRobust.Overlay(first, second, NetTopologySuite.Operation.Overlay.SpatialFunction.Intersection).Area / Math.Min(first.Area, second.Area)
            : 0;
    }

    private static Finding? Broken(Place place, Polygon polygon)
    {
        var validity = new IsValidOp(polygon);
        return !validity.IsValid
            ? Error($"place {place.Number}", "geometry",
                $"The outline of {place.Number} crosses or touches itself near ({validity.ValidationError.Coordinate.X:0.###}, {validity.ValidationError.Coordinate.Y:0.###}): draw one simple ring.")
            : polygon.Area < LeastAreaSquareMetres
                ? Error($"place {place.Number}", "geometry", $"The outline of {place.Number} has {polygon.Area:0.####} m²: draw at least {LeastAreaSquareMetres} m².")
                : null;
    }

    private static IEnumerable<Finding> StandingPoint(Place place, Polygon polygon)
    {
        if (place.StandingPoint is { } point && polygon.Distance(new Point(point.X, point.Y)) > PlaceShape.ToleranceMetres)
        {
            yield return Warning($"place {place.Number}", "standingPoint",
                $"The standing point ({point.X:0.###}, {point.Y:0.###}) of {place.Number} lies outside its outline: move it inside; until then the nearest point of the wall is taken.");
        }
    }

    private static IEnumerable<Finding> Overlaps(Place[] places, Dictionary<string, Polygon> shapes)
    {
        var index = new STRtree<int>();
        for (var i = 0; i < places.Length; i++)
        {
            index.Insert(shapes[places[i].Number].EnvelopeInternal, i);
        }

        for (var i = 0; i < places.Length; i++)
        {
            var shape = shapes[places[i].Number];
            foreach (var j in index.Query(shape.EnvelopeInternal).Where(j => j > i).Order())
            {
                var area = OverlayNGRobust.Overlay(shape, shapes[places[j].Number], NetTopologySuite.Operation.Overlay.SpatialFunction.Intersection).Area;
                if (area > OverlapSquareMetres)
                {
                    yield return Warning($"place {places[i].Number}", "geometry",
                        $"{places[i].Number} and {places[j].Number} overlap by {area:0.##} m² on level {places[i].Level}: draw each piece of floor once, or its people and its air count twice.");
                }
            }
        }
    }

    private static IEnumerable<Finding> Passages(FloorPlan plan, Dictionary<string, Polygon> shapes)
    {
        var places = plan.Places.ToDictionary(place => place.Number, StringComparer.Ordinal);
        var elevations = plan.Levels.ToDictionary(level => level.Id, level => level.ElevationMetres);
        foreach (var passage in plan.Passages)
        {
            var (from, to) = (places[passage.From], places[passage.To]);
            var climbs = passage.Kind == PassageKind.StairFlight;
            if (passage.Kind != PassageKind.LandingDoor && climbs == (from.Level == to.Level))
            {
                yield return climbs
                    ? Error($"passage {passage.Id}", "kind", $"Stair flight {passage.Id} joins {from.Number} and {to.Number}, both on level {from.Level}: a flight joins two storeys.")
                    : Error($"passage {passage.Id}", "joins", $"Passage {passage.Id} joins {from.Number} on level {from.Level} and {to.Number} on level {to.Level}: only a landing door or a stair flight leads to another level.");
                continue;
            }

            // A flight's line lies on its lower storey only, a landing door's on the landing only.
            var upper = climbs ? (elevations[from.Level!] <= elevations[to.Level!] ? to : from) : null;
            foreach (var place in new[] { from, to }.Where(place => place.Level is not null && place != upper && shapes.ContainsKey(place.Number)))
            {
                var middle = new Point(passage.Line.Midpoint.X, passage.Line.Midpoint.Y);
                var metres = (climbs ? (Geometry)shapes[place.Number] : shapes[place.Number].Boundary).Distance(middle);
                if (metres > FloorGraphBuilder.DoorToleranceMetres)
                {
                    yield return Error($"passage {passage.Id}", "geometry",
                        $"Passage {passage.Id} is {metres:0.00} m away from the outline of {place.Number}, and {FloorGraphBuilder.DoorToleranceMetres} m is the most: move the line onto the shared wall or correct the places it joins.");
                }
            }
        }
    }

    private static Polygon PolygonOf(Outline outline) =>
        new(new LinearRing([.. outline.Corners.Append(outline.Corners[0]).Select(corner => new Coordinate(corner.X, corner.Y))]));
}
