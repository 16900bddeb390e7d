using TransportPlanner.Core.Routing;

namespace TransportPlanner.Web.Routing;

/// <summary>What a departure in one quarter-hour would give; figures are null where no way is open then.</summary>
/// <param name="DepartAt">The departure asked for, or the start of a later quarter-hour, UTC.</param>
/// <param name="QuickestSeconds">Mean seconds of the quickest way, to 0.1 s.</param>
/// <param name="ExposureCost">Of the least exposed way: what ranks ways, person-minutes or touch points.</param>
/// <param name="Seconds">Mean seconds of the least exposed way, to 0.1 s.</param>
/// <param name="PeopleLikelyMet">On the least exposed way.</param>
public sealed record DepartureResponse(DateTimeOffset DepartAt, double? QuickestSeconds, double? ExposureCost, double? Seconds, double? PeopleLikelyMet)
{
    internal static DepartureResponse From(Departure departure) => new(
        departure.DepartAt, departure.QuickestSeconds, Rounded(departure.ExposureCost, 3), departure.Seconds, Rounded(departure.PeopleLikelyMet, 2));

    private static double? Rounded(double? figure, int digits) => figure is { } known ? Math.Round(known, digits) : null;
}
