using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Turns the arcs of a way into legs, doors, rides and lines to draw.</summary>
internal sealed class LegAssembly(PricedGraph priced)
{
    private readonly WaysOutAssembly _waysOut = new(priced);

    public ImmutableArray<Leg> Legs(ReadOnlySpan<int> arcs, ImmutableArray<Arrival> arrivals)
    {
        var legs = ImmutableArray.CreateBuilder<Leg>();
        for (var first = 0; first < arcs.Length;)
        {
            var count = 1;
            while (first + count < arcs.Length && IsSameStretch(priced.Floor, arcs[first], arcs[first + count]))
            {
                count++;
            }

            var stretch = arcs.Slice(first, count);
            legs.Add(OneLeg(stretch, arrivals[first + count], priced.Seconds(arcs[(first + count)..].ToArray())));
            first += count;
        }

        return legs.ToImmutable();
    }

    /// <summary>One line per level and stretch between rides, in order.</summary>
    public static ImmutableArray<LevelPath> Paths(FloorGraph floor, ReadOnlySpan<int> arcs)
    {
        var paths = new List<(string Level, List<PlanPoint> Points)>();
        var isOpen = false;
        foreach (var arc in arcs)
        {
            if (floor.Plan.Places[floor.ArcPlace[arc]].Level is not { } level)
            {
                isOpen = false;
                continue;
            }

            if (!isOpen || paths[^1].Level != level)
            {
                paths.Add((level, []));
                isOpen = true;
            }

            var points = paths[^1].Points;
            points.AddRange(points.Count > 0 && points[^1] == floor.ArcPath[arc][0] ? floor.ArcPath[arc].Skip(1) : floor.ArcPath[arc]);
        }

        return [.. paths.Select(path => new LevelPath(path.Level, [.. path.Points]))];
    }

    /// <summary>The door that an arc ends at; null for an opening, a stair flight and a standing point.</summary>
    private Passage? DoorAtEnd(int arc) =>
        priced.Travel.PassageAtEnd(arc) is { } passage && priced.Floor.Plan.Passages[passage] is { IsDoor: true } door ? door : null;

    private Leg OneLeg(ReadOnlySpan<int> arcs, Arrival ends, double destinationSeconds)
    {
        var (floor, plan) = (priced.Floor, priced.Floor.Plan);
        var (first, last) = (arcs[0], arcs[^1]);
        var all = arcs.ToArray();
        var exposures = all.Select(priced.Exposure.Of).ToArray();
        var ride = floor.ArcElevator[first] >= 0 ? Ride(first) : null;
        var waysOut = _waysOut.Of(arcs, destinationSeconds);
        var places = all.Select(arc => plan.Places[floor.ArcPlace[arc]].Number).ToImmutableArray();
        return new()
        {
            FromPlace = ride is null ? places[0] : Landing(floor, floor.ArcSource[first]).Number,
            ToPlace = ride is null ? places[^1] : Landing(floor, floor.ArcTarget[last]).Number,
            Passage = floor.IsTraversal(floor.ArcSource[first]) ? plan.Passages[FloorGraph.PassageOf(floor.ArcSource[first])].Id : null,
            Kind = Kind(plan.Places[floor.ArcPlace[first]]),
            Level = ride?.FromLevel ?? plan.Places[floor.ArcPlace[first]].Level!,
            Places = places,
            Metres = all.Sum(arc => (long)floor.ArcLength[arc]) / 1000.0,
            ExpectedSeconds = priced.Seconds(all),
            Ends = ends,
            Exposure = exposures.Select(exposure => exposure.NobodyHeld).Aggregate((sum, figures) => sum + figures),
            ExposureIfPostsHold = exposures.Select(exposure => exposure.IfPostsHold).Aggregate((sum, figures) => sum + figures),
            Doors = [.. all.Select(DoorAtEnd).OfType<Passage>().Select(Door)],
            Ride = ride,
            BailOut = WaysOutAssembly.Nearer(waysOut.BailOutOnward, waysOut.BailOutBack),
            NearestOxygenOutlet = WaysOutAssembly.Nearer(waysOut.OxygenOnward, waysOut.OxygenBack),
            WaysOut = waysOut,
        };
    }

    private static DoorOnWay Door(Passage door) =>
        new(door.Id, door.Kind, door.Access, door.ClearWidth.IsKnown ? (int)door.ClearWidth.Value.Millimetres : null);

    private RideOnWay Ride(int arc)
    {
        var floor = priced.Floor;
        var elevator = floor.Plan.Elevators[floor.ArcElevator[arc]];
        return new(
            elevator.Id, elevator.Name, Landing(floor, floor.ArcSource[arc]).Level!, Landing(floor, floor.ArcTarget[arc]).Level!,
            priced.Query.Travel.HeldElevators && elevator.CanBeHeld);
    }

    /// <summary>The place on the other side of a landing door, seen from the car.</summary>
    private static Place Landing(FloorGraph floor, int traversal)
    {
        var door = floor.Plan.Passages[FloorGraph.PassageOf(traversal)];
        var from = floor.Plan.Places[floor.PlaceIndex[door.From]];
        return from.Kind == PlaceKind.ElevatorCar ? floor.Plan.Places[floor.PlaceIndex[door.To]] : from;
    }

    private static bool IsSameStretch(FloorGraph floor, int a, int b)
    {
        var (first, second) = (floor.Plan.Places[floor.ArcPlace[a]], floor.Plan.Places[floor.ArcPlace[b]]);
        return first.Kind != PlaceKind.ElevatorCar && first.Level == second.Level && Kind(first) == Kind(second);
    }

    private static LegKind Kind(Place place) => place.Kind switch
    {
        PlaceKind.ElevatorCar => LegKind.ElevatorRide,
        PlaceKind.Ramp => LegKind.Ramp,
        PlaceKind.LinkBridge => LegKind.LinkBridge,
        PlaceKind.Outdoors => LegKind.Outdoors,
        _ => place.CorridorClass switch
        {
            CorridorClass.Clean => LegKind.CleanCorridor,
            CorridorClass.Soiled => LegKind.SoiledCorridor,
            CorridorClass.Public => LegKind.PublicCorridor,
            CorridorClass.Restricted => LegKind.RestrictedCorridor,
            _ => LegKind.Room,
        },
    };
}
