using System.Collections.Immutable;
using CsCheck;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Exposure;

public sealed class ExposureProfileTests
{
    private static readonly TravelQuery Query = new()
    {
        Conveyance = Conveyance.AssumedIncubator,
        Departure = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero),
    };

    [Fact]
    public void A_corridor_counts_its_people_for_the_expected_dwell()
    {
        var graph = Ward().Graph;
        var (travel, profile) = Profiles(graph, Query, PrecautionSet.Airborne);
        var arc = Arc(graph, "Hall", "Hall/Nursery");

        var exposure = profile.Of(arc);

        // 1 person, 6 air changes, 30 m × 4 m × 2.7 m.
        var minutes = travel.TimeOf(arc).DwellSeconds / 60;
        Assert.Equal(1 * minutes * 300 / (6 * 324), exposure.NobodyHeld.SharedAirMinutes, 9);
        Assert.Equal(4 * Math.PI / 120 * minutes, exposure.NobodyHeld.CloseByMinutes, 9);
        Assert.Equal(1, exposure.People);
    }

    [Fact]
    public void The_rooms_at_both_ends_add_time_but_no_exposure()
    {
        var graph = Ward().Graph;
        var (travel, profile) = Profiles(graph, Query, PrecautionSet.Airborne);
        foreach (var arc in Enumerable.Range(0, graph.ArcCount).Where(arc => graph.Plan.Places[graph.ArcPlace[arc]].Number is "Delivery" or "Nursery"))
        {
            Assert.Equal(0, profile.Of(arc).NobodyHeld.SharedAirMinutes);
            Assert.Equal(0, profile.Of(arc).People);
            Assert.Equal(0, profile.CostOf(arc));
            Assert.True(travel.TimeOf(arc).ExpectedSeconds > 0);
        }
    }

    [Fact]
    public void Precautions_decide_which_terms_rank_ways()
    {
        var graph = Ward().Graph;
        var arc = Arc(graph, "Hall", "Hall/Nursery");
        long Cost(PrecautionSet precautions) => Profiles(graph, Query, precautions).Exposure.CostOf(arc);
        var figures = Profiles(graph, Query, PrecautionSet.Airborne).Exposure.Of(arc).NobodyHeld;

        Assert.Equal(Math.Round((figures.SharedAirMinutes + figures.CloseByMinutes) * 1e6), Cost(PrecautionSet.Airborne));
        Assert.Equal(Cost(PrecautionSet.Airborne), Cost(PrecautionSet.Airborne | PrecautionSet.Droplet | PrecautionSet.Contact));
        Assert.Equal(Math.Round(figures.CloseByMinutes * 1e6), Cost(PrecautionSet.Droplet));
        Assert.Equal(Cost(PrecautionSet.Droplet), Cost(PrecautionSet.Droplet | PrecautionSet.Contact));
        Assert.Equal(1_000_000, Cost(PrecautionSet.Contact));
        Assert.Equal(0, Cost(PrecautionSet.None));
    }

    [Fact]
    public void A_helper_takes_the_touches_but_not_the_touch_points()
    {
        var graph = Tower().Graph;
        ArcExposure Of(TravelQuery query, string place, string passage) => Profiles(graph, query, PrecautionSet.Contact).Exposure.Of(Arc(graph, place, passage));

        // A handle, a call button, a car button; a held car is not called; plates are no handles.
        Assert.Equal((1, 1), Counts(Of(Query, "Hall", "Hall/Landing1")));
        Assert.Equal((1, 1), Counts(Of(Query, "Landing1", "E@1")));
        Assert.Equal((1, 1), Counts(Of(Query, "CarE", "E@2")));
        Assert.Equal((0, 0), Counts(Of(Query with { HeldElevators = true }, "Landing1", "E@1")));
        Assert.Equal((0, 1), Counts(Of(Query with { WithHelper = true }, "Hall", "Hall/Landing1")));

        static (int Touches, int Points) Counts(ArcExposure exposure) => (exposure.NobodyHeld.Touches, exposure.TouchPoints);
    }

    [Fact]
    public void A_powered_door_has_a_plate_but_no_handle()
    {
        var graph = Ward().WithPassage("Hall/Nursery", door => door with { Kind = PassageKind.AutomaticDoor }).Graph;

        var exposure = Profiles(graph, Query, PrecautionSet.Contact).Exposure.Of(Arc(graph, "Hall", "Hall/Nursery"));

        Assert.Equal((0, 1), (exposure.NobodyHeld.Touches, exposure.TouchPoints));
    }

    [Fact]
    public void A_held_corridor_counts_nobody_during_and_those_who_come_after_hold_and_airing()
    {
        var graph = Ward().Graph;
        var (travel, profile) = Profiles(graph, Query, PrecautionSet.Airborne, new() { HoldMinutes = 10, AiringMinutes = 30 });
        var arc = Arc(graph, "Hall", "Hall/Nursery");

        var exposure = profile.Of(arc);

        var hours = travel.TimeOf(arc).DwellSeconds / 3_600;
        var concentration = (1 - Math.Exp(-6 * hours)) / (6 * 324);
        Assert.Equal(60 * 300 * concentration * Math.Exp(-6 * 40 / 60.0) / 6, exposure.IfPostsHold.SharedAirMinutes, 9);
        Assert.Equal(0, exposure.IfPostsHold.CloseByMinutes);
        Assert.Equal(exposure.NobodyHeld.Touches, exposure.IfPostsHold.Touches);
    }

    [Fact]
    public void An_unheld_place_is_unchanged_when_the_posts_hold()
    {
        var graph = Ward().Graph;

        // Corridors are not held under droplet precautions by default.
        var exposure = Profiles(graph, Query, PrecautionSet.Droplet).Exposure.Of(Arc(graph, "Hall", "Hall/Nursery"));

        Assert.Equal(exposure.NobodyHeld, exposure.IfPostsHold);
    }

    [Fact]
    public void A_car_meets_its_next_riders_unless_it_is_held_parked_and_aired()
    {
        var graph = Tower().Graph;
        var arc = Arc(graph, "CarE", "E@2");
        var heldQuery = Query with { HeldElevators = true };
        ExposureFigures Held(TravelQuery query, double park) =>
            Profiles(graph, query, PrecautionSet.Airborne, new() { CarParkMinutes = park }).Exposure.Of(arc).IfPostsHold;
        var (travel, profile) = Profiles(graph, Query, PrecautionSet.Airborne);
        var (volume, hours) = (1.6 * 2.6 * 2.7, travel.TimeOf(arc).DwellSeconds / 3_600);
        var after = 60 * 300 * (1 - Math.Exp(-6 * hours)) / (6 * volume) / 6;

        Assert.Equal(hours * 60 * 300 / (6 * volume), profile.Of(arc).NobodyHeld.SharedAirMinutes, 9);
        Assert.Equal(profile.Of(arc).NobodyHeld, profile.Of(arc).IfPostsHold);
        Assert.Equal(after, Held(heldQuery, 0).SharedAirMinutes, 9);
        Assert.Equal(after * Math.Exp(-30 * 4 / 60.0), Held(heldQuery, 4).SharedAirMinutes, 9);
    }

    [Fact]
    public void The_open_door_of_a_positive_room_counts_only_where_the_journey_begins()
    {
        var positive = Ward().With("Delivery", room => room with { Pressure = Fact.Measured(PressureRelation.Positive) }).Graph;
        var departure = Arc(positive, "Delivery", "Delivery/Hall");
        var (travel, profile) = Profiles(positive, Query, PrecautionSet.Airborne);

        var exposure = profile.Of(departure);

        // Q = 0.4/3 · 1.2 · 2.1^1.5 √(9.81/295); V = 5 · 4 · 2.7; equivalent dwell in the hall of one person and 6 · 324 m³/h.
        var flow = 0.4 / 3 * 1.2 * Math.Pow(2.1, 1.5) * Math.Sqrt(9.81 / 295) * 3_600;
        var dwell = flow * travel.TimeOf(departure).Door.ExpectedSeconds / 60 / (6 * 54);
        Assert.Equal(dwell * 300 / (6 * 324), exposure.OpenDoorMinutes, 9);
        Assert.Equal(exposure.OpenDoorMinutes, exposure.NobodyHeld.SharedAirMinutes);
        Assert.True(profile.CostOf(departure) > 0);
        Assert.All(Enumerable.Range(0, positive.ArcCount).Where(arc => arc != departure), arc => Assert.Equal(0, profile.Of(arc).OpenDoorMinutes));
        Assert.Equal(0, Profiles(Ward().Graph, Query, PrecautionSet.Airborne).Exposure.Of(departure).OpenDoorMinutes);
    }

    [Fact]
    public void An_operating_room_of_unknown_pressure_is_taken_as_positive_and_says_so()
    {
        var graph = Sketch.Parse("1 at 0: Operating 6 | Hall 30 | Nursery 5").With("Operating", room => room with { Pressure = default }).Graph;

        var profile = Profiles(graph, Query, PrecautionSet.Airborne).Exposure;

        Assert.True(profile.Of(Arc(graph, "Operating", "Operating/Hall")).OpenDoorMinutes > 0);
        Assert.Equal(["pressure"], profile.Places[graph.PlaceIndex["Operating"]].Assumed);
    }

    [Fact]
    public void Unknown_air_height_and_people_take_the_figures_of_the_site_and_say_so()
    {
        var graph = Ward().With("Hall", hall => hall with { AirChanges = default, Height = default, Occupancy = null }).Graph;

        var air = Profiles(graph, Query, PrecautionSet.Airborne, new() { CorridorAirChanges = ImmutableDictionary<CorridorClass, double>.Empty, RoomAirChanges = 3, Height = 2.5, People = 7 }).Exposure.Places[graph.PlaceIndex["Hall"]];

        Assert.Equal((3, 300, 7), (air.LossPerHour, air.VolumeCubicMetres, air.People));
        Assert.Equal(["air changes", "height", "people"], air.Assumed);
    }

    [Fact]
    public void Still_air_keeps_the_least_loss_and_decay_and_deposition_add_to_air_changes()
    {
        var still = Ward().With("Hall", hall => hall with { AirChanges = Fact.Measured(AirChangeRate.Zero) }).Graph;

        Assert.Equal(0.24, Profiles(still, Query, PrecautionSet.Airborne).Exposure.Places[still.PlaceIndex["Hall"]].LossPerHour);
        Assert.Equal(
            6 + 0.63 + 0.3,
            Profiles(Ward().Graph, Query, PrecautionSet.Airborne, new() { DecayPerHour = 0.63, DepositionPerHour = 0.3 }).Exposure.Places[1].LossPerHour, 9);
    }

    [Fact]
    public void People_are_those_of_the_local_quarter_hour_of_departure()
    {
        var hours = Enumerable.Range(0, 24).Select(hour => (double)hour).ToArray();
        var plan = Ward().With("Hall", hall => hall with { Occupancy = QuarterHourProfile.FromHours(hours) }).Plan with { TimeZone = "Asia/Tokyo" };

        var profile = Profiles(FloorGraphBuilder.Build(plan), Query, PrecautionSet.Airborne).Exposure;

        Assert.Equal(11, profile.Places[1].People);
    }

    [Fact]
    public void Posts_that_hold_never_raise_exposure_and_more_people_never_lower_it() =>
        Gen.Select(Gen.Double[0, 50], Gen.Double[0, 50], Gen.Double[0.3, 20], Gen.Double[0, 60]).Sample(
            (people, more, airChanges, hold) =>
            {
                ArcExposure Of(double count)
                {
                    var graph = Ward().With("Hall", hall => hall with
                    {
                        Occupancy = QuarterHourProfile.Constant(count),
                        AirChanges = Fact.Measured(AirChangeRate.FromPerHour(airChanges)),
                    }).Graph;
                    return Profiles(graph, Query, PrecautionSet.Airborne, new() { HoldMinutes = hold }).Exposure.Of(Arc(graph, "Hall", "Hall/Nursery"));
                }

                var (few, many) = (Of(people), Of(people + more));

                Assert.True(few.IfPostsHold.SharedAirMinutes <= few.NobodyHeld.SharedAirMinutes);
                Assert.True(few.IfPostsHold.CloseByMinutes <= few.NobodyHeld.CloseByMinutes);
                Assert.True(many.NobodyHeld.SharedAirMinutes >= few.NobodyHeld.SharedAirMinutes);
                Assert.True(many.NobodyHeld.CloseByMinutes >= few.NobodyHeld.CloseByMinutes);
            },
            iter: 50);

    private static Sketch Ward() => Sketch.Parse("1 at 0: Delivery 5 | Hall 30 | Nursery 5");

    private static Sketch Tower() => Sketch.Parse("1 at 0: Hall 9 | Landing1 4 ; 2 at 4: Landing2 4 | Nursery 6 ; elevator E: Landing1 Landing2");

    private static (TravelProfile Travel, ExposureProfile Exposure) Profiles(
        FloorGraph graph, TravelQuery query, PrecautionSet precautions, ExposureSettings? settings = null)
    {
        var travel = TravelProfile.For(graph, query);
        return (travel, ExposureProfile.For(travel, precautions, settings ?? new()));
    }

    /// <summary>The first arc over a place that leaves it by a passage, from another passage where there is one.</summary>
    private static int Arc(FloorGraph graph, string place, string passage) =>
        Enumerable.Range(0, graph.ArcCount)
            .Where(arc => graph.Plan.Places[graph.ArcPlace[arc]].Number == place)
            .Where(arc => graph.IsTraversal(graph.ArcTarget[arc]) && graph.Plan.Passages[FloorGraph.PassageOf(graph.ArcTarget[arc])].Id == passage)
            .OrderByDescending(arc => graph.IsTraversal(graph.ArcSource[arc])).First();
}
