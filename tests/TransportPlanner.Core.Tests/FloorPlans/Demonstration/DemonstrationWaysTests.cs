using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Everything is reachable, and four really different ways lead from each delivery room to the isolation nursery.</summary>
public sealed class DemonstrationWaysTests
{
    private static readonly FloorPlan Plan = DemonstrationHospital.Build();
    private static readonly Dictionary<string, Place> Places = Plan.Places.ToDictionary(p => p.Number);

    private static readonly string[] Nursery = ["N-4.01", "N-4.02", "N-4.03", "N-4.04"];

    /// <summary>0.75 m and 50 mm on each side.</summary>
    private const int NeededMillimetres = 850;

    public static readonly TheoryData<string> DeliveryRooms = [.. Plan.Places.Where(p => p.Kind == PlaceKind.DeliveryRoom).Select(p => p.Number)];

    [Fact]
    public void Every_place_can_be_reached_from_the_forecourt()
    {
        var reached = Reached("Z-1.01", _ => true, _ => true);

        Assert.Empty(Places.Keys.Except(reached));
    }

    [Fact]
    public void An_incubator_reaches_every_room_where_an_infant_is_treated()
    {
        var reached = Reached("D-2.14", _ => true, Fits);

        Assert.Empty(Places.Values.Where(p => p.Has(FacilityKind.BailOut)).Select(p => p.Number).Except(reached));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_public_way_needs_no_soiled_or_clean_corridor_and_no_bridge(string from)
    {
        var reached = Reached(from, p => !IsOf(p, CorridorClass.Soiled, CorridorClass.Clean) && !IsBridge(p) && IsWayOrCar(p, "P1", "P2"), Fits);

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
    public void The_clean_way_crosses_only_the_delivery_corridor_on_its_way(string from)
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
        PlaceKind[] passedThrough = [PlaceKind.ElevatorCar, PlaceKind.Anteroom, PlaceKind.Stairwell, PlaceKind.Outdoors];
        var rooms = Plan.Places.Where(p => p.CorridorClass == CorridorClass.None && !passedThrough.Contains(p.Kind));
        foreach (var room in rooms)
        {
            var ways = Plan.Passages.Where(Fits).Where(p => p.From == room.Number || p.To == room.Number).ToList();
            var others = ways.Where(p => Places[p.From == room.Number ? p.To : p.From].Kind != PlaceKind.Sanitary).ToList();
            var inward = others.Count(p => p.Direction == PassageDirection.BothWays || p.To == room.Number);
            Assert.True(inward <= 1 && (others.Count <= 1 || room.Kind == PlaceKind.DeliveryRoom), $"{room.Number} {room.Name} is a way through.");
        }
    }

    [Fact]
    public void The_tempting_short_cuts_are_there_and_fail()
    {
        var staffDoor = Plan.Passages.Single(p => p.From == "H-4.05" && p.To == "HN-4.01");
        var passage = Plan.Passages.Where(p => p.From == "HR-2.01").ToList();

        Assert.Equal(820, staffDoor.ClearWidth.Value.Millimetres);
        // Wide enough at both doors; the bends between them are not (DemonstrationCheckTests).
        Assert.All(passage, p => Assert.True(p.ClearWidth.Value.Millimetres >= NeededMillimetres));
    }

    private static bool Fits(Passage passage) =>
        passage.Kind != PassageKind.StairFlight && passage.ClearWidth is { IsKnown: true, Value.Millimetres: >= NeededMillimetres };

    private static bool IsOf(Place place, params CorridorClass[] classes) => classes.Contains(place.CorridorClass);
    private static bool IsBridge(Place place) => place.Kind == PlaceKind.LinkBridge;

    /// <summary>Rooms that are not on any way stay out, so that no way leads through an intensive-care bay or a store.</summary>
    private static bool IsWayOrCar(Place place, params string[] cars) =>
        place.Kind is PlaceKind.ElevatorCar
            ? cars.Contains(place.Number)
            : place.CorridorClass != CorridorClass.None || place.Kind is PlaceKind.DeliveryRoom or PlaceKind.Anteroom or PlaceKind.IsolationRoom;

    private static HashSet<string> Reached(string from, Func<Place, bool> place, Func<Passage, bool> passage)
    {
        var usable = Plan.Passages.Where(passage).ToList();
        var steps = usable.Select(p => (p.From, p.To))
            .Concat(usable.Where(p => p.Direction == PassageDirection.BothWays).Select(p => (From: p.To, To: p.From)));
        var next = steps.Where(step => place(Places[step.To])).ToLookup(step => step.From, step => step.To);
        var reached = new HashSet<string> { from };
        var queue = new Queue<string>(reached);
        while (queue.TryDequeue(out var here))
        {
            foreach (var there in next[here].Where(reached.Add))
            {
                queue.Enqueue(there);
            }
        }

        return reached;
    }
}
