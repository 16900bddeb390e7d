namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// Longitude and latitude (WGS 84) as local metres: the plane that touches the ellipsoid at an origin, x to the east, y to the north. Points
/// at height 0 are carried to earth-centred coordinates and dropped square onto that plane, so a length at the distance d from the origin
/// comes out short by at most the part d²/2R²: under 0.02 mm in 100 m at 2 km.
/// </summary>
public sealed class LocalMetres
{
    /// <summary>Half axis and flattening of WGS 84 (NIMA TR8350.2, third edition, table 3.1).</summary>
    private const double HalfAxisMetres = 6_378_137;
    private const double Flattening = 1 / 298.257223563;
    private const double Eccentricity2 = Flattening * (2 - Flattening);

    private readonly (double X, double Y, double Z) _origin;
    private readonly (double Sin, double Cos) _latitude;
    private readonly (double Sin, double Cos) _longitude;

    /// <param name="latitude">Of the origin, degrees north, −90 to 90.</param>
    /// <param name="longitude">Of the origin, degrees east, −180 to 180.</param>
    public LocalMetres(double latitude, double longitude)
    {
        (_latitude, _longitude) = (SinCos(latitude), SinCos(longitude));
        _origin = Earth(latitude, longitude);
    }

    /// <summary>The point in metres from the origin, not rounded.</summary>
    public PlanPoint Of(double latitude, double longitude)
    {
        var point = Earth(latitude, longitude);
        var (x, y, z) = (point.X - _origin.X, point.Y - _origin.Y, point.Z - _origin.Z);
        return new(
            -_longitude.Sin * x + _longitude.Cos * y,
            -_latitude.Sin * (_longitude.Cos * x + _longitude.Sin * y) + _latitude.Cos * z);
    }

    private static (double X, double Y, double Z) Earth(double latitude, double longitude)
    {
        var (phi, lambda) = (SinCos(latitude), SinCos(longitude));
        var n = HalfAxisMetres / Math.Sqrt(1 - Eccentricity2 * phi.Sin * phi.Sin);
        return (n * phi.Cos * lambda.Cos, n * phi.Cos * lambda.Sin, n * (1 - Eccentricity2) * phi.Sin);
    }

    private static (double Sin, double Cos) SinCos(double degrees) => Math.SinCos(degrees * (Math.PI / 180));
}
