using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>Where to go from a leg when the infant worsens or the alarm sounds; distances by hand, places 4 m deep and joined in the middle.</summary>
public sealed class WaysOutTests
{
    private static readonly TravelSettings Settings = new();

    /// <summary>Halls of three compartments: a leg of clean corridor, then one of public corridor.</summary>
    private static Sketch Row => Sketch.Parse("1 at 0: Delivery 5 | CleanA 12 | CleanB 16 | Hall 20 | Nursery 6");

    [Fact]
    public void Wall_oxygen_is_named_onward_from_the_end_of_a_leg_and_back_from_its_start()
    {
        var sketch = With(With(Row, "Delivery", FacilityKind.OxygenOutlet), "Nursery", FacilityKind.OxygenOutlet);

        var clean = Legs(sketch)[1].WaysOut;

        Assert.Equal(("Nursery", 20 + 3), (clean.OxygenOnward!.Place, clean.OxygenOnward.Metres));
        Assert.Equal(("Delivery", 2.5), (clean.OxygenBack!.Place, clean.OxygenBack.Metres));
        Assert.Equal(Settings.Walking.TimeFor(2.5).ExpectedSeconds, clean.OxygenBack.Seconds, 0.06);
    }

    [Fact]
    public void What_lies_on_the_leg_counts_both_ways_at_0_m()
    {
        var clean = Legs(With(Row, "CleanB", FacilityKind.BailOut))[1];

        var here = new NearbyPlace("CleanB", "1", 0, 0);
        Assert.Equal((here, here, here), (clean.WaysOut.BailOutOnward, clean.WaysOut.BailOutBack, clean.BailOut));
    }

    // CleanA and CleanB are one leg of clean corridor; a treatment room opens off CleanB. For CleanA's start it lies ahead, for the hall behind.
    [Fact]
    public void A_bail_out_point_off_a_place_that_the_leg_enters_is_not_back()
    {
        var sketch = Row.Room("Ante", 24, 4, 28, 8).Door("CleanB", "Ante");
        var legs = Legs(With(sketch, "Ante", FacilityKind.BailOut));

        Assert.Equal(("Ante", true), (legs[1].WaysOut.BailOutBack!.Place, legs[1].WaysOut.IsBailOutBackOnLeg));
        Assert.Equal(("Ante", false), (legs[2].WaysOut.BailOutBack!.Place, legs[2].WaysOut.IsBailOutBackOnLeg));
        Assert.False(Legs(With(Row, "Delivery", FacilityKind.BailOut))[1].WaysOut.IsBailOutBackOnLeg);
    }

    [Fact]
    public void The_nearest_is_the_quickest_and_a_bail_out_point_an_elevator_away_is_not_near()
    {
        // In metres the room above is nearer (6.2 m against 20 m); the ride takes longer than the walk.
        var sketch = Sketch.Parse("""
            1 at 0: Delivery 5 | Landing1 4 | Hall 16 | Nursery 6
            2 at 4: Landing2 4 | Ante 3
            elevator E: Landing1 Landing2
            """);
        var landing = Legs(With(With(sketch, "Ante", FacilityKind.BailOut), "Nursery", FacilityKind.BailOut))[1];

        Assert.Equal(("Nursery", "1"), (landing.BailOut!.Place, landing.BailOut.Level));
    }

    [Fact]
    public void The_destination_is_said_to_be_nearest_where_no_bail_out_point_is_nearer_in_time()
    {
        var legs = Legs(With(Row, "Delivery", FacilityKind.BailOut));

        Assert.Equal([false, false, true, true], legs.Select(leg => leg.WaysOut.IsDestinationNearest));
        Assert.Equal(0, legs[^1].WaysOut.DestinationSeconds);
        Assert.Equal(legs[^1].ExpectedSeconds, legs[^2].WaysOut.DestinationSeconds, 0.05);
    }

