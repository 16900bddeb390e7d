using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>
/// Small real floor plans for tests. In text, a line a storey, places from west to east with their length, 4 m deep, joined in the
/// middle of their walls, so that crossing one is exactly its length:
/// <code>
/// 1 at 0: Delivery 5 | Hall 30 |0.8| Landing1 4
/// 2 at 4: Landing2 4 |?| Nursery 6
/// elevator E: Landing1 Landing2
/// stairs S: Hall Nursery
/// </code>
/// <c>|</c> is a hinged door of 1.2 m, <c>|0.8|</c> one of 0.8 m, <c>|?|</c> one of unknown width, <c>/</c> an opening as wide as the wall. Kinds
/// follow from how a name begins (Delivery, Operating, Isolation, Nursery, Ante, Nicu, Hall, Clean, Soiled, Landing, Stair, Lobby). A passage is
/// called by its places, <c>Delivery/Hall</c>. The same can be said by the methods, with any outline. Everything is known and
/// assumed: 6 air changes, 2.7 m high, 1 person.
/// </summary>
internal sealed class Sketch
{
    private readonly List<Level> _levels = [];
    private readonly List<Place> _places = [];
    private readonly List<Passage> _passages = [];
    private readonly List<Elevator> _elevators = [];

    internal FloorPlan Plan => new()
    {
        SiteId = "sketch",
        Name = "Sketch",
        TimeZone = "Etc/UTC",
        Version = 1,
        Levels = [.. _levels],
        Places = [.. _places],
        Passages = [.. _passages],
        Elevators = [.. _elevators],
        ElevatorGroups = _elevators.Count == 0 ? [] : [new("group", "Group", QuarterHourProfile.Constant(30), FactSource.Assumed)],
    };

    internal FloorGraph Graph => FloorGraphBuilder.Build(Plan);

