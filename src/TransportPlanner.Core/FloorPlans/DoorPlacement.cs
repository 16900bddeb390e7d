using System.Collections.Immutable;
using TransportPlanner.Core.Units;
using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Puts recorded doors on the walls of their spaces and says which contradict them.</summary>
internal sealed class DoorPlacement
{
    /// <summary>Beyond this a point contradicts the room it is said to belong to; nearer, thick walls and rough outlines explain it.</summary>
    internal const double ContradictionMetres = 1;

    private readonly BuildingRecord _building;
    private readonly Dictionary<string, double> _elevations;
    private readonly Dictionary<string, (Place Place, PlaceShape Shape, bool IsBox)> _places;

    internal DoorPlacement(BuildingRecord building, ImmutableArray<Level> levels, ImmutableArray<Place> places)
    {
        _building = building;
        _elevations = levels.DistinctBy(level => level.Id).ToDictionary(level => level.Id, level => level.ElevationMetres, StringComparer.Ordinal);
        var boxes = building.Spaces.Where(space => space.IsBox).Select(space => space.Number).ToHashSet();
        _places = places.Where(place => place.Outline.Corners.Length >= 3).DistinctBy(place => place.Number)
            .ToDictionary(place => place.Number, place => (place, new PlaceShape(place.Outline), boxes.Contains(place.Number)), StringComparer.Ordinal);
        DatumMetres = Datum(building);
    }

    /// <summary>What lies between the datum of the points and that of the levels: the median of floor corner less elevation.</summary>
    internal double DatumMetres { get; }

    internal ImmutableArray<Passage> Place(List<Finding> findings)
    {
        var passages = ImmutableArray.CreateBuilder<Passage>();
        foreach (var door in _building.Doors)
        {
            var said = Contradictions(door).ToArray();
            findings.AddRange(said);
            if (said.Length > 0)
            {
                continue;
            }

            var (from, to) = (_places[door.Spaces[0]], _places[door.Spaces[1]]);
            var (a, b) = (from.Shape.Nearest(door.Point!.Value, null), to.Shape.Nearest(door.Point.Value, null));
            var middle = new PlanPoint((a.Point.X + b.Point.X) / 2, (a.Point.Y + b.Point.Y) / 2);
            var off = Math.Max(from.Shape.Nearest(middle, null).Metres, to.Shape.Nearest(middle, null).Metres);
            if (off > FloorGraphBuilder.DoorToleranceMetres - PlaceShape.ToleranceMetres)
            {
                findings.Add(Warning($"door {door.Id}", "doorOutline", from.IsBox || to.IsBox
                    ? (FormattableString)$"{door.Origin}: door {door.Id} lies inside the box of {door.Spaces[0]} or {door.Spaces[1]}, {off:0.00} m from a wall of it, and is left out: give the outlines of both."
                    : $"{door.Origin}: the outlines of {door.Spaces[0]} and {door.Spaces[1]} keep {off:0.00} m from door {door.Id}, which is left out: draw both on the shared wall."));
                continue;
            }

            passages.Add(Passage(door, middle, a.Inward));
        }

        if (_building.Doors.Any(door => door.NominalWidthMetres is not null))
        {
            findings.Add(Warning("doors", "clearWidthMetres",
                $"The file gives nominal widths. As clear width {1_000 * DraftBuilder.LeafAndStopsMetres:0} mm less is taken, for leaf and stops, marked assumed: measure the doors on ways that matter."));
        }

        return passages.ToImmutable();
    }

