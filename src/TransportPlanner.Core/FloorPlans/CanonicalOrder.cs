using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>The one order in which a plan is written and read, so that equal buildings give equal text and equal vertex numbers.</summary>
internal static class CanonicalOrder
{
    internal static FloorPlan Of(FloorPlan plan)
    {
        var elevations = plan.Levels.ToLookup(level => level.Id, level => level.ElevationMetres, StringComparer.Ordinal);
        return plan with
        {
            Levels = [.. plan.Levels.Select(level => level with { ElevationMetres = Millimetre(level.ElevationMetres) })
                .OrderBy(level => level.ElevationMetres).ThenBy(level => level.Id, StringComparer.Ordinal)],
            Places = [.. plan.Places.Select(Of).OrderBy(place => place.Number, StringComparer.Ordinal)],
            Passages = [.. plan.Passages.Select(passage => passage with { Line = new(Of(passage.Line.A), Of(passage.Line.B)) })
                .OrderBy(passage => passage.Id, StringComparer.Ordinal)],
            ElevatorGroups = [.. plan.ElevatorGroups.OrderBy(group => group.Id, StringComparer.Ordinal)],
            Elevators = [.. plan.Elevators.OrderBy(elevator => elevator.Id, StringComparer.Ordinal).Select(elevator => elevator with
            {
                Stops = [.. elevator.Stops.OrderBy(stop => elevations[stop.Level].FirstOrDefault())
                    .ThenBy(stop => stop.Level, StringComparer.Ordinal).ThenBy(stop => stop.LandingDoor, StringComparer.Ordinal)],
            })],
        };
    }

    internal static double Millimetre(double metres) => Math.Round(metres, 3, MidpointRounding.AwayFromZero) + 0.0;

    private static PlanPoint Of(PlanPoint point) => new(Millimetre(point.X), Millimetre(point.Y));

    private static Place Of(Place place) => place with
    {
        Outline = new(Anticlockwise([.. place.Outline.Corners.Select(Of)])),
        StandingPoint = place.StandingPoint is { } point ? Of(point) : null,
        OccupancySource = place.Occupancy is null ? default : place.OccupancySource,
        Facilities = [.. place.Facilities.OrderBy(f => f.Kind).ThenBy(f => f.Connector, StringComparer.Ordinal)
            .ThenBy(f => f.Source).ThenBy(f => f.AsOf)],
    };

    private static ImmutableArray<PlanPoint> Anticlockwise(PlanPoint[] ring)
    {
        var twice = 0.0;
        for (var i = 0; i < ring.Length; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
            twice += a.X * b.Y - b.X * a.Y;
        }

        if (twice < 0)
        {
            Array.Reverse(ring);
        }

        var first = ring.Length == 0 ? 0 : Array.IndexOf(ring, ring.MinBy(point => (point.X, point.Y)));
        return [.. ring[first..], .. ring[..first]];
    }
}
