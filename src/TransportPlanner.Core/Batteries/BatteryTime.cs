using System.Globalization;

namespace TransportPlanner.Core.Batteries;

/// <summary>How long one battery is counted to last once it is unplugged, or what is missing to say so.</summary>
/// <param name="Battery">As it was given.</param>
/// <param name="ExactMinutes">Rounded down to a thousandth; null: unknown.</param>
/// <param name="Working">The minutes with the numbers put in, or what is missing.</param>
/// <param name="Missing">What somebody must read first, in words; empty where the minutes are known.</param>
public sealed record BatteryTime(Battery Battery, decimal? ExactMinutes, string Working, IReadOnlyList<string> Missing)
{
    /// <summary>Whole minutes, rounded down; null: unknown.</summary>
    public long? Minutes => ExactMinutes is { } exact ? (long)decimal.Floor(exact) : null;

    /// <summary>
    /// Base × charge × (1 − margin) × (1 − yearly loss × age). The base is the timed run, aged since that day, and never more than the rated
    /// minutes; without a timed run it is the rated minutes, aged since the battery was new. Source of the form: smallest of rated × health ×
    /// age over the devices (PR-077, RR-18).
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static BatteryTime Of(Battery battery, BatteryPolicy policy)
    {
        battery.Validate();
        ArgumentOutOfRangeException.ThrowIfGreaterThan(policy.MarginPercent, 90m, nameof(policy));
        ArgumentOutOfRangeException.ThrowIfNegative(policy.MarginPercent, nameof(policy));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(policy.LossPercentPerYear, 100m, nameof(policy));
        ArgumentOutOfRangeException.ThrowIfNegative(policy.LossPercentPerYear, nameof(policy));
        var (minutes, months, name) = battery.Test is { } test
            ? test.Minutes > battery.RatedMinutes ? (battery.RatedMinutes, test.AgeMonths, "rated, less than timed,") : (test.Minutes, test.AgeMonths, "timed")
            : (battery.RatedMinutes, battery.AgeMonths, "rated");
        List<string> missing =
        [
            .. minutes is null ? new[] { "rated minutes, or a timed run" } : [],
            .. battery.ChargePercent is null ? new[] { "charge" } : [],
            .. months is null ? new[] { "age of the battery" } : [],
        ];
        if (minutes is not { } known || battery.ChargePercent is not { } charge || months is not { } age)
            return new(battery, null, $"unknown: give {string.Join(", ", missing)}", missing);

        // One division at the end keeps the minutes exact: percent, percent, and months of a year in percent.
        var kept = Math.Max(0, 1_200 - policy.LossPercentPerYear * age);
        var product = known * charge * (100 - policy.MarginPercent) * kept;
        var exact = decimal.Floor(product / 12_000m) / 1_000m;
        return new(
            battery, exact,
            $"{Number(known)} min {name} × {Number(charge)} % charge × {Number(100 - policy.MarginPercent)} % after the margin × "
            + (kept > 0 ? $"(1 − {Number(policy.LossPercentPerYear)} % × {Number(age)}/12 years)" : $"0 (no time is left at {Number(policy.LossPercentPerYear)} % a year after {Number(age)}/12 years)")
            + $" = {Number(decimal.Floor(exact))} min",
            []);
    }

    private static string Number(decimal value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
