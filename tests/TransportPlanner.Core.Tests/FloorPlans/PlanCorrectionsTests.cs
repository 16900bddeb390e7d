using System.Text.Json;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Steps made by hand on the small invented site; figures follow from its outlines.</summary>
public sealed class PlanCorrectionsTests
{
    private static FloorPlan Plan => SmallSite.Plan;

    private static (FloorPlan Plan, IReadOnlyList<Finding> Findings) Make(params PlanCorrection[] steps)
    {
        var (plan, findings) = PlanCorrections.Onto(Plan, steps.Select((step, i) => ($"step {i + 1}", step)));
        return (plan, [.. findings]);
    }

    private static FactCorrection Width202 => new(PlanFeature.Passage, "202", "clearWidthMetres", "1,15", "measured 2026-05-04", null);

    [Fact]
    public void A_fact_gets_its_figure_source_and_day_and_nothing_else_changes()
    {
        var (plan, findings) = Make(Width202);

        Assert.Empty(findings);
        Assert.Equal(Fact.Measured(Distance.FromMetres(1.15), new(2026, 5, 4)), plan.Passages.Single(passage => passage.Id == "202").ClearWidth);
        Assert.Equal(
            [new PlanChange(PlanChangeKind.Changed, "passage", "202", "clearWidthMetres", null, "1.15 (measured 2026-05-04)")],
            PlanComparison.Compare(Plan, plan).ToArray());
    }

    [Fact]
    public void An_emptied_value_is_unknown_and_a_word_needs_no_source()
    {
        var (plan, findings) = Make(
            new FactCorrection(PlanFeature.Passage, "102", "clearWidthMetres", "", null, "0.7"),
            new FactCorrection(PlanFeature.Place, "U-1.01", "flags", "noEntry cold", null, null),
            new FactCorrection(PlanFeature.Elevator, "B", "canBeHeld", "true", null, Before(PlanFeature.Elevator, "B", "canBeHeld")));

        Assert.Empty(findings);
        Assert.False(plan.Passages.Single(passage => passage.Id == "102").ClearWidth.IsKnown);
        Assert.Equal(PlaceFlags.NoEntry | PlaceFlags.Cold, plan.Places.Single(place => place.Number == "U-1.01").Flags);
        Assert.True(plan.Elevators.Single(elevator => elevator.Id == "B").CanBeHeld);
    }

    [Theory]
    [InlineData("clearWidthMetres", "wide", "\"wide\" is not taken: give a number from 0.1 to 50 metres")]
    [InlineData("clearWidthMetres", "0.05", "\"0.05\" is not taken: give a number from 0.1 to 50 metres")]
    [InlineData("kind", "gate", "\"gate\" is not taken: give one of opening, hingedDoor")]
    [InlineData("joins", "A B", "the plan has no joins of passage 202")]
    [InlineData("number", "203", "the plan has no number of passage 202")]
    public void What_is_no_value_of_the_property_is_an_error_and_changes_nothing(string property, string value, string words)
    {
        var (plan, findings) = Make(new FactCorrection(PlanFeature.Passage, "202", property, value, "measured", Before(PlanFeature.Passage, "202", property)));

        Assert.Contains(words, Assert.Single(findings).Text);
        Assert.StartsWith("step 1: ", findings[0].Text, StringComparison.Ordinal);
        Assert.Equal(Plan, plan);
    }

    [Fact]
    public void Where_another_value_stands_there_by_now_it_is_a_warning_to_be_decided()
    {
        var (plan, findings) = Make(Width202 with { Before = "1.4" });

        Assert.Equal(FindingSeverity.Warning, Assert.Single(findings).Severity);
        Assert.Contains("was 1.4 when it was corrected to 1,15, and is unknown in the plan in force by now", findings[0].Text);
        Assert.True(plan.Passages.Single(passage => passage.Id == "202").ClearWidth.IsKnown);
    }

