using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>The table of facts as CSV (RFC 4180), both ways.</summary>
internal static class FactsFile
{
    public const int MaxRows = 100_000;
    private const string Dangerous = "=+-@'";

    public static string Write(FloorPlan plan)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvWriter(text, CultureInfo.InvariantCulture, leaveOpen: true))
        {
            foreach (var row in FactsTable.Rows(plan).Select(row => row.Select(Harmless)).Prepend(FactsTable.Columns))
            {
                foreach (var cell in row)
                {
                    csv.WriteField(cell);
                }

                csv.NextRecord();
            }
        }

        // With its mark a spreadsheet program reads UTF-8 as such.
        return "\uFEFF" + text;
    }

    /// <summary>The plan with the facts of the file, or null with a finding for each cell that is not taken.</summary>
    public static FloorPlan? Read(string text, FloorPlan plan, List<Finding> findings)
    {
        using var csv = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture) { BadDataFound = null, MissingFieldFound = null, DetectDelimiter = true });
        if (!csv.Read() || !csv.ReadHeader())
        {
            findings.Add(WorkbookTables.Refused("The file is empty: export the facts of the site and edit that table."));
            return null;
        }

        var rows = new List<(int, IReadOnlyList<string>)>();
        while (csv.Read())
        {
            if (rows.Count >= MaxRows)
            {
                findings.Add(WorkbookTables.Refused($"The file has more than {MaxRows} rows, which is the limit."));
                return null;
            }

            var cells = csv.Parser.Record!.Select(Plain).ToArray();
            if (cells.Any(cell => cell.Length > 0))
            {
                rows.Add((csv.Parser.Row, cells));
            }
        }

        var reading = FactsTable.Read(plan, [.. csv.HeaderRecord!.Select(name => name.Trim())], rows);
        findings.AddRange(reading.Findings);
        return reading.Plan;
    }

    /// <summary>A text that a spreadsheet would run as a formula gets an apostrophe; a number does not.</summary>
    private static string Harmless(string cell) =>
        cell.Length > 0 && Dangerous.Contains(cell[0], StringComparison.Ordinal) && !double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _) ? "'" + cell : cell;

    private static string Plain(string cell) => cell.Length > 1 && cell[0] == '\'' && Dangerous.Contains(cell[1], StringComparison.Ordinal) ? cell[1..] : cell;
}
