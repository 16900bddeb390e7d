using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.FloorPlans;

namespace TransportPlanner.Core.Tests.Plans;

public sealed class StandingPlansTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero);

    [Fact]
    public void Pairs_are_all_delivery_and_operating_rooms_with_all_isolation_rooms_in_order()
    {
        var plan = Plan(("N-2", PlaceKind.IsolationRoom), ("D-2", PlaceKind.DeliveryRoom), ("H-1", PlaceKind.Corridor), ("O-1", PlaceKind.OperatingRoom),
            ("D-1", PlaceKind.DeliveryRoom), ("N-1", PlaceKind.IsolationRoom));

        Assert.Equal(
            ["D-1 N-1", "D-1 N-2", "D-2 N-1", "D-2 N-2", "O-1 N-1", "O-1 N-2"],
            StandingPlans.PairsOf(plan).Select(pair => $"{pair.From} {pair.To}"));
        Assert.Empty(StandingPlans.PairsOf(Plan(("D-1", PlaceKind.DeliveryRoom))));
    }

    [Fact]
    public void The_worst_case_is_no_less_than_any_support_with_each_gas_at_its_worst()
    {
        var (support, worst) = StandingPlans.WorstCase;

        Assert.Equal(SupportDemand.For(support)!.Flow, worst.Flow);
        Assert.Null(worst.OxygenFraction);
        Assert.NotEmpty(worst.Assumed);
        Assert.All(Enum.GetValues<RespiratorySupport>().Select(other => SupportDemand.For(other)), demand => Assert.True(demand is null || demand.Flow <= worst.Flow));
    }

    // 4 May 2026 is a Monday; Berlin keeps UTC+2 in May. Clocks there skip 02:00 to 03:00 on 29 March 2026 and show it twice on 25 October 2026
    // (IANA time zone database, Europe/Berlin).
    [Theory]
    [InlineData("2026-05-04T02:10Z", DayOfWeek.Wednesday, "10:00", "2026-05-06T08:00Z")]
    [InlineData("2026-05-04T02:10Z", DayOfWeek.Monday, "10:00", "2026-05-04T08:00Z")]
    [InlineData("2026-05-04T02:10Z", DayOfWeek.Monday, "02:00", "2026-05-11T00:00Z")]
    [InlineData("2026-05-04T08:00Z", DayOfWeek.Monday, "10:00", "2026-05-04T08:00Z")]
    [InlineData("2026-03-28T12:00Z", DayOfWeek.Sunday, "02:30", "2026-04-05T00:30Z")]
    [InlineData("2026-10-24T12:00Z", DayOfWeek.Sunday, "02:30", "2026-10-25T00:30Z")]
    public void The_next_such_hour_is_read_from_the_clock_on_the_wall(string now, DayOfWeek day, string time, string expected) =>
        Assert.Equal(Instant(expected), StandingPlans.Next("Europe/Berlin", day, TimeOnly.Parse(time, null), Instant(now)));

    // 5 May, 02:00 UTC, is 4 May, a Monday, 22:00 in New York (UTC-4; IANA time zone database). Seen to fail: with the date of UTC taken.
    [Fact]
    public void Today_is_that_of_the_site_and_the_instant_is_in_UTC()
    {
        var next = StandingPlans.Next("America/New_York", DayOfWeek.Monday, new TimeOnly(23, 0), Instant("2026-05-05T02:00Z"));

        Assert.Equal((Instant("2026-05-05T03:00Z"), TimeSpan.Zero), (next, next.Offset));
    }

    [Fact]
    public void What_is_shut_now_is_shut_at_the_planned_hour_and_what_begins_later_is_not()
    {
        var departure = Now.AddDays(2);
        Closure[] known =
        [
            Shut("now", Now.AddMinutes(-5), Now.AddMinutes(5)), Shut("begins", Now, Now.AddMinutes(1)),
            Shut("ended", Now.AddMinutes(-5), Now), Shut("later", Now.AddMinutes(1), Now.AddDays(9)),
        ];

        var shut = StandingPlans.ShutThroughout(known, Now, departure);

        Assert.Equal(["now", "begins"], shut.Select(closure => closure.Id));
        Assert.All(shut, closure => Assert.True(closure.Overlaps(departure, departure.AddHours(1)) && closure.Overlaps(departure.AddHours(-1), departure)));
    }

    private static DateTimeOffset Instant(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private static Closure Shut(string id, DateTimeOffset from, DateTimeOffset to) => new(id, ClosureTarget.Place, "H-1", from, to, "Invented", "Facilities");

    private static FloorPlan Plan(params (string Number, PlaceKind Kind)[] places) => SmallSite.Plan with
    {
        Places = [.. places.Select(place => SmallSite.Plan.Places[0] with { Number = place.Number, Kind = place.Kind })],
    };
}
