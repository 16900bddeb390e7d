using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>
/// A building after the OpenStreetMap tagging scheme Simple Indoor Tagging as the record of a building: <c>indoor</c>, <c>level</c> with lists
/// and ranges, <c>repeat_on</c>, <c>door</c>, elevators and stairs. <c>docs/imports.md</c> says what is read.
/// </summary>
internal static partial class OsmReader
{
    private const double SnapMetres = 0.3;
    private const double TieMetres = 0.05;
    private const double FarthestMetres = 5_000;
    private const double StoreyMetres = 4;
    private const int MostLevels = 100;

    private static readonly Dictionary<string, (string Name, string Category)> Rooms = new(StringComparer.Ordinal)
    {
        ["toilet"] = ("Toilet", "13-41 11 14"),
        ["toilets"] = ("Toilet", "13-41 11 14"),
        ["bathroom"] = ("Bathroom", "13-41 11 14"),
        ["shower"] = ("Shower", "13-41 11 14"),
        ["office"] = ("Office", "13-15 11 34"),
        ["waiting"] = ("Waiting area", "13-51 31"),
        ["lobby"] = ("Lobby", "13-85 31"),
        ["entrance"] = ("Lobby", "13-85 31"),
        ["corridor"] = ("Corridor", "13-85 11"),
        ["stairs"] = ("Stair", "13-85 21"),
        ["elevator"] = ("Elevator", "13-81 21 31"),
        ["technical"] = ("Technical room", "13-75"),
    };

    private sealed record Piece(OsmElement Element, string Level, RecordedSpace Space)
    {
        public bool IsShaft => Space.Category == Rooms["elevator"].Category;
    }

    public static BuildingRecord? Read(string text, string name, List<Finding> findings, IProgress<string> progress, CancellationToken cancellationToken)
    {
        progress.Report("reading points and outlines");
        if (OsmElements.Read(text, findings, cancellationToken) is not { } elements)
        {
            return null;
        }

        OsmElement[] indoor = [.. elements.Where(element => !element.IsPoint && IsSpace(element))];
        OsmElement[] drawn = [.. indoor.Where(element => element.Points is [var first, .., var last] && element.Points.Length >= 4 && first == last)];
        Leave(findings, "outline", indoor.Except(drawn), "has no outline of one closed ring without holes and is left out: draw it as one closed way.");
        OsmElement[] levelled = [.. drawn.Where(element => LevelsOf(element).Count > 0)];
        Leave(findings, "outline", drawn.Except(levelled), "has no level and is left out: give it level, a number, a list such as 0;1 or a range such as 0-3.");
        if (levelled.Length == 0)
        {
            findings.Add(WorkbookTables.Refused("The file has no closed outline with indoor=room, corridor or area and a level: tag the building after Simple Indoor Tagging."));
            return null;
        }

        // On whole thousandths of a degree, so that a second export of the same building lies at the same spot.
        var points = levelled.SelectMany(element => element.Points).ToArray();
        var plane = new LocalMetres(
            Math.Round((points.Min(p => p.Latitude) + points.Max(p => p.Latitude)) / 2, 3), Math.Round((points.Min(p => p.Longitude) + points.Max(p => p.Longitude)) / 2, 3));
        PlanPoint Local((double Latitude, double Longitude) p) => plane.Of(p.Latitude, p.Longitude) is var at ? new(Math.Round(at.X, 3), Math.Round(at.Y, 3)) : default;
        if (points.Select(Local).FirstOrDefault(p => Math.Abs(p.X) > FarthestMetres || Math.Abs(p.Y) > FarthestMetres) is var far && far != default)
        {
            findings.Add(WorkbookTables.Refused($"The outlines lie more than {FarthestMetres / 1_000} km from their middle: export one site alone."));
            return null;
        }

        var levels = levelled.SelectMany(LevelsOf).Distinct().Order().ToArray();
        var elevations = Elevations(levels, elements, findings);
        Piece[] pieces = [.. Pieces(levelled, elevations, Local)];
        progress.Report("looking for doors");
        return new()
        {
            Name = name,
            Levels = [.. levels.Select(level => new RecordedLevel(Word(level), elevations[level], $"level {Word(level)}"))],
            Spaces = [.. pieces.Select(piece => piece.Space)],
            Doors = [.. elements.Where(element => element.IsPoint && IsDoor(element)).SelectMany(door => Doors(door, Local(door.Points[0]), pieces, findings, cancellationToken))],
            Elevators = [],
        };
    }

