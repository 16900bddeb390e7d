using System.Collections;
using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>
/// One sentence for each way that a planner would expect and does not see: quicker ways that a limit refuses, ways that a closure
/// forbids although it ends in time, elevators and lobbies that no shown way uses, and efficient ways left out.
/// </summary>
internal sealed class WhyNot(PricedGraph priced, Detours detours, ImmutableArray<Route> shown)
{
    private const int MaxRefusals = 3;
    private const int MaxLobbies = 2;

    private readonly List<NotChosen> _answers = [];
    private readonly List<List<int>> _described = [];
    private readonly HashSet<string> _used = [.. shown.SelectMany(route => route.Legs).SelectMany(leg => leg.Places)];

    /// <param name="front">Every efficient way.</param>
    /// <param name="positions">Positions in the front of the ways shown, in the same order.</param>
    public ImmutableArray<NotChosen> Sentences(ImmutableArray<ParetoMember> front, ImmutableArray<int> positions)
    {
        Closed();
        RefusedButQuicker();
        UnusedElevators();
        UnusedLobbies();
        LeftOut(front, positions);
        return [.. _answers.DistinctBy(answer => answer.Way)];
    }

    /// <summary>The quickest way past obstacles, as often as it is quicker: each time its first obstacle is named, and respected from then on.</summary>
    private void RefusedButQuicker()
    {
        var usable = new BitArray(priced.Relaxed);
        for (var i = 0; i < MaxRefusals; i++)
        {
            if (detours.Quickest(usable) is not { } way || FirstObstacle(way) is not { } first)
            {
                return;
            }

            var saved = shown[0].ExpectedSeconds - priced.Seconds(way);
            if (saved < 1)
            {
                return;
            }

            var others = way.Select(priced.ObstacleOn).OfType<Obstacle>().Select(obstacle => obstacle.Id).Distinct().Count() - 1;
            var more = others == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", with {others} more in its way");
            Add(first.Id, $"{first.Sentence}: the way through it is {saved:0} s quicker than {shown[0].Id}{more}");
            for (var arc = 0; arc < usable.Length; arc++)
            {
                usable[arc] = usable[arc] && !IsSame(priced.ObstacleOn(arc), first);
            }
        }
    }

    /// <summary>A closure forbids for a whole hour after departure: where it ends before the team could be there, a later departure may use it.</summary>
    private void Closed()
    {
        var closed = Enumerable.Range(0, priced.Floor.ArcCount)
            .Where(arc => priced.ObstacleOn(arc)?.Closure is not null)
            .ToLookup(arc => priced.ObstacleOn(arc)!.Closure!);
        if (closed.Count == 0)
        {
            return;
        }

        var usable = new BitArray(priced.Allowed);
        foreach (var arc in closed.SelectMany(arcs => arcs))
        {
            usable[arc] = true;
        }

        var from = detours.FromOrigin(usable);
        foreach (var closure in closed)
        {
            var earliest = closure.Min(arc => from.Cost[priced.Floor.ArcSource[arc]]);
            var arrival = earliest == QuickestTree.Unreachable ? DateTimeOffset.MinValue : priced.Query.Travel.Departure.AddSeconds(earliest / 10.0);
            if (closure.Key.To <= arrival && detours.QuickestThrough(closure, usable) is not null)
            {
                Add(closure.Key.TargetId, $"{priced.ObstacleOn(closure.First())!.Sentence}: the team would be there at {priced.SiteTime(arrival):HH:mm} at the earliest, after it ends, but a closure in the hour after departure forbids; depart later to use it");
            }
            else
            {
                ClosedAndNear(closure);
            }
        }
    }

    /// <summary>A way that people know and that a closure took away, where it would take at most half as long again; a quicker one is told as refused.</summary>
    private void ClosedAndNear(IGrouping<Closure, int> closure)
    {
        var open = new BitArray(priced.Allowed);
        foreach (var arc in closure)
        {
            open[arc] = true;
        }

        if (detours.QuickestThrough(closure, open) is { } way && priced.Seconds(way) - shown[0].ExpectedSeconds is > -1 and var slower && slower <= shown[0].ExpectedSeconds / 2)
        {
            Add(closure.Key.TargetId, $"{priced.ObstacleOn(closure.First())!.Sentence}: the way through it would be {Slower(Math.Max(0, slower), shown[0])}, with about {People(priced.PeopleLikelyMet(way))} people likely met instead of {People(shown[0].PeopleLikelyMet)}");
        }
    }

    private void UnusedElevators()
    {
        var plan = priced.Floor.Plan;
        foreach (var group in plan.ElevatorGroups)
        {
            var cars = plan.Elevators.Where(elevator => elevator.Group == group.Id).Select(elevator => elevator.Car).ToHashSet();
            var arcs = ArcsOver(place => cars.Contains(place.Number));
            if (cars.Overlaps(_used))
            {
                continue;
            }

            if (detours.QuickestThrough(arcs, priced.Allowed) is { } way)
            {
                AddSlower(group.Name, way);
            }
            else if (detours.QuickestThrough(arcs, priced.Relaxed) is { } refused && FirstObstacle(refused) is { } obstacle)
            {
                Add(group.Name, $"{group.Name}: {obstacle.Sentence}");
            }
        }
    }

    /// <summary>Lobbies that lie near enough for people to think of them: the way through takes at most twice the quickest.</summary>
    private void UnusedLobbies()
    {
        var ways = priced.Floor.Plan.Places
            .Where(place => place.Kind == PlaceKind.Lobby && !_used.Contains(place.Number))
            .Select(lobby => (lobby.Name, Way: detours.QuickestThrough(ArcsOver(place => place.Number == lobby.Number), priced.Allowed)))
            .Where(lobby => lobby.Way is not null && priced.Seconds(lobby.Way) <= 2 * shown[0].ExpectedSeconds)
            .OrderBy(lobby => priced.Seconds(lobby.Way!));
        foreach (var (name, way) in ways.Take(MaxLobbies))
        {
            AddSlower(name, way!);
        }
    }

    /// <summary>Of the efficient ways left out, one stands for all: the farthest in time from the next quicker way that is shown, so no near copy.</summary>
    private void LeftOut(ImmutableArray<ParetoMember> front, ImmutableArray<int> positions)
    {
        // The first position is always shown, so every other has a shown one before it.
        var left = Enumerable.Range(0, front.Length).Except(positions)
            .Select(position => (position, Beside: Enumerable.Range(0, positions.Length).Last(i => positions[i] < position)))
            .ToList();
        if (left.Count == 0)
        {
            return;
        }

        int Difference((int Position, int Beside) way, int cost) => front[way.Position].Costs[cost] - front[positions[way.Beside]].Costs[cost];
        var one = left.MaxBy(way => Difference(way, 0));
        var (slower, exposure, handling) = (Difference(one, 0) / 10.0, Difference(one, 1) / 1e6, Difference(one, 2));
        var (count, which) = left.Count == 1 ? ("one more way is", "it is") : (FormattableString.Invariant($"{left.Count} more ways are"), "for example, one is");
        Add("efficient", $"{count} efficient and not shown: {which} {Slower(slower, shown[one.Beside])}, with {More(exposure, priced.ExposureUnit)} and {More(handling, "handling points")}");
    }

    private List<int> ArcsOver(Func<Place, bool> isMeant)
    {
        var (floor, places) = (priced.Floor, priced.Floor.Plan.Places);
        return [.. Enumerable.Range(0, floor.ArcCount).Where(arc => isMeant(places[floor.ArcPlace[arc]]))];
    }

    private Obstacle? FirstObstacle(IEnumerable<int> way) => way.Select(priced.ObstacleOn).FirstOrDefault(obstacle => obstacle is not null);

    /// <summary>A way that was described under another name is not described again.</summary>
    private void AddSlower(string name, List<int> way)
    {
        if (_described.Any(described => described.SequenceEqual(way)))
        {
            return;
        }

        _described.Add(way);
        var slower = priced.Seconds(way) - shown[0].ExpectedSeconds;
        Add(name, $"{name}: {Slower(slower, shown[0])}, about {People(priced.PeopleLikelyMet(way))} people likely met instead of {People(shown[0].PeopleLikelyMet)}");
    }

    private void Add(string way, FormattableString sentence)
    {
        var text = sentence.ToString(CultureInfo.InvariantCulture);
        _answers.Add(new(way, $"{char.ToUpperInvariant(text[0])}{text[1..]}."));
    }

    private static bool IsSame(Obstacle? a, Obstacle b) => a is not null && (a.Kind, a.Element, a.Id) == (b.Kind, b.Element, b.Id);

    private static string Slower(double seconds, Route than) => seconds < 0.5
        ? $"as quick as {than.Id} to the second"
        : FormattableString.Invariant($"{seconds:0} s slower than {than.Id}");

    private static string People(double count) => count.ToString(count < 10 ? "0.#" : "0", CultureInfo.InvariantCulture);

    private static string More(double difference, string what) => Math.Abs(difference) < 0.005
        ? $"the same {what}"
        : FormattableString.Invariant($"{Math.Abs(difference):0.##} {what} {(difference < 0 ? "less" : "more")}");
}
