using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>
/// A way as gas sees it: the legs' expected times, all stretched alike to the time that gas is judged on. An elevator and a ramp are no place to
/// change a cylinder; a leg with an oxygen outlet on it is the best, where the outlet stands in a later place of the leg at the leg's end.
/// </summary>
internal static class JourneyOfRoute
{
    /// <summary>Minute at which each leg begins, in whole hundredths.</summary>
    internal static IReadOnlyList<decimal> Begins(Route route, decimal journeyMinutes)
    {
        var total = route.Legs.Sum(leg => leg.ExpectedSeconds);
        var (passed, begins) = (0.0, new List<decimal>());
        foreach (var leg in route.Legs)
        {
            begins.Add(passed <= 0 ? 0 : decimal.Round(journeyMinutes * (decimal)(passed / total), 2));
            passed += leg.ExpectedSeconds;
        }

        return begins;
    }

    internal static IReadOnlyList<JourneyStretch> Of(Route route, decimal journeyMinutes)
    {
        List<decimal> ends = [.. Begins(route, journeyMinutes).Skip(1), journeyMinutes];
        var (from, stretches) = (0m, new List<JourneyStretch>());
        foreach (var (leg, to) in route.Legs.Zip(ends))
        {
            var outlet = leg.NearestOxygenOutlet is { Metres: 0 } nearest ? nearest.Place : null;
            var isAtStart = outlet is not null && outlet == leg.Places[0];
            stretches.Add(new(Name(leg, outlet, isAtStart), to - from, PlaceOf(leg, isAtStart), leg.Ride is not null) { PlaceNumber = leg.Ride is not null ? null : isAtStart ? outlet : leg.FromPlace });
            if (outlet is not null && !isAtStart && leg.Ride is null)
                stretches.Add(new($"{outlet}, at the oxygen outlet", 0, ChangeOverPlace.Best) { PlaceNumber = outlet });
            from = to;
        }

        return stretches;
    }

    private static ChangeOverPlace PlaceOf(Leg leg, bool outletAtStart) =>
        leg.Ride is not null || leg.Kind == LegKind.Ramp ? ChangeOverPlace.Impossible : outletAtStart ? ChangeOverPlace.Best : ChangeOverPlace.Possible;

    private static string Name(Leg leg, string? outlet, bool outletAtStart) =>
        leg.Ride is { } ride ? $"{ride.Name}, level {ride.FromLevel} → {ride.ToLevel}"
        : outletAtStart ? $"{outlet}, at the oxygen outlet"
        : $"{leg.FromPlace}, clear of the door";
}
