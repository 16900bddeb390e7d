using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class CylinderLibraryTests
{
    // published-errors.csv PE-08: UK D 340 L was used for an Australian ambulance, whose D holds 1200 to 1600 L.
    [Fact]
    public void A_letter_without_a_country_is_refused_with_the_candidates_and_their_litres()
    {
        var refusal = Assert.IsType<CylinderLookup.NoCountry>(CylinderLibrary.Find("D", GasKind.Oxygen));

        Assert.Contains("UK-D 340 L", refusal.ToString());
        Assert.Contains("AU-D 1200–1600 L", refusal.ToString());
        Assert.Contains("US-D 350–356 L", refusal.ToString());
    }

    // published-errors.csv PE-04: one list mixes US and UK letters; G is 5300 L in the US, 3400 L in the UK.
    [Theory]
    [InlineData("B")]
    [InlineData("D")]
    [InlineData("E")]
    [InlineData("G")]
    [InlineData("M")]
    public void No_letter_of_a_list_that_mixes_two_countries_is_accepted(string letter) =>
        Assert.IsType<CylinderLookup.NoCountry>(CylinderLibrary.Find(letter, GasKind.Oxygen));

    [Fact]
    public void The_F_of_that_list_is_a_British_cylinder_and_still_needs_its_country() =>
        Assert.Equal("UK-F", Assert.IsType<CylinderLookup.NoCountry>(CylinderLibrary.Find("F", GasKind.Oxygen)).Candidates.Single().Id);

    // published-errors.csv PE-05 and PE-06: size D at 4000 psi, size E at 6000 psi (Virginia Office of EMS, 2010).
    [Theory]
    [InlineData("US-D", "4000")]
    [InlineData("US-E", "6000")]
    public void A_published_full_pressure_that_no_such_cylinder_has_is_refused(string id, string psi) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CylinderLibrary.Read(WithFullPressure(id, psi)));

    // 0.16 L/psi × 2500 psi = 400 L and 0.28 × 2500 = 700 L, against 350 to 356 L and 616 to 625 L.
    [Theory]
    [InlineData("US-D")]
    [InlineData("US-E")]
    public void A_full_pressure_that_contradicts_the_contents_of_its_row_is_refused(string id) =>
        Assert.Contains("more than 10 percent away", Assert.Throws<FormatException>(() => CylinderLibrary.Read(WithFullPressure(id, "2500"))).Message);

    // US-E holds 616 to 625 L: at 2,000 psi 554.4 L is 10 percent below the least and 687.5 L 10 percent above the most.
    [Theory]
    [InlineData("0.2772", null)]
    [InlineData("0.34375", null)]
    [InlineData("0.2771", "= 554 L, more than 10 percent away")]
    [InlineData("0.3439", "= 688 L, more than 10 percent away")]
    public void A_factor_may_lie_ten_percent_from_the_contents_of_its_row(string factor, string? words)
    {
        var row = WithFullPressure("US-E", "2000");
        row["factor_L_per_psi"] = factor;

        var refused = Record.Exception(() => CylinderLibrary.Read(row));

        Assert.Equal(words is null, refused is null);
        Assert.Contains(words ?? "", refused?.Message ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public void What_ships_with_the_planner_comes_before_what_a_site_added()
    {
        var size = CylinderLibrary.Sizes.Single(one => one.Id == "US-E");

        Assert.Same(size, Assert.IsType<CylinderLookup.Found>(CylinderLibrary.Find("US-E", GasKind.Oxygen, [size with { LeastLitres = 1 }])).Size);
    }

    [Fact]
    public void A_row_of_a_data_file_has_as_many_fields_as_the_header()
    {
        var row = Assert.Single(DataFile.Parse("id,note\r\nA,\"one, two\"\r\n"));
        Assert.Equal(("A", "one, two"), (row["id"], row["note"]));
        // The header counts, not the first row; a letter that one size of another gas has is that gas.
        Assert.Equal("Row B has 1 fields, the header has 2.", Assert.Throws<FormatException>(() => DataFile.Parse("id,note\nB\nA,x\n")).Message);
        Assert.IsType<CylinderLookup.OtherGas>(CylinderLibrary.Find("HX", GasKind.Air));
        Assert.Equal("Row B has 1 fields, the header has 2.", Assert.Throws<FormatException>(() => DataFile.Parse("id,note\nA,x\nB\n")).Message);
    }

    [Fact]
    public void A_gauge_that_is_refused_says_up_to_where() =>
        Assert.StartsWith(
            "254 bar is above 253 bar, 110 percent of this cylinder's full pressure of 230 bar",
            Cylinder.WhyRefused(CylinderCapacity.FromSize(CylinderLibrary.Sizes.Single(size => size.Id == "UK-CD")), PressureReading.FromBar(254)));

    [Fact]
    public void Contents_of_one_gas_are_never_used_for_another() =>
        Assert.IsType<CylinderLookup.OtherGas>(CylinderLibrary.Find("US-E", GasKind.Air));

    [Fact]
    public void A_size_without_a_published_pressure_says_what_to_give() =>
        Assert.Contains("label", Assert.IsType<CylinderLookup.NoPressure>(CylinderLibrary.Find("AU-E", GasKind.Oxygen)).ToString());

    [Fact]
    public void An_unknown_size_is_named() =>
        Assert.Contains("'XY'", Assert.IsType<CylinderLookup.Unknown>(CylinderLibrary.Find("XY", GasKind.Oxygen)).ToString());

    // cylinders.csv US-E-AIR: 625 L at 1900 psi; US-M24: 660 to 690 L at 1900 to 2200 psi.
    [Theory]
    [InlineData("US-E-AIR", GasKind.Air, "625 L ÷ 1900 psi")]
    [InlineData("US-M24", GasKind.Oxygen, "660 L ÷ 2200 psi")]
    [InlineData("uk-cd", GasKind.Oxygen, "460 L ÷ 230 bar")]
    public void A_size_counts_its_lowest_contents_at_its_highest_pressure(string id, GasKind gas, string capacity) =>
        Assert.Equal(capacity, CylinderCapacity.FromSize(Assert.IsType<CylinderLookup.Found>(CylinderLibrary.Find(id, gas)).Size).Text);

    [Fact]
    public void Every_row_has_its_source_and_how_it_is_known() =>
        Assert.All(CylinderLibrary.Sizes, size => Assert.True(size.Source.Length > 0 && size.Provenance.Length > 0));

    // Full UK CD at 230 bar: 110 percent is 253 bar (input limit IL-01).
    [Theory]
    [InlineData(253, true)]
    [InlineData(254, false)]
    public void A_gauge_above_110_percent_of_a_known_full_cylinder_is_refused(int bar, bool accepted)
    {
        var capacity = CylinderCapacity.FromSize(CylinderLibrary.Sizes.Single(size => size.Id == "UK-CD"));
        var refusal = Cylinder.WhyRefused(capacity, PressureReading.FromBar(bar));

        Assert.Equal(accepted, refusal is null);
        if (!accepted)
            Assert.Throws<ArgumentOutOfRangeException>(() => new Cylinder(GasKind.Oxygen, capacity, PressureReading.FromBar(bar)));
    }

    // published-errors.csv PE-01, PE-03: 133 min was printed as 2 h 21 min; 340 min as 340 × 60.
    [Fact]
    public void Minutes_printed_wrongly_elsewhere_are_not_repeated()
    {
        Assert.Equal(133, Gases.Lasting(4, Gases.Psi(GasKind.Oxygen, 0.28m, 1900, 0)).Minutes);
        Assert.Equal(340, Gases.Lasting(2, Gases.Holding(GasKind.Oxygen, 680)).Minutes);
    }

    [Fact]
    public void All_thirty_seven_reference_rows_are_in_the_library() => Assert.Equal(37, CylinderLibrary.Sizes.Count);

    private static Dictionary<string, string> WithFullPressure(string id, string psi) =>
        new(DataFile.Read("cylinders.csv").Single(row => row["id"] == id)) { ["fill_pressure_max"] = psi };
}
