using System.Collections.Immutable;
using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>What the team does when a door, an elevator or a corridor of its way fails, discovered on arrival there.</summary>
public sealed class PlanBTests
{
    private static readonly FloorGraph Hospital = FloorGraphBuilder.Build(DemonstrationHospital.Build());

    /// <summary>The short way through Hall, the long one around by HallBack; both have two doors.</summary>
    private static Sketch TwoHalls => new Sketch()
        .Room("Delivery", 0, 0, 5, 8)
        .Room("Hall", 5, 0, 15, 4)
        .Room("HallBack", 5, 4, 15, 8)
        .Room("Nursery", 15, 0, 20, 8)
        .Door("Delivery", "Hall")
        .Door("Delivery", "HallBack")
        .Door("Hall", "Nursery")
        .Door("HallBack", "Nursery")
        .With("Delivery", room => room with { StandingPoint = new(1, 2) })
        .With("Nursery", room => room with { StandingPoint = new(19, 2) });

    private const string TwoElevators = """
        1 at 0: Delivery 5 | Hall 20 / Landing1 4 / LandingB1 4
        2 at 4: Nursery 25 / Landing2 4 / LandingB2 4
        elevator E: Landing1 Landing2
        elevator F: LandingB1 LandingB2
        """;

    [Fact]
    public void A_door_that_does_not_open_sends_the_team_round_from_where_it_stands()
    {
        var route = Find(TwoHalls.Graph)[0];

        var door = Assert.Single(route.PlanB, b => b.FailedId == "Delivery/Hall");
        Assert.Equal((ClosureTarget.Passage, "Delivery", 0), (door.FailedKind, door.DiscoveredAt, door.Leg));
        Assert.Equal(["Delivery", "HallBack", "Nursery"], door.Via);
        Assert.Null(door.RejoinsAt);

        // By hand: 4 m to the door; then past the 4 m between the two doors of the room, door, 10 m, door, and to the standing point at (19, 2).
        var settings = new TravelSettings();
        Assert.Equal(settings.Walking.TimeFor(4).ExpectedSeconds, door.DiscoveredSeconds, 0.05);
        var atLeast = settings.Walking.TimeFor(4 + 4 + 10 + Math.Sqrt(4 * 4 + 4 * 4)).ExpectedSeconds + 2 * DoorSeconds(route);
        var turns = settings.Slow.TimeFor(3 * 1.5).ExpectedSeconds;
        Assert.InRange(door.ArrivalSeconds!.Value, atLeast - 0.1, atLeast + turns);
    }

    [Fact]
    public void A_corridor_that_cannot_be_entered_is_found_out_with_its_door_open()
    {
        var route = Find(TwoHalls.Graph)[0];

        var hall = Assert.Single(route.PlanB, b => b.FailedId == "Hall");
        var door = Assert.Single(route.PlanB, b => b.FailedId == "Delivery/Hall");
        Assert.Equal((ClosureTarget.Place, "Delivery"), (hall.FailedKind, hall.DiscoveredAt));
        Assert.Equal(DoorSeconds(route), hall.DiscoveredSeconds - door.DiscoveredSeconds, 0.11);
        Assert.Equal(DoorSeconds(route), hall.ArrivalSeconds!.Value - door.ArrivalSeconds!.Value, 0.11);
    }

    [Fact]
    public void At_the_far_door_the_team_walks_back_through_the_corridor_it_came_by()
    {
        var far = Assert.Single(Find(TwoHalls.Graph)[0].PlanB, b => b.FailedId == "Hall/Nursery");

        Assert.Equal("Hall", far.DiscoveredAt);
        Assert.Equal(["Hall", "Delivery", "HallBack", "Nursery"], far.Via);
    }

    [Fact]
    public void An_elevator_that_does_not_come_is_replaced_by_the_next_one_whose_call_is_waited_for()
    {
        var route = Find(Sketch.Parse(TwoElevators).Graph)[0];

        var fallback = Assert.Single(route.PlanB, b => b.FailedKind == ClosureTarget.Elevator);
        Assert.Equal(("E", "Landing1"), (fallback.FailedId, fallback.DiscoveredAt));
        Assert.Equal(["Landing1", "LandingB1", "F", "LandingB2", "Landing2"], fallback.Via);
        Assert.Equal("Nursery", fallback.RejoinsAt);

        // Nobody holds the second car, so its group's mean wait of 30 s comes on top of at least the planned way.
        Assert.True(fallback.ArrivalSeconds > route.ExpectedSeconds + 30, $"{fallback.ArrivalSeconds} after {route.ExpectedSeconds}");
    }

