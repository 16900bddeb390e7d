using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Makes the array form of a plan, once per published version: every shortest way inside every outline, with its turns.</summary>
/// <remarks>
/// A way starts and ends at the middle of a door's line. Where the outline lies a wall's thickness away from it, the step over is part
/// of the way. A stair flight's line lies on the lower storey; on the upper one the nearest point of the outline is taken.
/// An elevator car has rides between its landing doors and nothing else: no way starts or ends in a car.
/// </remarks>
public static class FloorGraphBuilder
{
    /// <summary>A line farther than this from the wall of its place (a stair flight's, say) does not say which way one turns there.</summary>
    internal const double DoorToleranceMetres = 0.25;

    private const double FlightMetresPerMetreOfRise = 2;

    /// <summary>Deterministic: equal plans give equal arrays. Places and passages keep the plan's order.</summary>
    /// <exception cref="ArgumentException">A number is used twice or refers to nothing, a passage joins a place to itself, or an outline has
    /// fewer than three corners: what <see cref="FloorPlanCheck"/> reports as broken structure. The message is its first finding.</exception>
    public static FloorGraph Build(FloorPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (FloorPlanCheck.Structure(plan).FirstOrDefault(finding => finding.Severity == FindingSeverity.Error) is { } broken)
        {
            throw new ArgumentException(broken.ToString(), nameof(plan));
        }

        return new Building(plan).Graph();
    }

    private sealed record Arc(
        int Target, int Place, int Length, ImmutableArray<PlanPoint> Path, ImmutableArray<Turn> Turns, int Elevator = -1, double Rise = 0);

    /// <summary>Where a passage meets a place: the point inside, the step from the door's middle to it, and the heading into the place.</summary>
    private readonly record struct Contact(int Passage, PlanPoint Door, PlanPoint Inside, Heading? Inward, int WidthMillimetres);

    private sealed class Building(FloorPlan plan)
    {
        private readonly ImmutableDictionary<string, int> _places = Index(plan.Places.Select(place => place.Number));
        private readonly ImmutableDictionary<string, int> _passages = Index(plan.Passages.Select(passage => passage.Id));
        private readonly Dictionary<string, double> _elevations = plan.Levels.ToDictionary(level => level.Id, level => level.ElevationMetres);
        private readonly List<Arc>[] _arcs = [.. Enumerable.Range(0, 2 * (plan.Passages.Length + plan.Places.Length)).Select(_ => new List<Arc>())];

        internal FloorGraph Graph()
        {
            var passagesOf = plan.Passages.SelectMany((passage, i) => new[] { (Place: _places[passage.From], i), (Place: _places[passage.To], i) })
                .ToLookup(end => end.Place, end => end.i);
            for (var place = 0; place < plan.Places.Length; place++)
            {
                if (plan.Places[place].Kind != PlaceKind.ElevatorCar)
                {
                    Walks(place, [.. passagesOf[place]]);
                }
            }

            for (var elevator = 0; elevator < plan.Elevators.Length; elevator++)
            {
                Rides(elevator);
            }

            var sorted = _arcs.Select(arcs => arcs.OrderBy(arc => arc.Target).ToArray()).ToArray();
            var all = sorted.SelectMany(arcs => arcs).ToArray();
            var first = ImmutableArray.CreateBuilder<int>(sorted.Length + 1);
            first.Add(0);
            foreach (var arcs in sorted)
            {
                first.Add(first[^1] + arcs.Length);
            }

            return new(plan)
            {
                FirstArc = first.MoveToImmutable(),
                ArcSource = [.. sorted.SelectMany((arcs, source) => Enumerable.Repeat(source, arcs.Length))],
                ArcTarget = [.. all.Select(arc => arc.Target)],
                ArcPlace = [.. all.Select(arc => arc.Place)],
                ArcLength = [.. all.Select(arc => arc.Length)],
                ArcPath = [.. all.Select(arc => arc.Path)],
                ArcTurns = [.. all.Select(arc => arc.Turns)],
                ArcElevator = [.. all.Select(arc => arc.Elevator)],
                ArcRiseMetres = [.. all.Select(arc => arc.Rise)],
                FlightLength = [.. plan.Passages.Select(FlightMillimetres)],
                PlaceIndex = _places,
                PassageIndex = _passages,
            };
        }

        private void Walks(int place, int[] passages)
        {
            var shape = new PlaceShape(plan.Places[place].Outline);
            var standing = plan.Places[place].StandingPoint ?? shape.InteriorPoint();
            if (!shape.Contains(standing))
            {
                standing = shape.Nearest(standing, null).Point;
            }

            var contacts = passages.Select(passage => Meet(shape, passage)).Append(new(-1, standing, standing, null, -1)).ToArray();
            var ways = InsideWays.Between(shape, [.. contacts.Select(contact => contact.Inside)]);
            for (var i = 0; i < contacts.Length; i++)
            {
                for (var j = 0; j < contacts.Length; j++)
                {
                    if (ways[i, j] is { } way && Leaving(contacts[i], place) is { } source && Entering(contacts[j], place) is { } target)
                    {
                        _arcs[source].Add(Walk(place, shape, way, contacts[i], contacts[j], target));
                    }
                }
            }
        }

