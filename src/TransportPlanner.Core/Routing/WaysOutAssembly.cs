using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Routing;

/// <summary>Finds the ways out of each leg: bail-out points, wall oxygen and fire doors, onward and back.</summary>
internal sealed class WaysOutAssembly(PricedGraph priced)
{
    private readonly FloorGraph _floor = priced.Floor;
    private readonly Surroundings _bailOuts = Surroundings.With(priced, FacilityKind.BailOut);
    private readonly Surroundings _oxygen = Surroundings.With(priced, FacilityKind.OxygenOutlet);
    private readonly Surroundings _fireDoors = Surroundings.WithFireDoors(priced);

    /// <param name="arcs">Arcs of the leg.</param>
    /// <param name="destinationSeconds">Expected seconds from its end to the destination.</param>
    public WaysOut Of(ReadOnlySpan<int> arcs, double destinationSeconds)
    {
        var isRide = _floor.ArcElevator[arcs[0]] >= 0;
        var (bailOutOnward, bailOutBack, isBailOutOnLeg) = BothWays(_bailOuts, FacilityKind.BailOut, arcs);
        var (oxygenOnward, oxygenBack, isOxygenOnLeg) = BothWays(_oxygen, FacilityKind.OxygenOutlet, arcs);

        var (fireDoorOnward, fireDoorBack, isFireDoorOnLeg) = FireDoors(arcs, isRide);

        // Who rides is outside any compartment: what counts is where the team boards.
        var start = isRide ? _floor.PlaceEntered(_floor.ArcSource[arcs[0]] ^ 1) : _floor.ArcPlace[arcs[0]];
        return new()
        {
            BailOutOnward = bailOutOnward,
            BailOutBack = bailOutBack,
            IsBailOutBackOnLeg = isBailOutOnLeg,
            OxygenOnward = oxygenOnward,
            OxygenBack = oxygenBack,
            IsOxygenBackOnLeg = isOxygenOnLeg,
            DestinationSeconds = destinationSeconds,
            FireCompartment = CompartmentOf(start),
            FireDoorOnward = fireDoorOnward,
            FireDoorBack = fireDoorBack,
            IsFireDoorBackOnLeg = isFireDoorOnLeg,
        };
    }

    /// <summary>The quicker of the two; onward where they are alike.</summary>
    public static NearbyPlace? Nearer(NearbyPlace? onward, NearbyPlace? back) =>
        back is null || (onward is not null && onward.Seconds <= back.Seconds) ? onward : back;

    private (NearbyPlace? Onward, NearbyPlace? Back, bool IsBackOnLeg) BothWays(Surroundings around, FacilityKind kind, ReadOnlySpan<int> arcs)
    {
        foreach (var arc in arcs)
        {
            if (_floor.Plan.Places[_floor.ArcPlace[arc]] is var place && place.Has(kind))
            {
                var here = new NearbyPlace(place.Number, place.Level!, 0, 0);
                return (here, here, false);
            }
        }

        var back = around.Back(arcs);
        return (Named(around.Onward(arcs)), Named(back), back is { IsAhead: true });
    }

    private (FireDoor? Onward, FireDoor? Back, bool IsBackOnLeg) FireDoors(ReadOnlySpan<int> arcs, bool isRide)
    {
        foreach (var arc in arcs[..^1])
        {
            if (_floor.ArcTarget[arc] is var end && Surroundings.IsFireDoor(_floor, end))
            {
                return (Door(new(end, 0, 0)), Door(new(end ^ 1, 0, 0)), false);
            }
        }

        var back = _fireDoors.Back(arcs);
        return (isRide || CompartmentOf(_floor.ArcPlace[arcs[^1]]) is null ? null : Door(_fireDoors.Onward(arcs)), Door(back), back is { IsAhead: true });
    }

    private NearbyPlace? Named(Surroundings.Reach? reach)
    {
        if (reach is not { } found)
        {
            return null;
        }

        var place = _floor.Plan.Places[(found.Root - _floor.ArrivalVertex(0)) / 2];
        return new(place.Number, place.Level!, found.Metres, found.Seconds);
    }

    private FireDoor? Door(Surroundings.Reach? reach) => reach is { } found
        ? new(_floor.Plan.Passages[FloorGraph.PassageOf(found.Root)].Id, CompartmentOf(_floor.PlaceEntered(found.Root))!, found.Metres, found.Seconds)
        : null;

    private string? CompartmentOf(int place) => _floor.Plan.Places[place].FireCompartment is { IsKnown: true } fact ? fact.Value.Name : null;
}
