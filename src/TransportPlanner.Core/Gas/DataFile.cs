using System.Text;

namespace TransportPlanner.Core.Gas;

/// <summary>An embedded table: comma separated, double quotes, one header row, no line breaks inside a field; each row carries its source.</summary>
internal static class DataFile
{
    internal static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string name)
    {
        using var stream = typeof(DataFile).Assembly.GetManifestResourceStream(name)
            ?? throw new FormatException($"The data file {name} is not in the assembly.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return Parse(reader.ReadToEnd());
    }

    /// <exception cref="FormatException">A row has another number of fields than the header.</exception>
    internal static IReadOnlyList<IReadOnlyDictionary<string, string>> Parse(string text)
    {
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => Fields(line.TrimEnd('\r'))).ToList();
        return [.. lines.Skip(1).Select(fields => fields.Count == lines[0].Count
            ? lines[0].Zip(fields).ToDictionary(pair => pair.First, pair => pair.Second)
            : throw new FormatException($"Row {fields[0]} has {fields.Count} fields, the header has {lines[0].Count}."))];
    }

    private static List<string> Fields(string line)
    {
        List<string> fields = [];
        var field = new StringBuilder();
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"')
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
