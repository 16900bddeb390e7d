using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>One fact of a place in words, with how and when it became known. A null value is <i>unknown</i>, which is written out.</summary>
public sealed record FactRow(string Name, string? Value, string Source, string Date)
{
    public bool IsAssumed => Value is not null && Source == FloorPlanWords.Of(FactSource.Assumed);

    /// <summary>Day since which it is known; null where the fact has none.</summary>
    public DateOnly? AsOf { get; init; }

    internal static FactRow Of<T>(string name, Fact<T> fact, Func<T, string> words)
        where T : struct => fact.IsKnown
            ? new(name, words(fact.Value), FloorPlanWords.Of(fact.Source), FloorPlanWords.Of(fact.AsOf)) { AsOf = fact.AsOf }
            : new(name, null, "nobody has said", "no date");
}

/// <summary>Everything that the floor plan says about one place, or about the elevator whose car it is, row by row.</summary>
internal static class PlaceFacts
{
    /// <param name="local">Now, in the site's time.</param>
    public static IEnumerable<FactRow> Of(Place place, FloorPlan plan, DateTimeOffset local)
    {
        yield return new("Floor area", FloorPlanWords.Number(place.Outline.AreaSquareMetres, "0.0", "m²"), "from the outline", $"floor plan version {plan.Version}");
        yield return FactRow.Of("Height", place.Height, FloorPlanWords.Metres);
        yield return FactRow.Of(place.Level is null ? "Air changes, doors shut" : "Air changes", place.AirChanges, rate => FloorPlanWords.Number(rate.PerHour, "0.##", "per hour"));
        if (place.Level is not null)
        {
            yield return FactRow.Of("Pressure against the space outside its door", place.Pressure, FloorPlanWords.Of);
            yield return FactRow.Of("Fire compartment", place.FireCompartment, compartment => compartment.Name);
        }

        if (place.Kind == PlaceKind.Ramp || place.GradientPercent.IsKnown)
        {
            yield return FactRow.Of("Slope", place.GradientPercent, percent => FloorPlanWords.Number(percent, "0.#", "%"));
        }

        yield return Profile(place.Level is null ? "Riders now, on average" : "People now, on average", place.Occupancy, place.OccupancySource, local, FloorPlanWords.People);
    }

    /// <inheritdoc cref="Of(Place, FloorPlan, DateTimeOffset)"/>
    public static IEnumerable<FactRow> Of(Elevator elevator, FloorPlan plan, DateTimeOffset local) =>
    [
        FactRow.Of("Car length", elevator.CarLength, FloorPlanWords.Metres),
        FactRow.Of("Car width", elevator.CarWidth, FloorPlanWords.Metres),
        FactRow.Of("Door width", elevator.DoorWidth, FloorPlanWords.Metres),
        FactRow.Of("Rated load", elevator.RatedLoadKilograms, load => FloorPlanWords.Number(load, "0", "kg")),
        FactRow.Of("Rated speed", elevator.RatedSpeedMetresPerSecond, speed => FloorPlanWords.Number(speed, "0.##", "m/s")),
        FactRow.Of("Acceleration", elevator.AccelerationMetresPerSecondSquared, value => FloorPlanWords.Number(value, "0.##", "m/s²")),
        FactRow.Of("Jerk", elevator.JerkMetresPerSecondCubed, value => FloorPlanWords.Number(value, "0.##", "m/s³")),
        FactRow.Of("Door opening", elevator.DoorOpening, FloorPlanWords.Seconds),
        FactRow.Of("Door closing", elevator.DoorClosing, FloorPlanWords.Seconds),
        FactRow.Of("Air changes, parked with doors open", elevator.AirChangesDoorsOpen, rate => FloorPlanWords.Number(rate.PerHour, "0.##", "per hour")),
        FactRow.Of("Rides that stall", elevator.StallProbability, Frequency),
        FactRow.Of("A stall lasts", elevator.StallDuration, FloorPlanWords.Seconds),
        .. plan.ElevatorGroups.Where(group => group.Id == elevator.Group)
            .Select(group => Profile("Wait for a call now, on average", group.MeanCallWaitSeconds, group.WaitSource, local, seconds => FloorPlanWords.Number(seconds, "0", "s"))),
    ];

    private static FactRow Profile(string name, QuarterHourProfile? profile, FactSource source, DateTimeOffset local, Func<double, string> words) =>
        profile is null
            ? new(name, null, "nobody has said", "no date")
            : new(name, words(profile.At(local.DayOfWeek, TimeOnly.FromDateTime(local.DateTime))), FloorPlanWords.Of(source), "no date");

    private static string Frequency(double probability) =>
        probability > 0 ? FormattableString.Invariant($"about 1 in {Math.Round(1 / probability):0}") : "none recorded";
}
