using CsCheck;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Travel;

public sealed class TravelProfileTests
{
    private static readonly DateTimeOffset Night = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero);
    private static readonly DateOnly Surveyed = new(2025, 3, 2);

    private static readonly TravelQuery Query = new() { Conveyance = Conveyance.AssumedIncubator, Departure = Night };

    [Fact]
    public void A_narrow_door_is_named_with_its_figure_its_date_and_by_how_much()
    {
        var graph = Hall().WithPassage("Delivery/Hall", door => door with { ClearWidth = Fact.Measured(Distance.FromMetres(0.79), Surveyed) }).Graph;

        var obstacle = Obstacle(graph, Query, "Delivery", "Delivery/Hall");

        Assert.Equal("door Delivery/Hall is 6 cm too narrow (0.79 m clear, 0.85 m needed, measured 2025-03-02)", obstacle!.Sentence);
        Assert.Equal((LimitKind.ClearWidth, ClosureTarget.Passage, "Delivery/Hall"), (obstacle.Kind, obstacle.Element, obstacle.Id));
        Assert.Equal((0.79, 0.85, 0.06), (obstacle.Present!.Value, obstacle.Needed!.Value, Math.Round(obstacle.By!.Value, 9)));
    }

    [Fact]
    public void A_door_of_exactly_the_width_needed_lets_pass() =>
        Assert.Null(Obstacle(Hall().WithPassage("Delivery/Hall", door => door with { ClearWidth = Width(0.85) }).Graph, Query, "Delivery", "Delivery/Hall"));

    public static TheoryData<string, LimitKind, string> Limits => new()
    {
        { "low door", LimitKind.ClearHeight, "door Delivery/Hall is 10 cm too low (1.50 m high, 1.60 m needed, assumed, no date)" },
        { "threshold", LimitKind.Threshold, "the threshold of door Delivery/Hall is 1.2 cm too high (0.042 m there, 0.03 m allowed, assumed, no date)" },
        { "key", LimitKind.Access, "door Delivery/Hall needs a key that nobody with the transport carries" },
        { "badge", LimitKind.Access, "door Delivery/Hall needs a badge that nobody with the transport carries" },
        { "code", LimitKind.Access, "door Delivery/Hall needs a code that nobody with the transport carries" },
        { "undated", LimitKind.ClearWidth, "door Delivery/Hall is 5 cm too narrow (0.80 m clear, 0.85 m needed, drawing, no date)" },
        { "assumed on a day", LimitKind.ClearWidth, "opening Delivery/Hall is 5 cm too narrow (0.80 m clear, 0.85 m needed, assumed 2025-03-02)" },
        { "slope", LimitKind.Gradient, "the slope of place Delivery is 1.67 percentage points too steep (10 % there, 8.33 % allowed, drawing 2025-03-02)" },
        { "low room", LimitKind.ClearHeight, "place Delivery is 5 cm too low (1.55 m high, 1.60 m needed, assumed, no date)" },
        { "no cylinders", LimitKind.NoCylinders, "place Delivery is a no-cylinder zone and cylinders travel along" },
        { "no entry", LimitKind.NoEntry, "place Delivery is marked no entry" },
    };

    [Theory]
    [MemberData(nameof(Limits))]
    public void Each_limit_of_doors_and_places_is_said_in_words(string what, LimitKind kind, string sentence)
    {
        var sketch = Hall();
        var graph = (what switch
        {
            "low door" => sketch.WithPassage("Delivery/Hall", door => door with { ClearHeight = Width(1.5) }),
            "threshold" => sketch.WithPassage("Delivery/Hall", door => door with { Threshold = Width(0.042) }),
            "key" => sketch.WithPassage("Delivery/Hall", door => door with { Access = AccessControl.Key }),
            "badge" => sketch.WithPassage("Delivery/Hall", door => door with { Access = AccessControl.Badge }),
            "code" => sketch.WithPassage("Delivery/Hall", door => door with { Access = AccessControl.Code }),
            "undated" => sketch.WithPassage("Delivery/Hall", door => door with { ClearWidth = new(Distance.FromMetres(0.8), FactSource.Drawing, null) }),
            "assumed on a day" => sketch.WithPassage(
                "Delivery/Hall", door => door with { Kind = PassageKind.Opening, ClearWidth = new(Distance.FromMetres(0.8), FactSource.Assumed, Surveyed) }),
            "slope" => sketch.With("Delivery", place => place with { GradientPercent = Fact.Drawing(10.0, Surveyed) }),
            "low room" => sketch.With("Delivery", place => place with { Height = Width(1.55) }),
            "no cylinders" => sketch.With("Delivery", place => place with { Flags = PlaceFlags.NoCylinders }),
            _ => sketch.With("Delivery", place => place with { Flags = PlaceFlags.NoEntry }),
        }).Graph;

        var query = Query with { Settings = Query.Settings with { CannotOpen = [AccessControl.Badge, AccessControl.Code, AccessControl.Key] } };

        var obstacle = Obstacle(graph, query, "Delivery", "Delivery/Hall");

        Assert.Equal((kind, sentence), (obstacle!.Kind, obstacle.Sentence));
    }

    [Fact]
    public void Without_cylinders_the_magnet_zone_lets_pass() =>
        Assert.Null(Obstacle(
            Hall().With("Delivery", place => place with { Flags = PlaceFlags.NoCylinders }).Graph, Query with { CarriesCylinders = false }, "Delivery", "Delivery/Hall"));

    public static TheoryData<string, LimitKind, string> CarLimits => new()
    {
        { "short", LimitKind.CarLength, "the car of elevator E is 20 cm too short (1.40 m long, 1.60 m needed, measured 2025-03-02)" },
        { "narrow", LimitKind.CarWidth, "the car of elevator E is 5 cm too narrow (0.80 m wide, 0.85 m needed, measured 2025-03-02)" },
        { "door", LimitKind.CarDoor, "the door of elevator E is 5 cm too narrow (0.80 m clear, 0.85 m needed, measured 2025-03-02)" },
        { "area", LimitKind.CarArea, "the car of elevator E is 0.425 m² too small (2.00 m² of floor for the incubator and a crew of 4, 2.425 m² needed, measured 2025-03-02)" },
        { "load", LimitKind.RatedLoad, "elevator E is 60 kg too weak (400 kg rated, for 140 kg and a crew of 4, 460 kg needed, measured 2025-03-02)" },
    };

    [Theory]
    [MemberData(nameof(CarLimits))]
    public void Each_limit_of_a_car_is_said_in_words(string what, LimitKind kind, string sentence)
    {
        static Fact<Distance> Measured(double metres) => Fact.Measured(Distance.FromMetres(metres), Surveyed);
        var graph = Tower().WithElevator("E", car => what switch
        {
            "short" => car with { CarLength = Measured(1.4) },
            "narrow" => car with { CarWidth = Measured(0.8) },
            "door" => car with { DoorWidth = Measured(0.8) },
            "area" => car with { CarLength = Measured(2), CarWidth = Measured(1) },
            _ => car with { RatedLoadKilograms = Fact.Measured(400.0, Surveyed) },
        }).Graph;

        var obstacle = Obstacle(graph, Query, "CarE", "E@2");

        Assert.Equal((kind, ClosureTarget.Elevator, "E", sentence), (obstacle!.Kind, obstacle.Element, obstacle.Id, obstacle.Sentence));
    }

    [Fact]
    public void A_tight_turn_is_named_with_the_longest_box_that_turns()
    {
        // Two corridors of 1.0 m in an L: 2√2 · 1.0 − 2 · 0.85 = 1.128 m (formulas.md, Corners), the incubator is 1.5 m.
        var graph = new Sketch().Area("Hall", PlaceKind.Corridor, (0, 0), (10, 0), (10, 10), (9, 10), (9, 1), (0, 1))
            .Room("West", -5, 0, 0, 1, PlaceKind.Room).Room("North", 9, 10, 10, 15, PlaceKind.Room)
            .Door("West", "Hall", 0.9).Door("Hall", "North", 0.9).Graph;
        var arc = Arc(graph, "Hall", "Hall/North");

        var obstacle = TravelProfile.For(graph, Query).ObstacleOf(arc);

        Assert.Equal(LimitKind.Corner, obstacle!.Kind);
        Assert.Equal(1.128, obstacle.Present!.Value, 0.001);
        Assert.Equal(
            "the turn in place Hall is 37.2 cm too tight (1.128 m is the longest box 0.85 m wide that turns from 1.00 m into 1.00 m, 1.50 m needed)", obstacle.Sentence);
    }

    [Fact]
    public void A_corridor_narrower_than_the_incubator_at_a_turn_is_too_narrow_and_not_too_tight()
    {
        var graph = new Sketch().Area("Hall", PlaceKind.Corridor, (0, 0), (10, 0), (10, 10), (9.2, 10), (9.2, 2), (0, 2))
            .Room("West", -5, 0, 0, 2, PlaceKind.Room).Room("North", 9.2, 10, 10, 15, PlaceKind.Room)
            .Door("West", "Hall", 0.9).Door("Hall", "North", 0.9).WithPassage("Hall/North", door => door with { ClearWidth = Width(0.9) }).Graph;

        var obstacle = Obstacle(graph, Query, "Hall", "Hall/North");

        Assert.Equal(
            "place Hall is 5 cm too narrow at a turn (0.80 m clear, 0.85 m needed, from the outlines and doors)", obstacle!.Sentence);
        Assert.Equal(LimitKind.ClearWidth, obstacle.Kind);
    }

    [Fact]
    public void A_narrow_door_is_named_before_the_turn_that_leads_to_it()
    {
        var graph = new Sketch().Room("Hall", 0, 0, 30, 4).Room("West", -5, 0, 0, 4, PlaceKind.Room).Room("South", 20, -5, 24, 0, PlaceKind.Room)
            .Door("West", "Hall").Door("Hall", "South", 0.8).Graph;

        Assert.StartsWith("door Hall/South is 5 cm too narrow", Obstacle(graph, Query, "Hall", "Hall/South")!.Sentence);
    }

    [Fact]
    public void Nobody_carries_an_incubator_on_stairs() =>
        Assert.Equal(
            LimitKind.StairFlight,
            Obstacle(Sketch.Parse("1 at 0: Hall 9 ; 2 at 4: Nursery 9 ; stairs S: Hall Nursery").Graph, Query, "Hall", "S")!.Kind);

    [Fact]
    public void An_unknown_width_lets_pass_with_a_flag_and_forbids_only_on_request()
    {
        var graph = Sketch.Parse("1 at 0: Delivery 5 |?| Hall 30").Graph;
        var arc = Arc(graph, "Delivery", "Delivery/Hall");

        var profile = TravelProfile.For(graph, Query);
        var careful = TravelProfile.For(graph, Query with { AvoidUnknown = true });

        Assert.Null(profile.ObstacleOf(arc));
        Assert.Equal("door Delivery/Hall: clear width unknown", Assert.Single(profile.UnknownOf(arc)).Sentence);
        Assert.Equal("door Delivery/Hall: clear width unknown, and unknown limits are avoided", careful.ObstacleOf(arc)!.Sentence);
        Assert.Null(careful.ObstacleOf(arc)!.By);
    }

    [Fact]
    public void Every_fact_that_a_check_needs_is_missed_when_it_is_unknown()
    {
        var graph = Tower()
            .WithElevator("E", car => car with { CarLength = default, CarWidth = default, DoorWidth = default, RatedLoadKilograms = default })
            .WithPassage("E@2", door => door with { ClearWidth = default, ClearHeight = default, Threshold = default })
            .With("CarE", car => car with { Height = default }).Graph;

        var unknown = TravelProfile.For(graph, Query).UnknownOf(Arc(graph, "CarE", "E@2"));

        Assert.Equal(
            [
                LimitKind.ClearWidth, LimitKind.ClearHeight, LimitKind.ClearHeight, LimitKind.CarArea, LimitKind.CarLength, LimitKind.CarWidth,
                LimitKind.CarDoor, LimitKind.RatedLoad, LimitKind.Threshold,
            ],
            unknown.Select(limit => limit.Kind).Order());
        Assert.Equal(
            [
                "place CarE: height unknown", "the car of elevator E: length unknown", "the car of elevator E: width unknown", "the door of elevator E: clear width unknown",
                "the car of elevator E: floor area unknown", "elevator E: rated load unknown", "landing door E@2: clear width unknown", "landing door E@2: clear height unknown",
                "the threshold of landing door E@2: height unknown",
            ],
            unknown.Select(limit => limit.Sentence));
    }

    // A translation puts the values where it needs them, and inside each other.
    [Fact]
    public void A_statement_is_said_in_other_words_with_the_same_values()
    {
        var graph = Sketch.Parse("1 at 0: Delivery 5 |?| Hall 30").Graph;
        var statement = Assert.Single(TravelProfile.For(graph, Query).UnknownOf(Arc(graph, "Delivery", "Delivery/Hall"))).Statement;

        Assert.Equal((StatementText.UnknownClearWidth, "door Delivery/Hall: clear width unknown"), (statement.Text, statement.Sentence));
        Assert.Equal(
            "unbekannt: Breite von Tür Delivery/Hall",
            statement.In(text => text == StatementText.UnknownClearWidth ? "unbekannt: Breite von {0}" : text == StatementText.Door ? "Tür {0}" : "?"));
    }

    [Theory]
    [InlineData(-30, 0, false)]
    [InlineData(-30, 1, true)]
    [InlineData(59, 90, true)]
    [InlineData(60, 90, false)]
    public void A_closure_forbids_when_it_touches_the_hour_from_departure(int fromMinutes, int toMinutes, bool forbids)
    {
        var graph = Hall().Graph;
        var closure = new Closure(
            "c", ClosureTarget.Passage, "Delivery/Hall", Night.AddMinutes(fromMinutes), Night.AddMinutes(toMinutes), "floor wet", "facilities");

        var obstacle = Obstacle(graph, Query with { Closures = [closure] }, "Delivery", "Delivery/Hall");

        Assert.Equal(forbids, obstacle is { Kind: LimitKind.Closure } && obstacle.Closure == closure);
    }

    /// <summary>Findings are kept for each graph and conveyance: nothing of one query may show in another.</summary>
    [Fact]
    public void Findings_kept_between_queries_show_no_closure_and_no_size_of_another()
    {
        var graph = Hall().Graph;
        var closure = new Closure("c", ClosureTarget.Passage, "Delivery/Hall", Night, Night.AddMinutes(45), "floor wet", "facilities");
        var wide = new Conveyance(Query.Conveyance.Length, Distance.FromMetres(2.5), Query.Conveyance.Height, 140, 4);

        Assert.Null(Obstacle(graph, Query, "Delivery", "Delivery/Hall"));
        Assert.Equal(LimitKind.Closure, Obstacle(graph, Query with { Closures = [closure] }, "Delivery", "Delivery/Hall")!.Kind);
        Assert.Equal(LimitKind.ClearWidth, Obstacle(graph, Query with { Conveyance = wide }, "Delivery", "Delivery/Hall")!.Kind);
        Assert.Null(Obstacle(graph, Query, "Delivery", "Delivery/Hall"));
    }

    [Fact]
    public void A_closure_is_told_in_the_time_of_the_site()
    {
        var plan = Hall().Plan with { TimeZone = "America/New_York" };
        var closure = new Closure("c", ClosureTarget.Place, "Delivery", Night, Night.AddMinutes(45), "floor wet", "facilities");

        var obstacle = Obstacle(FloorGraphBuilder.Build(plan), Query with { Closures = [closure] }, "Delivery", "Delivery/Hall");

        Assert.Equal("place Delivery is closed from 2026-05-03 22:10 to 2026-05-03 22:55 (floor wet; facilities)", obstacle!.Sentence);
    }

    [Fact]
    public void Walking_takes_length_over_speed_and_each_turn_one_slow_length()
    {
        var straight = Sketch.Parse("1 at 0: Delivery 5 | Hall 30 | Nursery 5").Graph;
        var bent = new Sketch().Room("Hall", 0, 0, 30, 4).Room("West", -5, 0, 0, 4, PlaceKind.Room).Room("South", 20, -5, 24, 0, PlaceKind.Room)
            .Door("West", "Hall").Door("Hall", "South").Graph;

        var along = Time(straight, Query, "Hall", "Hall/Nursery");
        var around = Time(bent, Query, "Hall", "Hall/South");

        Assert.Equal(30 / 0.9, along.Walking.LikelySeconds, 6);
        Assert.Equal(30 / 1.0, along.Walking.MinimumSeconds, 6);
        Assert.Equal(30 / 0.8, along.Walking.MaximumSeconds, 6);
        var arc = Arc(bent, "Hall", "Hall/South");
        var (metres, turns) = (bent.ArcLength[arc] / 1_000.0, bent.ArcTurns[arc].Length);
        Assert.True(turns >= 1);
        Assert.Equal((metres - 1.5 * turns) / 0.9 + 1.5 * turns / 0.45, around.Walking.LikelySeconds, 6);
    }

    [Fact]
    public void A_threshold_and_a_steep_ramp_are_crossed_slowly()
    {
        var sketch = Sketch.Parse("1 at 0: Delivery 5 | Hall 30 | Nursery 5");
        var level = Time(sketch.Graph, Query, "Hall", "Hall/Nursery").Walking.LikelySeconds;

        var threshold = Time(sketch.WithPassage("Hall/Nursery", door => door with { Threshold = Width(0.015) }).Graph, Query, "Hall", "Hall/Nursery");
        var ramp = Time(sketch.With("Hall", hall => hall with { GradientPercent = Fact.Measured(6.0) }).Graph, Query, "Hall", "Hall/Nursery");

        Assert.Equal(level + 1.5 / 0.45 - 1.5 / 0.9, threshold.Walking.LikelySeconds, 6);
        Assert.Equal(30 / 0.45, ramp.Walking.LikelySeconds, 6);
    }

    [Fact]
    public void The_door_at_the_end_is_opened_alone_or_by_the_helper_and_an_unknown_time_is_assumed()
    {
        var graph = Hall().Graph;
        var unknown = Hall().WithPassage("Delivery/Hall", door => door with { OpeningAlone = default }).Graph;
        var arc = Arc(unknown, "Delivery", "Delivery/Hall");

        Assert.Equal(new(3, 5, 9), Time(graph, Query, "Delivery", "Delivery/Hall").Door);
        Assert.Equal(new(1, 2, 4), Time(graph, Query with { WithHelper = true }, "Delivery", "Delivery/Hall").Door);
        Assert.Equal(new TravelSettings().ManualDoorAlone, TravelProfile.For(unknown, Query).TimeOf(arc).Door);
        Assert.Equal("door Delivery/Hall: opening time", Assert.Single(TravelProfile.For(unknown, Query).AssumedOf(arc)));
        Assert.Empty(TravelProfile.For(graph, Query).AssumedOf(Arc(graph, "Delivery", "Delivery/Hall")));
    }

    [Fact]
    public void The_call_wait_is_spent_on_the_landing_unless_the_car_is_held()
    {
        var graph = Tower().Graph;
        var free = Tower().WithElevator("E", car => car with { CanBeHeld = false }).Graph;

        var call = Time(graph, Query, "Landing1", "E@1");
        var held = Time(graph, Query with { HeldElevators = true }, "Landing1", "E@1");
        var cannotBeHeld = Time(free, Query with { HeldElevators = true }, "Landing1", "E@1");

        Assert.Equal(30, call.Wait.ExpectedSeconds, 9);
        Assert.Equal(DurationEstimate.Zero, held.Wait);
        Assert.Equal(call.Wait, cannotBeHeld.Wait);
        Assert.Equal(DurationEstimate.Zero, call.Door);
        Assert.Equal(DurationEstimate.Zero, call.Ride);
    }

    [Fact]
    public void A_ride_is_loading_doors_flight_and_unloading_and_its_stall_stands_apart()
    {
        // 4 m at 1 m/s, 0.8 m/s², 1 m/s³: branch A, 4 + 1.25 + 0.8 = 6.05 s (lift-kinematics.md); 0.5 s start delay, doors 3 and 4 s.
        var ride = Time(Tower().Graph, Query, "CarE", "E@2");

        Assert.Equal(6.05 + 0.5 + 7 + 2 * 7.5, ride.Ride.MinimumSeconds, 6);
        Assert.Equal(6.05 + 0.5 + 7 + 2 * 12, ride.Ride.MaximumSeconds, 6);
        Assert.Equal(0.001, ride.StallProbability);
        Assert.Equal(ride.DwellSeconds + 0.001 * 2_000, ride.ExpectedSeconds, 6);
        Assert.Equal(0, ride.Walking.MaximumSeconds);
    }

    [Fact]
    public void A_wait_is_read_at_the_local_quarter_hour_of_departure()
    {
        var hours = Enumerable.Range(0, 24).Select(hour => (double)hour).ToArray();
        var plan = Tower().Plan;
        plan = plan with
        {
            TimeZone = "America/New_York",
            ElevatorGroups = [plan.ElevatorGroups[0] with { MeanCallWaitSeconds = QuarterHourProfile.FromHours(hours) }],
        };

        var call = Time(FloorGraphBuilder.Build(plan), Query, "Landing1", "E@1");

        // 02:10 UTC is 22:10 of the evening before in New York in May.
        Assert.Equal(22, call.Wait.ExpectedSeconds, 9);
    }

    [Fact]
    public void A_wider_door_never_forbids_more() =>
        Gen.Select(Gen.Int[500, 1_500], Gen.Int[0, 500], Gen.Int[400, 1_200]).Sample(
            (millimetres, more, conveyance) =>
            {
                var query = Query with { Conveyance = new(Distance.FromMetres(1.5), Distance.FromMillimetres(conveyance), Distance.FromMetres(1.6), 140, 4) };
                bool Passes(int width) => Obstacle(
                    Hall().WithPassage("Delivery/Hall", door => door with { ClearWidth = Fact.Measured(Distance.FromMillimetres(width)) }).Graph,
                    query, "Delivery", "Delivery/Hall") is null;

                Assert.True(!Passes(millimetres) || Passes(millimetres + more));
            },
            iter: 100);

    [Theory]
    [InlineData(0, 140, 4)]
    [InlineData(0.75, 0, 4)]
    [InlineData(0.75, double.NaN, 4)]
    [InlineData(0.75, 140, 0)]
    public void A_conveyance_without_size_mass_or_crew_is_refused(double width, double mass, int crew) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new Conveyance(Distance.FromMetres(1.5), Distance.FromMetres(width), Distance.FromMetres(1.6), mass, crew));

    private static Sketch Hall() => Sketch.Parse("1 at 0: Delivery 5 | Hall 30 | Nursery 5");

    private static Sketch Tower() => Sketch.Parse("1 at 0: Hall 9 | Landing1 4 ; 2 at 4: Landing2 4 | Nursery 6 ; elevator E: Landing1 Landing2");

    private static Fact<Distance> Width(double metres) => Fact.Assumed(Distance.FromMetres(metres));

    private static Obstacle? Obstacle(FloorGraph graph, TravelQuery query, string place, string passage) =>
        TravelProfile.For(graph, query).ObstacleOf(Arc(graph, place, passage));

    private static TravelTime Time(FloorGraph graph, TravelQuery query, string place, string passage) =>
        TravelProfile.For(graph, query).TimeOf(Arc(graph, place, passage));

    /// <summary>The first arc over a place that leaves it by a passage, from another passage where there is one.</summary>
    private static int Arc(FloorGraph graph, string place, string passage) =>
        Enumerable.Range(0, graph.ArcCount)
            .Where(arc => graph.Plan.Places[graph.ArcPlace[arc]].Number == place)
            .Where(arc => graph.IsTraversal(graph.ArcTarget[arc]) && graph.Plan.Passages[FloorGraph.PassageOf(graph.ArcTarget[arc])].Id == passage)
            .OrderByDescending(arc => graph.IsTraversal(graph.ArcSource[arc])).First();
}