    /// <summary>D-1.01 is x 0 to 5 and D-1.02 x 5 to 10, both y 0 to 5: they share the wall x = 5 from y = 0 to 5.</summary>
    [Fact]
    public void A_door_is_drawn_on_the_shared_wall_at_its_distance_from_the_southern_end()
    {
        var (plan, findings) = Make(new DrawnPassage("P D-1.01~D-1.02", PassageKind.HingedDoor, "D-1.01", "D-1.02", 0.95, 1, "measured 2026-05-04"));

        Assert.Empty(findings);
        var door = plan.Passages.Single(passage => passage.Id == "P D-1.01~D-1.02");
        Assert.Equal([new(5, 0.525), new(5, 1.475)], new[] { door.Line.A, door.Line.B }.OrderBy(point => point.Y));
        Assert.Equal(Fact.Measured(Distance.FromMetres(0.95), new(2026, 5, 4)), door.ClearWidth);
        Assert.DoesNotContain(FloorPlanCheck.Run(plan), finding => finding.Severity == FindingSeverity.Error);
        Assert.NotNull(FloorGraphBuilder.Build(plan));
        Assert.Equal(plan, FloorPlanGeoJson.Read(FloorPlanGeoJson.Write(plan)).Plan, (a, b) => FloorPlanGeoJson.Write(a!) == FloorPlanGeoJson.Write(b!));
    }

    [Fact]
    public void An_opening_takes_the_whole_stretch_and_its_width_stays_unknown()
    {
        var (plan, findings) = Make(new DrawnPassage(PlanCorrections.NumberOf(Plan, "U-1.01", "W-1.01"), PassageKind.Opening, "U-1.01", "W-1.01", null, null, null));

        Assert.Empty(findings);
        var opening = plan.Passages.Single(passage => passage.Id == "P U-1.01~W-1.01");
        Assert.Equal(5, opening.Line.Length, 3);
        Assert.False(opening.ClearWidth.IsKnown);
        Assert.Equal("P U-1.01~W-1.01 2", PlanCorrections.NumberOf(plan, "U-1.01", "W-1.01"));
    }

    [Theory]
    [InlineData("D-1.01", "N-2.01", PassageKind.HingedDoor, null, null, "is on level 1 and N-2.01 on level 2")]
    [InlineData("D-1.01", "S-1.01", PassageKind.HingedDoor, null, null, "do not run along each other")]
    [InlineData("D-1.01", "D-1.02", PassageKind.HingedDoor, 0.9, 0.2, "run along each other for 5.00 m, and a way 0.90 m wide with its middle at 0.20 m does not lie on that")]
    [InlineData("D-1.01", "D-1.02", PassageKind.HingedDoor, 6.0, null, "a way 6.00 m wide")]
    [InlineData("D-1.01", "D-1.99", PassageKind.Opening, null, null, "has no place D-1.99")]
    [InlineData("D-1.01", "D-1.01", PassageKind.Opening, null, null, "is named twice")]
    [InlineData("S-1.01", "W-1.01", PassageKind.StairFlight, null, null, "a stair flight is not drawn here")]
    public void A_way_that_cannot_be_there_is_an_error_with_its_figures(string from, string to, PassageKind kind, double? width, double? along, string words)
    {
        var (plan, findings) = Make(new DrawnPassage("P x", kind, from, to, width, along, width is null ? null : "assumed"));

        Assert.Contains(words, Assert.Single(findings).Text);
        Assert.Equal(Plan, plan);
    }

    [Fact]
    public void A_stop_goes_with_its_landing_door_and_comes_back_where_the_landing_runs_along_the_car()
    {
        var (without, gone) = Make(new RemovedStop("A", "L-2.01"));
        var (again, findings) = Make(new RemovedStop("A", "L-2.01"), new AddedStop("A", "L-2.01"));

        Assert.Empty(gone);
        Assert.Equal(["L-1.01"], without.Elevators.Single(elevator => elevator.Id == "A").Stops.Select(stop => stop.Landing));
        Assert.DoesNotContain(without.Passages, passage => passage.Id == "A2");
        Assert.Empty(findings);
        Assert.Equal(new ElevatorStop("2", "L-2.01", "P E-A@L-2.01"), again.Elevators.Single(elevator => elevator.Id == "A").Stops[1]);

        // Landing L-2.01 ends at y = 23, where the car from x 25.5 to 29.5 begins: the middle is (27.5, 23).
        Assert.Equal(new PlanPoint(27.5, 23), again.Passages.Single(passage => passage.Id == "P E-A@L-2.01").Line.Midpoint);
        Assert.DoesNotContain(FloorPlanCheck.Run(again), finding => finding.Severity == FindingSeverity.Error);
    }

