using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Batteries;

namespace TransportPlanner.Web.Batteries;

/// <summary>
/// A device that runs on its battery under way. Only the device is required; without rated minutes or a timed run, a charge and an age its
/// minutes are unknown, and the answer says what is missing. Nothing has a default.
/// </summary>
public sealed record BatteryRequest : IValidatableObject
{
    /// <summary>Which device. Two of a kind are two batteries.</summary>
    public required BatteryDevice Device { get; init; }

    /// <summary>Minutes that the maker gives for a new, full battery, 1 to 2,880.</summary>
    [Range(1, Battery.MaxMinutes, ErrorMessage = "Give the rated minutes, 1 to 2880: 3 hours are 180. Or leave it out.")]
    public decimal? RatedMinutes { get; init; }

    /// <summary>Charge as the device shows it, percent, 0 to 100.</summary>
    [Range(0, 100.0, ErrorMessage = "Give the charge in percent, 0 to 100, or leave it out.")]
    public decimal? ChargePercent { get; init; }

    /// <summary>Age of the battery in years, 0 to 30; or batteryDate.</summary>
    [Range(0, (double)Battery.MaxAgeYears, ErrorMessage = "Give the age in years, 0 to 30: 18 months are 1.5. Or leave it out.")]
    public decimal? AgeYears { get; init; }

    /// <summary>The day that the battery was new, as its label says; or ageYears.</summary>
    public DateOnly? BatteryDate { get; init; }

    /// <summary>Minutes that it really ran from full to empty, 0 to 2,880; needs testedOn. It counts instead of the rated minutes.</summary>
    [Range(0, (double)Battery.MaxMinutes, ErrorMessage = "Give the minutes of the timed run, 0 to 2880, or leave it out.")]
    public decimal? TestedMinutes { get; init; }

    /// <summary>The day of that run.</summary>
    public DateOnly? TestedOn { get; init; }

    /// <summary>What attributes cannot see: one age, a run with its day.</summary>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (AgeYears is not null && BatteryDate is not null)
            yield return new("Give the age or the date of the battery, not both.", [nameof(AgeYears), nameof(BatteryDate)]);
        if (TestedMinutes is not null && TestedOn is null)
            yield return new("A timed run counts by its age: give its day, such as 2026-03-01.", [nameof(TestedOn)]);
        if (TestedMinutes is null && TestedOn is not null)
            yield return new("Give the minutes of the timed run too, or leave its day out.", [nameof(TestedMinutes)]);
    }

    /// <summary>The member whose day lies after the departure or too far before it, with the fix; null where neither does.</summary>
    /// <param name="day">Day of departure at the site.</param>
    internal (string Member, string Fix)? WhyRefused(DateOnly day)
    {
        foreach (var (member, date) in new[] { (nameof(BatteryDate), BatteryDate), (nameof(TestedOn), TestedOn) })
        {
            if (date is { } given && (given > day || given < day.AddYears(-Battery.MaxAgeYears)))
                return (member, FormattableString.Invariant($"{given:yyyy-MM-dd} is no day in the {Battery.MaxAgeYears} years up to the departure on {day:yyyy-MM-dd}. Give the day that stands on it."));
        }

        return null;
    }

    /// <param name="day">Day of departure at the site.</param>
    internal Battery ToBattery(DateOnly day) => new()
    {
        Device = Device,
        RatedMinutes = RatedMinutes,
        ChargePercent = ChargePercent,
        AgeMonths = BatteryDate is { } date ? Battery.MonthsBetween(date, day) : AgeYears * 12,
        Test = TestedMinutes is { } tested ? new(tested, Battery.MonthsBetween(TestedOn!.Value, day)) : null,
    };
}

/// <summary>How long one battery is counted to last once it is unplugged.</summary>
/// <param name="Device">Which device.</param>
/// <param name="Number">Its place in the request, from 1.</param>
/// <param name="Minutes">Whole minutes, rounded down; null: unknown.</param>
/// <param name="ExactMinutes">Rounded down to a thousandth; null: unknown.</param>
/// <param name="Working">The minutes with the numbers put in, or what is missing.</param>
/// <param name="Missing">What somebody must read first; empty where the minutes are known.</param>
public sealed record BatteryResponse(BatteryDevice Device, int Number, long? Minutes, decimal? ExactMinutes, string Working, IReadOnlyList<string> Missing)
{
    internal static BatteryResponse From(BatteryTime time, int number) => new(time.Battery.Device, number, time.Minutes, time.ExactMinutes, time.Working, time.Missing);
}
