using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Ways from one place to another: the exact set over time, exposure and handling, the few that people see, and why the others are not among them.</summary>
public static class RouteFinder
{
    /// <summary>
    /// Hard limits and closures filter first; then the exact set; then the choice. Deterministic. Rooms are crossed only where nothing else
    /// leads there, and each way says through which.
    /// </summary>
    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="query">Who travels where, when, how.</param>
    /// <param name="cancellation">The caller gives up: the search throws.</param>
    /// <param name="deadline">Time is over: the answer is merged from what is there and states its ε.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public static RouteOutcome Find(
        FloorGraph graph, RouteQuery query, CancellationToken cancellation = default, CancellationToken deadline = default)
    {
        ArgumentNullException.ThrowIfNull(graph);
        ArgumentNullException.ThrowIfNull(query);
        if (PlaceOf(graph, query.From) is not { } from)
        {
            return new RouteOutcome.None(NoRouteReason.UnknownOrigin, query.From, Statement.Of(StatementText.NoOrigin, query.From));
        }

        if (PlaceOf(graph, query.To) is not { } to)
        {
            return new RouteOutcome.None(NoRouteReason.UnknownDestination, query.To, Statement.Of(StatementText.NoDestination, query.To));
        }

        if (from == to)
        {
            return new RouteOutcome.None(NoRouteReason.SamePlace, query.To, Statement.Of(StatementText.SamePlace, query.To));
        }

        var (origin, target) = (graph.DepartureVertex(from), graph.ArrivalVertex(to));
        var priced = new PricedGraph(graph, query);
        var set = ParetoSearch.Find(priced.Costs, origin, target, priced.Allowed, cancellation, deadline);
        if (set.Members.IsEmpty && set.IsComplete && !query.ThroughRooms)
        {
            priced = new(graph, query with { ThroughRooms = true });
            set = ParetoSearch.Find(priced.Costs, origin, target, priced.Allowed, cancellation, deadline);
        }

        var detours = new Detours(priced, origin, target);
        if (set.Members.IsEmpty && set.IsComplete)
        {
            return Nothing(query, detours.InTheWay(cancellation));
        }

        var chosen = RouteSelection.Choose([.. set.Members.Select(member => member.Costs)], new SharedLength(graph, set.Members).Between);
        var assembly = new RouteAssembly(priced, target);
        var routes = chosen
            .Select((way, i) => assembly.Assemble(((char)('A' + i)).ToString(), way.Reasons, set.Members[way.Position]))
            .ToImmutableArray();
        cancellation.ThrowIfCancellationRequested();
        var hasWindow = query.DepartureWindow > TimeSpan.Zero && set.IsComplete;
        return new RouteOutcome.Found(new()
        {
            Routes = WithNextQuarter(graph, priced.Query, routes),
            Departures = hasWindow ? DepartureWindow.Of(graph, priced.Query, set, priced, origin, target, cancellation, deadline) : [],
            Front = [.. set.Members.Select(m => new FrontPoint(m.Costs[0] / 10.0, m.Costs[1] / 1e6, m.Costs[2]))],
            IsComplete = set.IsComplete,
            Epsilon = double.IsFinite(set.Epsilon) ? set.Epsilon : null,
            NotChosen = routes.IsEmpty ? [] : new WhyNot(priced, detours, routes).Sentences(set.Members, [.. chosen.Select(way => way.Position)]),
        });
    }

    /// <summary>Costs hold for the quarter-hour of departure; a way that runs past its end also says how many people are there then.</summary>
    private static ImmutableArray<Route> WithNextQuarter(FloorGraph graph, RouteQuery query, ImmutableArray<Route> routes)
    {
        var (departure, next) = (query.Travel.Departure, DepartureWindow.Next(query.Travel.Departure));
        if (routes.All(route => departure.AddSeconds(route.Time.NearlyAlwaysSeconds) <= next))
        {
            return routes;
        }

        var then = new PricedGraph(graph, query with { Travel = query.Travel with { Departure = next } });
        return
        [
            .. routes.Select(route => departure.AddSeconds(route.Time.NearlyAlwaysSeconds) <= next
                ? route
                : route with { NextQuarter = new(next, then.PeopleLikelyMet(route.Arcs)) }),
        ];
    }

    /// <summary>Names the first obstacle; of a conveyance that is too wide the tightest on that way, which a narrower one has to pass too.</summary>
    private static RouteOutcome.None Nothing(RouteQuery query, IReadOnlyList<Obstacle> inTheWay)
    {
        if (inTheWay is not [var first, ..])
        {
            return new(NoRouteReason.NotConnected, query.To, Statement.Of(StatementText.NotConnected, query.From, query.To));
        }

        List<Obstacle> narrow = IsTooNarrow(first) ? [.. inTheWay.Where(IsTooNarrow)] : [];
        var named = narrow.MinBy(obstacle => obstacle.Present) ?? first;
        var statement = narrow.Count switch
        {
            0 => Statement.Of(StatementText.Blocked, query.From, query.To, named.Statement),
            1 => Statement.Of(StatementText.BlockedNarrow, query.From, query.To, named.Statement, WidthNeeded(query.Travel)),
            var count => Statement.Of(StatementText.BlockedTightest, query.From, query.To, named.Statement, WidthNeeded(query.Travel), count),
        };
        return new(NoRouteReason.Blocked, named.Id, statement, named);
    }

    private static bool IsTooNarrow(Obstacle obstacle) =>
        obstacle is { Kind: LimitKind.ClearWidth or LimitKind.CarWidth or LimitKind.CarDoor, Present: not null };

    private static Statement WidthNeeded(TravelQuery travel)
    {
        var (width, clearance, figure) = (travel.Conveyance.Width.Metres, travel.Settings.ClearanceEachSide.Metres, Figure.Length);
        return Statement.Of(
            StatementText.WidthNeeded, figure.Difference(clearance), figure.Show(width), figure.Show(clearance), figure.Show(width + 2 * clearance));
    }

    private static int? PlaceOf(FloorGraph graph, string number) =>
        graph.PlaceIndex.TryGetValue(number, out var place) && graph.Plan.Places[place].Kind != PlaceKind.ElevatorCar ? place : null;

    /// <summary>Common metres ÷ the shorter way's metres. Metres are common where both ways cross the same place.</summary>
    private sealed class SharedLength(FloorGraph graph, ImmutableArray<ParetoMember> members)
    {
        private readonly Dictionary<int, Dictionary<int, long>> _byPlace = [];

        public double Between(int a, int b)
        {
            var (first, second) = (ByPlace(a), ByPlace(b));
            var common = first.Sum(place => Math.Min(place.Value, second.GetValueOrDefault(place.Key)));
            var shorter = Math.Min(first.Values.Sum(), second.Values.Sum());
            return shorter == 0 ? 1 : (double)common / shorter;
        }

        private Dictionary<int, long> ByPlace(int member)
        {
            if (!_byPlace.TryGetValue(member, out var lengths))
            {
                _byPlace[member] = lengths = members[member].Arcs.GroupBy(arc => graph.ArcPlace[arc]).ToDictionary(
                    arcs => arcs.Key, arcs => arcs.Sum(arc => (long)graph.ArcLength[arc]));
            }

            return lengths;
        }
    }
}