    [Fact]
    public void A_step_that_rests_on_one_taken_back_is_an_error_that_names_it()
    {
        var door = new DrawnPassage("P D-1.01~D-1.02", PassageKind.HingedDoor, "D-1.01", "D-1.02", null, null, null);
        var width = new FactCorrection(PlanFeature.Passage, door.Number, "clearWidthMetres", "1", "measured 2026-05-04", null);

        Assert.Empty(Make(door, width).Findings);
        Assert.Contains("step 1: the plan has no clearWidthMetres of passage P D-1.01~D-1.02", Assert.Single(Make(width).Findings).Text);
        Assert.Contains("no door or opening A1", Assert.Single(Make(new RemovedPassage("A1")).Findings).Text);
        Assert.DoesNotContain(Make(new RemovedPassage("101")).Plan.Passages, passage => passage.Id == "101");
        Assert.Contains("stops at L-1.01 already", Assert.Single(Make(new AddedStop("A", "L-1.01")).Findings).Text);
        Assert.Contains("does not run along the car", Assert.Single(Make(new AddedStop("A", "D-1.01")).Findings).Text);
        Assert.Contains("no stop of elevator A at D-1.01", Assert.Single(Make(new RemovedStop("A", "D-1.01")).Findings).Text);
    }

    [Fact]
    public void Every_step_is_the_same_after_it_was_kept_as_json()
    {
        PlanCorrection[] steps =
        [
            Width202, new DrawnPassage("P a~b", PassageKind.Opening, "a", "b", 1.5, 2, "assumed"), new RemovedPassage("101"),
            new AddedStop("A", "L-2.01"), new RemovedStop("A", "L-2.01"),
        ];

        Assert.Equal(steps, steps.Select(step => JsonSerializer.Deserialize<PlanCorrection>(JsonSerializer.Serialize(step))));
        Assert.All(steps, step => Assert.NotEmpty(step.Words()));
    }

    /// <summary>Design of this project: what people drew and typed is not lost to a newer handover file, which cannot know it.</summary>
    [Fact]
    public void What_a_person_typed_and_drew_survives_the_next_handover_file()
    {
        var (inForce, _) = Make(
            Width202,
            new FactCorrection(PlanFeature.Place, "D-1.01", "fireCompartment", "F3", "drawing 2026-01-02", Before(PlanFeature.Place, "D-1.01", "fireCompartment")),
            new DrawnPassage("P D-1.01~D-1.02", PassageKind.HingedDoor, "D-1.01", "D-1.02", 0.95, 1, "measured 2026-05-04"),
            new RemovedStop("A", "L-2.01"), new AddedStop("A", "L-2.01"));

        // The next file is the plan without them; elevator A has the one stop that the file knows.
        var (file, _) = Make(new RemovedStop("A", "L-2.01"));
        var after = CarriedFacts.Onto(file, inForce);

        Assert.Equal(FloorPlanGeoJson.Write(inForce), FloorPlanGeoJson.Write(after));

        // Where the newer outline moved away from the drawn door, it is gone, which the comparison says.
        var moved = CarriedFacts.Onto(
            file with { Places = [.. file.Places.Select(place => place.Number == "D-1.02" ? place with { Outline = Outline.Rectangle(6, 0, 10, 5) } : place)] }, inForce);
        Assert.DoesNotContain(moved.Passages, passage => passage.Id == "P D-1.01~D-1.02");
        Assert.Contains(PlanComparison.Compare(inForce, moved), change => change is { Kind: PlanChangeKind.Gone, Number: "P D-1.01~D-1.02" });
    }

    private static string? Before(PlanFeature feature, string number, string property) =>
        PlanCorrections.PropertiesOf(Plan, feature, number)?.FirstOrDefault(found => found.Name == property)?.Value;
}
