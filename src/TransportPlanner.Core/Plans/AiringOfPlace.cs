using System.Collections.Immutable;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Plans;

/// <summary>How long the air of a place needs after the transport has left it. A person opens the place, never the clock.</summary>
/// <param name="Place">Number of the place.</param>
/// <param name="Time">Minutes and working; for an elevator car parked with its doors open.</param>
/// <param name="DoorsShut">For an elevator car parked with its doors shut; null for every other place.</param>
/// <param name="RouteIds">Ways that cross the place.</param>
public sealed record AiringOfPlace(string Place, AiringTime Time, AiringTime? DoorsShut, ImmutableArray<string> RouteIds)
{
    /// <summary>The places that the ways leave behind, in the order of the journey: the destination stays in use and is not among them.</summary>
    internal static ImmutableArray<AiringOfPlace> Of(FloorGraph graph, RouteSet routes, string destination, PlanSettings settings)
    {
        var crossings =
            from route in routes.Routes
            from arc in route.Arcs
            let place = graph.Plan.Places[graph.ArcPlace[arc]]
            where place.Number != destination
            group route.Id by place;
        return [.. crossings.Select(c => For(graph.Plan, c.Key, settings) with { RouteIds = [.. c.Distinct()] })];
    }

    private static AiringOfPlace For(FloorPlan plan, Place place, PlanSettings settings)
    {
        AirChangeRate? airChanges = place.AirChanges.IsKnown && place.AirChanges.Value.PerHour >= AiringTime.MinAirChangesPerHour ? place.AirChanges.Value : null;
        if (place.Kind == PlaceKind.ElevatorCar)
        {
            var open = plan.Elevators.FirstOrDefault(e => e.Car == place.Number)?.AirChangesDoorsOpen.OrNull;
            return new(
                place.Number,
                AiringTime.ForElevatorCar(doorsOpen: true, open, settings.RemovalPercent, settings.MixingFactor),
                AiringTime.ForElevatorCar(doorsOpen: false, airChanges, settings.RemovalPercent, settings.MixingFactor),
                []);
        }

        var time = IsWalkedThrough(place) || airChanges is null
            ? AiringTime.ByPolicy(settings.AiringPolicy, airChanges)
            : AiringTime.For(airChanges.Value, settings.RemovalPercent, settings.MixingFactor);
        return new(place.Number, time, null, []);
    }

    /// <summary>Places that nobody can close for the hours a formula with two air changes would ask.</summary>
    private static bool IsWalkedThrough(Place place) =>
        place.CorridorClass != CorridorClass.None
        || place.Kind is PlaceKind.Corridor or PlaceKind.Ramp or PlaceKind.LinkBridge or PlaceKind.Lobby or PlaceKind.WaitingArea or PlaceKind.ElevatorLanding or PlaceKind.Outdoors;
}
