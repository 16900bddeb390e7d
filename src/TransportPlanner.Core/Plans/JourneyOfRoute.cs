using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>
/// A way as gas sees it: the legs' expected times, all stretched alike to the time that gas is judged on. An elevator and a ramp are no place to
/// change a cylinder; a leg with an oxygen outlet on it is the best, where the outlet stands in a later place of the leg at the leg's end.
/// </summary>
internal static class JourneyOfRoute
{
    internal static IReadOnlyList<JourneyStretch> Of(Route route, decimal journeyMinutes)
    {
        var total = route.Legs.Sum(leg => leg.ExpectedSeconds);
        var (passed, from, stretches) = (0.0, 0m, new List<JourneyStretch>());
        foreach (var leg in route.Legs)
        {
            passed += leg.ExpectedSeconds;
            // Whole hundredths of a minute that add up to the journey.
            var to = leg == route.Legs[^1] || total <= 0 ? journeyMinutes : decimal.Round(journeyMinutes * (decimal)(passed / total), 2);
            var outlet = leg.NearestOxygenOutlet is { Metres: 0 } nearest ? nearest.Place : null;
            var isAtStart = outlet is not null && outlet == leg.Places[0];
            stretches.Add(new(Name(leg, outlet, isAtStart), to - from, PlaceOf(leg, isAtStart), leg.Ride is not null));
            if (outlet is not null && !isAtStart && leg.Ride is null)
                stretches.Add(new($"{outlet}, at the oxygen outlet", 0, ChangeOverPlace.Best));
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
