using System.Text;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Imports;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Workbooks as offices really write them, each with the same invented four rooms, two corridors and an elevator.</summary>
public sealed class CobieReaderTests
{
    private const double Foot = 0.3048;
    [Fact]
    public void A_plain_workbook_becomes_levels_spaces_doors_and_zones()
    {
        var (building, findings) = Read(SmallBuilding.Sheets());

        Assert.Empty(findings);
        Assert.Equal([0, 3.5], building.Levels.Select(level => level.ElevationMetres));
        Assert.Equal(7, building.Spaces.Length);
        Assert.Equal(["Ward", "Quiet"], Space(building, "1E15A").Zones);
        Assert.Equal(2.7, Space(building, "1E15A").HeightMetres);
        Assert.Equal(["1E15A", "1C1"], building.Doors[0].Spaces);
        Assert.Equal(1.2, building.Doors[0].NominalWidthMetres);
        Assert.Equal(new DateOnly(2025, 3, 9), building.Doors[0].AsOf);
        Assert.Equal(1_600, building.Elevators.Single().RatedLoadKilograms);
    }

    [Theory]
    [InlineData("1E15-A; 1c1")]
    [InlineData(" 1e15 a / 1C-1")]
    [InlineData("1E15A\n1C1")]
    [InlineData("1E15A|1C1")]
    public void Separators_and_spellings_of_numbers_do_not_matter(string cell) =>
        Assert.Equal(["1E15A", "1C1"], Read(SmallBuilding.Sheets(doorSpaces: cell)).Building.Doors[0].Spaces);

    [Fact]
    public void A_number_that_no_space_has_is_kept_and_named_with_its_row()
    {
        var (building, _) = Read(SmallBuilding.Sheets(doorSpaces: "1E15A, 9Z99"));

        var finding = Assert.Single(DraftBuilder.Build(building, Clinic.Header).FileFindings, finding => finding.Path == "doorSpaces");
        Assert.Contains("Component, row 2", finding.Text);
        Assert.Contains("9Z99", finding.Text);
    }

    [Fact]
    public void Other_spellings_of_sheets_and_columns_are_understood()
    {
        var sheets = SmallBuilding.Sheets();
        Rename("Space", "02 Rooms", ("Name", "Room Number"), ("FloorName", "Level"), ("Description", "Room Name"));
        Rename("Floor", "Storeys", ("Name", "Floor Name"));
        Rename("Component", "COMPONENTS", ("Space", "Space_Names"));
        var (plain, other) = (Read(SmallBuilding.Sheets()).Building, Read(sheets).Building);

        Assert.Equal(plain.Spaces.Select(space => (space.Number, space.Name, space.Level)), other.Spaces.Select(space => (space.Number, space.Name, space.Level)));
        Assert.Equal(plain.Doors.Select(door => string.Join(',', door.Spaces)), other.Doors.Select(door => string.Join(',', door.Spaces)));

        void Rename(string sheet, string name, params (string Old, string New)[] columns)
        {
            var i = Array.FindIndex(sheets, s => s.Name == sheet);
            sheets[i] = (name, [[.. sheets[i].Rows[0].Select(cell => columns.FirstOrDefault(c => c.Old == $"{cell}").New ?? cell)], .. sheets[i].Rows[1..]]);
        }
    }

    // 1 ft is 0.3048 m (NIST SP 811, 2008, appendix B.6); the file still says metres, so that only its figures give it away.
    [Theory]
    [InlineData("feet", 1 / Foot)]
    [InlineData("meters", 1 / Foot)]
    [InlineData("millimeters", 1_000)]
    [InlineData("millimeters", 1)]
    public void Points_in_feet_or_millimetres_become_metres_whatever_the_file_calls_them(string named, double scale)
    {
        var building = Read(SmallBuilding.Sheets(unit: named, scale: scale)).Building;

        Assert.Equal(Read(SmallBuilding.Sheets()).Building.Doors[0].Point, building.Doors[0].Point);
        Assert.Equal(3.5, building.Levels[1].ElevationMetres);
        Assert.Equal(20, Space(building, "1E15A").Outline!.AreaSquareMetres, 1);
    }

    [Fact]
    public void Elevations_off_by_a_constant_are_no_contradiction()
    {
        var shifted = DraftBuilder.Build(Read(SmallBuilding.Sheets(datum: 112.4)).Building, Clinic.Header);
        var plain = DraftBuilder.Build(Read(SmallBuilding.Sheets()).Building, Clinic.Header);

        Assert.Equal(plain.With([]).Passages, shifted.With([]).Passages);
        Assert.Equal(plain.Joins, shifted.Joins);
        Assert.Equal(["L E1@1C1", "L E1@2C1", "O 1C1~1C2"], plain.Joins.Select(join => join.Id));
    }

    [Fact]
    public void A_figure_that_is_none_names_sheet_row_and_column_and_stays_unknown()
    {
        var (building, findings) = Read(SmallBuilding.Sheets(height: "approx. nine"));

        Assert.Null(Space(building, "1E15A").HeightMetres);
        Assert.Contains("Sheet Space, row 2, column UsableHeight: \"approx. nine\"", Assert.Single(findings).Text);
    }

    [Fact]
    public void Nominal_widths_lose_leaf_and_stops_and_are_marked_assumed()
    {
        var door = DraftBuilder.Build(Read(SmallBuilding.Sheets()).Building, Clinic.Header).With([]).Passages[0];

        Assert.Equal(1_125, door.ClearWidth.Value.Millimetres);
        Assert.Equal(FactSource.Assumed, door.ClearWidth.Source);
        Assert.Equal(new DateOnly(2025, 3, 9), door.ClearWidth.AsOf);
    }

    [Theory]
    [InlineData("this is no zip file")]
    [InlineData("")]
    public void A_file_that_is_no_workbook_is_refused_in_words(string text)
    {
        var findings = new List<Finding>();

        Assert.Null(CobieReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), null, findings, cancellationToken: TestContext.Current.CancellationToken));
        Assert.Equal(FindingSeverity.Error, Assert.Single(findings).Severity);
    }

    [Fact]
    public void A_truncated_workbook_and_one_without_spaces_are_refused_in_words()
    {
        var whole = WorkbookFile.Write(SmallBuilding.Sheets()).ToArray();
        var findings = new List<Finding>();

        Assert.Null(CobieReader.Read(new MemoryStream(whole[..(whole.Length / 2)]), null, findings, cancellationToken: TestContext.Current.CancellationToken));
        Assert.Null(CobieReader.Read(WorkbookFile.Write(("Notes", [["Name"], ["nothing"]])), null, findings, cancellationToken: TestContext.Current.CancellationToken));
        Assert.Equal(3, findings.Count(finding => finding.Severity == FindingSeverity.Error));
    }

    private static RecordedSpace Space(BuildingRecord building, string number) => building.Spaces.Single(space => space.Number == number);

    private static (BuildingRecord Building, List<Finding> Findings) Read((string Name, object?[][] Rows)[] sheets)
    {
        var findings = new List<Finding>();
        return (CobieReader.Read(WorkbookFile.Write(sheets), null, findings, cancellationToken: TestContext.Current.CancellationToken)!, findings);
    }
}
