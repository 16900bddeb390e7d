using System.Collections.Immutable;
using TransportPlanner.Core.Units;
using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// Makes a draft from what a file says. Nothing is made up: a space without an outline and a door that does not lie between two spaces
/// stay out of the plan and are named in a finding; joins that the file does not name are proposed, never taken.
/// </summary>
public static class DraftBuilder
{
    /// <summary>Circulation spaces that run along each other for less are not proposed as joined.</summary>
    public const double LeastSharedMetres = 0.9;

    /// <summary>What leaf and stops take from a nominal width: 45 mm of leaf and two stops of 15 mm, assumed.</summary>
    public const double LeafAndStopsMetres = 0.075;

    private const double OpenGapMetres = 0.02;
    internal const double ShaftWallMetres = 0.4;
    private const double StoreyMetres = 1;
    private const double LeastOverlap = 0.5;
    private const double AreaTolerance = 0.2;

    public static DraftPlan Build(BuildingRecord building, DraftHeader header)
    {
        ArgumentNullException.ThrowIfNull(building);
        ArgumentNullException.ThrowIfNull(header);
        var findings = new List<Finding>();
        var levels = building.Levels.Select(level => new Level(level.Name, level.Name, Elevation(level, findings))).ToImmutableArray();
        var shafts = building.Spaces.Where(PlaceWords.IsShaft).ToArray();
        var places = building.Spaces.Except(shafts).Where(space => Stands(space, findings)).Select(Place).ToImmutableArray();
        var doors = new DoorPlacement(building, levels, places);
        var passages = doors.Place(findings);
        findings.AddRange(Guessed(places));
        findings.AddRange(Areas(building));
        var elevators = Elevators(building, shafts, findings);
        InferredJoin[] joins = [.. Openings(places, passages), .. Landings(elevators, shafts, places, levels, doors.DatumMetres), .. Flights(places, levels)];
        var stops = joins.Where(join => join.Kind == PassageKind.LandingDoor).ToLookup(join => join.To);
        foreach (var (car, elevator) in elevators.Where(pair => !stops.Contains(pair.Car.Number)))
        {
            findings.Add(Warning($"elevator {elevator.Id}", "elevators",
                $"No circulation space lies beside the shaft {car.Number}, so elevator {elevator.Id} has no stops and is left out: draw the outlines of its landings."));
        }

        var standing = elevators.Where(pair => stops.Contains(pair.Car.Number)).ToArray();
        var levelOf = places.ToLookup(place => place.Number, place => place.Level);
        var plan = new FloorPlan
        {
            SiteId = header.SiteId,
            Name = header.Name,
            TimeZone = header.TimeZone,
            Notice = header.Notice,
            Levels = levels,
            Places = [.. places, .. standing.Select(pair => pair.Car)],
            Passages = [.. passages, .. joins.Select(join => new Passage { Id = join.Id, Kind = join.Kind, From = join.From, To = join.To, Line = join.Line })],
            Elevators = [.. standing.Select(pair => pair.Elevator with
            {
                Stops = [.. stops[pair.Car.Number].Select(join => new ElevatorStop(levelOf[join.From].First()!, join.From, join.Id))],
            })],
            ElevatorGroups = [.. standing.Select(pair => new ElevatorGroup(pair.Elevator.Group, pair.Elevator.Name, null, FactSource.Assumed))],
        };
        return new(plan, [.. joins.OrderBy(join => join.Id, StringComparer.Ordinal)], [.. findings]);
    }

    private static double Elevation(RecordedLevel level, List<Finding> findings)
    {
        if (level.ElevationMetres is null)
        {
            findings.Add(Error($"level {level.Name}", "elevationMetres", $"{level.Origin}: level {level.Name} has no elevation: give it in the file; rides and flights are measured by it."));
        }

        return Math.Round(level.ElevationMetres ?? 0, 3);
    }

    private static bool Stands(RecordedSpace space, List<Finding> findings)
    {
        if (space.Outline is null)
        {
            findings.Add(Warning($"place {space.Number}", "outline", $"{space.Origin}: {space.Number} ({space.Name}) has neither outline nor box and is left out: add its coordinates or its outline."));
        }

        return space.Outline is not null;
    }

    private static Place Place(RecordedSpace space) => new()
    {
        Number = space.Number,
        Name = Plain(space.Name, space.Number),
        Kind = PlaceWords.KindOf(space),
        Level = space.Level,
        Outline = space.Outline!,
        Height = space.HeightMetres is >= 0.5 and <= 200 and var height ? Fact.Drawing(Distance.FromMetres(height), space.AsOf) : default,
    };

