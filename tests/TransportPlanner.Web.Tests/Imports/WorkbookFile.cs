using System.IO.Compression;
using System.Security;
using System.Text;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Writes a small .xlsx workbook (ISO/IEC 29500, inline strings): each sheet is rows of cells. All data in it are invented.</summary>
internal static class WorkbookFile
{
    public static MemoryStream Write(params (string Name, object?[][] Rows)[] sheets)
    {
        var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "[Content_Types].xml", "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
                + "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
                + "<Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/>"
                + string.Concat(sheets.Select((_, i) => $"<Override PartName=\"/xl/worksheets/sheet{i + 1}.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/>"))
                + "</Types>");
            Add(zip, "_rels/.rels", Relations(Relation(1, "officeDocument", "xl/workbook.xml")));
            Add(zip, "xl/workbook.xml", "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets>"
                + string.Concat(sheets.Select((sheet, i) => $"<sheet name=\"{SecurityElement.Escape(sheet.Name)}\" sheetId=\"{i + 1}\" r:id=\"r{i + 1}\"/>")) + "</sheets></workbook>");
            Add(zip, "xl/_rels/workbook.xml.rels", Relations(string.Concat(sheets.Select((_, i) => Relation(i + 1, "worksheet", $"worksheets/sheet{i + 1}.xml")))));
            for (var i = 0; i < sheets.Length; i++)
            {
                Add(zip, $"xl/worksheets/sheet{i + 1}.xml", "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>"
                    + string.Concat(sheets[i].Rows.Select((row, r) => $"<row r=\"{r + 1}\">{string.Concat(row.Select((cell, c) => Cell(cell, r, c)))}</row>")) + "</sheetData></worksheet>");
            }
        }

        file.Position = 0;
        return file;
    }

    private static string Cell(object? value, int row, int column)
    {
        var name = $"{(char)('A' + column)}{row + 1}";
        return value switch
        {
            null => "",
            Formula formula => $"<c r=\"{name}\"><f>{formula.Text}</f><v>{formula.Saved}</v></c>",
            string text => $"<c r=\"{name}\" t=\"inlineStr\"><is><t>{SecurityElement.Escape(string.Concat(text.Select(c => c < ' ' && c is not ('\n' or '\t') ? $"_x{(int)c:X4}_" : $"{c}")))}</t></is></c>",
            var figure => FormattableString.Invariant($"<c r=\"{name}\"><v>{figure}</v></c>"),
        };
    }

    private static string Relation(int id, string type, string target) =>
        $"<Relationship Id=\"r{id}\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/{type}\" Target=\"{target}\"/>";

    private static string Relations(string relations) => $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{relations}</Relationships>";

    private static void Add(ZipArchive zip, string name, string xml)
    {
        using var writer = new StreamWriter(zip.CreateEntry(name).Open(), new UTF8Encoding(false));
        writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>" + xml);
    }
}

/// <summary>A formula and the value that the spreadsheet program saved with it.</summary>
internal sealed record Formula(string Text, string Saved);