    [Fact]
    public void If_the_alarm_sounds_the_doors_into_the_next_compartments_are_named_both_ways()
    {
        var legs = Legs(Compartments(Row, ("Delivery", "A"), ("CleanA", "A"), ("CleanB", "A"), ("Hall", "B"), ("Nursery", "C")));

        // From the delivery room: through both clean halls. Their leg ends at the door itself; behind it lies no other compartment.
        Assert.Equal(("A", new FireDoor("CleanB/Hall", "B", 28, legs[0].WaysOut.FireDoorOnward!.Seconds)), (legs[0].WaysOut.FireCompartment, legs[0].WaysOut.FireDoorOnward));
        Assert.Equal(new FireDoor("CleanB/Hall", "B", 0, 0), legs[1].WaysOut.FireDoorOnward);
        Assert.Null(legs[1].WaysOut.FireDoorBack);
        Assert.Null(legs[2].WaysOut.FireDoorOnward);
        Assert.Equal(new FireDoor("CleanB/Hall", "A", 0, 0), legs[2].WaysOut.FireDoorBack);
    }

    [Fact]
    public void A_fire_door_on_the_leg_itself_counts_both_ways()
    {
        var clean = Legs(Compartments(Row, ("Delivery", "A"), ("CleanA", "A"), ("CleanB", "B"), ("Hall", "B"), ("Nursery", "B")))[1].WaysOut;

        Assert.Equal((new FireDoor("CleanA/CleanB", "B", 0, 0), new FireDoor("CleanA/CleanB", "A", 0, 0)), (clean.FireDoorOnward, clean.FireDoorBack));
    }

    [Fact]
    public void A_ride_has_only_the_door_by_which_the_team_stays_where_it_boards()
    {
        var sketch = Sketch.Parse("""
            1 at 0: Delivery 5 | Hall 10 | Landing1 4
            2 at 4: Landing2 4 | Nursery 6
            elevator E: Landing1 Landing2
            """);
        var legs = Legs(Compartments(sketch, ("Delivery", "1A"), ("Hall", "1A"), ("Landing1", "1B"), ("Landing2", "2B"), ("Nursery", "2A")));

        var ride = Assert.Single(legs, leg => leg.Kind == LegKind.ElevatorRide).WaysOut;
        Assert.Equal(("1B", null, "Hall/Landing1", "1A"), (ride.FireCompartment, ride.FireDoorOnward, ride.FireDoorBack!.Passage, ride.FireDoorBack.Compartment));
    }

    [Fact]
    public void Unknown_compartments_and_stairwells_name_no_door()
    {
        var sketch = Sketch.Parse("1 at 0: StairX 4 | Delivery 5 | Hall 20 | Nursery 6");
        var unknown = Legs(Row);
        var stair = Legs(Compartments(sketch, ("StairX", "S"), ("Delivery", "A"), ("Hall", "A"), ("Nursery", "A")));

        Assert.All(unknown.Concat(stair), leg => Assert.Equal((null, null), (leg.WaysOut.FireDoorOnward, leg.WaysOut.FireDoorBack)));
        Assert.All(unknown, leg => Assert.Null(leg.WaysOut.FireCompartment));
    }

    [Fact]
    public void An_opening_between_two_compartments_is_a_finding()
    {
        var sketch = Compartments(Sketch.Parse("1 at 0: Delivery 5 | HallA 10 / HallB 10 | Nursery 6"), ("HallA", "A"), ("HallB", "B"));

        var finding = Assert.Single(FloorPlanCheck.Run(sketch.Plan), f => f.Path == "fireCompartment");
        Assert.Equal(("passage HallA/HallB", FindingSeverity.Warning), (finding.Subject, finding.Severity));
    }

    private static Sketch With(Sketch sketch, string place, FacilityKind kind) =>
        sketch.With(place, p => p with { Facilities = [.. p.Facilities, new(kind, null, FactSource.Assumed, null)] });

    private static Sketch Compartments(Sketch sketch, params ReadOnlySpan<(string Place, string Name)> compartments)
    {
        foreach (var (place, name) in compartments)
        {
            sketch.With(place, p => p with { FireCompartment = Fact.Drawing(new FireCompartment(name)) });
        }

        return sketch;
    }

    private static ImmutableArray<Leg> Legs(Sketch sketch) => Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(sketch.Graph, new()
    {
        From = "Delivery",
        To = "Nursery",
        Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 3, 4, 14, 5, 0, TimeSpan.Zero), HeldElevators = true, WithHelper = true },
        Precautions = PrecautionSet.Airborne,
    })).Set.Routes[0].Legs;
}