    internal static Sketch Parse(string text)
    {
        var sketch = new Sketch();
        foreach (var line in text.Split(['\n', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var (head, tail) = (line[..line.IndexOf(':', StringComparison.Ordinal)].Split(' '), line[(line.IndexOf(':', StringComparison.Ordinal) + 1)..]);
            var names = tail.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            _ = head switch
            {
                ["elevator", var id] => sketch.Elevator(id, names),
                ["stairs", var id] => sketch.Stairs(id, names[0], names[1]),
                [var level, "at", var elevation] => sketch.Level(level, Number(elevation)).Row(level, names),
                _ => throw new FormatException($"Not a storey, elevator or stairs: {line}"),
            };
        }

        return sketch;
    }

    internal Sketch Level(string id, double elevation)
    {
        _levels.Add(new(id, $"Level {id}", elevation));
        return this;
    }

    internal Sketch Room(string number, double minX, double minY, double maxX, double maxY, PlaceKind? kind = null) =>
        Area(number, kind ?? KindOf(number), (minX, minY), (maxX, minY), (maxX, maxY), (minX, maxY));

    internal Sketch Area(string number, PlaceKind kind, params ReadOnlySpan<(double X, double Y)> corners)
    {
        var outline = ImmutableArray.CreateBuilder<PlanPoint>();
        foreach (var (x, y) in corners)
        {
            outline.Add(new(x, y));
        }

        if (_levels.Count == 0)
        {
            Level("1", 0);
        }

        _places.Add(new()
        {
            Number = number,
            Name = number,
            Kind = kind,
            Level = kind == PlaceKind.ElevatorCar ? null : _levels[^1].Id,
            Outline = new(outline.ToImmutable()),
            CorridorClass = kind is not (PlaceKind.Corridor or PlaceKind.ElevatorLanding or PlaceKind.Lobby) ? CorridorClass.None
                : number.StartsWith("Clean", StringComparison.Ordinal) ? CorridorClass.Clean
                : number.StartsWith("Soiled", StringComparison.Ordinal) ? CorridorClass.Soiled : CorridorClass.Public,
            Height = Fact.Assumed(Distance.FromMetres(2.7)),
            AirChanges = Fact.Assumed(AirChangeRate.FromPerHour(6)),
            Pressure = Fact.Assumed(PressureRelation.Neutral),
            Occupancy = QuarterHourProfile.Constant(1),
        });
        return this;
    }

    /// <summary>A passage in the middle of the longest wall that both places share, or at a given line. Width null: unknown.</summary>
    internal Sketch Door(string from, string to, double? width = 1.2, PassageKind kind = PassageKind.HingedDoor, PlanSegment? at = null, string? id = null)
    {
        var wall = at ?? SharedWall(Find(from).Outline, Find(to).Outline);
        var half = Math.Min(width ?? 1.2, wall.Length) / 2;
        var (middle, east, north) = (wall.Midpoint, (wall.B.X - wall.A.X) / wall.Length, (wall.B.Y - wall.A.Y) / wall.Length);
        _passages.Add(new()
        {
            Id = id ?? $"{from}/{to}",
            Kind = kind,
            From = from,
            To = to,
            Line = new(new(middle.X - half * east, middle.Y - half * north), new(middle.X + half * east, middle.Y + half * north)),
            ClearWidth = width is { } metres ? Fact.Assumed(Distance.FromMetres(Math.Round(metres, 3))) : default,
            ClearHeight = Fact.Assumed(Distance.FromMetres(2.1)),
            Threshold = Fact.Assumed(Distance.Zero),
            OpeningWithHelper = Fact.Assumed(new DurationEstimate(1, 2, 4)),
            OpeningAlone = Fact.Assumed(new DurationEstimate(3, 5, 9)),
        });
        return this;
    }

    internal Sketch Opening(string from, string to) =>
        Door(from, to, SharedWall(Find(from).Outline, Find(to).Outline).Length, PassageKind.Opening);

    /// <summary>A car of 1.6 m × 2.6 m that stops at each landing, with its door in the north wall; passages are called <c>E@1</c> by level.</summary>
    internal Sketch Elevator(string id, params string[] landings)
    {
        Area($"Car{id}", PlaceKind.ElevatorCar, (-100, -100), (-98.4, -100), (-98.4, -97.4), (-100, -97.4));
        var stops = new List<ElevatorStop>();
        foreach (var landing in landings.Select(Find))
        {
            var corners = landing.Outline.Corners;
            var (x, y) = ((corners.Min(c => c.X) + corners.Max(c => c.X)) / 2, corners.Max(c => c.Y));
            Door(landing.Number, $"Car{id}", 1.3, PassageKind.LandingDoor, new PlanSegment(new(x - 1, y), new(x + 1, y)), $"{id}@{landing.Level}");
            stops.Add(new(landing.Level!, landing.Number, $"{id}@{landing.Level}"));
        }

        _elevators.Add(new()
        {
            Id = id,
            Name = id,
            Group = "group",
            Car = $"Car{id}",
            Stops = [.. stops],
            CarLength = Fact.Assumed(Distance.FromMetres(2.6)),
            CarWidth = Fact.Assumed(Distance.FromMetres(1.6)),
            DoorWidth = Fact.Assumed(Distance.FromMetres(1.3)),
            RatedLoadKilograms = Fact.Assumed(1_600.0),
            RatedSpeedMetresPerSecond = Fact.Assumed(1.0),
            AccelerationMetresPerSecondSquared = Fact.Assumed(0.8),
            JerkMetresPerSecondCubed = Fact.Assumed(1.0),
            DoorOpening = Fact.Assumed(DurationEstimate.Exactly(3)),
            DoorClosing = Fact.Assumed(DurationEstimate.Exactly(4)),
            AirChangesDoorsOpen = Fact.Assumed(AirChangeRate.FromPerHour(30)),
            CanBeHeld = true,
            StallProbability = Fact.Assumed(0.001),
            StallDuration = Fact.Assumed(new DurationEstimate(600, 1_800, 3_600)),
        });
        return this;
    }

    /// <summary>A flight of 8 m from the middle of the north wall of the lower place.</summary>
    internal Sketch Stairs(string id, string lower, string upper)
    {
        var corners = Find(lower).Outline.Corners;
        var (x, y) = ((corners.Min(c => c.X) + corners.Max(c => c.X)) / 2, corners.Max(c => c.Y));
        Door(lower, upper, 1.2, PassageKind.StairFlight, new PlanSegment(new(x - 1, y), new(x + 1, y)), id);
        return WithPassage(id, flight => flight with { FlightLength = Fact.Assumed(Distance.FromMetres(8)) });
    }

    internal Sketch With(string place, Func<Place, Place> change)
    {
        var i = _places.FindIndex(p => p.Number == place);
        _places[i] = change(_places[i]);
        return this;
    }

    internal Sketch WithPassage(string id, Func<Passage, Passage> change)
    {
        var i = _passages.FindIndex(p => p.Id == id);
        _passages[i] = change(_passages[i]);
        return this;
    }

    internal Sketch WithElevator(string id, Func<Elevator, Elevator> change)
    {
        var i = _elevators.FindIndex(e => e.Id == id);
        _elevators[i] = change(_elevators[i]);
        return this;
    }

    private Sketch Row(string level, string[] words)
    {
        var (x, before, door) = (0.0, "", "");
        for (var i = 0; i < words.Length; i++)
        {
            if (words[i][0] is '|' or '/')
            {
                door = words[i];
                continue;
            }

            var (number, metres) = (words[i], Number(words[++i]));
            Room(number, x, 0, x += metres, 4);
            _ = (before, door) switch
            {
                ("", _) => this,
                (_, "/") => Opening(before, number),
                (_, "|") => Door(before, number),
                (_, "|?|") => Door(before, number, null),
                _ => Door(before, number, Number(door.Trim('|'))),
            };
            before = number;
        }

        return level == _levels[^1].Id ? this : throw new FormatException($"Level {level} is not the last.");
    }

    private Place Find(string number) => _places.Single(place => place.Number == number);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static PlaceKind KindOf(string number) => number switch
    {
        _ when number.StartsWith("Delivery", StringComparison.Ordinal) => PlaceKind.DeliveryRoom,
        _ when number.StartsWith("Operating", StringComparison.Ordinal) => PlaceKind.OperatingRoom,
        _ when number.StartsWith("Isolation", StringComparison.Ordinal) || number.StartsWith("Nursery", StringComparison.Ordinal) => PlaceKind.IsolationRoom,
        _ when number.StartsWith("Ante", StringComparison.Ordinal) => PlaceKind.Anteroom,
        _ when number.StartsWith("Nicu", StringComparison.Ordinal) => PlaceKind.NeonatalIntensiveCare,
        _ when number.StartsWith("Hall", StringComparison.Ordinal) || number.StartsWith("Clean", StringComparison.Ordinal)
            || number.StartsWith("Soiled", StringComparison.Ordinal) => PlaceKind.Corridor,
        _ when number.StartsWith("Landing", StringComparison.Ordinal) => PlaceKind.ElevatorLanding,
        _ when number.StartsWith("Stair", StringComparison.Ordinal) => PlaceKind.Stairwell,
        _ when number.StartsWith("Lobby", StringComparison.Ordinal) => PlaceKind.Lobby,
        _ => PlaceKind.Room,
    };

    private static PlanSegment SharedWall(Outline a, Outline b) =>
        Walls(a).SelectMany(wall => Walls(b), Overlap).MaxBy(shared => shared.Length) is { Length: > 0 } longest
            ? longest : throw new ArgumentException("The two places share no wall.");

    private static IEnumerable<PlanSegment> Walls(Outline outline) =>
        outline.Corners.Select((corner, i) => new PlanSegment(corner, outline.Corners[(i + 1) % outline.Corners.Length]));

    private static PlanSegment Overlap(PlanSegment a, PlanSegment b)
    {
        var (ux, uy) = ((a.B.X - a.A.X) / a.Length, (a.B.Y - a.A.Y) / a.Length);
        double Along(PlanPoint p) => (p.X - a.A.X) * ux + (p.Y - a.A.Y) * uy;
        double Off(PlanPoint p) => Math.Abs((p.Y - a.A.Y) * ux - (p.X - a.A.X) * uy);
        var (from, to) = (Math.Max(0, Math.Min(Along(b.A), Along(b.B))), Math.Min(a.Length, Math.Max(Along(b.A), Along(b.B))));
        return Off(b.A) > 0.001 || Off(b.B) > 0.001 || to <= from
            ? default : new(new(a.A.X + ux * from, a.A.Y + uy * from), new(a.A.X + ux * to, a.A.Y + uy * to));
    }
}