    private IEnumerable<Finding> Contradictions(RecordedDoor door)
    {
        var subject = $"door {door.Id}";
        if (door.Point is null)
        {
            yield return Warning(subject, "doorPoint", $"{door.Origin}: door {door.Id} has no coordinate row and is left out: add its point, or draw it.");
        }

        var spaces = door.Spaces.Distinct(StringComparer.Ordinal).ToArray();
        if (spaces.Length != 2)
        {
            yield return Warning(subject, "doorSpaces",
                $"{door.Origin}: door {door.Id} names {(spaces.Length == 0 ? "no space" : string.Join(", ", spaces))} and is left out: name the two spaces it lies between; a door to the open needs a space outdoors.");
        }

        var levels = new List<string>();
        foreach (var number in spaces)
        {
            if (!_places.TryGetValue(number, out var place))
            {
                yield return Warning(subject, "doorSpaces", $"{door.Origin}: door {door.Id} belongs to {number}, which is no place of the plan, and is left out: correct the number or give the space an outline.");
                continue;
            }

            levels.Add(place.Place.Level!);
            if (door.Point is { } point && Far(point, place) is > ContradictionMetres and var metres)
            {
                var storeys = door.PointMetres is { } z && _elevations.TryGetValue(place.Place.Level!, out var elevation) ? Math.Abs(z - DatumMetres - elevation) : 0;
                yield return Warning(subject, "doorPoint",
                    $"{door.Origin}: the point of door {door.Id} is {metres:0.00} m from the outline of {number}, the level differs by {storeys:0.00} m, and the door is left out: correct its spaces or its point.");
            }
        }

        if (levels.Distinct().Skip(1).Any())
        {
            yield return Warning(subject, "doorLevels",
                $"{door.Origin}: door {door.Id} joins rooms on different floors, {string.Join(" and ", levels)}, and is left out: correct its spaces.");
        }
    }

    /// <summary>Inside a box a door may stand on a wall that the box does not show.</summary>
    private static double Far(PlanPoint point, (Place Place, PlaceShape Shape, bool IsBox) place) =>
        place.IsBox && place.Shape.Contains(point) ? 0 : place.Shape.Nearest(point, null).Metres;

    private static Passage Passage(RecordedDoor door, PlanPoint middle, Heading inward)
    {
        var clear = Clear(door.NominalWidthMetres, 2 * DraftBuilder.LeafAndStopsMetres, DraftBuilder.LeafAndStopsMetres, door.AsOf);
        var half = Math.Max(door.NominalWidthMetres ?? DraftBuilder.LeastSharedMetres, 0.1) / 2;
        return new()
        {
            Id = door.Id,
            Kind = KindOf(door),
            From = door.Spaces[0],
            To = door.Spaces[1],
            Line = DraftBuilder.Rounded(new(inward.Left.Along(middle, -half), inward.Left.Along(middle, half))),
            ClearWidth = clear,
            ClearHeight = Clear(door.NominalHeightMetres, 0.5 + DraftBuilder.LeafAndStopsMetres, DraftBuilder.LeafAndStopsMetres, door.AsOf),
        };
    }

    private static Fact<Distance> Clear(double? nominal, double least, double less, DateOnly? asOf) =>
        nominal is { } metres && metres >= least && metres <= 50 ? Fact.Assumed(Distance.FromMillimetres((long)Math.Floor(1_000 * (metres - less) + 1e-6)), asOf) : default;

    private static PassageKind KindOf(RecordedDoor door)
    {
        bool Says(string word) => door.Description.Contains(word, StringComparison.OrdinalIgnoreCase);
        return Says("automatic") ? PassageKind.AutomaticDoor
            : Says("sliding") || Says("folding") || Says("accordion") ? PassageKind.SlidingDoor
            : Says("double") && !Says("double glaz") ? PassageKind.DoubleDoor
            : PassageKind.HingedDoor;
    }

    private static double Datum(BuildingRecord building)
    {
        var levels = building.Levels.Where(level => level.ElevationMetres is not null).DistinctBy(level => level.Name)
            .ToDictionary(level => level.Name, level => level.ElevationMetres!.Value, StringComparer.Ordinal);
        var offsets = building.Spaces.Where(space => space.BottomMetres is not null && levels.ContainsKey(space.Level))
            .Select(space => space.BottomMetres!.Value - levels[space.Level]).Order().ToArray();
        return offsets.Length == 0 ? 0 : offsets[offsets.Length / 2];
    }
}
