using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Tests.Gas;

/// <summary>How sums are written and numbers kept; found by mutations that no other test saw. Worked by hand.</summary>
public sealed class GasFormTests
{
    private static readonly Rational Sixth = (Rational)1m / 6m;

    // The nearest figures come first; where they would give another minute, more litres over less flow; where the flow rounds to nothing, more decimals.
    [Fact]
    public void A_printed_division_gives_the_printed_minutes()
    {
        Assert.Equal("252 L ÷ 10 L/min = 25 min", GasText.Division(252m, 10m, 1m));
        // 0.333 ÷ 0.167 is 1.99, 0.334 ÷ 0.166 is 2.01.
        Assert.Equal("0.334 L ÷ 0.166 L/min = 2 min", GasText.Division((Rational)1m / 3m, Sixth, 1m));
        Assert.Equal("0.334 L ÷ (1 L/min × 0.166) = 2 min", GasText.Division((Rational)1m / 3m, 1m, Sixth));
        Assert.Equal("1 L ÷ 0.0001 L/min = 10000 min", GasText.Division(1m, 0.0001m, 1m));
    }

    // 5 + (100 − 5 ÷ 6) ÷ 10 = 14.9; 10.5 ÷ (2 ÷ 3) = 15.75.
    [Fact]
    public void A_division_in_two_parts_gives_the_printed_minutes()
    {
        Assert.Equal("5 min + (100 L − 5 min × 0.167 L/min) ÷ 10 L/min = 14 min", GasText.Twice(100m, 5m, Sixth, 10m));
        Assert.Equal("0 min + (10.5 L − 0 min × 0 L/min) ÷ 0.667 L/min = 15 min", GasText.Twice(10.5m, 0m, 0m, (Rational)2m / 3m));
    }

    // 0.0333 L/min × 18 min = 0.5994 L is printed as 0.599 and so is only about equal.
    [Fact]
    public void A_rounded_need_is_printed_as_about_equal() =>
        Assert.Contains("× 0.0333 L/min ≈ 0.599 L", LeastGauge.ForAll(GasKind.Oxygen, Gases.Demand(0.0333m, 1), ReserveRule.TwiceTheJourney, 9)[0].Working, StringComparison.Ordinal);

    // NIST SP 811: 1 psi is 6,894.757 Pa.
    [Fact]
    public void A_reading_in_whole_pascals_is_the_nearest() => Assert.Equal(6_895, PressureReading.FromPsi(1).ToGaugePressure().Pascals);

    [Fact]
    public void A_rational_keeps_every_digit_of_a_decimal_and_equals_by_value()
    {
        foreach (var value in new[] { decimal.MaxValue, decimal.MinValue, 18_446_744_073_709_551_616m, 4_294_967_296m, 0.0000000000000000000000000001m })
            Assert.Equal(value, ((Rational)value).Down(value == decimal.Truncate(value) ? 0 : 28));
        Assert.True((Rational)1m != 2m);
        Assert.False((Rational)1m != 1.0m);
        Assert.True(((Rational)0.5m).Equals((object)((Rational)1m / 2m)));
        Assert.False(((Rational)0.5m).Equals((object)(Rational)2m));
        Assert.False(((Rational)0.5m).Equals("0.5"));
        Assert.Equal("A gas that is not drawn has no duration.", Assert.Throws<DivideByZeroException>(() => (Rational)1m / Rational.Zero).Message);
    }

    // Without an error of its own a supply ends at its minute: a journey as long as it does not outlast it.
    [Theory]
    [InlineData(4.9, 0)]
    [InlineData(5, 0)]
    [InlineData(5.1, 1)]
    public void A_supply_without_a_band_is_outlasted_by_longer_journeys_alone(double minutes, double share) => Assert.Equal(share, Shortfall.ShareBelow(minutes, 5, 5));

    [Fact]
    public void A_support_that_does_not_exist_is_named() =>
        Assert.Equal("support", Assert.Throws<ArgumentOutOfRangeException>(() => SupportDemand.For((RespiratorySupport)99)).ParamName);

