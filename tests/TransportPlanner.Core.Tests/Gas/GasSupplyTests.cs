using CsCheck;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class GasSupplyTests
{
    private static readonly Gen<Cylinder> AnyCylinder =
        from gas in Gen.Enum<GasKind>()
        from kind in Gen.Int[0, 3]
        from capacity in Gen.Int[1, 500]
        from gauge in Gen.Int[0, 3000]
        from residual in Gen.Int[0, 500]
        select kind switch
        {
            0 => Gases.Psi(gas, capacity / 100m, gauge, residual),
            1 => Gases.Water(gas, capacity / 10m, gauge / 10m, residual / 10m),
            2 => new(gas, CylinderCapacity.FromLabel(capacity * 10m, PressureReading.FromBar(277)), PressureReading.FromBar(gauge / 10m), PressureReading.FromPsi(residual)),
            _ => new(gas, CylinderCapacity.FromWaterLitres(capacity / 10m), PressureReading.FromPsi(gauge), PressureReading.FromKilopascals(residual)),
        };

    private static readonly Gen<GasDemand> AnyDemand =
        from flow in Gen.Int[1, 3000]
        from fraction in Gen.Int[2100, 10_000]
        from drive in Gen.OneOf(Gen.Const(0), Gen.Int[0, 500])
        from bleed in Gen.OneOf(Gen.Const(0), Gen.Int[0, 500])
        from gas in Gen.Enum<GasKind>()
        from known in Gen.Bool
        select new GasDemand
        {
            Flow = Gases.Flow(flow / 100m),
            OxygenFraction = known ? fraction / 10_000m : null,
            DriveFlow = Gases.Flow(drive / 100m),
            DriveGas = gas,
            Bleed = Gases.Flow(bleed / 100m),
        };

    private static readonly Gen<GasRequest> AnyRequest =
        from demand in AnyDemand
        from cylinders in AnyCylinder.List[0, 4]
        from celsius in Gen.Int[-20, 50]
        from journey in Gen.Int[1, 200]
        select new GasRequest { Demand = demand, Cylinders = cylinders, CylinderCelsius = celsius, JourneyMinutes = journey };

    private static readonly GasRequest Example = new()
    {
        JourneyMinutes = 9,
        Demand = Gases.Demand(10, 0.30m),
        Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1100), Gases.Water(GasKind.Air, 2, 150)],
    };

    [Fact]
    public void The_example_of_the_API_holds_to_the_last_digit()
    {
        var supply = GasSupply.For(Example);

        var oxygen = supply.Gases[0];
        Assert.Equal((1.139, 252.0m, 221.2m, null, GasBasis.Trade), (Math.Round(oxygen.Flow.LitresPerMinute, 3), oxygen.UsableLitres, oxygen.TradeMinutes, oxygen.RealGasMinutes, oxygen.Basis));
        Assert.Equal((221.2m, 221L, 184L), (oxygen.ExactMinutes, oxygen.Minutes, oxygen.MinutesLow));
        Assert.Equal("(1100 − 200) psi × 0.28 L/psi = 252 L; 252 L ÷ 1.139 L/min = 221 min", oxygen.Working);
        Assert.Equal((LimitingGas.Air, 30L), (supply.Limiting, supply.Minutes));
        Assert.Equal((10m, 25.2m, 25L), (supply.OxygenAlone.LitresPerMinute, supply.OxygenAlone.ExactMinutes, supply.OxygenAlone.Minutes));
        Assert.Equal(
            [("twice-the-journey", 18m, 25L, true), ("journey-plus-30-minutes", 39m, 25L, false)],
            supply.Rules.Select(rule => (rule.Rule.Id, rule.RequiredMinutes, rule.AvailableMinutes, rule.Met)));
    }

    // GL-12: a 2 L pair at 150 bar with real-gas litres at 20 °C has 267.8 L of air; plain bar × litre says 272 (gas-limiting-cases.csv, derived).
    [Fact]
    public void The_smaller_figure_of_each_cylinder_is_used_and_named()
    {
        var supply = GasSupply.For(Example with { Cylinders = [Gases.Water(GasKind.Oxygen, 2, 150), Gases.Water(GasKind.Air, 2, 150)] });

        Assert.Equal([GasBasis.Trade, GasBasis.RealGas], supply.Gases.Select(gas => gas.Basis));
        Assert.Equal(272m, supply.Gases[0].UsableLitres);
        Assert.Equal(267.8m, supply.Gases[1].UsableLitres, 1);
    }

    [Fact]
    public void Cylinders_of_one_gas_on_either_figure_are_mixed()
    {
        var supply = GasSupply.For(Example with { Cylinders = [Gases.Psi(GasKind.Air, 0.3m, 1500), Gases.Water(GasKind.Air, 2, 150)] });

        Assert.Equal((GasBasis.Mixed, null), (supply.Gases[1].Basis, supply.Gases[1].RealGasMinutes));
    }

    // Through whole pascals 1,300 psi less 200 at 0.28 L/psi and 4 L/min floors to 76 (design of the project, trade litres in the unit entered).
    [Fact]
    public void Seventy_seven_minutes_are_not_seventy_six() =>
        Assert.Equal(77, Gases.Lasting(4, Gases.Psi(GasKind.Oxygen, 0.28m, 1300)).Minutes);

    [Fact]
    public void Three_times_a_third_of_a_hundred_litres_is_a_hundred()
    {
        var third = new Cylinder(GasKind.Air, CylinderCapacity.FromLabel(100, PressureReading.FromBar(300)), PressureReading.FromBar(100), default(PressureReading));

        Assert.Equal(100, GasSupply.For(new() { Demand = Gases.Demand(1, 0.21m), Cylinders = [third, third, third] }).Minutes);
    }

    [Fact]
    public void A_gauge_at_the_residual_gives_zero_minutes_with_a_caution()
    {
        var supply = GasSupply.For(Example with { Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 200), Gases.Water(GasKind.Air, 2, 10)] });

        Assert.Equal([0L, 0L], supply.Gases.Select(gas => gas.Minutes!.Value));
        Assert.Contains(supply.Cautions, text => text.Contains("Cylinder 1 (oxygen): 200 psi is not above the residual of 200 psi"));
        Assert.All(supply.Rules, rule => Assert.False(rule.Met));
    }

    [Fact]
    public void A_gas_that_is_drawn_without_a_cylinder_lasts_zero_minutes()
    {
        var supply = GasSupply.For(Example with { Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1100)] });

        Assert.Equal((0L, LimitingGas.Air), (supply.Minutes, supply.Limiting));
        Assert.Contains(supply.Cautions, text => text.Contains("no air cylinder"));
    }

    // A label read with one digit too many: 6,160 L at 2,200 psi (151.7 bar) are 40.6 L of water, which nobody carries. Litres per bar by hand.
    [Theory]
    [InlineData(6160, true)]
    [InlineData(616, false)]
    public void A_label_of_a_cylinder_that_nobody_carries_is_asked_about(int litres, bool isAsked)
    {
        var cylinder = new Cylinder(GasKind.Oxygen, CylinderCapacity.FromLabel(litres, PressureReading.FromPsi(2200)), PressureReading.FromPsi(1500));

        var supply = GasSupply.For(Example with { Cylinders = [cylinder] });

        Assert.Equal(isAsked, supply.Cautions.Any(text => text.Contains("about 41 L of water", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(AirSource.Compressor)]
    [InlineData(AirSource.Entrained)]
    public void Air_that_comes_from_elsewhere_needs_no_cylinder(AirSource source)
    {
        var supply = GasSupply.For(Example with { Demand = Example.Demand with { AirSource = source }, Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1100)] });

        Assert.Equal((221L, LimitingGas.Oxygen, null), (supply.Minutes, supply.Limiting, supply.Gases[1].Minutes));
    }

    [Fact]
    public void Air_alone_names_no_oxygen_minutes_but_still_counts_oxygen_alone()
    {
        var supply = GasSupply.For(Example with { Demand = Gases.Demand(10, 0.21m), Cylinders = [Gases.Psi(GasKind.Air, 0.28m, 2000)] });

        Assert.Equal((null, 50L, LimitingGas.Air, 0L), (supply.Gases[0].Minutes, supply.Minutes, supply.Limiting, supply.OxygenAlone.Minutes));
        Assert.All(supply.Rules, rule => Assert.False(rule.Met));
    }

    [Fact]
    public void Bleed_joins_the_flow_before_the_split_and_drive_gas_comes_from_its_own_cylinder()
    {
        var demand = new GasDemand { Flow = Gases.Flow(8), OxygenFraction = 0.605m, Bleed = Gases.Flow(2), DriveFlow = Gases.Flow(1), DriveGas = GasKind.Air };

        Assert.Equal((5.0, 6.0), (demand.FlowOf(GasKind.Oxygen).LitresPerMinute, demand.FlowOf(GasKind.Air).LitresPerMinute));
    }

    [Fact]
    public void A_missing_residual_is_assumed_in_the_unit_of_the_gauge_and_says_so()
    {
        var supply = GasSupply.For(Example with { Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1100, null), Gases.Water(GasKind.Air, 2, 150, null)] });

        Assert.Equal(252m, supply.Gases[0].UsableLitres);
        Assert.Contains(supply.Cautions, text => text.Contains("a residual of 200 psi is assumed"));
        Assert.Contains(supply.Cautions, text => text.Contains("a residual of 14 bar is assumed"));
    }

    [Fact]
    public void Without_a_journey_no_rule_is_judged() => Assert.Empty(GasSupply.For(Example with { JourneyMinutes = null }).Rules);

    [Theory]
    [InlineData(0, 0.3)]
    [InlineData(30.1, 0.3)]
    [InlineData(10, 0.2)]
    [InlineData(10, 1.1)]
    public void A_demand_out_of_range_is_refused(double flow, double fraction) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GasSupply.For(Example with { Demand = Gases.Demand((decimal)flow, (decimal)fraction) }));

    // The least flow that a blend can have: a flow printed with few decimals would show other minutes.
    [Fact]
    public void The_working_of_the_least_flow_still_recomputes() =>
        Gen.Int[1, 3_300_000].Sample(gauge =>
        {
            var supply = GasSupply.For(new() { Demand = Gases.Demand(0.01m, 0.2101m), Cylinders = [.. Enumerable.Repeat(Gases.Psi(GasKind.Oxygen, 10, gauge / 1_000m, 0), 12)] });
            Assert.EndsWith($"= {supply.Gases[0].Minutes} min", supply.Gases[0].Working);
        }, iter: 2_000);

    [Fact]
    public void Every_working_recomputes_from_its_own_numbers() =>
        AnyRequest.Sample(request =>
        {
            var supply = GasSupply.For(request);

            foreach (var gas in supply.Gases)
            {
                // The set flow by itself is no sum: nothing to recompute, and it is the flow.
                var isSum = gas.FlowWorking.Contains('=');
                Assert.True(WorkingReader.Recompute(gas.FlowWorking) == (isSum ? 1 : 0), gas.FlowWorking);
                Assert.True(isSum || gas.FlowWorking.EndsWith($": {GasText.Number(request.Demand.ExactFlowOf(gas.Gas))} L/min"), gas.FlowWorking);
                var expected = gas.Basis is null ? 0 : 1;
                Assert.True(WorkingReader.Recompute(gas.Working) >= expected, gas.Working);
                Assert.True(gas.WorkingLow is null || WorkingReader.Recompute(gas.WorkingLow) >= expected, gas.WorkingLow);
                Assert.True(gas.Basis is null || gas.Working.EndsWith($"= {gas.Minutes} min"), gas.Working);
                Assert.True(gas.Basis is null || gas.WorkingLow!.EndsWith($"= {gas.MinutesLow} min"), gas.WorkingLow);
            }

            WorkingReader.Recompute(supply.OxygenAlone.Working);
            Assert.True(supply.OxygenOnceAirEnds is not { } after || WorkingReader.Recompute(after.Working) == 1 && after.Working.EndsWith($"= {after.Minutes} min"), supply.OxygenOnceAirEnds?.Working);
            Assert.All(supply.Rules, rule => Assert.Equal(1, WorkingReader.Recompute(rule.Working)));
        }, iter: 1_000);

    // 10 L/min at 0.4: oxygen 10 × 0.19 ÷ 0.79 = 2.405 L/min, air 7.595 L/min. Air 0.28 × 1,000 = 280 L end at 36.867 min; oxygen 2 × 0.28 × 3,000 = 1,680 L
    // would last 698.5 min beside it. From 36.867 min on 1,680 − 36.867 × 2.405 = 1,591.3 L flow at 10 L/min: 159.1 min more, 196 in all.
    [Fact]
    public void Oxygen_that_outlasts_air_is_counted_at_the_full_flow_from_there()
    {
        Cylinder oxygen = Gases.Psi(GasKind.Oxygen, 0.28m, 3_200, 200), air = Gases.Psi(GasKind.Air, 0.28m, 1_200, 200);
        GasRequest request = new() { Demand = Gases.Demand(10, 0.4m), Cylinders = [oxygen, oxygen, air] };

        var supply = GasSupply.For(request);

        var after = supply.OxygenOnceAirEnds!;
        Assert.True(supply.Gases[0].Minutes > 3 * after.Minutes, $"{supply.Gases[0].Minutes} {after.Minutes}");
        Assert.InRange(after.AirMinutes, 35m, 36.868m);
        Assert.InRange(after.Minutes, 180, 196);
        Assert.InRange(after.MinutesLow, supply.OxygenAlone.Minutes / 2, after.Minutes);
        Assert.True(after.Minutes > supply.OxygenAlone.Minutes, $"{after.Minutes} {supply.OxygenAlone.Minutes}");
        Assert.Null(GasSupply.For(request with { Cylinders = [oxygen, Gases.Water(GasKind.Air, 50, 150)] }).OxygenOnceAirEnds);
        Assert.Null(GasSupply.For(request with { Demand = Gases.Demand(10, 1) }).OxygenOnceAirEnds);

        // Without air it is oxygen alone from the start.
        var noAir = GasSupply.For(request with { Cylinders = [oxygen, oxygen] });
        Assert.Equal((0m, noAir.OxygenAlone.Minutes), (noAir.OxygenOnceAirEnds!.AirMinutes, noAir.OxygenOnceAirEnds.Minutes));
    }

    // The journey's timeline counts the same by another path: minute by minute of cylinders in use.
    [Fact]
    public void What_is_counted_in_all_is_when_the_timeline_lets_oxygen_end() =>
        AnyRequest.Sample(request =>
        {
            var supply = GasSupply.For(request with { JourneyMinutes = 10, Timeline = [] });
            if (supply.OxygenOnceAirEnds is { } after && request.Cylinders.Count(cylinder => cylinder.Gas == GasKind.Oxygen) == 1 && request.Cylinders.Count(cylinder => cylinder.Gas == GasKind.Air) == 1)
                Assert.InRange(supply.Timeline!.Gases[0].EndsAtMinute!.Value - after.ExactMinutes, -0.002m, 0.002m);
        }, iter: 500);

    [Fact]
    public void The_result_is_never_above_the_trade_figure_and_the_low_end_never_above_the_result() =>
        AnyRequest.Sample(request => Assert.All(GasSupply.For(request).Gases.Where(gas => gas.Minutes is not null), gas =>
        {
            Assert.True(gas.ExactMinutes <= gas.TradeMinutes);
            Assert.True(gas.RealGasMinutes is null || gas.ExactMinutes <= gas.RealGasMinutes);
            Assert.True(gas.MinutesLow <= gas.Minutes);
            Assert.Equal((long)Math.Floor(gas.ExactMinutes!.Value), gas.Minutes);
        }), iter: 500);

    [Fact]
    public void More_flow_never_lasts_longer() =>
        Gen.Select(AnyRequest, Gen.Int[1, 1_000_000]).Sample((request, more) =>
        {
            var flow = GasFlow.FromMicrolitresPerMinute(Math.Min(30_000_000, request.Demand.Flow.MicrolitresPerMinute + more));
            NeverLonger(request, request with { Demand = request.Demand with { Flow = flow } });
        }, iter: 300);

    [Fact]
    public void A_higher_residual_never_lasts_longer() =>
        AnyRequest.Sample(request => NeverLonger(request, request with
        {
            Cylinders = [.. request.Cylinders.Select(c => new Cylinder(c.Gas, c.Capacity, c.Gauge, PressureReading.From(c.Residual.Value + 3, c.Residual.Unit)))],
        }), iter: 300);

    [Fact]
    public void Two_cylinders_never_last_less_than_one() =>
        Gen.Select(AnyRequest, AnyCylinder).Sample((request, one) => NeverLonger(request with { Cylinders = [.. request.Cylinders, one] }, request), iter: 300);

    [Fact]
    public void Oxygen_and_air_add_up_to_everything_drawn() =>
        AnyDemand.Where(demand => demand.OxygenFraction is not null).Sample(demand =>
            demand.FlowOf(GasKind.Oxygen) + demand.FlowOf(GasKind.Air) == demand.Flow + demand.Bleed + demand.DriveFlow);

    private static void NeverLonger(GasRequest than, GasRequest request)
    {
        foreach (var (longer, shorter) in GasSupply.For(than).Gases.Zip(GasSupply.For(request).Gases))
        {
            Assert.True((shorter.ExactMinutes ?? 0) <= (longer.ExactMinutes ?? 0), $"{shorter.Working} / {longer.Working}");

            // The flowmeter's share falls with a rising set flow and also multiplies drive gas and bleed, so with those the low end may rise.
            if (than.Demand.Flow == request.Demand.Flow || than.Demand.DriveFlow + than.Demand.Bleed == GasFlow.Zero)
                Assert.True((shorter.MinutesLow ?? 0) <= (longer.MinutesLow ?? 0), $"{shorter.WorkingLow} / {longer.WorkingLow}");
        }
    }
}
