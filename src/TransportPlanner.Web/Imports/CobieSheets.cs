using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>The sheets of a COBie 2.4 workbook (NBIMS-US V3, chapter 4.2) that a floor plan needs, under any of their usual spellings.</summary>
internal sealed class CobieSheets
{
    private static readonly Dictionary<string, string[]> Spellings = new()
    {
        ["facility"] = ["facility", "facilities", "building"],
        ["floor"] = ["floor", "floors", "level", "levels", "storey", "storeys", "story", "stories"],
        ["space"] = ["space", "spaces", "room", "rooms"],
        ["zone"] = ["zone", "zones"],
        ["type"] = ["type", "types"],
        ["component"] = ["component", "components", "door", "doors"],
        ["coordinate"] = ["coordinate", "coordinates"],
    };

    private static readonly string[] Needed = ["floor", "space"];

    private readonly ILookup<string, WorkbookTable> _tables;

    private CobieSheets(IEnumerable<WorkbookTable> tables) => _tables = tables.ToLookup(table => Sheet(WorkbookTables.Plain(table.Name))!);

    public IEnumerable<WorkbookRow> Facility => Rows("facility");
    public IEnumerable<WorkbookRow> Floors => Rows("floor");
    public IEnumerable<WorkbookRow> Spaces => Rows("space");
    public IEnumerable<WorkbookRow> Zones => Rows("zone");
    public IEnumerable<WorkbookRow> Types => Rows("type");
    public IEnumerable<WorkbookRow> Components => Rows("component");
    public IEnumerable<WorkbookRow> Coordinates => Rows("coordinate");

    /// <summary>Null where the file is no workbook or lacks a sheet without which there is no plan; the findings say which.</summary>
    public static CobieSheets? Read(Stream file, List<Finding> findings, IProgress<string>? progress, CancellationToken cancellationToken)
    {
        if (WorkbookTables.Read(file, name => Sheet(name) is not null, findings, progress, cancellationToken) is not { } tables)
        {
            return null;
        }

        var sheets = new CobieSheets(tables);
        foreach (var needed in Needed.Where(needed => !sheets.Rows(needed).Any()))
        {
            findings.Add(WorkbookTables.Refused($"The workbook has no sheet {char.ToUpperInvariant(needed[0])}{needed[1..]} with rows under a header: it is no COBie workbook, or the sheet has another name."));
        }

        return findings.Exists(finding => finding.Severity == FindingSeverity.Error) ? null : sheets;
    }

    // A number before the name (01 Floor) is common in templates.
    private static string? Sheet(string plain) =>
        Spellings.FirstOrDefault(sheet => sheet.Value.Contains(plain.TrimStart("0123456789".ToCharArray()))).Key;

    private IEnumerable<WorkbookRow> Rows(string sheet) => _tables[sheet].SelectMany(table => table.Rows);
}
