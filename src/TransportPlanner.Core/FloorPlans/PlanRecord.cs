using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// Takes down the members of one feature as texts, each fact with its source, so that two features are compared property by property
/// without a second list of properties.
/// </summary>
internal sealed class PlanRecord : PlanFields
{
    private readonly List<(string Name, string? Value, string? Source, bool IsFact)> _members = [];
    private readonly List<string> _expected = [];

    internal static IReadOnlyList<(string Name, string? Value, string? Source, bool IsFact)> Of<T>(T item, Func<PlanFields, T, T> schema)
    {
        var record = new PlanRecord();
        schema(record, item);
        return record._members;
    }

    /// <summary>What each member may be, in the order of <see cref="Of"/>.</summary>
    internal static IReadOnlyList<string> Expected<T>(T item, Func<PlanFields, T, T> schema)
    {
        var record = new PlanRecord();
        schema(record, item);
        return record._expected;
    }

    internal override T Required<T>(string name, T value, FieldType<T> type) => Add(name, value, type.Expected, Text(json => type.Write(json, value)));

    internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) =>
        EqualityComparer<T>.Default.Equals(value, absent) ? Add(name, value, type.Expected, null) : Required(name, value, type);

    internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type) => fact.IsKnown
        ? Add(name, fact, type.Expected, Text(json => type.Write(json, fact.Value)), Text(json => FieldTypes.Source.Write(json, (fact.Source, fact.AsOf))), true)
        : Add(name, fact, type.Expected, null, null, true);

    internal override (QuarterHourProfile? Profile, FactSource Source) Profile(string name, QuarterHourProfile? profile, FactSource source, double max) => profile is null
        ? Add(name, (profile, source), ProfileJson.Expected, null, null, true)
        : Add(name, (profile, source), ProfileJson.Expected, Text(json => ProfileJson.Write(json, profile)), Text(json => FieldTypes.Source.Write(json, (source, null))), true);

    internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema) => items.IsEmpty
        ? Add(name, items, Items(blank, schema), null)
        : Add(name, items, Items(blank, schema), string.Join("; ", items.Select(item => string.Join(" | ", Of(item, schema).Select(member => FactsTable.Escaped(member.Value ?? ""))).TrimEnd(' ', '|'))));

    internal override T Geometry<T>(T value, FieldType<T> type) => Add("geometry", value, type.Expected, Text(json => type.Write(json, value)));

    private static string Items<T>(T blank, Func<PlanFields, T, T> schema) => string.Join(" | ", Of(blank, schema).Select(member => member.Name)) + ", several divided by ;";

    private T Add<T>(string name, T given, string expected, string? value, string? source = null, bool isFact = false)
    {
        _expected.Add(expected);
        _members.Add((name, value, source, isFact));
        return given;
    }

    /// <summary>A word without its quotes, anything else as JSON.</summary>
    private static string Text(Action<Utf8JsonWriter> write)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            write(json);
        }

        var text = Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length);
        return text.StartsWith('"') ? JsonSerializer.Deserialize<string>(text)! : text;
    }
}
