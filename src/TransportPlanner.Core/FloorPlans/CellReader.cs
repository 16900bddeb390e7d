using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Takes texts that a person typed for the members of a feature: the cells of one row, or one corrected fact. A member without a text stays as it is.</summary>
/// <param name="texts">Texts by the name of the member with the prefix before it; how a fact is known stands under the name with <see cref="FactsTable.KnownSuffix"/>.</param>
/// <param name="prefix">What stands before each name in <paramref name="texts"/>.</param>
/// <param name="subject">What a finding is about.</param>
/// <param name="where">What stands before the member's name in a finding.</param>
/// <param name="findings">Takes what is not taken, each with what may be given instead.</param>
internal sealed class CellReader(Dictionary<string, string> texts, string prefix, string subject, string where, List<Finding> findings) : PlanFields
{
    internal override T Required<T>(string name, T value, FieldType<T> type) =>
        FactsTable.Fixed.Contains(name) || !texts.TryGetValue(prefix + name, out var text) ? value : Parse(name, text, value, type);

    internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) =>
        FactsTable.Fixed.Contains(name) || FactsTable.LeftOut.Contains(name) || !texts.TryGetValue(prefix + name, out var text) ? value
        : text.Length == 0 ? absent
        : Parse(name, text, value, type);

    internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type)
    {
        if (!texts.TryGetValue(prefix + name, out var text) || text.Length == 0)
        {
            return text is null ? fact : default;
        }

        var value = Parse(name, text, fact.OrNull ?? default, type);
        var (source, asOf) = Source(name, fact.IsKnown && EqualityComparer<T>.Default.Equals(fact.Value, value) ? (fact.Source, fact.AsOf) : default);
        return new(value, source, asOf);
    }

    internal override (QuarterHourProfile? Profile, FactSource Source) Profile(string name, QuarterHourProfile? profile, FactSource source, double max)
    {
        if (!texts.TryGetValue(prefix + name, out var text) || text.Length == 0)
        {
            return text is null ? (profile, source) : (null, default);
        }

        var read = Parse(name, text, profile!, new(ProfileJson.Expected, (JsonElement json, out QuarterHourProfile value) => (value = ProfileJson.Read(json, max)!) is not null, (_, _) => { }));
        return (read, Source(name, read.Equals(profile) ? (source, null) : default).Source);
    }

    internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema)
    {
        if (FactsTable.LeftOut.Contains(name) || !texts.TryGetValue(prefix + name, out var text))
        {
            return items;
        }

        // Each item has its members in the order of the schema: oxygenOutlet | wall outlet | measured 2026-04-14
        var columns = PlanRecord.Of(blank, schema).Select(member => member.Name).ToArray();
        return [.. Split(text, ';').Where(item => item.Trim().Length > 0).Select(item =>
        {
            var parts = Split(item, '|').Select(part => Plain(part.Trim())).ToArray();
            var members = columns.Select((column, i) => (column, Text: i < parts.Length ? parts[i] : "")).ToDictionary(member => member.column, member => member.Text);
            if (parts.Length > columns.Length)
            {
                Refuse(name, item, $"{string.Join(" | ", columns)}, several divided by ;");
            }

            return schema(new ItemReader(members, (_, given, expected) => Refuse(name, given, expected)), blank);
        })];
    }

    internal override T Geometry<T>(T value, FieldType<T> type) => value;

    private (FactSource Source, DateOnly? AsOf) Source(string name, (FactSource, DateOnly?) otherwise) =>
        !texts.TryGetValue(prefix + name + FactsTable.KnownSuffix, out var text) ? otherwise
        : text.Length == 0 ? default
        : Parse(name + FactsTable.KnownSuffix, text, default, FieldTypes.Source);

    private T Parse<T>(string name, string text, T value, FieldType<T> type)
    {
        if (TryParse(text, type, out var read))
        {
            return read;
        }

        Refuse(name, text, type.Expected);
        return value;
    }

    private void Refuse(string name, string text, string expected) => findings.Add(FloorPlanCheck.Error(
        subject, prefix + name, $"{where}{prefix}{name}: \"{(text.Length <= 60 ? text : text[..60] + "…")}\" is not taken: give {expected.Replace('[', ' ').Replace(']', ' ')}."));

    /// <summary>Members of one item of a list.</summary>
    private sealed class ItemReader(Dictionary<string, string> members, Action<string, string, string> refuse) : PlanFields
    {
        internal override T Required<T>(string name, T value, FieldType<T> type)
        {
            if (TryParse(members[name], type, out var read))
            {
                return read;
            }

            refuse(name, members[name], type.Expected);
            return value;
        }

        internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) => members[name].Length == 0 ? absent : Required(name, value, type);
        internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type) => fact;
        internal override (QuarterHourProfile? Profile, FactSource Source) Profile(string name, QuarterHourProfile? profile, FactSource source, double max) => (profile, source);
        internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema) => items;
        internal override T Geometry<T>(T value, FieldType<T> type) => value;
    }

    /// <summary>As a word, a number, true or false, a list of numbers, a list of words: no type takes more than one of them.</summary>
    private static bool TryParse<T>(string text, FieldType<T> type, out T value)
    {
        var parts = text.Split([' ', ';', '\t', '\n'], StringSplitOptions.RemoveEmptyEntries);
        var figures = parts.Select(Figure).ToArray();
        string?[] forms =
        [
            JsonSerializer.Serialize(text),
            parts.Length == 1 ? figures[0] : null,
            text.ToLowerInvariant() is "true" or "false" ? text.ToLowerInvariant() : null,
            figures.All(figure => figure is not null) ? $"[{string.Join(',', figures)}]" : null,
            JsonSerializer.Serialize(parts),
        ];
        foreach (var form in forms.OfType<string>())
        {
            using var json = JsonDocument.Parse(form);
            if (type.Read(json.RootElement, out value))
            {
                return true;
            }
        }

        value = default!;
        return false;
    }

    /// <summary>A number as JSON; a decimal comma is read as a point, since spreadsheets of many countries write one.</summary>
    private static string? Figure(string text) =>
        double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var figure) && double.IsFinite(figure)
            ? figure.ToString("R", CultureInfo.InvariantCulture) : null;

    private static string Plain(string text)
    {
        var plain = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            plain.Append(text[i] == '\\' && i + 1 < text.Length ? text[++i] : text[i]);
        }

        return plain.ToString();
    }

    /// <summary>At each separator that no backslash stands before.</summary>
    private static List<string> Split(string text, char separator)
    {
        var parts = new List<string>();
        var start = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\')
            {
                i++;
            }
            else if (text[i] == separator)
            {
                parts.Add(text[start..i]);
                start = i + 1;
            }
        }

        parts.Add(text[start..]);
        return parts;
    }
}
