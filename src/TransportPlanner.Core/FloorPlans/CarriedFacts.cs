using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// What people found out about a building and a newer handover file does not know: it stays. Of two known figures the better source is
/// kept (measured before drawing before assumed), of equal sources the later day; a draw goes to the plan in force.
/// </summary>
public static class CarriedFacts
{
    /// <param name="draft">A plan made from a handover file.</param>
    /// <param name="inForce">The published plan of the site.</param>
    /// <returns>The draft with the facts of places, passages, elevators and groups that have the same number, or the same spot and another number.</returns>
    public static FloorPlan Onto(FloorPlan draft, FloorPlan inForce)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(inForce);
        var renumbered = PlanComparison.Renumbered(inForce, draft);
        var places = inForce.Places.ToDictionary(place => place.Number, StringComparer.Ordinal);
        var passages = inForce.Passages.ToDictionary(passage => passage.Id, StringComparer.Ordinal);
        var elevators = inForce.Elevators.ToDictionary(elevator => elevator.Id, StringComparer.Ordinal);
        var groups = inForce.ElevatorGroups.ToDictionary(group => group.Id, StringComparer.Ordinal);
        return WithDrawn(inForce, renumbered, draft with
        {
            Places = [.. draft.Places.Select(place => places.TryGetValue(renumbered.GetValueOrDefault(place.Number, place.Number), out var known) ? Of(place, known) : place)],
            Passages = [.. draft.Passages.Select(passage => passages.TryGetValue(passage.Id, out var known) ? Of(passage, known) : passage)],
            Elevators = [.. draft.Elevators.Select(elevator => elevators.TryGetValue(elevator.Id, out var known) ? Of(elevator, known) : elevator)],
            ElevatorGroups = [.. draft.ElevatorGroups.Select(group => group.MeanCallWaitSeconds is null && groups.TryGetValue(group.Id, out var known)
                ? group with { MeanCallWaitSeconds = known.MeanCallWaitSeconds, WaitSource = known.WaitSource }
                : group)],
        });
    }

    /// <summary>Ways and stops that a person drew stand while both places do: no handover file knows them.</summary>
    private static FloorPlan WithDrawn(FloorPlan inForce, IReadOnlyDictionary<string, string> renumbered, FloorPlan draft)
    {
        var now = renumbered.ToDictionary(pair => pair.Value, pair => pair.Key, StringComparer.Ordinal);
        var places = draft.Places.DistinctBy(place => place.Number).ToDictionary(place => place.Number, StringComparer.Ordinal);
        var taken = draft.Passages.Select(passage => passage.Id).ToHashSet(StringComparer.Ordinal);
        var drawn = inForce.Passages.Where(passage => passage.Id.StartsWith(PlanCorrections.DrawnPrefix, StringComparison.Ordinal) && !taken.Contains(passage.Id))
            .Select(passage => passage with { From = now.GetValueOrDefault(passage.From, passage.From), To = now.GetValueOrDefault(passage.To, passage.To) })
            .Where(passage => Touches(passage, passage.From) && Touches(passage, passage.To)).ToDictionary(passage => passage.Id, StringComparer.Ordinal);
        var stops = (from elevator in inForce.Elevators
                     from stop in elevator.Stops
                     where drawn.ContainsKey(stop.LandingDoor)
                     select (elevator.Id, Stop: stop with { Landing = now.GetValueOrDefault(stop.Landing, stop.Landing) }))
            .Where(pair => draft.Elevators.Any(elevator => elevator.Id == pair.Id && elevator.Stops.All(stop => stop.Landing != pair.Stop.Landing)))
            .ToLookup(pair => pair.Id, pair => pair.Stop, StringComparer.Ordinal);
        var doors = stops.SelectMany(all => all).Select(stop => stop.LandingDoor).ToHashSet(StringComparer.Ordinal);
        return draft with
        {
            Passages = [.. draft.Passages, .. drawn.Values.Where(passage => passage.Kind != PassageKind.LandingDoor || doors.Contains(passage.Id))],
            Elevators = [.. draft.Elevators.Select(elevator => elevator with { Stops = [.. elevator.Stops, .. stops[elevator.Id]] })],
        };

        // Where the newer outline moved away, the way is a question again: it is gone, which is a finding.
        bool Touches(Passage passage, string number) => places.TryGetValue(number, out var place) && (place.Level is null || (place.Outline.Corners.Length >= 3
            && new PlaceShape(place.Outline).Nearest(new((passage.Line.A.X + passage.Line.B.X) / 2, (passage.Line.A.Y + passage.Line.B.Y) / 2), null).Metres <= FloorGraphBuilder.DoorToleranceMetres));
    }

    private static Place Of(Place place, Place known) => place with
    {
        // A kind is guessed from a word; the one in force was confirmed by a person, for the room of that name.
        Kind = place.Name == known.Name ? known.Kind : place.Kind,
        CorridorClass = place.CorridorClass == CorridorClass.None ? known.CorridorClass : place.CorridorClass,
        Height = Better(place.Height, known.Height),
        AirChanges = Better(place.AirChanges, known.AirChanges),
        Pressure = Better(place.Pressure, known.Pressure),
        FireCompartment = Better(place.FireCompartment, known.FireCompartment),
        GradientPercent = Better(place.GradientPercent, known.GradientPercent),
        Occupancy = place.Occupancy ?? known.Occupancy,
        OccupancySource = place.Occupancy is null ? known.OccupancySource : place.OccupancySource,
        Flags = place.Flags == PlaceFlags.None ? known.Flags : place.Flags,
        Facilities = place.Facilities.IsEmpty ? known.Facilities : place.Facilities,
        StandingPoint = place.StandingPoint ?? known.StandingPoint,
    };

    private static Passage Of(Passage passage, Passage known) => passage with
    {
        Kind = (passage.From, passage.To) == (known.From, known.To) ? known.Kind : passage.Kind,
        ClearWidth = Better(passage.ClearWidth, known.ClearWidth),
        ClearHeight = Better(passage.ClearHeight, known.ClearHeight),
        Threshold = Better(passage.Threshold, known.Threshold),
        Access = passage.Access == AccessControl.None ? known.Access : passage.Access,
        Direction = (passage.From, passage.To) == (known.From, known.To) && passage.Direction == PassageDirection.BothWays ? known.Direction : passage.Direction,
        OpeningWithHelper = Better(passage.OpeningWithHelper, known.OpeningWithHelper),
        OpeningAlone = Better(passage.OpeningAlone, known.OpeningAlone),
        FlightLength = Better(passage.FlightLength, known.FlightLength),
    };

    private static Elevator Of(Elevator elevator, Elevator known) => elevator with
    {
        CarLength = Better(elevator.CarLength, known.CarLength),
        CarWidth = Better(elevator.CarWidth, known.CarWidth),
        DoorWidth = Better(elevator.DoorWidth, known.DoorWidth),
        RatedLoadKilograms = Better(elevator.RatedLoadKilograms, known.RatedLoadKilograms),
        RatedSpeedMetresPerSecond = Better(elevator.RatedSpeedMetresPerSecond, known.RatedSpeedMetresPerSecond),
        AccelerationMetresPerSecondSquared = Better(elevator.AccelerationMetresPerSecondSquared, known.AccelerationMetresPerSecondSquared),
        JerkMetresPerSecondCubed = Better(elevator.JerkMetresPerSecondCubed, known.JerkMetresPerSecondCubed),
        DoorOpening = Better(elevator.DoorOpening, known.DoorOpening),
        DoorClosing = Better(elevator.DoorClosing, known.DoorClosing),
        AirChangesDoorsOpen = Better(elevator.AirChangesDoorsOpen, known.AirChangesDoorsOpen),
        PriorityControl = elevator.PriorityControl == AccessControl.None ? known.PriorityControl : elevator.PriorityControl,
        CanBeHeld = elevator.CanBeHeld || known.CanBeHeld,
        StallProbability = Better(elevator.StallProbability, known.StallProbability),
        StallDuration = Better(elevator.StallDuration, known.StallDuration),
    };

    private static Fact<T> Better<T>(Fact<T> draft, Fact<T> known)
        where T : struct =>
        !known.IsKnown ? draft
        : !draft.IsKnown ? known
        : draft.Source != known.Source ? (draft.Source > known.Source ? draft : known)
        : (draft.AsOf ?? DateOnly.MinValue) > (known.AsOf ?? DateOnly.MinValue) ? draft : known;
}