    [Fact]
    public void Where_no_other_way_leads_the_element_is_a_single_point()
    {
        var route = Find(Sketch.Parse("1 at 0: Delivery 5 | Hall 10 | Nursery 6").Graph)[0];

        Assert.Equal(["Delivery/Hall", "Hall", "Hall/Nursery"], route.PlanB.Where(b => b.IsSinglePoint).Select(b => b.FailedId));
        Assert.All(route.PlanB, b => Assert.Empty(b.Via));
        Assert.Null(route.WorstPlanBSeconds);
    }

    [Fact]
    public void Behind_a_one_way_door_the_team_walks_back_first()
    {
        var both = Assert.Single(Find(TwoHalls.Graph)[0].PlanB, b => b.FailedId == "Delivery/Hall");
        var oneWay = Assert.Single(
            Find(TwoHalls.WithPassage("Delivery/Hall", door => door with { Direction = PassageDirection.Forward }).Graph)[0].PlanB, b => b.FailedId == "Delivery/Hall");

        Assert.Equal(both.Via, oneWay.Via);
        Assert.True(oneWay.ArrivalSeconds > both.ArrivalSeconds);
    }

    public static TheoryData<string, string> Journeys =>
    [
        .. from origin in Hospital.Plan.Places.Where(p => p.Kind == PlaceKind.DeliveryRoom)
           from target in new[] { "N-4.03", "N-4.01" }
           select new TheoryDataRow<string, string>(origin.Number, target),
    ];

    // A general library finds the same least time on the graph without the failed element. Seen to fail: with the failed car left in.
    [Theory]
    [MemberData(nameof(Journeys))]
    public void Each_fallback_takes_as_long_as_the_shortest_path_of_a_general_library(string from, string to)
    {
        var query = Query(from, to);
        var profile = TravelProfile.For(Hospital, query.Travel);
        var weights = Enumerable.Range(0, Hospital.ArcCount).Select(arc => Tenths(profile.TimeOf(arc).ExpectedSeconds)
            + (profile.ElevatorCalled(arc) is { CanBeHeld: true } called ? Tenths(profile.MeanCallWaitSeconds(called)) : 0)).ToArray();
        foreach (var route in Find(Hospital, query))
        {
            Assert.NotEmpty(route.PlanB);
            foreach (var fallback in route.PlanB)
            {
                var quik = new AdjacencyGraph<int, TaggedEdge<int, int>>();
                quik.AddVertexRange(Enumerable.Range(0, Hospital.VertexCount));
                quik.AddEdgeRange(
                    from arc in Enumerable.Range(0, Hospital.ArcCount)
                    where profile.ObstacleOf(arc) is null && !Uses(arc, fallback)
                    select new TaggedEdge<int, int>(Hospital.ArcSource[arc], Hospital.ArcTarget[arc], weights[arc]));

                // As if the team had come in by the passage that it stands at; behind a one-way one it first goes back the way it came.
                var last = route.Arcs[Met(route, fallback)];
                var isOneWay = Hospital.Plan.Passages[FloorGraph.PassageOf(Hospital.ArcTarget[last])].Direction == PassageDirection.Forward;
                var (start, back) = isOneWay ? (Hospital.ArcSource[last], Tenths(profile.TimeOf(last).ExpectedSeconds)) : (Hospital.ArcTarget[last] ^ 1, 0);
                var paths = quik.ShortestPathsDijkstra(edge => edge.Tag, start);
                var isReached = paths(Hospital.ArrivalVertex(Hospital.PlaceIndex[to]), out IEnumerable<TaggedEdge<int, int>> path);

                Assert.Equal(isReached, fallback.ArrivalSeconds is not null);
                BailOutIsReached(fallback, Hospital.Plan.Places[Hospital.ArcPlace[last]], back, paths);
                if (isReached)
                {
                    Assert.Equal((back + path.Sum(edge => edge.Tag)) / 10.0, fallback.ArrivalSeconds!.Value - fallback.DiscoveredSeconds, 6);
                }
            }
        }
    }

