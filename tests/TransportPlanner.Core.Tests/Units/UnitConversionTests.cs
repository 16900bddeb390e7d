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

    // NIST SP 811, appendix B: 1 psi = 6.894757 kPa, 1 bar = 100 kPa. 150 bar are 2175.57 psi, 1340 psi 92.39 bar.
    [Theory]
    [InlineData(150, PressureUnit.Bar, PressureUnit.Psi, 2170, 2180)]
    [InlineData(1340, PressureUnit.Psi, PressureUnit.Bar, 92, 93)]
    [InlineData(1340, PressureUnit.Psi, PressureUnit.Kilopascal, 9_200, 9_300)]
    [InlineData(93, PressureUnit.Bar, PressureUnit.Kilopascal, 9_300, 9_300)]
    [InlineData(0, PressureUnit.Bar, PressureUnit.Psi, 0, 0)]
    [InlineData(300, PressureUnit.Bar, PressureUnit.Psi, 4_350, 4_360)]
    public void A_reading_rounds_down_and_a_need_up_to_the_mark_of_the_other_scale(double value, PressureUnit from, PressureUnit to, int down, int up)
    {
        var reading = PressureReading.From((decimal)value, from);

        Assert.Equal((down, up), (reading.DownToMark(to), reading.UpToMark(to)));
    }

    [Fact]
    public void A_second_library_finds_the_pressure_between_both_marks() =>
        Gen.Select(Gen.Int[0, 300], Gen.Enum<PressureUnit>()).Sample((bar, unit) =>
        {
            var second = Pressure.FromBars(bar).As(unit switch
            {
                PressureUnit.Psi => UnitsNet.Units.PressureUnit.PoundForcePerSquareInch,
                PressureUnit.Bar => UnitsNet.Units.PressureUnit.Bar,
                _ => UnitsNet.Units.PressureUnit.Kilopascal,
            });
            var (reading, mark) = (PressureReading.FromBar(bar), (double)PressureReading.MarkOf(unit));
            Assert.InRange(second - (double)reading.DownToMark(unit), -1e-6, mark);
            Assert.InRange((double)reading.UpToMark(unit) - second, -1e-6, mark);
        });

    // The international foot, 0.3048 m exactly: NIST SP 811, appendix B.6.
    [Fact]
    public void A_second_library_has_the_same_foot() => Assert.Equal(Distance.MetresPerFoot, Length.FromFeet(1).Meters);

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
