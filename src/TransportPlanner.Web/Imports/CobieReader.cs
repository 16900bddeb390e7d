using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>A COBie 2.4 workbook as a record of the building. Tolerant of spellings, separators and units; never of a missing fact.</summary>
internal sealed partial class CobieReader
{
    private const double UsualRoomHeight = 2.6;
    private const double UsualDoorWidth = 0.9;
    private const double KilogramsOfPound = 0.45359237;

    private readonly CobieSheets _sheets;
    private readonly List<Finding> _findings;
    private readonly SpaceNames _names;
    private readonly double? _named;
    private readonly CobiePoints _points;

    private CobieReader(CobieSheets sheets, List<Finding> findings)
    {
        (_sheets, _findings) = (sheets, findings);
        _names = new(sheets.Spaces.Select(row => row.Text(Columns.Space)).OfType<string>());
        var facility = sheets.Facility.FirstOrDefault();
        _named = LengthUnit.Named(facility?.Text("linearunits", "lengthunits", "linearunit"));
        AreaUnit = LengthUnit.NamedArea(facility?.Text("areaunits", "areaunit"));
        _points = new(sheets, _names, findings, _named, AreaUnit);
    }

    private double AreaUnit { get; }

    /// <summary>The building, or null where the file cannot be one; <paramref name="findings"/> says why.</summary>
    /// <param name="outlines">Outlines by space number, in metres, that go before the boxes of the workbook; null for none.</param>
    public static BuildingRecord? Read(
        Stream file, IReadOnlyDictionary<string, Outline>? outlines, List<Finding> findings, IProgress<string>? progress = null, CancellationToken cancellationToken = default)
    {
        if (CobieSheets.Read(file, findings, progress, cancellationToken) is not { } sheets)
        {
            return null;
        }

        progress?.Report("joining floors, spaces and doors");
        var reader = new CobieReader(sheets, findings);
        return new()
        {
            Name = sheets.Facility.FirstOrDefault()?.Text("projectname", "name") ?? "Building",
            Levels = reader.Levels(),
            Spaces = reader.Spaces(outlines ?? new Dictionary<string, Outline>()),
            Doors = reader.Doors(),
            Elevators = reader.Elevators(),
        };
    }

    private ImmutableArray<RecordedLevel> Levels() =>
    [
        .. _sheets.Floors.Where(row => row.Text("name", "floorname") is not null).Select(row => new RecordedLevel(
            row.Text("name", "floorname")!, Rounded(row.Figure(_findings, "elevation", "elevationm", "level") * _points.Unit), row.Origin)),
    ];

    private ImmutableArray<RecordedSpace> Spaces(IReadOnlyDictionary<string, Outline> given)
    {
        var outlines = given.DistinctBy(pair => _names.Find(pair.Key) ?? pair.Key).ToDictionary(pair => _names.Find(pair.Key) ?? pair.Key, pair => pair.Value);
        var zones = _sheets.Zones.SelectMany(row => _names.Split(row.Text("spacenames", "spacename", "spaces", "space")).Select(space => (Space: space, Zone: row.Text("name"))))
            .Where(pair => pair.Zone is not null).ToLookup(pair => pair.Space, pair => pair.Zone!);
        var levels = _sheets.Floors.Select(row => row.Text("name", "floorname")).OfType<string>().ToArray();
        var rows = _sheets.Spaces.Where(row => row.Text(Columns.Space) is not null).ToArray();
        var unit = LengthUnit.ByMedian(rows.Select(row => row.Figure([], Columns.Height) ?? 0), UsualRoomHeight, _named);
        return
        [
            .. rows.Select(row =>
            {
                var number = row.Text(Columns.Space)!;
                var box = _points.BoxOf(number);
                var drawn = outlines.GetValueOrDefault(number);
                var height = row.Figure(_findings, Columns.Height);
                return new RecordedSpace
                {
                    Number = number,
                    Name = row.Text("description", "roomname", "roomtag", "longname") ?? number,
                    Category = row.Text("category", "classification", "class") ?? "",
                    Level = LevelOf(row.Text("floorname", "floor", "level", "levelname", "storey") ?? "", levels),
                    Zones = [.. zones[number].Distinct()],
                    Outline = drawn ?? box?.Outline,
                    IsBox = drawn is null && box is not null,
                    NetAreaSquareMetres = row.Figure(_findings, Columns.Area) * AreaUnit,
                    HeightMetres = height > 0 ? Rounded(height * unit) : null,
                    BottomMetres = box?.Bottom,
                    TopMetres = box?.Top,
                    AsOf = row.Day("createdon"),
                    Origin = row.Origin,
                };
            }),
        ];
    }

