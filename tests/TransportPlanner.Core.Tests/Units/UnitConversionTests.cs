using CsCheck;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Units;
using UnitsNet;

namespace TransportPlanner.Core.Tests.Units;

public sealed class UnitConversionTests
{
    private static readonly Dictionary<string, PressureUnit> Pressures = new() { ["psi"] = PressureUnit.Psi, ["bar"] = PressureUnit.Bar, ["kPa"] = PressureUnit.Kilopascal };

    public static TheoryData<string> Rows() =>
        ReferenceRow.Ids("unit-conversions.csv", row => Pressures.ContainsKey(row["from_unit"]) && Pressures.ContainsKey(row["to_unit"]));

    // NIST SP 811, appendix B: each row says so. 13,700 kPa and 300 bar lie within the limits of a reading.
    [Theory]
    [MemberData(nameof(Rows))]
    public void Pressures_convert_as_the_standard_says(string id)
    {
        var row = ReferenceRow.Find("unit-conversions.csv", id);

        var converted = PressureReading.From(row.Exact("value"), Pressures[row["from_unit"]]).In(Pressures[row["to_unit"]]).Nearest(12);

        Assert.InRange(Math.Abs(converted - row.Exact("expected")), 0, row.Exact("tolerance"));
    }

    // published-errors.csv PE-11: 2000 psi was labelled 137 kg/cm²; it is 137.9 bar.
    [Fact]
    public void Two_thousand_psi_are_137_9_bar() => Assert.Equal(137.9m, PressureReading.FromPsi(2000).In(PressureUnit.Bar).Nearest(1));

    [Fact]
    public void A_second_library_agrees_on_pressures() =>
        Gen.Double[0, 3_300].Sample(psi =>
        {
            var second = Pressure.FromPoundsForcePerSquareInch(psi);
            var gauge = GaugePressure.FromPsi(psi);
            Assert.Equal(second.Bars, gauge.Bar, 0.000_02);
            Assert.Equal(second.Kilopascals, gauge.Kilopascals, 0.002);
            Assert.Equal(second.Bars, PressureReading.FromPsi((decimal)psi).In(PressureUnit.Bar).ToDouble(), 1e-9 * 3_300);
        });

    [Fact]
    public void A_second_library_agrees_on_flows_volumes_speeds_and_lengths() =>
        Gen.Double[0, 5].Sample(value =>
        {
            Assert.Equal(VolumeFlow.FromLitersPerMinute(value).MicrolitersPerMinute, GasFlow.FromLitresPerMinute(value).MicrolitresPerMinute, 1.0);
            Assert.Equal(Speed.FromMetersPerSecond(value).MillimetersPerSecond, WalkingSpeed.FromMetresPerSecond(value).MillimetresPerSecond, 1.0);
            Assert.Equal(Length.FromMeters(value).Millimeters, Distance.FromMetres(value).Millimetres, 1.0);
        });

    [Fact]
    public void A_reading_keeps_what_was_typed_and_becomes_whole_pascals_only_as_a_gauge_pressure()
    {
        Assert.Equal((1100m, PressureUnit.Psi), (PressureReading.FromPsi(1100).Value, PressureReading.FromPsi(1100).Unit));
        Assert.Equal(GaugePressure.FromPsi(1100), PressureReading.FromPsi(1100).ToGaugePressure());
    }

    [Theory]
    [InlineData(3300, 3300.1, PressureUnit.Psi)]
    [InlineData(300, 300.1, PressureUnit.Bar)]
    [InlineData(30_000, 30_001, PressureUnit.Kilopascal)]
    public void A_reading_above_its_limit_is_refused_with_the_limit(double max, double above, PressureUnit unit)
    {
        Assert.Equal((decimal)max, PressureReading.From((decimal)max, unit).Value);
        Assert.Contains(max.ToString(), Assert.Throws<ArgumentOutOfRangeException>(() => PressureReading.From((decimal)above, unit)).Message);
        Assert.Throws<ArgumentOutOfRangeException>(() => PressureReading.From(-0.001m, unit));
    }
}
