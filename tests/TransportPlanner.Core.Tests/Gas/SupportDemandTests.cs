using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class SupportDemandTests
{
    // device-flows.csv: DF-11, DF-08, DF-05, DF-07, DF-04, DF-16.
    [Theory]
    [InlineData(RespiratorySupport.LowFlowCannula, 3)]
    [InlineData(RespiratorySupport.HighFlowCannula, 8)]
    [InlineData(RespiratorySupport.Cpap, 10)]
    [InlineData(RespiratorySupport.NonInvasiveVentilation, 12)]
    [InlineData(RespiratorySupport.BagMaskVentilation, 12)]
    [InlineData(RespiratorySupport.InvasiveVentilation, 20)]
    public void A_missing_flow_counts_the_highest_listed_of_the_support_and_names_its_source(RespiratorySupport support, int flow)
    {
        var demand = SupportDemand.For(support)!;

        Assert.Equal(flow, demand.Flow.LitresPerMinute);
        Assert.Contains("not known", Assert.Single(demand.Assumed));
    }

    [Fact]
    public void A_missing_fraction_counts_each_gas_at_its_worst()
    {
        var demand = SupportDemand.For(RespiratorySupport.Cpap, Gases.Flow(8))!;

        Assert.Equal((8.0, 8.0), (demand.FlowOf(GasKind.Oxygen).LitresPerMinute, demand.FlowOf(GasKind.Air).LitresPerMinute));
        Assert.Empty(demand.Assumed);
        Assert.Contains(
            GasSupply.For(new() { Demand = demand, Cylinders = [] }).Cautions, text => text.Contains("fraction 1.0 and air at 0.21"));
    }

    [Fact]
    public void Self_ventilating_without_a_flow_draws_nothing() => Assert.Null(SupportDemand.For(RespiratorySupport.SelfVentilating));

    [Theory]
    [InlineData(GasKind.Oxygen)]
    [InlineData(GasKind.Air)]
    public void The_least_gauge_just_meets_the_rule_and_one_step_less_does_not(GasKind gas)
    {
        var demand = SupportDemand.For(RespiratorySupport.Cpap)!;

        var sizes = LeastGauge.ForAll(gas, demand, ReserveRule.JourneyPlus30Minutes, 9);

        Assert.Contains(sizes, size => size.Gauge is null);
        Assert.All(sizes.Where(size => size.Gauge is not null), size =>
        {
            var step = size.Gauge!.Value.Unit == PressureUnit.Psi ? 10 : 1;
            Assert.True(Minutes(size, size.Gauge.Value.Value) >= 39);
            Assert.True(Minutes(size, size.Gauge.Value.Value - step) < 39);
            Assert.Equal(2, WorkingReader.Recompute(size.Working));
        });

        long? Minutes(LeastGauge size, decimal gauge) =>
            Gases.Lasting(10, new(gas, CylinderCapacity.FromSize(size.Size), PressureReading.From(gauge, size.Gauge!.Value.Unit))).Minutes;
    }

    // Solved directly; this is what it must agree with: step by step up to a full cylinder, each judged by the supply itself.
    [Theory]
    [InlineData(GasKind.Oxygen, 20)]
    [InlineData(GasKind.Air, 20)]
    [InlineData(GasKind.Oxygen, -20)]
    [InlineData(GasKind.Oxygen, 50)]
    public void The_least_gauge_is_the_first_reading_that_the_supply_itself_judges_enough(GasKind gas, int celsius)
    {
        foreach (var (litresPerMinute, journey) in new[] { (10m, 9.3m), (3.3m, 17.1m), (20m, 4m), (0.5m, 60.7m) })
        {
            var rule = ReserveRule.JourneyPlus30Minutes;
            foreach (var least in LeastGauge.ForAll(gas, Gases.Demand(litresPerMinute, gas == GasKind.Oxygen ? 1 : 0.21m), rule, journey, celsius))
            {
                var full = least.Size.Full!.Value;
                var step = full.Unit == PressureUnit.Psi ? 10 : 1;
                Assert.Equal(least.Gauge is { } gauge ? gauge.Value : null, FirstOf(least.Size, full, step));
                Assert.Equal(2, WorkingReader.Recompute(least.Working, isStrict: true));
                AssertSteps(least);
            }

            decimal? FirstOf(CylinderSize size, PressureReading full, int step)
            {
                for (var reading = 0m; reading <= full.Value; reading += step)
                {
                    if (Gases.Lasting(litresPerMinute, new(gas, CylinderCapacity.FromSize(size), PressureReading.From(reading, full.Unit)), celsius).Minutes >= rule.RequiredMinutes(journey))
                        return reading;
                }

                return null;
            }
        }
    }

    // Recomputed from the numbers as printed. Seen to fail: with the residual left out of the trade figure.
    private static void AssertSteps(LeastGauge least)
    {
        var read = System.Text.RegularExpressions.Regex.Match(least.Steps, @"^([\d,.]+) L ÷ \(([\d,.]+) L ÷ ([\d,.]+) (psi|bar)\) \+ ([\d,.]+) \4 (?:=|≈) ([\d,.]+) \4(?:; as real gas in [\d,.]+ L of water at -?[\d.]+ °C up to ([\d,.]+) \4; the greater)?(?:, up to the next (10|1) \4: ([\d,.]+) \4|: more than a full cylinder reads)$");
        Assert.True(read.Success, least.Steps);
        decimal Number(int group) => decimal.Parse(read.Groups[group].Value, System.Globalization.NumberStyles.Number, System.Globalization.CultureInfo.InvariantCulture);
        Assert.InRange(Number(6) - (Number(1) * Number(3) / Number(2) + Number(5)), -0.01m, 0.11m);
        // An equals sign stands only before the very number.
        Assert.Equal(least.Steps.Contains('='), Number(6) == Number(1) * Number(3) / Number(2) + Number(5));
        Assert.Equal(least.Gauge is not null, read.Groups[9].Success);
        if (least.Gauge is { } gauge)
        {
            var trade = Math.Ceiling(Number(6) / Number(8)) * Number(8);
            Assert.Equal((gauge.Value, gauge.Value), (Number(9), Math.Max(trade, read.Groups[7].Success ? Number(7) : 0)));
        }
    }

    [Fact]
    public void Air_from_a_compressor_needs_no_gauge() =>
        Assert.Empty(LeastGauge.ForAll(GasKind.Air, SupportDemand.For(RespiratorySupport.Cpap)! with { AirSource = AirSource.Compressor }, ReserveRule.TwiceTheJourney, 9));
}
