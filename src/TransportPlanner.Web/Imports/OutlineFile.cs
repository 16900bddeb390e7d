using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>
/// Outlines beside a workbook that has boxes only: a CSV table with the number of a space and a polygon as well-known text (OGC 06-103r4),
/// in metres and in the workbook's own coordinates.
/// </summary>
internal static class OutlineFile
{
    public const int MaxRows = 20_000;

    public static Dictionary<string, Outline> Read(TextReader text, List<Finding> findings)
    {
        var outlines = new Dictionary<string, Outline>(StringComparer.Ordinal);
        using var csv = new CsvReader(text, new CsvConfiguration(CultureInfo.InvariantCulture) { BadDataFound = null, MissingFieldFound = null, DetectDelimiter = true });
        if (!csv.Read() || !csv.ReadHeader())
        {
            findings.Add(WorkbookTables.Refused("The outlines have no header: give a CSV table with the columns number and outline."));
            return outlines;
        }

        var names = csv.HeaderRecord!.Select(WorkbookTables.Plain).ToList();
        var number = names.FindIndex(name => name is "number" or "space" or "name");
        var outline = names.FindIndex(name => name.Contains("wkt", StringComparison.Ordinal) || name.Contains("polygon", StringComparison.Ordinal) || name == "outline");
        if (number < 0 || outline < 0)
        {
            findings.Add(WorkbookTables.Refused("The outlines need a column number and a column outline (a polygon as well-known text)."));
            return outlines;
        }

        var reader = new WKTReader();
        while (csv.Read() && outlines.Count < MaxRows)
        {
            if (csv.GetField(number) is not { Length: > 0 } space || csv.GetField(outline) is not { Length: > 0 } shape)
            {
                continue;
            }

            if (Polygon(reader, shape) is { } ring)
            {
                outlines.TryAdd(space, ring);
            }
            else
            {
                findings.Add(new(FindingSeverity.Warning, $"outlines, row {csv.Parser.Row}", "outline",
                    $"Outlines, row {csv.Parser.Row}, column {csv.HeaderRecord![outline]}: \"{WorkbookRow.Short(shape)}\" is no polygon without holes and is not used: write POLYGON ((x y, …))."));
            }
        }

        return outlines;
    }

    private static Outline? Polygon(WKTReader reader, string text)
    {
        try
        {
            return reader.Read(text) is Polygon { IsEmpty: false, NumInteriorRings: 0 } polygon && polygon.Coordinates.All(c => double.IsFinite(c.X) && double.IsFinite(c.Y))
                ? new([.. polygon.ExteriorRing.Coordinates[..^1].Select(corner => new PlanPoint(Math.Round(corner.X, 3), Math.Round(corner.Y, 3)))])
                : null;
        }
        catch (Exception e) when (e is ParseException or ArgumentException or FormatException)
        {
            return null;
        }
    }
}
