using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Posts;

/// <summary>What has to be held, watched, opened and captured for one way.</summary>
public sealed record RoutePosts
{
    /// <summary>Id of the way.</summary>
    public required string RouteId { get; init; }

    /// <summary>UTC.</summary>
    public required DateTimeOffset Departure { get; init; }

    /// <summary>In the order of the way. Cars are not among them: they are captured.</summary>
    public required ImmutableArray<HeldPlace> Places { get; init; }

    /// <summary>Ordered by beginning.</summary>
    public required ImmutableArray<Post> Posts { get; init; }

    /// <summary>Doors onto held places behind which next to nobody is.</summary>
    public required ImmutableArray<QuietDoor> QuietDoors { get; init; }

    /// <summary>Doors on the way, in order.</summary>
    public required ImmutableArray<DoorToOpen> DoorsToOpen { get; init; }

    /// <summary>Elevators on the way that are held, in order.</summary>
    public required ImmutableArray<ElevatorCapture> Elevators { get; init; }

    /// <summary>Posts of one way, from its times and what the site holds.</summary>
    /// <param name="graph">The floor graph on which the way was found.</param>
    /// <param name="query">The query that found it.</param>
    /// <param name="route">The way.</param>
    /// <param name="settings">What the site says about posts.</param>
    /// <remarks>
    /// A place is held from the lead before the earliest moment the team can be there until the team has nearly always (P90) left it and the
    /// hold is over; a landing until the doors of the car are shut behind the team. Beginnings are rounded down to whole seconds, ends up.
    /// Deterministic.
    /// </remarks>
    public static RoutePosts For(FloorGraph graph, RouteQuery query, Route route, PostSettings settings)
    {
        ArgumentNullException.ThrowIfNull(graph);
        ArgumentNullException.ThrowIfNull(query);
        ArgumentNullException.ThrowIfNull(route);
        ArgumentNullException.ThrowIfNull(settings);
        var arrivals = route.Arrivals;
        var times = new ArcTimes(graph.Plan, query.Travel, LocalQuarterHour.At(graph.Plan.TimeZone, query.Travel.Departure));
        var places = HeldPlaces(graph, query, route, settings, times);
        var elevators = Captures(graph, query, route, settings, times);
        var doors = new SideDoors(graph, query, route, settings, places, elevators);
        var (posts, quiet) = doors.Posts();
        return new()
        {
            RouteId = route.Id,
            Departure = query.Travel.Departure,
            Places = places,
            Posts = posts,
            QuietDoors = quiet,
            DoorsToOpen = DoorsOf(graph, query, route, arrivals),
            Elevators = elevators,
        };
    }

    private static ImmutableArray<HeldPlace> HeldPlaces(
        FloorGraph graph, RouteQuery query, Route route, PostSettings settings, ArcTimes times)
    {
        var arrivals = route.Arrivals;
        var isCleared = (settings.ClearedFor & query.Precautions) != PrecautionSet.None;
        var lead = settings.LeadSeconds + (isCleared ? settings.ClearSeconds : 0);
        double Boarding(int after) => after < route.Arcs.Length && graph.ArcElevator[route.Arcs[after]] is var ridden and >= 0
            ? times.Boarding(graph.Plan.Elevators[ridden]).MaximumSeconds
            : 0;
        return
        [
            .. from crossing in route.Arcs.Select((arc, i) => (Place: graph.ArcPlace[arc], Index: i))
            group crossing.Index by crossing.Place into crossings
            let place = graph.Plan.Places[crossings.Key]
            where query.Exposure.Holds(place.CorridorClass, query.Precautions)
            let arrives = arrivals[crossings.First()]
            let leaves = arrivals[crossings.Last() + 1]
            let released = leaves.NearlyAlwaysSeconds + Boarding(crossings.Last() + 1) + query.Exposure.HoldMinutes * 60
            select new HeldPlace(
                place.Number, arrives, leaves, isCleared, new(NotAfter(query, arrives.EarliestSeconds - lead), NotBefore(query, released)),
                query.Exposure.Closes(query.Precautions) ? NotBefore(query, released + query.Exposure.AiringMinutes * 60) : null,
                (settings.PlacesCleanedFor & query.Precautions) != PrecautionSet.None)
        ];
    }

    private static ImmutableArray<ElevatorCapture> Captures(
        FloorGraph graph, RouteQuery query, Route route, PostSettings settings, ArcTimes times)
    {
        var arrivals = route.Arrivals;
        var isCleaned = (settings.CarsCleanedFor & query.Precautions) != PrecautionSet.None;
        var afterwards = query.Exposure.CarParkMinutes + (isCleaned ? settings.CarCleaningMinutes : 0);
        var captures = ImmutableArray.CreateBuilder<ElevatorCapture>();
        for (var i = 1; i < route.Arcs.Length; i++)
        {
            var arc = route.Arcs[i];
            if (graph.ArcElevator[arc] is not (var index and >= 0) || graph.Plan.Elevators[index] is not { } elevator
                || !(query.Travel.HeldElevators && elevator.CanBeHeld))
            {
                continue;
            }

            // A car that is not there yet has to be waited for like any other, before it can be kept.
            var called = Math.Max(settings.CaptureSeconds, times.WaitUnheld(elevator).NearlyAlwaysSeconds);
            captures.Add(new(
                elevator.Id, elevator.Name,
                graph.Plan.Places[graph.ArcPlace[route.Arcs[i - 1]]].Number,
                graph.Plan.Passages[FloorGraph.PassageOf(graph.ArcSource[arc])].Id,
                elevator.PriorityControl,
                new(
                    NotAfter(query, arrivals[i - 1].EarliestSeconds - called),
                    NotBefore(query, arrivals[i].NearlyAlwaysSeconds + times.Boarding(elevator).MaximumSeconds)),
                arrivals[i - 1],
                graph.Plan.Places[graph.PlaceEntered(graph.ArcTarget[arc])].Number,
                NotBefore(query, arrivals[i + 1].NearlyAlwaysSeconds + afterwards * 60),
                isCleaned));
        }

        return captures.ToImmutable();
    }

    private static DateTimeOffset NotAfter(RouteQuery query, double seconds) => query.Travel.Departure.AddSeconds(Math.Floor(seconds + 1e-9));

    private static DateTimeOffset NotBefore(RouteQuery query, double seconds) => query.Travel.Departure.AddSeconds(Math.Ceiling(seconds - 1e-9));

    private static ImmutableArray<DoorToOpen> DoorsOf(FloorGraph graph, RouteQuery query, Route route, ImmutableArray<Arrival> arrivals) =>
    [
        .. from crossing in route.Arcs.Select((arc, i) => (Arc: arc, Passes: arrivals[i + 1]))
        let target = graph.ArcTarget[crossing.Arc]
        where graph.IsTraversal(target)
        let passage = graph.Plan.Passages[FloorGraph.PassageOf(target)]
        where passage is { IsDoor: true, Kind: not PassageKind.LandingDoor }
        select new DoorToOpen(
            passage.Id, passage.Kind, passage.Access,
            graph.Plan.Places[graph.ArcPlace[crossing.Arc]].Number, graph.Plan.Places[graph.PlaceEntered(target)].Number,
            query.Travel.WithHelper ? DoorOpener.CleanHelper : DoorOpener.Crew, crossing.Passes)
    ];
}