    private ImmutableArray<RecordedDoor> Doors()
    {
        var types = _sheets.Types.Where(row => row.Text("name") is not null).DistinctBy(row => Columns.Key(row.Text("name")!)).ToDictionary(row => Columns.Key(row.Text("name")!));
        var rows = _sheets.Components.Where(row => row.Text("name") is not null).Where(row => IsDoor(row, TypeOf(row, types))).ToArray();
        var unit = LengthUnit.ByMedian(rows.Select(row => TypeOf(row, types)?.Figure([], "nominalwidth") ?? 0), UsualDoorWidth, _named);
        return
        [
            .. rows.Select(row =>
            {
                var type = TypeOf(row, types);
                var description = $"{row.Text("description")} {type?.Text("description")}".Trim();
                var (width, height) = Size(description) ?? (type?.Figure(_findings, "nominalwidth") * unit, type?.Figure(_findings, "nominalheight") * unit);
                var point = _points.PointOf(row.Text("name")!);
                return new RecordedDoor
                {
                    Id = row.Text("name")!,
                    Description = description,
                    Spaces = [.. SpacesOf(row)],
                    Point = point?.Point,
                    PointMetres = point?.Elevation,
                    NominalWidthMetres = Rounded(width),
                    NominalHeightMetres = Rounded(height),
                    AsOf = row.Day("createdon"),
                    Origin = row.Origin,
                };
            }),
        ];
    }

    private ImmutableArray<RecordedElevator> Elevators()
    {
        var types = _sheets.Types.Where(row => row.Text("name") is not null).DistinctBy(row => Columns.Key(row.Text("name")!)).ToDictionary(row => Columns.Key(row.Text("name")!));
        return
        [
            .. from row in _sheets.Components
               let type = TypeOf(row, types)
               where row.Text("name") is not null && Elevator().IsMatch($"{type?.Text("category")} {row.Text("category")}")
               let load = Load().Match($"{row.Text("description")} {type?.Text("description")}")
               select new RecordedElevator(
                   row.Text("name")!,
                   SpacesOf(row).FirstOrDefault(),
                   load.Success ? Math.Floor(Parsed(load.Groups[1].Value) * (load.Groups[2].Value.StartsWith('k') ? 1 : KilogramsOfPound)) : null,
                   row.Day("createdon"),
                   row.Origin),
        ];
    }

    private IEnumerable<string> SpacesOf(WorkbookRow row) =>
        new[] { row.Text("space", "spacename", "spacenames", "spaces", "fromroom", "fromspace", "space1", "spacea"), row.Text("toroom", "tospace", "space2", "spaceb") }
            .SelectMany(_names.Split);

    private static WorkbookRow? TypeOf(WorkbookRow row, Dictionary<string, WorkbookRow> types) =>
        row.Text("typename", "type") is { } name ? types.GetValueOrDefault(Columns.Key(name)) : null;

    private static bool IsDoor(WorkbookRow row, WorkbookRow? type) =>
        (row.Text("extobject", "externalobject") is { } kind && kind.StartsWith("Ifc", StringComparison.OrdinalIgnoreCase))
            ? kind.StartsWith("IfcDoor", StringComparison.OrdinalIgnoreCase)
            : type?.Text("category") is { } category
                ? category.StartsWith("23-30 10", StringComparison.Ordinal) || DoorWord().IsMatch(category)
                : DoorWord().IsMatch(row.Text("name")!) || WorkbookTables.Plain(row.Table.Name).EndsWith("doors", StringComparison.Ordinal);

    /// <summary>Width and height that a product's own description writes as <c>0915 x 2134mm</c>.</summary>
    private static (double? Width, double? Height)? Size(string description) =>
        SizeWords().Match(description) is { Success: true } size ? (Parsed(size.Groups[1].Value) / 1_000, Parsed(size.Groups[2].Value) / 1_000) : null;

    private static string LevelOf(string text, string[] levels) =>
        levels.FirstOrDefault(level => level == text) ?? levels.FirstOrDefault(level => WorkbookTables.Plain(level) == WorkbookTables.Plain(text)) ?? text;

    private static double Parsed(string digits) => double.Parse(digits.Replace(",", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);

    private static double? Rounded(double? metres) => metres is { } known ? Math.Round(known, 3) : null;

    [GeneratedRegex(@"\b(elevators?|lifts?)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Elevator();

    [GeneratedRegex(@"\bdoors?\b", RegexOptions.IgnoreCase)]
    private static partial Regex DoorWord();

    [GeneratedRegex(@"(\d[\d,]{1,6}) ?(kg|lbs?)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Load();

    [GeneratedRegex(@"\b(\d{3,4}) ?[x×] ?(\d{4}) ?mm", RegexOptions.IgnoreCase)]
    private static partial Regex SizeWords();
}
