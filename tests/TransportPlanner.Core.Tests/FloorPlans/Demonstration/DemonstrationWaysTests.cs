using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>
/// Everything is reachable, and four really different ways that the assumed incubator fits lead from each delivery room to the isolation
/// nursery. An unknown limit counts as an obstacle here, so that the four ways rest on known figures.
/// </summary>
public sealed class DemonstrationWaysTests
{
    private static readonly FloorGraph Graph = FloorGraphBuilder.Build(DemonstrationHospital.Build());
    private static readonly TravelProfile Incubator = TravelProfile.For(
        Graph, new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 5, 4, 1, 10, 0, TimeSpan.Zero), AvoidUnknown = true });

    private static readonly string[] Nursery = ["N-4.01", "N-4.02", "N-4.03", "N-4.04"];

    public static readonly TheoryData<string> DeliveryRooms =
        [.. Graph.Plan.Places.Where(p => p.Kind == PlaceKind.DeliveryRoom).Select(p => p.Number)];

    [Fact]
    public void Every_place_can_be_reached_on_foot_from_the_forecourt()
    {
        var reached = Reached("Z-1.01", _ => true, _ => true);

        Assert.Empty(Graph.Plan.Places.Select(p => p.Number).Except(reached));
    }

    [Fact]
    public void An_incubator_reaches_every_bail_out_point()
    {
        var reached = Reached("D-2.14", _ => true, Fits);

        Assert.Empty(Graph.Plan.Places.Where(p => p.Has(FacilityKind.BailOut)).Select(p => p.Number).Except(reached));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_public_way_needs_no_soiled_or_clean_corridor_and_no_bridge(string from)
    {
        var reached = Reached(
            from, p => !IsOf(p, CorridorClass.Soiled, CorridorClass.Clean) && !IsBridge(p) && IsWayOrCar(p, "P1", "P2"), Fits);

        Assert.Empty(Nursery.Except(reached));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_soiled_way_meets_no_public_and_no_clean_corridor(string from)
    {
        var reached = Reached(from, p => !IsOf(p, CorridorClass.Public, CorridorClass.Clean) && IsWayOrCar(p, "S1"), Fits);

        Assert.Empty(Nursery.Except(reached));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_clean_way_crosses_no_public_corridor_but_the_delivery_corridor(string from)
    {
        var reached = Reached(
            from,
            p => (!IsOf(p, CorridorClass.Soiled, CorridorClass.Public) || p.Number is "H-2.01" or "H-2.02" or "H-2.03")
                && !IsBridge(p) && IsWayOrCar(p, "C1", "C2"),
            Fits);

        Assert.Empty(Nursery.Except(reached));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_bridge_way_avoids_the_middle_block_and_the_public_elevators(string from)
    {
        string[] middle = ["HS-0.03", "HS-1.03", "HS-2.03", "HS-3.03", "HS-4.03", "HC-2.04"];
        bool OutsideTheMiddle(Place p) => !p.Number.EndsWith(".10", StringComparison.Ordinal) && !middle.Contains(p.Number);

        var withBridge = Reached(from, p => OutsideTheMiddle(p) && IsWayOrCar(p, "S1", "C1", "C2"), Fits);
        var withoutBridge = Reached(from, p => OutsideTheMiddle(p) && !IsBridge(p) && IsWayOrCar(p, "S1", "C1", "C2"), Fits);

        Assert.Empty(Nursery.Except(withBridge));
        Assert.DoesNotContain("N-4.03", withoutBridge);
    }

    /// <summary>A delivery room has a second door, which lets out to the soiled corridor only.</summary>
    [Fact]
    public void No_way_leads_through_a_room_where_somebody_else_lies()
    {
        PlaceKind[] passedThrough = [PlaceKind.ElevatorCar, PlaceKind.Anteroom];
        var visited = Visited("D-2.14", _ => true, Fits);
        foreach (var arc in Enumerable.Range(0, Graph.ArcCount).Where(arc => visited.Contains(Graph.ArcSource[arc]) && Fits(arc)))
        {
            var (source, target, room) = (Graph.ArcSource[arc], Graph.ArcTarget[arc], Graph.Plan.Places[Graph.ArcPlace[arc]]);
            if (room.CorridorClass == CorridorClass.None && !passedThrough.Contains(room.Kind) && LeadsOn(source ^ 1) && LeadsOn(target))
            {
                Assert.True(room.Kind == PlaceKind.DeliveryRoom, $"{room.Number} {room.Name} is a way through.");
                Assert.Equal(PassageDirection.Forward, Graph.Plan.Passages[FloorGraph.PassageOf(target)].Direction);
            }
        }

        // The other direction of a traversal is its number with the last bit turned; a room's own sanitary cell leads nowhere.
        static bool LeadsOn(int vertex) =>
            Graph.IsTraversal(vertex) && Graph.Plan.Places[Graph.PlaceEntered(vertex)].Kind != PlaceKind.Sanitary;
    }

    /// <summary>What the product answers at the small elevator, the store passage, the staff door, the magnet zone and the stairs.</summary>
    [Theory]
    [InlineData("P3", LimitKind.CarLength)]
    [InlineData("HR-2.01", LimitKind.Corner)]
    [InlineData("H-4.05", LimitKind.ClearWidth)]
    [InlineData("I-1.04", LimitKind.NoCylinders)]
    [InlineData("ST1-2", LimitKind.StairFlight)]
    public void A_tempting_short_cut_fails_by_a_limit_of_its_own(string place, LimitKind expected)
    {
        var crossing = Enumerable.Range(0, Graph.ArcCount)
            .Where(arc => Graph.Plan.Places[Graph.ArcPlace[arc]].Number == place)
            .Where(arc => place != "H-4.05" || Incubator.PassageAtEnd(arc) is { } p && Graph.Plan.Passages[p].To == "HN-4.01")
            .Select(arc => Incubator.ObstacleOf(arc)?.Kind);

        Assert.Contains(expected, crossing);
    }

    private static bool Fits(int arc) => Incubator.ObstacleOf(arc) is null;
    private static bool IsOf(Place place, params CorridorClass[] classes) => classes.Contains(place.CorridorClass);
    private static bool IsBridge(Place place) => place.Kind == PlaceKind.LinkBridge;

    /// <summary>Rooms that are not on any way stay out.</summary>
    private static bool IsWayOrCar(Place place, params string[] cars) =>
        place.Kind is PlaceKind.ElevatorCar
            ? cars.Contains(place.Number)
            : place.CorridorClass != CorridorClass.None
                || place.Kind is PlaceKind.DeliveryRoom or PlaceKind.Anteroom or PlaceKind.IsolationRoom;

    private static HashSet<string> Reached(string from, Func<Place, bool> place, Func<int, bool> arc) =>
        [from, .. Visited(from, place, arc).Where(Graph.IsTraversal).Select(v => Graph.Plan.Places[Graph.PlaceEntered(v)].Number)];

    private static HashSet<int> Visited(string from, Func<Place, bool> place, Func<int, bool> arc)
    {
        var start = Graph.DepartureVertex(Graph.PlaceIndex[from]);
        var (visited, queue) = (new HashSet<int> { start }, new Queue<int>([start]));
        while (queue.TryDequeue(out var here))
        {
            for (var a = Graph.FirstArc[here]; a < Graph.FirstArc[here + 1]; a++)
            {
                var there = Graph.ArcTarget[a];
                if (arc(a) && (!Graph.IsTraversal(there) || place(Graph.Plan.Places[Graph.PlaceEntered(there)])) && visited.Add(there))
                {
                    queue.Enqueue(there);
                }
            }
        }

        return visited;
    }
}
