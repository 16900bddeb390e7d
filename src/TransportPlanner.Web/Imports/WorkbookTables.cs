using System.Globalization;
using System.IO.Compression;
using ExcelDataReader;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>One sheet: its name as the file writes it, where its header stands, and its rows as text.</summary>
internal sealed class WorkbookTable(string name, int headerRow, IReadOnlyList<string> header, IReadOnlyList<string[]> rows)
{
    private readonly string[] _plain = [.. header.Select(WorkbookTables.Plain)];

    public string Name => name;

    /// <summary>Each row with its number in the sheet, from 1.</summary>
    public IEnumerable<WorkbookRow> Rows => rows.Select((cells, i) => new WorkbookRow(this, headerRow + 1 + i, cells)).Where(row => row.HasText);

    /// <summary>Position of the first column that has one of these names; −1 where there is none.</summary>
    internal int Column(IEnumerable<string> names) =>
        names.Select(wanted => Array.IndexOf(_plain, wanted)).FirstOrDefault(at => at >= 0, -1);

    internal string HeaderOf(int column) => header[column];
}

/// <summary>One row of a sheet. A cell that is empty, <c>n/a</c> or a dash is null.</summary>
internal sealed record WorkbookRow(WorkbookTable Table, int Number, string[] Cells)
{
    public string Origin => $"{Table.Name}, row {Number}";
    public bool HasText => Cells.Any(cell => cell.Length > 0);

    public string? Text(params string[] names) =>
        Table.Column(names) is >= 0 and var at && at < Cells.Length && Cells[at] is { Length: > 0 } text && text.ToUpperInvariant() is not ("N/A" or "NA" or "-" or "NULL")
            ? text
            : null;

    /// <summary>A number with a point or a comma before the decimals; what is none becomes a finding that names sheet, row and column.</summary>
    public double? Figure(List<Finding> findings, params string[] names)
    {
        if (Text(names) is not { } text)
        {
            return null;
        }

        // 1,234.5 has a comma for thousands, 1234,5 one for decimals.
        var plain = text.Contains('.', StringComparison.Ordinal) ? text.Replace(",", "", StringComparison.Ordinal) : text.Replace(',', '.');
        if (double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var figure) && double.IsFinite(figure))
        {
            return figure;
        }

        var column = Table.HeaderOf(Table.Column(names));
        findings.Add(new(FindingSeverity.Warning, Origin, $"{Table.Name}.{column}",
            $"Sheet {Table.Name}, row {Number}, column {column}: \"{Short(text)}\" is no number and counts as unknown: write a number, with a point before the decimals."));
        return null;
    }

    public DateOnly? Day(params string[] names) =>
        Text(names) is { Length: >= 10 } text && DateOnly.TryParseExact(text[..10], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    internal static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";
}

/// <summary>Reads a workbook's sheets as tables of text, within limits; formulas are read as the values that were saved with them.</summary>
internal static class WorkbookTables
{
    /// <summary>More than this unpacked is refused before anything is unpacked.</summary>
    public const long MaxUnpackedBytes = 512L << 20;
    public const int MaxRows = 200_000;
    public const int MaxColumns = 200;
    private const int HeaderSearchRows = 20;

    // The reader's settings name the code page 1252, for old formats that are not read here.
    static WorkbookTables() => System.Text.Encoding.RegisterProvider(System.Text.CodePagesEncodingProvider.Instance);

    /// <summary>The sheets that <paramref name="isWanted"/> picks by their plain name. Null: the file is no such workbook; the finding says why.</summary>
    public static List<WorkbookTable>? Read(
        Stream file, Func<string, bool> isWanted, List<Finding> findings, IProgress<string>? progress, CancellationToken cancellationToken)
    {
        try
        {
            if (Refusal(file) is { } refusal)
            {
                findings.Add(Refused(refusal));
                return null;
            }

            file.Position = 0;
            using var reader = ExcelReaderFactory.CreateOpenXmlReader(file, new() { LeaveOpen = true });
            var tables = new List<WorkbookTable>();
            do
            {
                if (isWanted(Plain(reader.Name)))
                {
                    progress?.Report($"reading sheet {reader.Name}");
                    if (Table(reader, findings, cancellationToken) is { } table)
                    {
                        tables.Add(table);
                    }
                }
            }
            while (reader.NextResult());
            return tables;
        }
        catch (Exception e) when (e is InvalidDataException or System.Xml.XmlException or ExcelDataReader.Exceptions.ExcelReaderException
            or FormatException or ArgumentException or NotSupportedException or InvalidOperationException or IndexOutOfRangeException or OverflowException
            or NullReferenceException or KeyNotFoundException or IOException)
        {
            // A reader library meets a broken file in many ways; for the person all of them are one thing.
            findings.Add(Refused($"The file cannot be read as an .xlsx workbook ({e.GetType().Name}): save it again in the spreadsheet program and upload that."));
            return null;
        }
    }

    /// <summary>Letters and digits only, lower case: <c>Floor Name</c>, <c>FloorName</c> and <c>floor_name</c> are the same.</summary>
    public static string Plain(string text) => string.Concat(text.Where(char.IsLetterOrDigit)).ToLowerInvariant();

    private static string? Refusal(Stream file)
    {
        using var zip = new ZipArchive(file, ZipArchiveMode.Read, leaveOpen: true);
        var bytes = zip.Entries.Aggregate(0L, (sum, entry) => sum + Math.Min(entry.Length, MaxUnpackedBytes + 1));
        return bytes > MaxUnpackedBytes
            ? $"The workbook unpacks to more than {MaxUnpackedBytes >> 20} MiB, which is the limit: leave out sheets that describe no floor, space, door or coordinate."
            : null;
    }

    private static WorkbookTable? Table(IExcelDataReader reader, List<Finding> findings, CancellationToken cancellationToken)
    {
        var (name, row, headerRow) = (reader.Name, 0, 0);
        string[]? header = null;
        var rows = new List<string[]>();
        while (reader.Read())
        {
            cancellationToken.ThrowIfCancellationRequested();
            row++;
            var cells = Cells(reader);
            if (header is null)
            {
                if (cells.Any(cell => Plain(cell) is "name" or "number" or "floorname" or "roomnumber" or "spacename" or "spacenumber"))
                {
                    (header, headerRow) = (cells, row);
                }
                else if (row >= HeaderSearchRows)
                {
                    break;
                }

                continue;
            }

            if (rows.Count >= MaxRows)
            {
                findings.Add(Refused($"Sheet {name} has more than {MaxRows} rows, which is the limit: split the site."));
                return null;
            }

            rows.Add(cells);
        }

        if (header is null)
        {
            findings.Add(new(FindingSeverity.Warning, $"sheet {name}", name, $"Sheet {name} has no header row with a column Name in its first {HeaderSearchRows} rows and is not read: add one."));
            return null;
        }

        return new(name, headerRow, header, rows);
    }

    private static string[] Cells(IExcelDataReader reader)
    {
        var cells = new string[Math.Min(reader.FieldCount, MaxColumns)];
        for (var i = 0; i < cells.Length; i++)
        {
            cells[i] = reader.GetValue(i) switch
            {
                null => "",
                DateTime day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                IFormattable figure => figure.ToString(null, CultureInfo.InvariantCulture),
                var other => $"{other}".Trim(),
            };
        }

        return cells;
    }

    internal static Finding Refused(string text) => new(FindingSeverity.Error, "the file", "file", text);
}