    /// <summary>One line of at most 500 characters: a cell may hold line breaks and what a keyboard left there.</summary>
    private static string Plain(string text, string otherwise)
    {
        var line = string.Join(' ', string.Concat(text.Select(c => char.IsControl(c) && !char.IsWhiteSpace(c) ? '\0' : c)).Replace("\0", "", StringComparison.Ordinal)
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length == 0 ? otherwise : line.Length <= 500 ? line : line[..500].TrimEnd();
    }

    private static IEnumerable<Finding> Guessed(IEnumerable<Place> places) =>
        places.Where(place => PlaceWords.Matters(place.Kind)).GroupBy(place => place.Kind).OrderBy(kind => kind.Key).Select(kind => Warning($"kind {PlaceWords.Spaced(kind.Key)}", "kind",
            $"By a word in the name the kind {PlaceWords.Spaced(kind.Key)} was taken for {string.Join(", ", kind.Select(place => $"{place.Number} ({place.Name})"))}: confirm it, since ways begin and end there."));

    private static IEnumerable<Finding> Areas(BuildingRecord building) =>
        from space in building.Spaces
        let drawn = space.Outline?.AreaSquareMetres ?? 0
        let net = space.NetAreaSquareMetres ?? 0
        where drawn > 0 && net > 0 && Math.Abs(drawn - net) > AreaTolerance * net
        orderby Math.Abs(drawn - net) descending
        select Warning($"place {space.Number}", "area", space.IsBox
            ? (FormattableString)$"{space.Number} is drawn as a box of {drawn:0.#} m² and has {net:0.#} m²: give its outline; ways through it and doors inside the box cannot be told from a box."
            : $"The outline of {space.Number} has {drawn:0.#} m² and the file says {net:0.#} m²: correct one of them.");

    private static ImmutableArray<(Place Car, Elevator Elevator)> Elevators(BuildingRecord building, RecordedSpace[] shafts, List<Finding> findings)
    {
        var made = ImmutableArray.CreateBuilder<(Place, Elevator)>();
        foreach (var shaft in Lowest(shafts))
        {
            if (shaft.Outline is null)
            {
                findings.Add(Warning($"elevator {shaft.Number}", "elevators", $"{shaft.Origin}: the shaft {shaft.Number} has no outline, so elevator {shaft.Number} is left out: draw it."));
                continue;
            }

            var named = building.Elevators.FirstOrDefault(elevator => elevator.Space == shaft.Number);
            var load = named?.RatedLoadKilograms is >= 50 and <= 50_000 and var kilograms ? Fact.Drawing(kilograms, named.AsOf) : default;
            made.Add((
                new() { Number = shaft.Number, Name = $"Car of elevator {shaft.Number}", Kind = PlaceKind.ElevatorCar, Level = null, Outline = shaft.Outline },
                new() { Id = shaft.Number, Name = $"Elevator {shaft.Number}", Group = shaft.Number, Car = shaft.Number, Stops = [], RatedLoadKilograms = load }));
        }

        foreach (var elevator in building.Elevators.Where(elevator => !shafts.Any(shaft => shaft.Number == elevator.Space)))
        {
            findings.Add(Warning($"elevator {elevator.Name}", "elevators",
                $"{elevator.Origin}: elevator {elevator.Name} stands in {elevator.Space ?? "no space"}, which is no elevator shaft, and is left out: name its shaft in the file."));
        }

        return made.ToImmutable();
    }

    /// <summary>A shaft that is listed on several levels is one elevator, known by its lowest space.</summary>
    private static List<RecordedSpace> Lowest(IEnumerable<RecordedSpace> shafts)
    {
        var lowest = new List<RecordedSpace>();
        foreach (var shaft in shafts.OrderBy(shaft => shaft.BottomMetres ?? 0).ThenBy(shaft => shaft.Number, StringComparer.Ordinal))
        {
            if (!lowest.Any(below => SameShaft(below, shaft)))
            {
                lowest.Add(shaft);
            }
        }

        return lowest;
    }

    private static bool SameShaft(RecordedSpace a, RecordedSpace b) =>
        a.Outline is { } lower && b.Outline is { } upper && a.Level != b.Level && OutlineCheck.Overlap(lower, upper) >= LeastOverlap;

    private static IEnumerable<InferredJoin> Openings(ImmutableArray<Place> places, ImmutableArray<Passage> passages)
    {
        var doored = passages.Select(passage => Pair(passage.From, passage.To)).ToHashSet();
        foreach (var level in places.Where(place => PlaceWords.IsCirculation(place.Kind)).GroupBy(place => place.Level))
        {
            var all = level.OrderBy(place => place.Number, StringComparer.Ordinal).ToArray();
            foreach (var (a, b) in all.SelectMany((a, i) => all[(i + 1)..].Select(b => (a, b))).Where(pair => !doored.Contains(Pair(pair.a.Number, pair.b.Number))))
            {
                if (SharedEdge.Between(a.Outline, b.Outline, OpenGapMetres) is { } edge && edge.Metres >= LeastSharedMetres - PlaceShape.ToleranceMetres)
                {
                    yield return new($"O {a.Number}~{b.Number}", PassageKind.Opening, a.Number, b.Number, Rounded(edge.Longest), FormattableString.Invariant(
                        $"The outlines of {a.Number} ({a.Name}) and {b.Number} ({b.Name}) share {edge.Metres:0.00} m of edge, {edge.Longest.Length:0.00} m of it in one line, and no door lies between them."));
                }
            }
        }
    }

    private static IEnumerable<InferredJoin> Landings(
        ImmutableArray<(Place Car, Elevator Elevator)> elevators, RecordedSpace[] shafts, ImmutableArray<Place> places, ImmutableArray<Level> levels, double datumMetres)
    {
        foreach (var car in elevators.Select(pair => pair.Car))
        {
            var storeys = shafts.Where(shaft => shaft.Number == car.Number || (shaft.Outline is not null && OutlineCheck.Overlap(shaft.Outline, car.Outline) >= LeastOverlap)).ToArray();
            var served = levels.Where(level => storeys.Any(shaft => shaft.Level == level.Id
                || (shaft.BottomMetres - datumMetres < level.ElevationMetres + StoreyMetres && level.ElevationMetres + StoreyMetres < shaft.TopMetres - datumMetres)));
            foreach (var landing in served.SelectMany(level => places.Where(place => place.Level == level.Id && PlaceWords.IsCirculation(place.Kind))))
            {
                if (SharedEdge.Between(landing.Outline, car.Outline, ShaftWallMetres) is { } edge && edge.Metres >= LeastSharedMetres - PlaceShape.ToleranceMetres)
                {
                    yield return new($"L {car.Number}@{landing.Number}", PassageKind.LandingDoor, landing.Number, car.Number, Rounded(edge.Longest), FormattableString.Invariant(
                        $"{landing.Number} ({landing.Name}) runs along the shaft {car.Number} for {edge.Metres:0.00} m on level {landing.Level}; the file names no door there."));
                }
            }
        }
    }

    private static IEnumerable<InferredJoin> Flights(ImmutableArray<Place> places, ImmutableArray<Level> levels)
    {
        var elevations = levels.DistinctBy(level => level.Id).ToDictionary(level => level.Id, level => level.ElevationMetres);
        var stairs = places.Where(place => place.Kind == PlaceKind.Stairwell && elevations.ContainsKey(place.Level!)).OrderBy(place => elevations[place.Level!]).ToArray();
        foreach (var (lower, i) in stairs.Select((place, i) => (place, i)))
        {
            var above = stairs[(i + 1)..].Where(place => elevations[place.Level!] > elevations[lower.Level!]
                && OutlineCheck.Overlap(lower.Outline, place.Outline) >= LeastOverlap).ToArray();
            foreach (var upper in above.Where(place => elevations[place.Level!] == elevations[above[0].Level!]))
            {
                var middle = new PlaceShape(lower.Outline).InteriorPoint();
                var line = new PlanSegment(middle with { X = middle.X - LeastSharedMetres / 2 }, middle with { X = middle.X + LeastSharedMetres / 2 });
                yield return new($"S {lower.Number}~{upper.Number}", PassageKind.StairFlight, lower.Number, upper.Number, Rounded(line), FormattableString.Invariant(
                    $"The stairwell {upper.Number} on level {upper.Level} lies above {lower.Number} on level {lower.Level}."));
            }
        }
    }

    internal static PlanSegment Rounded(PlanSegment line) => new(Rounded(line.A), Rounded(line.B));

    private static PlanPoint Rounded(PlanPoint point) => new(Math.Round(point.X, 3), Math.Round(point.Y, 3));

    private static (string, string) Pair(string a, string b) => string.CompareOrdinal(a, b) < 0 ? (a, b) : (b, a);
}
