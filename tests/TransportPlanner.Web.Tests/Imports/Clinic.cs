using System.Globalization;
using CsvHelper;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Imports;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>
/// The handover workbook of a real two-storey clinic (BSI 2020, Medical-Dental Test Files, buildingSMART International, CC BY 4.0), read
/// with the product's own reader. It is found through the environment and is no part of the repository.
/// </summary>
internal static class Clinic
{
    public static readonly DraftHeader Header = new("clinic", "Clinic", "Etc/UTC", null);

    public static string Folder
    {
        get
        {
            var folder = Path.Combine(Environment.GetEnvironmentVariable("PLANNER_BUILDINGS") ?? "", "clinic");
            Assert.SkipWhen(!Directory.Exists(folder), "skipped: no real clinic, PLANNER_BUILDINGS names no folder with clinic/ in it");
            return folder;
        }
    }

    public static string Workbook => Path.Combine(Folder, "clinic.cobie.xlsx");

    public static (BuildingRecord Building, List<Finding> Findings) Read(bool withOutlines)
    {
        var findings = new List<Finding>();
        Dictionary<string, Outline>? outlines = null;
        if (withOutlines)
        {
            using var text = new StreamReader(Path.Combine(Folder, "spaces.csv"));
            outlines = OutlineFile.Read(text, findings);
        }

        using var file = File.OpenRead(Workbook);
        return (CobieReader.Read(file, outlines, findings, cancellationToken: TestContext.Current.CancellationToken)!, findings);
    }

    public static List<Dictionary<string, string>> Rows(string name)
    {
        using var text = new StreamReader(Path.Combine(Folder, name));
        using var csv = new CsvReader(text, CultureInfo.InvariantCulture);
        return [.. csv.GetRecords<dynamic>().Select(row => ((IDictionary<string, object>)row).ToDictionary(cell => cell.Key, cell => $"{cell.Value}"))];
    }
}
