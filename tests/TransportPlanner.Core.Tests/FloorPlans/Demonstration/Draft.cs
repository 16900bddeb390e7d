using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Collects rooms and doors while the storeys are drawn; doors find their wall at the end, when every area has its final shape.</summary>
internal sealed class Draft
{
    private readonly Dictionary<string, (Place Place, Area Area)> _places = [];
    private readonly List<Joint> _joints = [];

    /// <param name="To">A place, or <c>prefix*</c> for whichever place of that prefix shares the longest wall.</param>
    /// <param name="Along">Where on the wall, 0 to 1 from its west or south end.</param>
    /// <param name="Near">Picks the wall nearest to a point instead of the longest.</param>
    private sealed record Joint(string From, string To, DoorType Type, double Along, PlanPoint? Near, string? Level, PlanSegment? Line, string? Id);

    public void Add(string number, string name, RoomType type, string? level, Area area)
    {
        var day = Variation.Day(number);
        var scale = type.PerSquareMetre ? area.SquareMetres : 1;
        var place = new Place
        {
            Number = number,
            Name = name,
            Kind = type.Kind,
            Level = level,
            Outline = area.ToOutline(),
            CorridorClass = type.Class,
            Height = Fact.Drawing(Distance.FromMetres(type.Height), day),
            AirChanges = type.AirChanges is { } perHour ? new(AirChangeRate.FromPerHour(perHour), type.AirSource, day) : default,
            Pressure = type.Pressure is { } pressure ? Fact.Drawing(pressure, day) : default,
            Occupancy = type.People.Between(type.Least * scale, type.Most * scale),
            Flags = type.Flags,
            Facilities = [.. type.Facilities.Select(kind => new Facility(kind, Connector(kind, number), Variation.Source(number + kind), day))],
        };
        _places.Add(number, (place, area));
    }

    public Area AreaOf(string number) => _places[number].Area;

    public void Reshape(string number, Area area) => _places[number] = (_places[number].Place with { Outline = area.ToOutline() }, area);

    public void Change(string number, Func<Place, Place> change) => _places[number] = (change(_places[number].Place), _places[number].Area);

    public void Join(string from, string to, DoorType type, double along = .5, PlanPoint? near = null) =>
        _joints.Add(new(from, to, type, along, near, _places[from].Place.Level, null, null));

    /// <summary>A landing door or a stair flight, which has a name and a line of its own.</summary>
    public void Join(string id, string from, string to, DoorType type, PlanSegment line) =>
        _joints.Add(new(from, to, type, .5, null, _places[from].Place.Level, line, id));

    public IEnumerable<Place> Places() => _places.Values.Select(p => p.Place);

    public IEnumerable<Passage> Passages()
    {
        var count = new Dictionary<string, int>();
        foreach (var joint in _joints)
        {
            var to = joint.To.EndsWith('*') ? NeighbourOf(AreaOf(joint.From), joint.To[..^1], joint.Level!) : joint.To;
            var line = joint.Line ?? LineFor(joint with { To = to });
            if (joint.Id is { } id)
            {
                yield return Passage(id, joint with { To = to }, line);
                continue;
            }

            var level = joint.Level!;
            count[level] = count.GetValueOrDefault(level) + 1;
            var sign = joint.Type.Kind is PassageKind.Opening ? "OP" : "DR";
            yield return Passage(string.Create(CultureInfo.InvariantCulture, $"{sign}-{level}.{count[level]:000}"), joint with { To = to }, line);
        }
    }

    /// <summary>The place of that prefix with which an area shares the longest wall.</summary>
    public string NeighbourOf(Area area, string prefix, string level)
    {
        var neighbours = _places.Values
            .Where(p => p.Place.Level == level && p.Place.Number.StartsWith(prefix, StringComparison.Ordinal))
            .Select(p => (p.Place.Number, Wall: area.WallsSharedWith(p.Area).Select(w => w.Length).DefaultIfEmpty().Max()))
            .Where(p => p.Wall > 0)
            .ToList();
        return neighbours.Count > 0
            ? neighbours.MaxBy(p => p.Wall).Number
            : throw new InvalidOperationException($"No {prefix}* on level {level} has a wall in common with {area.ToOutline().Corners[0]}.");
    }

