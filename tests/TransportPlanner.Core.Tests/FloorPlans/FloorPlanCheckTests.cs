using CsCheck;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class FloorPlanCheckTests
{
    [Fact]
    public void A_sound_sketch_has_no_finding() => Assert.Empty(FloorPlanCheck.Run(Sound().Plan));

    [Fact]
    public void A_number_used_twice_is_an_error()
    {
        var plan = Sound().Plan;

        AssertError(plan with { Places = plan.Places.Add(plan.Places[0]) }, "place Delivery", "2 times");
        AssertError(plan with { Passages = plan.Passages.Add(plan.Passages[0]) }, "passage Delivery/Hall", "2 times");
        AssertError(plan with { Levels = plan.Levels.Add(plan.Levels[0]) }, "level 1", "2 times");
        AssertError(plan with { ElevatorGroups = plan.ElevatorGroups.Add(plan.ElevatorGroups[0]) }, "elevatorGroup group", "2 times");
        AssertError(plan with { Elevators = plan.Elevators.Add(plan.Elevators[0]) }, "elevator E", "2 times");
    }

    [Fact]
    public void A_reference_to_nothing_is_an_error_that_names_it()
    {
        AssertError(Sound().WithPassage("Delivery/Hall", p => p with { From = "X-9" }).Plan, "passage Delivery/Hall", "X-9");
        AssertError(Sound().With("Hall", p => p with { Level = "9" }).Plan, "place Hall", "level 9");
        AssertError(Sound().With("Hall", p => p with { Level = null }).Plan, "place Hall", "no level");
        AssertError(Sound().With("CarE", p => p with { Level = "1" }).Plan, "place CarE", "leave the level out");
        AssertError(Sound().With("CarE", p => p with { Outline = new([]) }).Plan, "place CarE", "0 corners");
        AssertError(Sound().WithElevator("E", e => e with { Group = "none" }).Plan, "elevator E", "group none");
        AssertError(Sound().WithElevator("E", e => e with { Car = "Hall" }).Plan, "elevator E", "elevatorCar");
        AssertError(Sound().WithPassage("Delivery/Hall", p => p with { To = p.From }).Plan, "passage Delivery/Hall", "itself");
    }

    [Fact]
    public void An_elevator_without_stops_or_with_a_stop_at_the_wrong_level_is_an_error()
    {
        AssertError(Sound().WithElevator("E", e => e with { Stops = [] }).Plan, "elevator E", "no stops");
        AssertError(Stop(stop => stop with { Level = "2" }), "elevator E", "is on level 1");
        AssertError(Stop(stop => stop with { Level = "7" }), "elevator E", "level 7");
        AssertError(Stop(stop => stop with { Landing = "Nowhere" }), "elevator E", "Nowhere");
        AssertError(Stop(stop => stop with { LandingDoor = "Delivery/Hall" }), "elevator E", "joins Delivery and Hall");
        AssertError(Stop(stop => stop with { LandingDoor = "E@2" }), "elevator E", "joins Landing2 and CarE");
        AssertWarning(Sound().WithElevator("E", e => e with { CarLength = default }).Plan, "elevator E", "carLengthMetres");

        static FloorPlan Stop(Func<ElevatorStop, ElevatorStop> change) =>
            Sound().WithElevator("E", e => e with { Stops = [change(e.Stops[0]), .. e.Stops.Skip(1)] }).Plan;
    }

    [Fact]
    public void A_door_away_from_its_place_is_an_error_with_the_distance()
    {
        AssertError(Sound().WithPassage("Delivery/Hall", p => p with { Line = new(new(5.3, 1), new(5.3, 2)) }).Plan, "passage Delivery/Hall", "0.30 m away from the outline of Delivery");
        Assert.Empty(FloorPlanCheck.Run(Sound().WithPassage("Delivery/Hall", p => p with { Line = new(new(5.2, 1), new(5.2, 2)) }).Plan));
    }

    [Fact]
    public void Only_landing_doors_and_stair_flights_lead_to_another_level()
    {
        AssertError(Sound().Door("Hall", "Nursery", at: new PlanSegment(new(5, 1), new(5, 2)), id: "odd").Plan, "passage odd", "level 2");
        AssertError(Sound().Door("Hall", "Landing1", kind: PassageKind.StairFlight, id: "flat").Plan, "passage flat", "two storeys");
    }

    [Fact]
    public void Overlapping_outlines_of_one_level_are_found_with_their_area()
    {
        AssertWarning(Sound().With("Delivery", p => p with { Outline = Outline.Rectangle(0, 0, 5.5, 4) }).Plan, "place Delivery", "overlap by 2 m²");
        Assert.Empty(FloorPlanCheck.Run(Sound().With("Delivery", p => p with { Outline = Outline.Rectangle(0, 0, 5.002, 4) }).Plan));
    }

    [Fact]
    public void An_outline_that_crosses_itself_or_has_no_area_is_an_error()
    {
        AssertError(Sound().With("Delivery", p => p with { Outline = new([new(0, 0), new(5, 4), new(5, 0), new(0, 4)]) }).Plan, "place Delivery", "crosses");
        AssertError(Sound().With("Delivery", p => p with { Outline = Outline.Rectangle(5, 0, 5.001, 4) }).Plan, "place Delivery", "m²");
        AssertError(Sound().With("Delivery", p => p with { Outline = new([new(0, 0), new(5, 0), new(2, 0)]) }).Plan, "place Delivery", "outline");
    }

    [Fact]
    public void Places_that_nobody_reaches_are_named()
    {
        AssertWarning(Sound().Room("Attic", 0, 10, 4, 14).Plan, "place Attic", "cannot be reached");
        AssertWarning(Sound().Room("Attic", 0, 10, 4, 14).Stairs("S", "Hall", "Attic").With("Attic", p => p with { Level = "2" }).Plan, "place Attic", "stairs only");
    }

    [Fact]
    public void Unknown_widths_on_the_way_to_an_isolation_room_come_first()
    {
        var plan = Sound().Room("Store", 5, 4, 9, 8).With("Store", p => p with { Level = "1" }).Door("Hall", "Store", null)
            .WithPassage("Landing2/Nursery", p => p with { ClearWidth = default }).Plan;

        var findings = FloorPlanCheck.Run(plan);

        Assert.Equal(["passage Landing2/Nursery", "passage Hall/Store"], findings.Where(f => f.Path == "clearWidthMetres").Select(f => f.Subject));
        Assert.Contains("measure it first", findings[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_occupancy_and_a_standing_point_outside_are_warnings()
    {
        AssertWarning(Sound().With("Hall", p => p with { Occupancy = null }).Plan, "place Hall", "Nobody has said");
        AssertWarning(Sound().With("Hall", p => p with { StandingPoint = new(-5, 0) }).Plan, "place Hall", "outside");
    }

    [Fact]
    public void An_outline_drawn_anyhow_gives_findings_and_a_graph_and_no_exception() =>
        Gen.Select(Gen.Int[0, 6], Gen.Int[0, 6], (x, y) => new PlanPoint(x, y)).Array[3, 9].Sample(
            ring =>
            {
                var plan = Sound().With("Hall", p => p with { Outline = new([.. ring]) }).Plan;

                var findings = FloorPlanCheck.Run(plan);
                var graph = FloorGraphBuilder.Build(plan);

                Assert.All(graph.ArcLength, millimetres => Assert.True(millimetres >= 0));
                Assert.True(new Outline([.. ring]).AreaSquareMetres > 0.01 || findings.Any(f => f.Severity == FindingSeverity.Error));
            },
            iter: 1_000);

    private static Sketch Sound() => Sketch.Parse("""
        1 at 0: Delivery 5 | Hall 30 | Landing1 4
        2 at 4: Landing2 4 | Nursery 6
        elevator E: Landing1 Landing2
        """);

    private static void AssertError(FloorPlan plan, string subject, string words) => AssertFound(plan, FindingSeverity.Error, subject, words);

    private static void AssertWarning(FloorPlan plan, string subject, string words) => AssertFound(plan, FindingSeverity.Warning, subject, words);

    private static void AssertFound(FloorPlan plan, FindingSeverity severity, string subject, string words) =>
        Assert.Contains(FloorPlanCheck.Run(plan), finding =>
            finding.Severity == severity && finding.Subject == subject && finding.Text.Contains(words, StringComparison.Ordinal));
}
