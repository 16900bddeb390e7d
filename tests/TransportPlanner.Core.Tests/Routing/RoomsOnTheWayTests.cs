using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>Two doors that fit do not make a ward a corridor. Common practice: transports keep to circulation areas.</summary>
public sealed class RoomsOnTheWayTests
{
    /// <summary>Straight through Middle 20 m, round by the corridor 28 m and more.</summary>
    private static Sketch Short(PlaceKind middle) => new Sketch()
        .Room("Delivery", 0, 0, 5, 8)
        .Room("Middle", 5, 0, 15, 4, middle)
        .Room("Hall", 5, 4, 15, 8)
        .Room("Nursery", 15, 0, 20, 8)
        .Door("Delivery", "Middle")
        .Door("Middle", "Nursery")
        .Door("Delivery", "Hall")
        .Door("Hall", "Nursery")
        .With("Delivery", room => room with { StandingPoint = new(1, 2) })
        .With("Nursery", room => room with { StandingPoint = new(19, 2) });

    [Theory]
    [InlineData(PlaceKind.WardRoom, "a ward room")]
    [InlineData(PlaceKind.OperatingRoom, "an operating room")]
    [InlineData(PlaceKind.DeliveryRoom, "a delivery room")]
    [InlineData(PlaceKind.IsolationRoom, "an isolation room")]
    [InlineData(PlaceKind.NeonatalIntensiveCare, "a neonatal intensive care room")]
    [InlineData(PlaceKind.Imaging, "an imaging room")]
    [InlineData(PlaceKind.Utility, "a utility room")]
    [InlineData(PlaceKind.Sanitary, "a sanitary room")]
    [InlineData(PlaceKind.Office, "an office")]
    [InlineData(PlaceKind.Room, "a room")]
    public void A_room_is_gone_round_although_the_way_through_it_is_quicker_and_the_reason_is_said(PlaceKind kind, string noun)
    {
        var found = Find(Short(kind));

        Assert.All(found.Routes, way => Assert.DoesNotContain("Middle", way.Legs.SelectMany(leg => leg.Places)));
        Assert.All(found.Routes, way => Assert.Empty(way.ThroughRooms));
        var refused = Assert.Single(found.NotChosen, other => other.Way == "Middle");
        Assert.StartsWith($"Place Middle is {noun}, which no way leads through while another is there: the way through it is ", refused.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(PlaceKind.Corridor)]
    [InlineData(PlaceKind.Lobby)]
    [InlineData(PlaceKind.WaitingArea)]
    [InlineData(PlaceKind.ElevatorLanding)]
    [InlineData(PlaceKind.LinkBridge)]
    [InlineData(PlaceKind.Ramp)]
    [InlineData(PlaceKind.Anteroom)]
    [InlineData(PlaceKind.Outdoors)]
    public void A_circulation_area_is_a_way(PlaceKind kind)
    {
        var sketch = Short(kind).With("Middle", place => place with { GradientPercent = Fact.Assumed(0.0) });

        Assert.Equal(["Delivery", "Middle", "Nursery"], Find(sketch).Routes[0].Legs.SelectMany(leg => leg.Places));
    }

    [Fact]
    public void Where_nothing_else_leads_there_the_way_goes_through_the_room_and_names_it()
    {
        var found = Find(Sketch.Parse("1 at 0: Delivery 5 | Nicu 10 | Hall 10 | Nursery 5"));

        Assert.Equal(["Nicu"], Assert.Single(found.Routes).ThroughRooms);
    }

    [Fact]
    public void A_limit_that_forbids_the_last_way_through_a_room_too_is_named_and_not_the_room()
    {
        var none = Assert.IsType<RouteOutcome.None>(RouteFinder.Find(Sketch.Parse("1 at 0: Delivery 5 | Nicu 10 |0.6| Hall 10 | Nursery 5").Graph, Query));

        Assert.Equal((NoRouteReason.Blocked, "Nicu/Hall", LimitKind.ClearWidth), (none.Reason, none.Where, none.Obstacle!.Kind));
    }

    [Fact]
    public void Plan_b_goes_through_a_room_only_where_no_corridor_is_left_and_says_so()
    {
        var way = Find(Short(PlaceKind.WardRoom)).Routes[0];

        var door = Assert.Single(way.PlanB, fallback => fallback.FailedId == "Hall/Nursery");
        Assert.Equal(["Hall", "Delivery", "Middle", "Nursery"], door.Via);
        Assert.Equal(["Middle"], door.ThroughRooms);
        Assert.False(door.IsSinglePoint);
    }

    [Fact]
    public void Plan_b_prefers_a_corridor_to_a_quicker_way_through_a_room()
    {
        var sketch = Short(PlaceKind.WardRoom).Room("HallBack", 5, 8, 15, 12).Room("Ante", 0, 8, 5, 12).Room("AnteBack", 15, 8, 20, 12)
            .Door("Delivery", "Ante").Door("Ante", "HallBack").Door("HallBack", "AnteBack").Door("AnteBack", "Nursery");

        var door = Assert.Single(Find(sketch).Routes[0].PlanB, fallback => fallback.FailedId == "Hall/Nursery");
        Assert.Contains("HallBack", door.Via);
        Assert.Empty(door.ThroughRooms);
    }

    private static RouteQuery Query => new()
    {
        From = "Delivery",
        To = "Nursery",
        Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 3, 4, 14, 5, 0, TimeSpan.Zero), HeldElevators = true, WithHelper = true },
        Precautions = PrecautionSet.Airborne,
    };

    private static RouteSet Find(Sketch sketch) => Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(sketch.Graph, Query)).Set;
}