    private PlanSegment LineFor(Joint joint)
    {
        var walls = AreaOf(joint.From).WallsSharedWith(AreaOf(joint.To)).ToList();
        if (walls.Count == 0)
        {
            throw new InvalidOperationException($"{joint.From} and {joint.To} have no wall in common.");
        }

        var wall = joint.Near is { } near ? walls.MinBy(w => w.Midpoint.DistanceTo(near)) : walls.MaxBy(w => w.Length);
        if (joint.Type.Kind is PassageKind.Opening)
        {
            return wall;
        }

        // A leaf of unknown width is drawn 0.9 m wide, and no frame stands closer than 0.1 m to a corner.
        var half = ClearWidth(joint) is { IsKnown: true } width ? width.Value.Metres / 2 : .45;
        var room = wall.Length - 2 * half - .2;
        if (room < 0)
        {
            throw new InvalidOperationException(
                $"A door of {2 * half:0.00} m does not fit the wall of {wall.Length:0.00} m between {joint.From} and {joint.To}.");
        }

        var jamb = Math.Round(.1 + room * joint.Along, 3);
        return new(PointOn(wall, jamb), PointOn(wall, jamb + 2 * half));
    }

    private static PlanPoint PointOn(PlanSegment wall, double metres) =>
        wall.A.X == wall.B.X ? new(wall.A.X, Math.Round(wall.A.Y + metres, 3)) : new(Math.Round(wall.A.X + metres, 3), wall.A.Y);

    private static Fact<Distance> ClearWidth(Joint joint)
    {
        var name = joint.From + joint.To;
        return joint.Type.Widths.Length > 0 && Variation.Pick(joint.Type.Widths, name) is > 0 and var width
            ? new(Distance.FromMillimetres(width), joint.Type.WidthSource ?? Variation.Source(name), Variation.Day(name))
            : default;
    }

    private static Passage Passage(string id, Joint joint, PlanSegment line)
    {
        var (type, name) = (joint.Type, joint.From + joint.To);
        var day = Variation.Day(name);
        var meets = type.Kind is PassageKind.Opening or PassageKind.StairFlight;
        return new()
        {
            Id = id,
            Kind = type.Kind,
            From = joint.From,
            To = joint.To,
            Line = line,
            ClearWidth = meets ? Fact.Drawing(Distance.FromMetres(line.Length), day) : ClearWidth(joint),
            ClearHeight = Fact.Drawing(Distance.FromMetres(2.1), day),
            Threshold = meets
                ? Fact.Drawing(Distance.Zero, day)
                : new(Distance.FromMillimetres(Variation.Pick(type.Thresholds, name)), Variation.Source(name + id), day),
            Access = type.Access,
            Direction = type.Direction,
            OpeningWithHelper = type.WithHelper is { } helper ? Fact.Assumed(helper, day) : default,
            OpeningAlone = type.Alone is { } alone ? Fact.Assumed(alone, day) : default,
            FlightLength = type.Kind is PassageKind.StairFlight ? Fact.Drawing(Distance.FromMetres(9.2), day) : default,
        };
    }

    /// <summary>The two wings were fitted out at different times and do not take the same probe.</summary>
    private static string? Connector(FacilityKind kind, string number)
    {
        var east = number.StartsWith('N') || number.StartsWith('I') || number.StartsWith('R');
        return kind switch
        {
            FacilityKind.OxygenOutlet or FacilityKind.AirOutlet or FacilityKind.Suction => east ? "BS 5682" : "DIN 13260-2",
            FacilityKind.Power => "CEE 7/3",
            _ => null,
        };
    }
}
