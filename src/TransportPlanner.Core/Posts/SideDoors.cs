using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Posts;

/// <summary>The doors that open onto the held places of one way, the times at which each has to be watched, and the posts that do it.</summary>
/// <remarks>
/// A door is watched while its place is held, except while the place behind it is held too. On the way itself a door between two held
/// places, to the origin, the destination or the captured car is watched from when the team has left: before that the team, the receiver and
/// the clean helper ahead are on both sides of it. One to a place of the way that nobody holds is a door like any other. A one-way door that
/// lets nobody in needs nobody.
/// </remarks>
internal sealed class SideDoors
{
    /// <summary>A way this much longer than the straight line still counts as straight: the step off the wall at both doors.</summary>
    private const double StraightToleranceMetres = 0.5;

    private readonly FloorGraph _graph;
    private readonly RouteQuery _query;
    private readonly PostSettings _settings;
    private readonly ImmutableArray<HeldPlace> _held;
    private readonly HashSet<int> _onTheWay;
    private readonly HashSet<int> _crossed;
    private readonly HashSet<int> _ours;
    private readonly ImmutableArray<ElevatorCapture> _captures;
    private readonly int _quarter;
    private readonly ILookup<int, int> _passagesOf;

    public SideDoors(FloorGraph graph, RouteQuery query, Route route, PostSettings settings, ImmutableArray<HeldPlace> held, ImmutableArray<ElevatorCapture> captures)
    {
        (_graph, _query, _settings, _held, _captures) = (graph, query, settings, held, captures);
        _onTheWay = [.. route.Arcs.Select(arc => graph.ArcTarget[arc]).Where(graph.IsTraversal).Select(FloorGraph.PassageOf)];
        _crossed = [.. route.Arcs.Select(arc => graph.ArcPlace[arc])];
        _ours =
        [
            graph.ArcPlace[route.Arcs[0]], graph.ArcPlace[route.Arcs[^1]], .. held.Select(place => graph.PlaceIndex[place.Place]),
            .. graph.Plan.Elevators.Where(elevator => captures.Any(capture => capture.Elevator == elevator.Id)).Select(elevator => graph.PlaceIndex[elevator.Car]),
        ];
        _quarter = Travel.LocalQuarterHour.At(graph.Plan.TimeZone, query.Travel.Departure).Index;
        _passagesOf = graph.Plan.Passages
            .SelectMany((passage, i) => new[] { (Place: graph.PlaceIndex[passage.From], i), (Place: graph.PlaceIndex[passage.To], i) })
            .ToLookup(end => end.Place, end => end.i);
    }

    private sealed record Candidate(int Passage, PostWindow Window);

    /// <summary>Posts ordered by beginning, and the doors that need none.</summary>
    public (ImmutableArray<Post> Posts, ImmutableArray<QuietDoor> Quiet) Posts()
    {
        var (posts, quiet, open) = (new List<Post>(), ImmutableArray.CreateBuilder<QuietDoor>(), _captures.ToList());
        foreach (var held in _held)
        {
            var place = _graph.PlaceIndex[held.Place];
            var watched = new List<Candidate>();
            foreach (var passage in _passagesOf[place])
            {
                if (WindowOf(passage, place, held) is not { } window)
                {
                    continue;
                }

                var behind = Other(passage, place);
                if (!_crossed.Contains(behind) && PeopleBehind(behind) is { } people && people <= _settings.EmptyPeople)
                {
                    quiet.Add(new(_graph.Plan.Passages[passage].Id, held.Place, _graph.Plan.Places[behind].Number, people));
                    continue;
                }

                watched.Add(new(passage, window));
            }

            var capture = open.Find(c => c.Landing == held.Place);
            _ = capture is not null && open.Remove(capture);
            posts.AddRange(Share(place, held, watched, capture));
        }

        // Landings that are not held themselves.
        posts.AddRange(open.SelectMany(capture => Share(_graph.PlaceIndex[capture.Landing], null, [], capture)));
        return (
            [.. posts.OrderBy(post => post.Window.From).ThenBy(post => post.Window.To).ThenBy(post => post.Passage, StringComparer.Ordinal)],
            quiet.ToImmutable());
    }

    /// <summary>The time in which somebody could come in through a passage: one stretch around all of it; null where nobody can.</summary>
    private PostWindow? WindowOf(int passage, int place, HeldPlace held)
    {
        var joins = _graph.Plan.Passages[passage];
        if (joins.Direction == PassageDirection.Forward && _graph.PlaceIndex[joins.To] != place)
        {
            return null;
        }

        var (from, to) = (held.Held.From, held.Held.To);
        if (_onTheWay.Contains(passage) && _ours.Contains(Other(passage, place)))
        {
            from = held.Held.To.AddMinutes(-_query.Exposure.HoldMinutes);
        }

        if (_held.FirstOrDefault(h => _graph.PlaceIndex[h.Place] == Other(passage, place)) is { } behind)
        {
            from = behind.Held.From <= from ? Later(from, behind.Held.To) : from;
            to = behind.Held.To >= to && behind.Held.From > from ? Earlier(to, behind.Held.From) : to;
        }

        return from < to ? new(from, to) : null;
    }

