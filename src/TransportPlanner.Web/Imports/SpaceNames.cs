namespace TransportPlanner.Web.Imports;

/// <summary>Names of columns that several readers ask for.</summary>
internal static class Columns
{
    public static readonly string[] Space = ["name", "spacename", "number", "roomnumber", "spacenumber"];
    public static readonly string[] Height = ["usableheight", "height", "clearheight"];
    public static readonly string[] Area = ["netarea", "area", "grossarea"];

    public static string Key(string name) => name.Trim().ToUpperInvariant();
}

/// <summary>Finds the space that a cell means: as written, else by letters and digits alone, so that <c>1e15-a</c> is 1E15A.</summary>
internal sealed class SpaceNames
{
    private static readonly char[] Separators = [',', ';', '/', '|', '&', '+', '\n', '\r', '\t'];
    private readonly HashSet<string> _exact;
    private readonly Dictionary<string, string> _plain;

    public SpaceNames(IEnumerable<string> numbers)
    {
        _exact = [.. numbers];

        // Two numbers that differ in a hyphen only are two spaces: then nothing but the exact spelling will do.
        _plain = _exact.GroupBy(WorkbookTables.Plain).Where(same => same.Count() == 1).ToDictionary(same => same.Key, same => same.Single());
    }

    public string? Find(string text) => _exact.Contains(text) ? text : _plain.GetValueOrDefault(WorkbookTables.Plain(text));

    /// <summary>The spaces of a cell; a text that no space has is kept as it is. A number that itself holds a separator is found whole.</summary>
    public IEnumerable<string> Split(string? cell) =>
        cell is null ? []
        : _exact.Contains(cell) ? [cell]
        : cell.Split(Separators, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(part => Find(part) ?? part);
}
