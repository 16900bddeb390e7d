using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>A planning quarter-hour of the week in a site's local time: 0 (Monday 00:00) to 671.</summary>
public readonly record struct LocalQuarterHour
{
    private LocalQuarterHour(int index) => Index = index;

    /// <summary>Position in a <see cref="QuarterHourProfile"/>.</summary>
    public int Index { get; }

    /// <summary>The quarter-hour that holds an instant, by the clock on the wall of the site.</summary>
    /// <param name="timeZone">IANA name.</param>
    /// <param name="instant">Any offset.</param>
    /// <exception cref="TimeZoneNotFoundException">The name is not in the time zone database.</exception>
    public static LocalQuarterHour At(string timeZone, DateTimeOffset instant)
    {
        var local = TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(timeZone));
        return new(QuarterHourProfile.IndexOf(local.DayOfWeek, TimeOnly.FromDateTime(local.DateTime)));
    }
}