    private static bool IsSpace(OsmElement element) => element.Tag("indoor") is "room" or "corridor" or "area" || element.Tag("highway") == "elevator" || element.Tag("room") is "stairs" or "elevator";

    private static bool IsDoor(OsmElement element) => element.Tag("door") is not null || element.Tag("indoor") == "door";

    /// <summary>Levels by <c>level</c> and <c>repeat_on</c>; empty where there is none or one is no number.</summary>
    private static ImmutableSortedSet<decimal> LevelsOf(OsmElement element)
    {
        var levels = ImmutableSortedSet.CreateBuilder<decimal>();
        foreach (var part in $"{element.Tag("level")};{element.Tag("repeat_on")}".Split([';', ','], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (Range().Match(part) is not { Success: true } match || !decimal.TryParse(match.Groups["from"].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var from))
            {
                return [];
            }

            var to = match.Groups["to"].Success ? decimal.Parse(match.Groups["to"].Value, CultureInfo.InvariantCulture) : from;
            for (var level = from; level <= to && levels.Count <= MostLevels; level++)
            {
                levels.Add(level);
            }
        }

        return levels.Count <= MostLevels ? levels.ToImmutable() : [];
    }

    private static Dictionary<decimal, double> Elevations(decimal[] levels, IReadOnlyList<OsmElement> elements, List<Finding> findings)
    {
        var said = elements.Where(element => element.Tag("indoor") == "level" && Metres(element.Tag("ele")) is not null)
            .SelectMany(element => LevelsOf(element).Select(level => (level, Metres(element.Tag("ele"))!.Value))).GroupBy(pair => pair.level).ToDictionary(pair => pair.Key, pair => pair.First().Value);
        if (levels.All(said.ContainsKey))
        {
            return levels.ToDictionary(level => level, level => said[level]);
        }

        findings.Add(new(FindingSeverity.Warning, "levels", "elevationMetres", FormattableString.Invariant(
            $"The file does not say how high each level lies (indoor=level with ele): {StoreyMetres} m a level is taken, assumed; rides and flights are measured by it.")));
        return levels.ToDictionary(level => level, level => (double)level * StoreyMetres);
    }

    private static IEnumerable<Piece> Pieces(OsmElement[] elements, Dictionary<decimal, double> elevations, Func<(double, double), PlanPoint> local)
    {
        // A shaft through neighbouring levels is one space that reaches from the lowest to the highest.
        var all = elements.SelectMany(element => IsShaft(element) && elevations.Keys.Where(level => level >= LevelsOf(element)[0] && level <= LevelsOf(element)[^1]).All(LevelsOf(element).Contains)
            ? [(element, From: LevelsOf(element)[0], To: LevelsOf(element)[^1])]
            : LevelsOf(element).Select(level => (element, From: level, To: level))).ToArray();
        var taken = new HashSet<string>(StringComparer.Ordinal);
        var shared = all.GroupBy(piece => piece.element.Tag("ref") ?? piece.element.Id).Where(same => same.Skip(1).Any()).Select(same => same.Key).ToHashSet(StringComparer.Ordinal);
        foreach (var (element, from, to) in all)
        {
            var own = element.Tag("ref") ?? element.Id;
            var number = shared.Contains(own) ? $"{own} L{Word(from)}" : own;
            number = taken.Add(number) ? number : $"{number} {element.Id}";
            taken.Add(number);
            var (words, category) = Meaning(element);
            yield return new(element, Word(from), new()
            {
                Number = number,
                Name = element.Tag("name") is { Length: > 0 } called ? called : words,
                Category = category,
                Level = Word(from),
                Outline = new([.. element.Points[..^1].Select(local)]),
                HeightMetres = Metres(element.Tag("height")),
                BottomMetres = elevations[from],
                TopMetres = elevations[to] + StoreyMetres / 2,
                Origin = element.Id,
            });
        }
    }

    private static bool IsShaft(OsmElement element) => Meaning(element).Category == Rooms["elevator"].Category;

    private static (string Name, string Category) Meaning(OsmElement element) =>
        element.Tag("highway") == "elevator" || element.Tag("elevator") == "yes" ? Rooms["elevator"]
        : element.Tag("stairs") == "yes" ? Rooms["stairs"]
        : element.Tag("room") is { } room && Rooms.TryGetValue(room, out var known) ? known
        : element.Tag("indoor") switch
        {
            "corridor" => Rooms["corridor"],
            "area" => ("Open area", Rooms["lobby"].Category),
            _ => (element.Tag("room") is { Length: > 0 } other ? other.Replace('_', ' ') : "Room", ""),
        };

    /// <summary>One door a level. The spaces are those whose ways have the point, else the nearest two outlines of the level.</summary>
    private static IEnumerable<RecordedDoor> Doors(OsmElement door, PlanPoint point, Piece[] pieces, List<Finding> findings, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        var near = pieces.Select(piece => (Piece: piece, Metres: piece.Space.Outline!.DistanceTo(point))).Where(pair => pair.Metres <= SnapMetres).OrderBy(pair => pair.Metres).ToArray();
        var onWays = near.Where(pair => door.Ways.Contains(pair.Piece.Element.Id)).ToArray();
        var levels = LevelsOf(door) is { Count: > 0 } own ? [.. own.Select(Word)] : Inherited(onWays.Length > 0 ? onWays : near);
        if (levels.Length > 1 && LevelsOf(door).IsEmpty && onWays.Length == 0)
        {
            findings.Add(new(FindingSeverity.Warning, $"door {door.Id}", "doorLevels", $"{door.Id}: the door has no level, and outlines of levels {string.Join(", ", levels)} lie there, so it is left out: give it level."));
            yield break;
        }

        foreach (var level in levels)
        {
            var on = near.Where(pair => Reaches(pair.Piece, level)).ToArray();
            var sure = on.Where(pair => door.Ways.Contains(pair.Piece.Element.Id)).ToArray();
            var chosen = sure.Length >= 2 ? sure : on.Length > 2 && on[2].Metres > on[1].Metres + TieMetres ? on[..2] : on;

            // The way into a car is a proposal for a person, like every landing.
            if (chosen.Any(pair => pair.Piece.IsShaft))
            {
                continue;
            }

            if (door.Tag("door") == "no")
            {
                findings.Add(new(FindingSeverity.Warning, $"door {door.Id}", "doorSpaces", $"{door.Id}: an opening without a leaf (door=no) on level {level} is left out: confirm the proposed join, or draw it by hand."));
                continue;
            }

            yield return new()
            {
                Id = levels.Length > 1 ? $"{door.Tag("ref") ?? door.Id} L{level}" : door.Tag("ref") ?? door.Id,
                Description = $"{door.Tag("door")}{(door.Tag("automatic_door") is null or "no" ? "" : " automatic")}",
                Spaces = [.. chosen.Select(pair => pair.Piece.Space.Number)],
                Point = point,
                NominalWidthMetres = Metres(door.Tag("width")),
                NominalHeightMetres = Metres(door.Tag("height")),
                Origin = door.Id,
            };
        }
    }

    /// <summary>Without a level of its own a door is where two outlines have it; where none are, wherever one has.</summary>
    private static string[] Inherited((Piece Piece, double Metres)[] around)
    {
        var byLevel = around.GroupBy(pair => pair.Piece.Level).ToArray();
        return [.. (byLevel.Any(level => level.Skip(1).Any()) ? byLevel.Where(level => level.Skip(1).Any()) : byLevel).Select(level => level.Key)];
    }

    private static bool Reaches(Piece piece, string level) => piece.Level == level || (piece.IsShaft && LevelsOf(piece.Element).Select(Word).Contains(level));

    private static void Leave(List<Finding> findings, string path, IEnumerable<OsmElement> elements, string words) =>
        findings.AddRange(elements.Select(element => new Finding(FindingSeverity.Warning, $"place {element.Tag("ref") ?? element.Id}", path, $"{element.Id}: {element.Tag("name") ?? element.Tag("ref") ?? element.Id} {words}")));

    private static string Word(decimal level) => level.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A length as the scheme writes it: metres, unless a unit stands behind it.</summary>
    private static double? Metres(string? text) => text is not null && Length().Match(text) is { Success: true } match
        && double.TryParse(match.Groups[1].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var figure)
            ? figure * match.Groups[2].Value switch { "cm" => 0.01, "mm" => 0.001, "ft" or "'" => 0.3048, _ => 1 } : null;

    [GeneratedRegex(@"^(?<from>-?\d{1,4}(\.\d{1,2})?)(-(?<to>-?\d{1,4}(\.\d{1,2})?))?$")]
    private static partial Regex Range();

    [GeneratedRegex(@"^\s*(-?\d+(?:\.\d+)?)\s*(m|cm|mm|ft|')?\s*$")]
    private static partial Regex Length();
}
