using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>The points and boxes of the sheet Coordinate, in metres whatever the file's unit.</summary>
internal sealed class CobiePoints
{
    private readonly Dictionary<string, Corners> _spaces = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Corners> _components = new(StringComparer.Ordinal);

    public CobiePoints(CobieSheets sheets, SpaceNames names, List<Finding> findings, double? named, double areaUnit)
    {
        foreach (var row in sheets.Coordinates)
        {
            if (row.Text("rowname") is not { } owner
                || row.Figure(findings, "coordinatexaxis", "x") is not { } x || row.Figure(findings, "coordinateyaxis", "y") is not { } y)
            {
                continue;
            }

            var isSpace = WorkbookTables.Plain(row.Text("sheetname") ?? "") is "space" or "spaces" or "room" or "rooms";
            var (all, key) = isSpace ? (_spaces, names.Find(owner) ?? owner) : (_components, Columns.Key(owner));
            var corners = all.TryGetValue(key, out var known) ? known : all[key] = new();
            var corner = (x, y, row.Figure(findings, "coordinatezaxis", "z"));
            switch (WorkbookTables.Plain(row.Text("category", "type") ?? "point"))
            {
                case "boxlowerleft":
                    corners.Lower ??= corner;
                    break;
                case "boxupperright":
                    corners.Upper ??= corner;
                    break;
                case "point":
                    corners.Point ??= corner;
                    break;
            }
        }

        var areas = sheets.Spaces.Select(row => (Drawn: row.Text(Columns.Space) is { } number && _spaces.TryGetValue(number, out var box) ? box.Area : 0,
            (row.Figure([], Columns.Area) ?? 0) * areaUnit)).ToArray();
        Unit = LengthUnit.ByArea(areas, named);
        if (named is { } said && said != Unit && areas.Any(pair => pair.Drawn > 0))
        {
            findings.Add(new(FindingSeverity.Warning, "sheet Coordinate", "unit", FormattableString.Invariant(
                $"The file names a unit of {said:0.####} m, and boxes fit the stated areas at {Unit:0.####} m to the unit, which is taken for points and elevations: check one length on site.")));
        }
    }

    /// <summary>Metres in the unit of the points.</summary>
    public double Unit { get; }

    public (Outline Outline, double? Bottom, double? Top)? BoxOf(string space) =>
        _spaces.TryGetValue(space, out var box) && box.Area > 0
            ? (Outline.Rectangle(Scaled(Math.Min(box.Lower!.Value.X, box.Upper!.Value.X)), Scaled(Math.Min(box.Lower.Value.Y, box.Upper.Value.Y)),
                Scaled(Math.Max(box.Lower.Value.X, box.Upper.Value.X)), Scaled(Math.Max(box.Lower.Value.Y, box.Upper.Value.Y))),
                box.Lower.Value.Z * Unit, box.Upper.Value.Z * Unit)
            : null;

    /// <summary>The point of a component, else the middle of its box.</summary>
    public (PlanPoint Point, double? Elevation)? PointOf(string component) =>
        !_components.TryGetValue(Columns.Key(component), out var corners) ? null
        : corners.Point is { } point ? (new(Scaled(point.X), Scaled(point.Y)), point.Z * Unit)
        : corners is { Lower: { } lower, Upper: { } upper } ? (new(Scaled((lower.X + upper.X) / 2), Scaled((lower.Y + upper.Y) / 2)), lower.Z * Unit)
        : null;

    private double Scaled(double figure) => Math.Round(figure * Unit, 3);

    private sealed class Corners
    {
        public (double X, double Y, double? Z)? Lower { get; set; }
        public (double X, double Y, double? Z)? Upper { get; set; }
        public (double X, double Y, double? Z)? Point { get; set; }
        public double Area => Lower is { } a && Upper is { } b ? Math.Abs((b.X - a.X) * (b.Y - a.Y)) : 0;
    }
}