    /// <summary>
    /// As few standing points as a greedy choice finds: at each step the passage of the place, a watched one before any other, from which most
    /// of the unwatched doors are in sight. The landing door of a captured car is always a standing point. Nobody stands where the incubator
    /// passes, unless that passage is itself the only one from which it is watched.
    /// </summary>
    private IEnumerable<Post> Share(int place, HeldPlace? held, List<Candidate> watched, ElevatorCapture? capture)
    {
        var left = watched.ToList();
        if (capture is not null)
        {
            var door = _graph.PassageIndex[capture.LandingDoor];
            List<Candidate> seen = [new(door, capture.Captured), .. left.Where(other => IsInSight(place, door, other.Passage))];
            left.RemoveAll(seen.Contains);
            yield return PostAt(place, PostKind.Elevator, door, seen,
                $"This elevator, {capture.Name}, is taken for a transport: please use another one or the stairs.");
        }

        int[] standingPoints =
        [
            .. watched.Select(candidate => candidate.Passage).Where(passage => !_onTheWay.Contains(passage)),
            .. _passagesOf[place].Where(passage => !_onTheWay.Contains(passage)),
            .. watched.Select(candidate => candidate.Passage),
        ];
        while (left.Count > 0)
        {
            var stand = standingPoints.MaxBy(passage => left.Count(other => IsInSight(place, passage, other.Passage)));
            var seen = left.Where(other => IsInSight(place, stand, other.Passage)).ToList();
            left.RemoveAll(seen.Contains);
            yield return PostAt(place, PostKind.Door, stand, seen, SayAtDoor(place, held!.IsCleared));
        }
    }

    private Post PostAt(int place, PostKind kind, int passage, List<Candidate> seen, string say) => new()
    {
        Kind = kind,
        Passage = _graph.Plan.Passages[passage].Id,
        Place = _graph.Plan.Places[place].Number,
        Window = seen.Select(candidate => candidate.Window).Aggregate((all, window) => all.Around(window)),
        Doors = [.. seen.Select(candidate => candidate.Passage).Distinct().Order().Select(door => Watch(door, place))],
        Say = say,
    };

    private string SayAtDoor(int place, bool isCleared)
    {
        var (number, name) = (_graph.Plan.Places[place].Number, _graph.Plan.Places[place].Name);
        var where = name.Contains(number, StringComparison.Ordinal) ? name : $"{name} {number}";
        return isCleared
            ? $"{where} is held for a transport: please leave it now, and nobody enters until I say so."
            : $"{where} is held for a transport: please wait outside until I say so.";
    }

    /// <summary>People per minute by Little's law: mean number = rate × mean stay; the rate is shared evenly by the ways out of the place behind.</summary>
    private WatchedDoor Watch(int passage, int place)
    {
        var behind = Other(passage, place);
        var there = _graph.Plan.Places[behind];
        var stay = IsWalkedThrough(there.Kind) ? _settings.WalkedThroughStayMinutes : _settings.RoomStayMinutes;
        var exits = Math.Max(1, _passagesOf[behind].Count());
        var people = _query.Exposure.Crowds.People(there.Number, _quarter, there.Occupancy?.Values[_quarter] ?? _query.Exposure.People);
        return new(_graph.Plan.Passages[passage].Id, there.Number, people / stay / exits, there.Occupancy is null);
    }

    /// <summary>Mean people in everything that reaches the place on foot or by elevator without crossing a place of the way; null where a number is unknown.</summary>
    private double? PeopleBehind(int behind)
    {
        var (seen, next, people) = (new HashSet<int> { behind }, new Stack<int>([behind]), 0.0);
        while (next.TryPop(out var place))
        {
            if (_graph.Plan.Places[place].Occupancy is not { } occupancy)
            {
                return null;
            }

            people += _query.Exposure.Crowds.People(_graph.Plan.Places[place].Number, _quarter, occupancy.Values[_quarter]);
            if (people > _settings.EmptyPeople)
            {
                return people;
            }

            foreach (var neighbour in _passagesOf[place].Select(passage => Other(passage, place)).Where(p => !_crossed.Contains(p) && seen.Add(p)))
            {
                next.Push(neighbour);
            }
        }

        return people;
    }

    private bool IsInSight(int place, int stand, int door) => stand == door
        || _settings.SightMetres > 0 && (Straight(place, stand, door) ?? Straight(place, door, stand)) is { } metres && metres <= _settings.SightMetres;

    /// <summary>Metres of the straight way between two doors of a place; null where the way bends, or one-way doors leave none.</summary>
    private double? Straight(int place, int from, int to)
    {
        foreach (var source in new[] { 2 * from, 2 * from + 1 }.Where(source => _graph.PlaceEntered(source) == place))
        {
            for (var arc = _graph.FirstArc[source]; arc < _graph.FirstArc[source + 1]; arc++)
            {
                if (_graph.IsTraversal(_graph.ArcTarget[arc]) && FloorGraph.PassageOf(_graph.ArcTarget[arc]) == to)
                {
                    var (metres, path) = (_graph.ArcLength[arc] / 1000.0, _graph.ArcPath[arc]);
                    return metres <= path[0].DistanceTo(path[^1]) + StraightToleranceMetres ? metres : null;
                }
            }
        }

        return null;
    }

    private int Other(int passage, int place)
    {
        var joins = _graph.Plan.Passages[passage];
        return _graph.PlaceIndex[joins.From] == place ? _graph.PlaceIndex[joins.To] : _graph.PlaceIndex[joins.From];
    }

    private static bool IsWalkedThrough(PlaceKind kind) =>
        kind is PlaceKind.Corridor or PlaceKind.Ramp or PlaceKind.LinkBridge or PlaceKind.Lobby or PlaceKind.ElevatorLanding
            or PlaceKind.ElevatorCar or PlaceKind.Stairwell or PlaceKind.Outdoors;

    private static DateTimeOffset Later(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;
    private static DateTimeOffset Earlier(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;
}
