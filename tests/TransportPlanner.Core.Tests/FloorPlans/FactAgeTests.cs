using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Whole months by the calendar, worked out by hand.</summary>
public sealed class FactAgeTests
{
    [Theory]
    [InlineData("2025-03-04", "2026-05-03", 13)]
    [InlineData("2025-03-04", "2026-05-04", 14)]
    [InlineData("2026-01-31", "2026-02-28", 0)]
    [InlineData("2024-02-29", "2025-02-28", 11)]
    [InlineData("2026-06-01", "2026-05-04", -1)]
    public void Months_are_whole_and_rounded_down(string day, string today, int months) =>
        Assert.Equal(months, FactAge.Months(DateOnly.Parse(day), DateOnly.Parse(today)));

    [Fact]
    public void Air_changes_at_the_limit_or_beyond_are_named_and_what_is_assumed_or_has_no_day_does_not_age()
    {
        var today = new DateOnly(2026, 5, 4);
        var rate = AirChangeRate.FromPerHour(6);
        var places = SmallSite.Plan.Places.Take(5).ToArray();
        Fact<AirChangeRate>[] facts =
        [
            Fact.Measured(rate, today.AddMonths(-12)), Fact.Measured(rate, today.AddMonths(-12).AddDays(1)), Fact.Drawing(rate, today.AddYears(-9)),
            Fact.Assumed(rate, today.AddYears(-9)), Fact.Measured(rate),
        ];
        var plan = SmallSite.Plan with { Places = [.. places.Zip(facts, (place, fact) => place with { AirChanges = fact })] };

        var old = FactAge.OldAirChanges(plan, today, 12).ToList();

        Assert.Equal([$"place {places[0].Number}", $"place {places[2].Number}"], old.Select(finding => finding.Subject));
        Assert.Contains("6 per hour", old[0].Text);
        Assert.Contains("2025-05-04", old[0].Text);
        Assert.All(old, finding => Assert.Equal(FindingSeverity.Warning, finding.Severity));
    }
}
