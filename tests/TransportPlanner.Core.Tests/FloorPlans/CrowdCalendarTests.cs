using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Arithmetic of the sentence in the type's own summary, worked out by hand; days and quarter-hours as in QuarterHourProfile.</summary>
public sealed class CrowdCalendarTests
{
    private static CrowdTime Time(double times = 1, double adds = 0, int from = 14 * 60, int to = 16 * 60, DayOfWeek day = DayOfWeek.Sunday) => new()
    {
        Kind = CrowdKind.Visiting,
        Places = ["C-1.01"],
        Days = [day],
        FromMinute = from,
        ToMinute = to,
        Times = times,
        Adds = adds,
        Owner = "Charge nurse",
        Date = new(2026, 3, 1),
    };

    private static int Quarter(DayOfWeek day, int hour, int minute) => QuarterHourProfile.IndexOf(day, new(hour, minute));

    [Fact]
    public void An_entry_holds_from_its_begin_to_before_its_end_on_its_days_in_its_places()
    {
        var calendar = new CrowdCalendar([Time(adds: 3)]);

        Assert.Equal(2, calendar.People("C-1.01", Quarter(DayOfWeek.Sunday, 13, 45), 2));
        Assert.Equal(5, calendar.People("C-1.01", Quarter(DayOfWeek.Sunday, 14, 0), 2));
        Assert.Equal(5, calendar.People("C-1.01", Quarter(DayOfWeek.Sunday, 15, 45), 2));
        Assert.Equal(2, calendar.People("C-1.01", Quarter(DayOfWeek.Sunday, 16, 0), 2));
        Assert.Equal(2, calendar.People("C-1.01", Quarter(DayOfWeek.Monday, 14, 0), 2));
        Assert.Equal(2, calendar.People("D-1.01", Quarter(DayOfWeek.Sunday, 14, 0), 2));
    }

    [Fact]
    public void The_last_quarter_of_the_week_is_reached_and_no_other_day()
    {
        var calendar = new CrowdCalendar([Time(adds: 1, from: 23 * 60 + 45, to: 24 * 60)]);

        Assert.Equal([QuarterHourProfile.Length - 1], Enumerable.Range(0, QuarterHourProfile.Length).Where(quarter => calendar.People("C-1.01", quarter, 0) > 0));
    }

    /// <summary>2 × 3 × 0.5 + 4 + 1 = 8.</summary>
    [Fact]
    public void Factors_multiply_and_additions_add_in_any_order()
    {
        CrowdTime[] entries = [Time(times: 3, adds: 4), Time(times: 0.5), Time(adds: 1)];
        var quarter = Quarter(DayOfWeek.Sunday, 15, 0);

        Assert.Equal(8, new CrowdCalendar(entries).People("C-1.01", quarter, 2));
        Assert.Equal(8, new CrowdCalendar(entries.Reverse()).People("C-1.01", quarter, 2));
    }

    [Fact]
    public void What_cannot_be_so_is_refused_in_words()
    {
        Assert.Null(Time(adds: 1).WhyRefused());
        Assert.Contains("changes nothing", Time().WhyRefused());
        Assert.Contains("quarter-hours", Time(adds: 1, from: 14 * 60 + 5).WhyRefused());
        Assert.Contains("later end", Time(adds: 1, from: 17 * 60).WhyRefused());
        Assert.Contains("later end", Time(adds: 1, to: 24 * 60 + 15).WhyRefused());
        Assert.Contains("0 to 100", Time(times: double.NaN).WhyRefused());
        Assert.Contains("10,000", Time(adds: -1).WhyRefused());
        Assert.Contains("places", (Time(adds: 1) with { Places = ["A", "A"] }).WhyRefused());
        Assert.Contains("days", (Time(adds: 1) with { Days = [] }).WhyRefused());
        Assert.Contains("role", (Time(adds: 1) with { Owner = "" }).WhyRefused());
    }

    [Fact]
    public void An_entry_is_said_in_the_words_of_the_working() =>
        Assert.Equal("visiting 14:00 to 16:00 × 2 + 3 (Charge nurse, since 2026-03-01)", Time(2, 3).Words());
}