    // 100.0006 L are there: said as 100 L. Air at fraction 0.3 flows at 8 × 0.7 ÷ 0.79 = 7.088608 L/min.
    [Fact]
    public void What_a_shelf_lacks_is_said_with_what_is_there_rounded_down()
    {
        GasRequest request = new() { Demand = Gases.Demand(8, 0.3m), JourneyMinutes = 9, Cylinders = [Gases.Holding(GasKind.Oxygen, 400), Gases.Holding(GasKind.Air, 100.0006m)] };

        var no = Assert.IsType<ShelfSet.TooLittle>(ShelfSet.Smallest(request));
        Assert.Equal((GasKind.Air, 100m), (no.Gas, no.ThereLitres));
        Assert.Contains("39 min × 7.088608 L/min = 276.456 L", no.Working, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ShelfSet.Smallest(request with { Demand = Gases.Demand(31, 0.3m) }));
    }

    [Fact]
    public void One_more_cylinder_is_one_like_a_cylinder_that_is_there()
    {
        GasRequest request = new() { Demand = Gases.Demand(8, 0.3m), JourneyMinutes = 9, Cylinders = [] };

        Assert.Empty(OneMoreCylinder.For(request));
        Assert.Equal(GasKind.Oxygen, Assert.Single(OneMoreCylinder.For(request with { Cylinders = [Gases.Holding(GasKind.Oxygen, 100)] })).Gas);
    }

    // By the outlet 5 + 8.409 = 13.409 min of 14.5 at the low end, half a minute more by the corridor: less than the band is wide, and still taken.
    [Fact]
    public void A_later_place_is_taken_for_half_a_minute_at_the_low_end()
    {
        var timeline = GasSupply.For(new()
        {
            Demand = Gases.Demand(10, 1),
            Cylinders = [Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Oxygen, 100)],
            Timeline = [new("corridor", 5, ChangeOverPlace.Impossible), new("alcove", 0.5m, ChangeOverPlace.Best), new("corridor 4", 9, ChangeOverPlace.Possible)],
        }).Timeline!;

        Assert.Equal(("corridor 4", 5.5m), Assert.Single(timeline.ChangeOvers.Select(change => (change.Where, change.AtMinute))));
    }

    // A size that a site added in psi with its water capacity: no listed size has both.
    [Fact]
    public void The_least_gauge_of_a_size_in_psi_with_a_water_capacity_is_the_first_mark_that_is_enough()
    {
        var psi = PressureReading.FromPsi(2200);
        CylinderSize size = new("SITE-E", "site", "SITE-E", null, GasKind.Oxygen, 4.5m, psi, psi, 660, 660, null, "label", "label", "");
        foreach (var journey in Enumerable.Range(1, 30))
        {
            var least = Assert.Single(LeastGauge.ForAll(GasKind.Oxygen, Gases.Demand(8, 1), ReserveRule.TwiceTheJourney, journey, sizes: [size]));
            Rational Litres(decimal gauge) => CylinderAmount.Of(new(GasKind.Oxygen, CylinderCapacity.FromSize(size), PressureReading.FromPsi(gauge)), 20).Litres;

            var gauge = least.Gauge!.Value.Value;
            Assert.Equal(0, gauge % 10);
            Assert.True(Litres(gauge) >= 16m * journey && Litres(gauge - 10) < 16m * journey, $"{journey} min: {gauge} psi");
            Assert.Matches(@"as real gas in 4\.5 L of water at 20 °C up to \d{2,3}0 psi; the greater", least.Steps);
        }
    }

    // What UK-E holds at 20 bar as real gas, to the millionth of a litre, is just enough at 20 bar; a millionth more asks for 21.
    [Fact]
    public void A_need_that_a_mark_just_holds_is_met_by_that_mark_and_not_by_more()
    {
        var size = CylinderLibrary.Sizes.Single(one => one.Id == "UK-E");
        var litres = CylinderAmount.Of(new(GasKind.Oxygen, CylinderCapacity.FromSize(size), PressureReading.FromBar(20)), 20).Litres.Down(6);
        Assert.InRange(litres, 20, 29);
        PressureReading? Least(decimal flow) => Assert.Single(LeastGauge.ForAll(GasKind.Oxygen, Gases.Demand(flow, 1), ReserveRule.TwiceTheJourney, 0.5m, sizes: [size])).Gauge;

        Assert.Equal(PressureReading.FromBar(20), Least(litres));
        Assert.Equal(PressureReading.FromBar(21), Least(litres + 0.000001m));
    }
}
