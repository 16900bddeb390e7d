using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Drafts from invented records of a building; every figure can be read off the rectangles.</summary>
public sealed class DraftBuilderTests
{
    private static readonly DraftHeader Header = new("annex", "Annex", "Etc/UTC", "Invented.");
    [Fact]
    public void Corridors_that_share_an_edge_are_proposed_and_not_joined_before_a_person_says_so()
    {
        var draft = Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 10, 0, 20, 2)], []);

        var join = Assert.Single(draft.Joins);
        Assert.Equal("O A~B", join.Id);
        Assert.Contains("share 2.00 m", join.Why);
        Assert.Empty(draft.With([]).Passages);
        Assert.Equal(PassageKind.Opening, Assert.Single(draft.With([join.Id]).Passages).Kind);
        Assert.False(draft.With([join.Id]).Passages[0].ClearWidth.IsKnown);
        Assert.Contains(draft.Review([]), finding => finding.Path == "inferred.Opening");
        Assert.DoesNotContain(draft.Review([join.Id]), finding => finding.Path == "inferred.Opening");
    }

    [Theory]
    [InlineData(0, 2, 1)]
    [InlineData(1.1, 3, 1)]
    [InlineData(1.2, 3, 0)]
    [InlineData(2, 4, 0)]
    public void Nothing_is_proposed_below_90_cm_of_shared_edge(double least, double most, int joins) =>
        Assert.Equal(joins, Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 10, least, 20, most)], []).Joins.Length);

    [Fact]
    public void Rooms_are_never_proposed_as_open_nor_corridors_with_a_wall_between_them()
    {
        Assert.Empty(Draft([Corridor("A", 0, 0, 10, 2), Corridor("R", 0, 2, 10, 6) with { Category = "13-15 11 34: Office" }], []).Joins);
        Assert.Empty(Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 10.1, 0, 20, 2)], []).Joins);
    }

    [Fact]
    public void A_door_lands_on_the_shared_wall_with_what_leaf_and_stops_leave_of_its_width()
    {
        var draft = Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 0, 2.2, 10, 6)], [Door("D", ["A", "B"], 5, 2)]);

        var door = Assert.Single(draft.With([]).Passages);
        Assert.Equal(new PlanPoint(5, 2.1), door.Line.Midpoint);
        Assert.Equal(0, door.Line.A.Y - door.Line.B.Y);
        Assert.Equal(915 - 75, door.ClearWidth.Value.Millimetres);
        Assert.Equal(FactSource.Assumed, door.ClearWidth.Source);
        Assert.Empty(draft.Joins);
    }

    [Theory]
    [InlineData("doorPoint", 5.0, 3.5, "is 1.50 m from the outline of A")]
    [InlineData("doorPoint", null, null, "has no coordinate row")]
    public void A_door_that_contradicts_its_rooms_is_left_out_with_place_figure_and_fix(string path, double? x, double? y, string said)
    {
        var draft = Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 0, 3.5, 10, 6)], [Door("D", ["A", "B"], x, y)]);

        var finding = Assert.Single(draft.FileFindings, finding => finding.Path == path);
        Assert.Equal("door D", finding.Subject);
        Assert.Contains(said, finding.Text);
        Assert.Contains("Component, row 7", finding.Text);
        Assert.Empty(draft.With([]).Passages);
    }

    [Fact]
    public void A_door_between_two_levels_is_left_out()
    {
        var draft = Draft([Corridor("A", 0, 0, 10, 2), Corridor("B", 0, 2, 10, 6) with { Level = "2" }], [Door("D", ["A", "B"], 5, 2)]);

        Assert.Contains("joins rooms on different floors, 1 and 2", Assert.Single(draft.FileFindings, finding => finding.Path == "doorLevels").Text);
        Assert.Empty(draft.With([]).Passages);
    }

    [Fact]
    public void Stairwells_above_each_other_are_proposed_storey_by_storey()
    {
        var stairs = Corridor("S1", 0, 0, 3, 6) with { Category = "13-85 21 11: Stairway" };
        var draft = Draft([stairs, stairs with { Number = "S2", Level = "2" }, stairs with { Number = "S3", Level = "3" }], []);

        Assert.Equal(["S S1~S2", "S S2~S3"], draft.Joins.Select(join => join.Id));
        Assert.DoesNotContain(draft.Review([.. draft.Joins.Select(join => join.Id)]), finding => finding.Severity == FindingSeverity.Error);
    }

    [Fact]
    public void An_elevator_stands_in_the_plan_once_a_landing_is_confirmed()
    {
        var shaft = Corridor("E", 10, 0, 12, 2) with { Category = "13-81 21 31: Elevator Shaft", BottomMetres = 0, TopMetres = 7 };
        var corridor = Corridor("A", 0, 0, 10, 2) with { BottomMetres = 0 };
        var draft = Draft([shaft, corridor, corridor with { Number = "B", Level = "2", BottomMetres = 3.5 }], []);
        var both = draft.With(["L E@A", "L E@B"]);

        Assert.Equal(["L E@A", "L E@B"], draft.Joins.Select(join => join.Id));
        Assert.Empty(draft.With([]).Elevators);
        Assert.Equal(["1", "2"], Assert.Single(both.Elevators).Stops.Select(stop => stop.Level));
        Assert.Null(both.Places.Single(place => place.Kind == PlaceKind.ElevatorCar).Level);
        Assert.DoesNotContain(draft.Review(["L E@A", "L E@B"]), finding => finding.Severity == FindingSeverity.Error);
        Assert.Contains(draft.Review(["L E@A"]), finding => finding.Text.Contains("one stop only", StringComparison.Ordinal));
    }

    [Fact]
    public void A_level_without_elevation_is_an_error_and_comes_first_and_many_alike_are_said_once()
    {
        RecordedSpace[] spaces = [.. Enumerable.Range(0, 6).Select(i => Corridor($"A{i}", 20 * i, 0, 20 * i + 10, 2))];
        var review = DraftBuilder.Build(Building(spaces, []) with { Levels = [new("1", null, "Floor, row 2")] }, Header).Review([]);

        Assert.Equal((FindingSeverity.Error, "elevationMetres"), (review[0].Severity, review[0].Path));
        Assert.Equal("6 findings", Assert.Single(review, finding => finding.Path == "occupancy").Subject);
    }

    private static DraftPlan Draft(RecordedSpace[] spaces, RecordedDoor[] doors) => DraftBuilder.Build(Building(spaces, doors), Header);

    private static BuildingRecord Building(RecordedSpace[] spaces, RecordedDoor[] doors) => new()
    {
        Name = "Annex",
        Levels = [new("1", 0, "Floor, row 2"), new("2", 3.5, "Floor, row 3"), new("3", 7, "Floor, row 4")],
        Spaces = [.. spaces],
        Doors = [.. doors],
        Elevators = [],
    };

    private static RecordedSpace Corridor(string number, double minX, double minY, double maxX, double maxY) => new()
    {
        Number = number,
        Name = "Space",
        Category = "13-85 11 11: Corridor",
        Level = "1",
        Outline = Outline.Rectangle(minX, minY, maxX, maxY),
        Origin = "Space, row 2",
    };

    private static RecordedDoor Door(string id, string[] spaces, double? x, double? y) => new()
    {
        Id = id,
        Description = "Flush",
        Spaces = [.. spaces],
        Point = x is null ? null : new(x.Value, y!.Value),
        NominalWidthMetres = 0.915,
        Origin = "Component, row 7",
    };
}
