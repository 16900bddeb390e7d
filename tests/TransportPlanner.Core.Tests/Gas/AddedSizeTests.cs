using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class AddedSizeTests
{
    // 616 L at 2,200 psi: Virginia Office of EMS, Oxygen Cylinder Guidance, 2010. Half the pressure is half the litres by the trade rule.
    private static readonly AddedSize Good = new(
        "WARD-E", GasKind.Oxygen, 616, PressureReading.FromPsi(2200), null, PressureReading.FromPsi(1100), 308, "label");

    [Fact]
    public void An_entry_whose_test_reading_agrees_is_taken_and_shows_its_working()
    {
        Assert.Empty(Good.WhyRefused());
        Assert.Equal("1100 psi × 616 L ÷ 2200 psi = 308 L", Good.TestWorking);
        Assert.Equal(1, WorkingReader.Recompute(Good.TestWorking));
    }

    // Source of the 10 percent: input limit IL-13.
    [Theory]
    [InlineData(277.2, true)]
    [InlineData(277.1, false)]
    [InlineData(338.8, true)]
    [InlineData(338.9, false)]
    public void A_test_reading_more_than_ten_percent_away_refuses_the_entry(double litres, bool taken) =>
        Assert.Equal(taken, (Good with { TestLitres = (decimal)litres }).WhyRefused().Count == 0);

    [Fact]
    public void Psi_typed_as_bar_is_caught_by_the_test_reading()
    {
        var refusal = Assert.Single((Good with { Full = PressureReading.FromBar(220), TestGauge = PressureReading.FromBar(110), TestLitres = 21 }).WhyRefused());

        Assert.Equal("TestLitres", refusal.Member);
        Assert.Contains("110 bar × 616 L ÷ 220 bar = 308 L", refusal.Words);
    }

    // UK-CD: 2 L of water, 460 L at 230 bar (Lutman and Petros, Emerg Med J 2006;23:703-704).
    [Theory]
    [InlineData(2.0, true)]
    [InlineData(2.3, false)]
    [InlineData(1.8, false)]
    public void A_water_capacity_that_contradicts_the_label_refuses_the_entry(double water, bool taken)
    {
        var size = new AddedSize("WARD-CD", GasKind.Oxygen, 460, PressureReading.FromBar(230), (decimal)water, PressureReading.FromBar(115), 230, "label");

        Assert.Equal(taken, size.WhyRefused().Count == 0);
    }

    [Theory]
    [InlineData("E", "bare letter")]
    [InlineData("WARD", "bare letter")]
    [InlineData("-E", "bare letter")]
    [InlineData("3-E", "bare letter")]
    [InlineData("WARD E-1", "bare letter")]
    [InlineData("us-e", "ships with the planner")]
    public void A_name_that_could_mean_another_cylinder_is_refused(string id, string words) =>
        Assert.Contains((Good with { Id = id }).WhyRefused(), refusal => refusal.Member == "Id" && refusal.Words.Contains(words));

    // 1 psi × 616 L ÷ 2200 psi = 0.28 L; the full cylinder holds what its label says.
    [Theory]
    [InlineData(1, 0.28)]
    [InlineData(2200, 616)]
    public void The_lowest_and_the_full_reading_are_test_readings(int psi, double litres) =>
        Assert.Empty((Good with { TestGauge = PressureReading.FromPsi(psi), TestLitres = (decimal)litres }).WhyRefused());

    // 2.3 L × 230 bar = 529 L.
    [Fact]
    public void A_water_capacity_that_is_refused_says_what_it_would_hold()
    {
        var size = new AddedSize("WARD-CD", GasKind.Oxygen, 460, PressureReading.FromBar(230), 2.3m, PressureReading.FromBar(115), 230, "label");

        Assert.StartsWith("2.3 L × 230 bar = 529 L, more than 10 percent away from the label's 460 L", Assert.Single(size.WhyRefused()).Words);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2201)]
    public void A_test_reading_outside_the_cylinder_is_refused(int psi) =>
        Assert.Equal("TestGauge", Assert.Single((Good with { TestGauge = PressureReading.FromPsi(psi) }).WhyRefused()).Member);

    [Fact]
    public void A_second_entry_that_differs_names_each_member()
    {
        Assert.Empty(Good.DifferencesFrom(GasKind.Oxygen, 616.0m, PressureReading.FromPsi(2200.00m), null));
        Assert.Equal(
            ["Gas", "LabelLitres", "Full", "WaterLitres"], Good.DifferencesFrom(GasKind.Air, 661, PressureReading.FromBar(220), 2));
    }

    [Fact]
    public void A_confirmed_entry_counts_like_its_label()
    {
        var size = Good.ToSize();

        Assert.Equal(size, Assert.IsType<CylinderLookup.Found>(CylinderLibrary.Find("ward-e", GasKind.Oxygen, [size])).Size);
        Assert.IsType<CylinderLookup.OtherGas>(CylinderLibrary.Find("WARD-E", GasKind.Air, [size]));
        Assert.IsType<CylinderLookup.Unknown>(CylinderLibrary.Find("WARD-E", GasKind.Oxygen));
        // (1100 − 200) × 0.28 = 252 L ÷ 10 L/min.
        Assert.Equal(25, Gases.Lasting(10, new(GasKind.Oxygen, CylinderCapacity.FromSize(size), PressureReading.FromPsi(1100))).Minutes);
    }
}
