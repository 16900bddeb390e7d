using TransportPlanner.Core.Gas;

namespace TransportPlanner.Core.Tests.Gas;

/// <summary>Edges that a mutation of the code went through without any other test failing. Limits are the model's own, in docs/gas.md; sums worked by hand.</summary>
public sealed class GasEdgeTests
{
    // A blender that mixes nothing bleeds nothing that counts: neither at air nor at pure oxygen.
    [Theory]
    [InlineData(0.21, false)]
    [InlineData(0.22, true)]
    [InlineData(0.99, true)]
    [InlineData(1.0, false)]
    public void Bleed_is_asked_for_where_the_blender_mixes(decimal fraction, bool isAsked) =>
        Assert.Equal(isAsked, Cautions(8, fraction).Any(text => text.StartsWith("Blender bleed counts as 0 L/min", StringComparison.Ordinal)));

    [Theory]
    [InlineData(0.5, false)]
    [InlineData(0.49, true)]
    public void A_flow_below_half_a_litre_is_as_small_as_its_error(decimal flow, bool isSaid) =>
        Assert.Equal(isSaid, Cautions(flow, 1).Any(text => text.StartsWith("Below 0.5 L/min", StringComparison.Ordinal)));

    [Theory]
    [InlineData(15, false)]
    [InlineData(15.01, true)]
    public void A_flow_above_fifteen_litres_is_to_be_checked(decimal flow, bool isSaid) =>
        Assert.Equal(isSaid, Cautions(flow, 1).Any(text => text.StartsWith("Above 15 L/min", StringComparison.Ordinal)));

    // 10 psi above the residual × 0.1234567 L/psi = 1.234567 L.
    [Fact]
    public void Usable_litres_are_rounded_down_to_a_thousandth() =>
        Assert.Equal(1.234m, UsableGas.Of(Gases.Psi(GasKind.Oxygen, 0.1234567m, 210)).Litres);

    // The equation of state counts in bar: the same pressures in psi hold the same gas. 1 psi is 6.894757 kPa (NIST SP 811, B.8).
    // Seen to fail: with the factor turned over.
    [Theory]
    [InlineData(GasKind.Oxygen)]
    [InlineData(GasKind.Air)]
    public void A_gauge_in_psi_holds_the_real_gas_of_the_same_pressure_in_bar(GasKind gas)
    {
        var psi = CylinderAmount.Of(new(gas, CylinderCapacity.FromWaterLitres(4.7m), PressureReading.FromPsi(2_000), PressureReading.FromPsi(200)), 21);
        var bar = CylinderAmount.Of(new(gas, CylinderCapacity.FromWaterLitres(4.7m), PressureReading.FromBar(137.89514m), PressureReading.FromBar(13.789514m)), 21);

        Assert.Equal(bar.RealGasLitres!.Value.ToDouble(), psi.RealGasLitres!.Value.ToDouble(), 0.001);
        Assert.InRange(psi.RealGasLitres!.Value.ToDouble(), 4.7 * 100, 4.7 * 160);
    }

    // Class 2.5 of the span: 2.5 % of 315 bar, and of 3,000 psi for US sizes (spans common practice; class EN 837-1).
    [Fact]
    public void A_gauge_errs_by_its_class_of_its_span()
    {
        Assert.Equal(PressureReading.FromBar(7.875m), ErrorBand.GaugeErrorOf(CylinderCapacity.FromWaterLitres(2)));
        Assert.Equal(PressureReading.FromPsi(75), ErrorBand.GaugeErrorOf(CylinderCapacity.FromLitresPerPsi(0.28m)));
    }

    [Fact]
    public void The_largest_capacities_are_taken_and_no_larger_ones()
    {
        Assert.Equal((Rational)10m, CylinderCapacity.FromLitresPerPsi(10).LitresPerUnit);
        Assert.Equal(100m, CylinderCapacity.FromWaterLitres(100).WaterLitres);
        Assert.Throws<ArgumentOutOfRangeException>(() => CylinderCapacity.FromLitresPerPsi(10.01m));
        Assert.Throws<ArgumentOutOfRangeException>(() => CylinderCapacity.FromWaterLitres(100.01m));
    }

    // Input limit IL-10, −20 to 50 °C: common practice.
    [Theory]
    [InlineData(-20, true)]
    [InlineData(-20.1, false)]
    [InlineData(50, true)]
    [InlineData(50.1, false)]
    public void Cylinders_are_from_minus_20_to_50_degrees(decimal celsius, bool isTaken)
    {
        var refused = Record.Exception(() => Gases.Lasting(8, Gases.Psi(GasKind.Oxygen, 0.28m, 1500), celsius));

        Assert.Equal(isTaken ? null : typeof(ArgumentOutOfRangeException), refused?.GetType());
    }

    // Pure oxygen: the supply and oxygen alone last equally long, and the working names the supply.
    [Fact]
    public void Where_both_last_equally_long_the_working_names_the_supply()
    {
        var supply = GasSupply.For(new() { Demand = Gases.Demand(8, 1), Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1500)], JourneyMinutes = 10 });

        Assert.Equal(supply.Minutes, supply.OxygenAlone.Minutes);
        Assert.All(supply.Rules, rule => Assert.Contains("the lesser is the supply", rule.Working, StringComparison.Ordinal));
    }

    private static IReadOnlyList<string> Cautions(decimal flow, decimal fraction) =>
        GasSupply.For(new() { Demand = Gases.Demand(flow, fraction), Cylinders = [Gases.Psi(GasKind.Oxygen, 0.28m, 1500), Gases.Psi(GasKind.Air, 0.28m, 1500)] }).Cautions;
}
