using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class LocalMetresTests
{
    /// <summary>Geodesics on WGS 84 (distance in metres, azimuth in degrees) computed with GeographicLib, npm package geographiclib-geodesic, method Inverse.</summary>
    [Theory]
    [InlineData(48.2, 16.35, 48.2009, 16.3512, 134.0602, 41.7122)]
    [InlineData(48.2, 16.35, 48.1985, 16.3535, 309.0529, 122.6609)]
    [InlineData(-41.32, 174.81, -41.3185, 174.8125, 267.5202, 51.4858)]
    [InlineData(69.65, 18.95, 69.6530, 18.9580, 456.5858, 42.8586)]
    public void Distances_and_directions_are_those_of_the_geodesic_to_a_millimetre(
        double latitude, double longitude, double toLatitude, double toLongitude, double metres, double azimuth)
    {
        var origin = new LocalMetres(latitude, longitude);
        var point = origin.Of(toLatitude, toLongitude);

        Assert.Equal(new(0, 0), origin.Of(latitude, longitude));
        Assert.Equal(metres, new PlanPoint(0, 0).DistanceTo(point), 0.001);
        Assert.Equal(azimuth, (Math.Atan2(point.X, point.Y) * (180 / Math.PI) + 360) % 360, 0.001);
    }

    [Theory]
    [InlineData(48.2, 16.35, 48.2009, 16.3512, 134.0602)]
    [InlineData(69.65, 18.95, 69.6530, 18.9580, 456.5858)]
    public void Seen_from_an_origin_a_kilometre_away_a_length_stays_the_same_to_a_millimetre(
        double latitude, double longitude, double toLatitude, double toLongitude, double metres)
    {
        var origin = new LocalMetres(latitude + 0.009, longitude);

        Assert.Equal(metres, origin.Of(latitude, longitude).DistanceTo(origin.Of(toLatitude, toLongitude)), 0.001);
    }
}