        private static Arc Walk(int place, PlaceShape shape, PlanPoint[] way, Contact from, Contact to, int target)
        {
            var turns = TurnMeasure.Of(
                shape, way, new(from.Inward, from.WidthMillimetres), new(to.Inward?.Back, to.WidthMillimetres));
            var path = ImmutableArray.CreateBuilder<PlanPoint>(way.Length + 2);
            path.Add(from.Door);
            foreach (var point in way.Append(to.Door))
            {
                if (point != path[^1])
                {
                    path.Add(point);
                }
            }

            if (path.Count == 1)
            {
                path.Add(path[0]);
            }

            var metres = path.Zip(path.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
            return new(target, place, (int)Math.Round(metres * 1_000, MidpointRounding.AwayFromZero), path.DrainToImmutable(), turns);
        }

        private Contact Meet(PlaceShape shape, int index)
        {
            var passage = plan.Passages[index];
            var (door, line) = (passage.Line.Midpoint, passage.Line.Length > 0 ? Heading.From(passage.Line.A, passage.Line.B) : (Heading?)null);
            var wall = shape.Nearest(door, line);
            var inside = shape.Contains(door) ? door : wall.Point;
            var isWithin = wall.Metres <= DoorToleranceMetres;
            var inward = (line?.Left.Dot(wall.Inward) ?? 0) switch
            {
                > 0.1 => line!.Value.Left,
                < -0.1 => line!.Value.Left.Back,
                _ => wall.Inward,
            };
            var width = passage.ClearWidth.IsKnown ? (int)passage.ClearWidth.Value.Millimetres : -1;
            var upperStorey = passage.Kind == PassageKind.StairFlight && !isWithin;
            return new(index, upperStorey ? inside : door, inside, isWithin ? inward : null, width);
        }

        /// <summary>The vertex from which arcs leave this contact into the place: the traversal that entered, or the departure; null where one-way forbids it.</summary>
        private int? Leaving(Contact contact, int place) =>
            contact.Passage < 0 ? 2 * (plan.Passages.Length + place) : Traversal(contact.Passage, towards: place);

        private int? Entering(Contact contact, int place) => contact.Passage < 0
            ? 2 * (plan.Passages.Length + place) + 1
            : Traversal(contact.Passage, towards: _places[Other(plan.Passages[contact.Passage], plan.Places[place].Number)]);

        private int? Traversal(int passage, int towards)
        {
            var forward = plan.Places[towards].Number == plan.Passages[passage].To;
            return forward ? 2 * passage : plan.Passages[passage].Direction == PassageDirection.BothWays ? 2 * passage + 1 : null;
        }

        private void Rides(int index)
        {
            var elevator = plan.Elevators[index];
            var car = _places[elevator.Car];
            var middle = new PlaceShape(plan.Places[car].Outline).InteriorPoint();
            foreach (var from in elevator.Stops)
            {
                foreach (var to in elevator.Stops)
                {
                    if (from.LandingDoor != to.LandingDoor
                        && Traversal(_passages[from.LandingDoor], towards: car) is { } source
                        && Traversal(_passages[to.LandingDoor], towards: _places[to.Landing]) is { } target)
                    {
                        var rise = Math.Round(Math.Abs(_elevations[to.Level] - _elevations[from.Level]), 3);
                        _arcs[source].Add(new(target, car, 0, [middle, middle], [], index, rise));
                    }
                }
            }
        }

        private int FlightMillimetres(Passage passage)
        {
            if (passage.Kind != PassageKind.StairFlight)
            {
                return 0;
            }

            var rise = Math.Abs(Elevation(passage.From) - Elevation(passage.To));
            return passage.FlightLength.IsKnown
                ? (int)passage.FlightLength.Value.Millimetres
                : (int)Math.Round(rise * FlightMetresPerMetreOfRise * 1_000, MidpointRounding.AwayFromZero);
        }

        private double Elevation(string place) => plan.Places[_places[place]].Level is { } level ? _elevations[level] : 0;

        private static string Other(Passage passage, string place) => passage.From == place ? passage.To : passage.From;

        private static ImmutableDictionary<string, int> Index(IEnumerable<string> keys) =>
            keys.Select((key, i) => KeyValuePair.Create(key, i)).ToImmutableDictionary(StringComparer.Ordinal);
    }
}
