using System.Text;

namespace TransportPlanner.Core.Tests.Reference;

/// <summary>Rows of one reference file: RFC 4180, one header row, no line breaks inside a field.</summary>
internal static class ReferenceFile
{
    internal static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string name)
    {
        var lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Reference", name), Encoding.UTF8);
        var header = Fields(lines[0]);
        return [.. lines.Skip(1).Where(line => line.Length > 0).Select(line =>
        {
            var fields = Fields(line);
            return fields.Count == header.Count
                ? (IReadOnlyDictionary<string, string>)header.Zip(fields).ToDictionary(pair => pair.First, pair => pair.Second)
                : throw new FormatException($"{name}: {fields.Count} fields where the header has {header.Count}: {line}");
        })];
    }

    private static List<string> Fields(string line)
    {
        List<string> fields = [];
        var field = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (c == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                field.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(c);
            }
        }

        fields.Add(field.ToString());
        return fields;
    }
}