    // The nearest bail-out point of the leg may lie behind what has failed, as the nursery behind its own door. Seen to fail: with none named.
    private static void BailOutIsReached(PlanB fallback, Place standingIn, int back, TryFunc<int, IEnumerable<TaggedEdge<int, int>>> paths)
    {
        if (!fallback.IsSinglePoint || standingIn.Has(FacilityKind.BailOut))
        {
            Assert.Equal(fallback.IsSinglePoint ? new NearbyPlace(standingIn.Number, standingIn.Level!, 0, 0) : null, fallback.BailOut);
            return;
        }

        var reached = (
            from place in Hospital.Plan.Places.Index()
            where place.Item.Has(FacilityKind.BailOut)
            let tenths = paths(Hospital.ArrivalVertex(place.Index), out var path) ? back + path.Sum(edge => edge.Tag) : (int?)null
            where tenths is not null
            select (place.Item.Number, Seconds: tenths.Value / 10.0)).ToDictionary(place => place.Number, place => place.Seconds);

        // The library also cuts through rooms, which the team does only where nothing else leads to one.
        Assert.Equal(reached.Count > 0, fallback.BailOut is not null);
        Assert.True(fallback.BailOut is not { } near || (reached.ContainsKey(near.Place) && near.Seconds >= reached.Values.Min() - 1e-6));
    }

    [Theory]
    [MemberData(nameof(Journeys))]
    public void No_failure_brings_the_team_there_before_the_quickest_way_does(string from, string to)
    {
        var routes = Find(Hospital, Query(from, to));

        Assert.All(routes.SelectMany(route => route.PlanB), b => Assert.True(b.ArrivalSeconds is not { } arrival || arrival >= routes[0].ExpectedSeconds - 0.2));
        Assert.All(routes, route => Assert.Equal(route.PlanB.Select(b => b.DiscoveredSeconds).Order(), route.PlanB.Select(b => b.DiscoveredSeconds)));
    }

    /// <summary>What the first door of a way on the two halls takes, by the profile that timed it.</summary>
    private static double DoorSeconds(Route route) =>
        TravelProfile.For(TwoHalls.Graph, Query("Delivery", "Nursery").Travel).TimeOf(route.Arcs[0]).Door.ExpectedSeconds;

    /// <summary>Position of the arc at whose end the element is met.</summary>
    private static int Met(Route route, PlanB fallback) => Enumerable.Range(0, route.Arcs.Length).First(i => fallback.FailedKind switch
    {
        ClosureTarget.Elevator => i + 1 < route.Arcs.Length && Uses(route.Arcs[i + 1], fallback),
        ClosureTarget.Place => i + 1 < route.Arcs.Length && Hospital.Plan.Places[Hospital.ArcPlace[route.Arcs[i + 1]]].Number == fallback.FailedId,
        _ => Uses(route.Arcs[i], fallback),
    });

    private static bool Uses(int arc, PlanB fallback) => fallback.FailedKind switch
    {
        ClosureTarget.Elevator => Hospital.ArcElevator[arc] >= 0 && Hospital.Plan.Elevators[Hospital.ArcElevator[arc]].Id == fallback.FailedId,
        ClosureTarget.Place => Hospital.Plan.Places[Hospital.ArcPlace[arc]].Number == fallback.FailedId,
        _ => Hospital.IsTraversal(Hospital.ArcTarget[arc]) && Hospital.Plan.Passages[FloorGraph.PassageOf(Hospital.ArcTarget[arc])].Id == fallback.FailedId,
    };

    private static int Tenths(double seconds) => (int)Math.Round(seconds * 10, MidpointRounding.AwayFromZero);

    private static RouteQuery Query(string from, string to) => new()
    {
        From = from,
        To = to,
        Precautions = PrecautionSet.Airborne,
        Travel = new()
        {
            Conveyance = Conveyance.AssumedIncubator,
            Departure = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero),
            HeldElevators = true,
            WithHelper = true,
        },
    };

    private static ImmutableArray<Route> Find(FloorGraph graph, RouteQuery? query = null) =>
        Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(graph, query ?? Query("Delivery", "Nursery"))).Set.Routes;
}
