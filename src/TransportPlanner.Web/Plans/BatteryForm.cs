using System.Globalization;
using TransportPlanner.Core.Batteries;
using TransportPlanner.Web.Batteries;

namespace TransportPlanner.Web.Plans;

/// <summary>One battery of the start page, as typed. A row without a device is left out.</summary>
public sealed class BatteryEntry
{
    public BatteryDevice? Device { get; set; }
    public string? Rated { get; set; }
    public string? Charge { get; set; }

    /// <summary>Years, or the day that the battery was new.</summary>
    public string? Age { get; set; }
    public string? Tested { get; set; }
    public string? TestedOn { get; set; }

    public bool IsEmpty => Device is null && new[] { Rated, Charge, Age, Tested, TestedOn }.All(string.IsNullOrWhiteSpace);

    internal static BatteryEntry Of(BatteryRequest given) => new()
    {
        Device = given.Device,
        Rated = Text(given.RatedMinutes),
        Charge = Text(given.ChargePercent),
        Age = given.BatteryDate is { } date ? Day(date) : Text(given.AgeYears),
        Tested = Text(given.TestedMinutes),
        TestedOn = given.TestedOn is { } on ? Day(on) : null,
    };

    /// <summary>Null for an empty row, or with the problems in <paramref name="entries"/>; fields are named <c>Batteries[0].Rated</c>.</summary>
    internal BatteryRequest? Read(int row, Entries entries)
    {
        if (IsEmpty)
        {
            return null;
        }

        var (prefix, name) = ($"Batteries[{row}]", $"Battery {row + 1}");
        entries.Need($"{prefix}.Device", Device is not null, $"{name}: choose the device that these figures belong to.");
        var isDate = Age?.Trim().Length > 5 && Age.Contains('-', StringComparison.Ordinal);
        var request = new BatteryRequest
        {
            Device = Device ?? BatteryDevice.Other,
            RatedMinutes = entries.Number($"{prefix}.Rated", $"{name}, rated", Rated, 1, Battery.MaxMinutes, "min"),
            ChargePercent = entries.Number($"{prefix}.Charge", $"{name}, charge", Charge, 0, 100, "%"),
            AgeYears = isDate ? null : entries.Number($"{prefix}.Age", $"{name}, age", Age, 0, Battery.MaxAgeYears, "years, or the date on it such as 2024-05-01"),
            BatteryDate = isDate ? DayOf($"{prefix}.Age", $"{name}, date", Age, entries) : null,
            TestedMinutes = entries.Number($"{prefix}.Tested", $"{name}, timed run", Tested, 0, Battery.MaxMinutes, "min"),
            TestedOn = DayOf($"{prefix}.TestedOn", $"{name}, day of the timed run", TestedOn, entries),
        };
        entries.Need($"{prefix}.TestedOn", request.TestedMinutes is null || !string.IsNullOrWhiteSpace(TestedOn), $"{name}: a timed run counts by its age; give its day.");
        entries.Need($"{prefix}.Tested", request.TestedOn is null || !string.IsNullOrWhiteSpace(Tested), $"{name}: give the minutes of the timed run too, or leave its day out.");
        return request;
    }

    /// <summary>The row's field for a member of the request.</summary>
    internal static string FieldOf(int row, string member) => $"Batteries[{row}]." + member switch { "testedOn" => nameof(TestedOn), "batteryDate" => nameof(Age), _ => nameof(Device) };

    private static DateOnly? DayOf(string field, string name, string? typed, Entries entries)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        var read = DateOnly.TryParseExact(typed.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day);
        entries.Need(field, read, $"{name}: give a day such as 2026-03-01; \"{typed.Trim()}\" is not.");
        return read ? day : null;
    }

    private static string? Text(decimal? value) => value?.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
