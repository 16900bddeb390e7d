using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>Small floors drawn in text, and the ways that a planner would expect on them.</summary>
public sealed class RouteFinderTests
{
    private static readonly DateTimeOffset Departure = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero);

    /// <summary>The short way leads through the narrow door, the long one around by the back hall.</summary>
    private static Sketch NarrowDoor(double? width) => new Sketch()
        .Room("Delivery", 0, 0, 5, 4)
        .Room("Hall", 5, 0, 15, 4)
        .Room("Nursery", 15, 0, 21, 4)
        .Room("HallBack", 0, 4, 21, 8)
        .Door("Delivery", "Hall")
        .Door("Hall", "Nursery", width)
        .Door("Delivery", "HallBack")
        .Door("HallBack", "Nursery");

    [Fact]
    public void The_quickest_way_is_the_straight_one() =>
        Assert.StartsWith("A Delivery > Hall > Nursery", Lines(Find(NarrowDoor(1.2)))[0], StringComparison.Ordinal);

    [Fact]
    public void A_narrow_door_sends_the_team_around_and_is_named_with_its_figure_and_the_seconds_it_would_save()
    {
        var set = Set(Find(NarrowDoor(0.79)));

        Assert.Equal("Delivery > HallBack > Nursery", Way(Assert.Single(set.Routes)));
        var refused = Assert.Single(set.NotChosen, n => n.Way == "Hall/Nursery");
        Assert.StartsWith("Door Hall/Nursery is 6 cm too narrow (0.79 m clear, 0.85 m needed, assumed, no date): the way through it is ", refused.Sentence, StringComparison.Ordinal);
        Assert.Contains(" s quicker than A", refused.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_width_passes_flagged_or_is_avoided_on_request()
    {
        var passed = Set(Find(NarrowDoor(null)));
        var avoided = Set(Find(NarrowDoor(null), query => query with { AvoidUnknown = true }));

        Assert.Equal("Delivery > Hall > Nursery", Way(passed.Routes[0]));
        Assert.Contains(passed.Routes[0].Unknowns, unknown => unknown.Sentence == "door Hall/Nursery: clear width unknown");
        Assert.Equal("Delivery > HallBack > Nursery", Way(avoided.Routes[0]));
        Assert.Contains(avoided.NotChosen, n => n.Sentence.Contains("unknown limits are avoided", StringComparison.Ordinal));
    }

    [Fact]
    public void A_one_way_door_is_not_used_against_its_direction()
    {
        var floor = NarrowDoor(1.2).WithPassage("Hall/Nursery", door => door with { Direction = PassageDirection.Forward });

        Assert.Equal("Delivery > Hall > Nursery", Way(Set(Find(floor)).Routes[0]));
        Assert.Equal("Nursery > HallBack > Delivery", Way(Assert.Single(Set(Find(floor, from: "Nursery", to: "Delivery")).Routes)));
    }

    private static Sketch PublicAndSoiled() => new Sketch()
        .Room("Delivery", 0, 0, 5, 8)
        .Room("HallPublic", 5, 0, 35, 4)
        .Room("SoiledBack", 5, 4, 35, 8)
        .Room("Nursery", 35, 0, 41, 8)
        .Opening("Delivery", "HallPublic")
        .Opening("HallPublic", "Nursery")
        .Door("Delivery", "SoiledBack")
        .Door("SoiledBack", "Nursery")
        .With("Delivery", room => room with { StandingPoint = new(2, 2) })
        .With("Nursery", room => room with { StandingPoint = new(38, 2) })
        .With("HallPublic", hall => hall with { Occupancy = QuarterHourProfile.Constant(12) })
        .With("SoiledBack", hall => hall with { Occupancy = QuarterHourProfile.Constant(0) });

    [Fact]
    public void A_soiled_corridor_with_nobody_in_it_is_the_least_exposed_beside_the_public_one_that_is_the_quickest()
    {
        var set = Set(Find(PublicAndSoiled()));

        Assert.Equal(["A Delivery > HallPublic > Nursery: Quickest, LeastHandled, BestBalance", "B Delivery > SoiledBack > Nursery: LeastExposed"], Lines(set));
        Assert.Equal(12, set.Routes[0].PeopleLikelyMet);
        Assert.Equal(0, set.Routes[1].PeopleLikelyMet);
        Assert.Equal((0, 2), (set.Routes[0].Handling, set.Routes[1].Handling));
        Assert.Equal([LegKind.Room, LegKind.SoiledCorridor, LegKind.Room], set.Routes[1].Legs.Select(leg => leg.Kind));
    }

    // Somebody used to the clean way would otherwise find it gone without a word.
    [Fact]
    public void A_closed_way_that_is_nearly_as_quick_is_told_with_what_it_would_be()
    {
        var set = Set(Find(PublicAndSoiled(), query => query with { Closures = [Closure(ClosureTarget.Place, "SoiledBack", -30, 120)] }));

        var sentence = Assert.Single(set.NotChosen, n => n.Way == "SoiledBack").Sentence;
        Assert.Contains(" is closed from 2026-05-04 01:40 to 2026-05-04 04:10 (works; facilities): the way through it would be ", sentence, StringComparison.Ordinal);
        Assert.EndsWith(" s slower than A, with about 0 people likely met instead of 12.", sentence, StringComparison.Ordinal);
    }

    private const string TwoElevators = """
        1 at 0: Delivery 5 | Hall 20 / Landing1 4 / LandingB1 4
        2 at 4: Nursery 25 / Landing2 4 / LandingB2 4
        elevator E: Landing1 Landing2
        elevator F: LandingB1 LandingB2
        """;

    [Fact]
    public void A_closed_elevator_is_not_ridden_and_its_closure_is_named()
    {
        var open = Set(Find(Sketch.Parse(TwoElevators)));
        var closed = Set(Find(Sketch.Parse(TwoElevators), query => query with { Closures = [Closure(ClosureTarget.Elevator, "E", -30, 120)] }));

        Assert.Equal("E", Assert.Single(open.Routes[0].Rides).Elevator);
        Assert.Equal("F", Assert.Single(closed.Routes[0].Rides).Elevator);
        Assert.Contains(closed.NotChosen, n => n.Way == "E"
            && n.Sentence.StartsWith("Elevator E is closed from 2026-05-04 01:40 to 2026-05-04 04:10 (works; facilities): the way through it is ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_closure_that_ends_before_the_team_could_be_there_still_forbids_and_a_sentence_says_so()
    {
        var set = Set(Find(NarrowDoor(1.2), query => query with { Closures = [Closure(ClosureTarget.Passage, "Hall/Nursery", -30, 0.05)] }));

        Assert.Equal("Delivery > HallBack > Nursery", Way(set.Routes[0]));
        Assert.Contains(set.NotChosen, n => n.Way == "Hall/Nursery" && n.Sentence.EndsWith("depart later to use it.", StringComparison.Ordinal));
    }

    [Fact]
    public void A_closure_after_the_hour_does_not_forbid() =>
        Assert.Equal(
            "Delivery > Hall > Nursery",
            Way(Set(Find(NarrowDoor(1.2), query => query with { Closures = [Closure(ClosureTarget.Passage, "Hall/Nursery", 61, 120)] })).Routes[0]));

    [Fact]
    public void A_ride_is_a_leg_between_landings()
    {
        var route = Set(Find(Sketch.Parse(TwoElevators))).Routes[0];

        var ride = Assert.Single(route.Legs, leg => leg.Kind == LegKind.ElevatorRide);
        Assert.Equal(("Landing1", "Landing2", "E@1", "1"), (ride.FromPlace, ride.ToPlace, ride.Passage, ride.Level));
        Assert.Equal(("1", "2", true), (ride.Ride!.FromLevel, ride.Ride.ToLevel, ride.Ride.IsHeld));
        Assert.Equal(["1", "2"], route.Paths.Select(path => path.Level));
        Assert.Equal(2, route.Handling);
    }

    [Fact]
    public void Legs_add_up_to_the_way()
    {
        foreach (var route in Set(Find(Sketch.Parse(TwoElevators))).Routes)
        {
            Assert.Equal(route.Metres, route.Legs.Sum(leg => leg.Metres), 6);
            Assert.Equal(route.ExpectedSeconds, route.Legs.Sum(leg => leg.ExpectedSeconds), 6);
            Assert.Equal(route.ExpectedSeconds, route.Time.ExpectedSeconds, 0.05 * route.Arcs.Length);
            Assert.True(route.Time.UsuallySeconds <= route.Time.NearlyAlwaysSeconds);
        }
    }

    // Doors of 0.80 and 0.70 m for 0.75 m and 5 cm clear on each side, 0.85 m: whoever comes with something narrower has to pass the tighter one too.
    [Fact]
    public void Of_doors_that_are_all_too_narrow_the_tightest_is_named_and_how_the_width_needed_comes_about()
    {
        var floor = Sketch.Parse("1 at 0: Delivery 5 | Hall 20 |0.8| HallFar 20 |0.7| Nursery 6");

        var none = Assert.IsType<RouteOutcome.None>(Find(floor));

        Assert.Equal((NoRouteReason.Blocked, "HallFar/Nursery"), (none.Reason, none.Where));
        Assert.Equal((LimitKind.ClearWidth, 0.7, 0.85), (none.Obstacle!.Kind, none.Obstacle.Present!.Value, none.Obstacle.Needed!.Value));
        Assert.Equal(
            "No way from Delivery to Nursery: door HallFar/Nursery is 15 cm too narrow (0.70 m clear, 0.85 m needed, assumed, no date). "
            + "It is the tightest of the 2 that are too narrow on the way with the fewest obstacles. "
            + "Needed is the width of what moves and 5 cm of clearance on each side: 0.75 m + 2 × 0.05 m = 0.85 m.",
            none.Sentence);
    }

    [Fact]
    public void Where_every_way_has_an_obstacle_the_first_is_named_with_the_figure_that_fails()
    {
        var none = Assert.IsType<RouteOutcome.None>(Find(Sketch.Parse("1 at 0: Delivery 5 | Hall 20 |0.8| HallFar 20 | Nursery 6")));

        Assert.Equal((NoRouteReason.Blocked, "Hall/HallFar"), (none.Reason, none.Where));
        Assert.Contains("5 cm too narrow", none.Sentence, StringComparison.Ordinal);
        Assert.DoesNotContain("tightest", none.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_named_obstacle_is_on_the_way_with_the_fewest_of_them_not_on_a_shorter_way_with_more()
    {
        var floor = NarrowDoor(0.8).With("Nursery", place => place with { Flags = PlaceFlags.NoEntry });

        var none = Assert.IsType<RouteOutcome.None>(Find(floor));

        Assert.Equal((LimitKind.NoEntry, "Nursery"), (none.Obstacle!.Kind, none.Where));
    }

    [Fact]
    public void Where_only_stairs_lead_there_the_stairs_are_named()
    {
        var floor = Sketch.Parse("1 at 0: Delivery 5 | Hall 20; 2 at 4: HallUp 20 | Nursery 6; stairs S: Hall HallUp");

        var none = Assert.IsType<RouteOutcome.None>(Find(floor));

        Assert.Equal((NoRouteReason.Blocked, LimitKind.StairFlight, "S"), (none.Reason, none.Obstacle!.Kind, none.Where));
    }

    [Theory]
    [InlineData("Delivery", "Nursery", NoRouteReason.NotConnected, "No passage of the floor plan leads from Delivery to Nursery.")]
    [InlineData("Delivery", "Delivery", NoRouteReason.SamePlace, "Origin and destination are both Delivery.")]
    [InlineData("Delivery 9", "Nursery", NoRouteReason.UnknownOrigin, "There is no place Delivery 9 to start from.")]
    [InlineData("Delivery", "Nursery 9", NoRouteReason.UnknownDestination, "There is no place Nursery 9 to go to.")]
    public void Each_other_reason_is_said(string from, string to, NoRouteReason reason, string sentence)
    {
        var floor = Sketch.Parse("1 at 0: Delivery 5 | Hall 20; 2 at 4: HallUp 20 | Nursery 6");

        var none = Assert.IsType<RouteOutcome.None>(Find(floor, from: from, to: to));

        Assert.Equal(reason, none.Reason);
        Assert.Null(none.Obstacle);
        Assert.Equal(sentence, none.Sentence);
    }

    [Fact]
    public void The_nearest_bail_out_and_oxygen_outlet_are_found_onward_and_back()
    {
        var floor = Sketch.Parse("1 at 0: Delivery 5 | Hall 20 | HallFar 30 | Nursery 6")
            .With("Delivery", place => place with { Facilities = [new(FacilityKind.BailOut, null, FactSource.Assumed, null)] })
            .With("Nursery", place => place with { Facilities = [new(FacilityKind.OxygenOutlet, null, FactSource.Assumed, null)] });

        var legs = Set(Find(floor)).Routes[0].Legs;

        // Leg 2 is both halls: back through the first door to the middle of the delivery room, onward through the last door.
        Assert.Equal(new NearbyPlace("Delivery", "1", 0, 0), legs[0].BailOut);
        Assert.Equal(("Delivery", 2.5), (legs[1].BailOut!.Place, legs[1].BailOut!.Metres));
        Assert.Equal(("Nursery", 3), (legs[1].NearestOxygenOutlet!.Place, legs[1].NearestOxygenOutlet!.Metres));
        Assert.Equal(("Nursery", 53), (legs[0].NearestOxygenOutlet!.Place, legs[0].NearestOxygenOutlet!.Metres));
    }

    [Fact]
    public void Closing_any_passage_never_shortens_the_quickest_way_and_shown_ways_belong_to_the_exact_set()
    {
        var floor = NarrowDoor(1.2);
        var before = Set(Find(floor));

        Assert.All(floor.Plan.Passages, passage =>
        {
            if (Find(floor, query => query with { Closures = [Closure(ClosureTarget.Passage, passage.Id, 0, 30)] }) is RouteOutcome.Found after)
            {
                Assert.True(after.Set.Routes[0].ExpectedSeconds >= before.Routes[0].ExpectedSeconds);
            }
        });
        Assert.All(before.Routes, route => Assert.Contains(before.Front, point => point.ExpectedSeconds == route.ExpectedSeconds && point.Handling == route.Handling));
    }

    private static Closure Closure(ClosureTarget target, string id, double fromMinutes, double toMinutes) =>
        new("c", target, id, Departure.AddMinutes(fromMinutes), Departure.AddMinutes(toMinutes), "works", "facilities");

    private static RouteOutcome Find(Sketch floor, Func<TravelQuery, TravelQuery>? change = null, string from = "Delivery", string to = "Nursery")
    {
        var travel = new TravelQuery { Conveyance = Conveyance.AssumedIncubator, Departure = Departure, HeldElevators = true, WithHelper = true };
        return RouteFinder.Find(
            floor.Graph, new() { From = from, To = to, Travel = change?.Invoke(travel) ?? travel, Precautions = PrecautionSet.Airborne });
    }

    private static RouteSet Set(RouteOutcome outcome) => Assert.IsType<RouteOutcome.Found>(outcome).Set;

    private static string Way(Route route) =>
        string.Join(" > ", route.Legs.SelectMany(leg => leg.Places));

    private static string[] Lines(RouteOutcome outcome) => Lines(Set(outcome));

    private static string[] Lines(RouteSet set) => [.. set.Routes.Select(route => $"{route.Id} {Way(route)}: {string.Join(", ", route.Reasons)}")];
}
