using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Data;

/// <summary>One thing a site may say for itself: name, unit, default, range and what it does.</summary>
internal abstract class Setting
{
    protected static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    public required string Name { get; init; }
    public required string Unit { get; init; }
    public required string Description { get; init; }

    /// <summary>What may be given, in words: the fix when something else was given.</summary>
    public required string Allowed { get; init; }
    public abstract JsonNode? Default { get; }
    public abstract bool Accepts(JsonElement value);
}

/// <summary>A setting that is read as <typeparamref name="T"/>.</summary>
internal sealed class Setting<T> : Setting
{
    public required T Assumed { get; init; }

    /// <summary>The value, or null where the JSON is not one.</summary>
    public required Func<JsonElement, (bool Accepted, T Value)> Parse { get; init; }

    public override JsonNode? Default => JsonSerializer.SerializeToNode<object?>(Assumed is PrecautionSet set ? set.ToList() : Assumed, Options);

    public override bool Accepts(JsonElement value) => Parse(value).Accepted;
}

/// <summary>Makers of settings of one kind.</summary>
internal static class SettingKinds
{
    public static Setting<double> Number(string name, string unit, double assumed, double minimum, double maximum, string description) => new()
    {
        Name = name,
        Unit = unit,
        Assumed = assumed,
        Description = description,
        Allowed = string.Create(CultureInfo.InvariantCulture, $"a number from {minimum} to {maximum} {unit}"),
        Parse = json => json.ValueKind == JsonValueKind.Number && json.TryGetDouble(out var value) && value >= minimum && value <= maximum ? (true, value) : default,
    };

    public static Setting<int> Count(string name, string unit, int assumed, int minimum, int maximum, string description) => new()
    {
        Name = name,
        Unit = unit,
        Assumed = assumed,
        Description = description,
        Allowed = string.Create(CultureInfo.InvariantCulture, $"a whole number from {minimum} to {maximum} {unit}"),
        Parse = json => json.ValueKind == JsonValueKind.Number && json.TryGetInt32(out var value) && value >= minimum && value <= maximum ? (true, value) : default,
    };

    public static Setting<T> Choice<T>(string name, T assumed, string description)
        where T : struct, Enum => new()
        {
            Name = name,
            Unit = "",
            Assumed = assumed,
            Description = description,
            Allowed = $"one of {string.Join(", ", Enum.GetNames<T>().Select(JsonNamingPolicy.CamelCase.ConvertName))}",
            Parse = json => json.ValueKind == JsonValueKind.String ? Member<T>(json.GetString()!) : default,
        };

    public static Setting<PrecautionSet> Precautions(string name, PrecautionSet assumed, string description) => new()
    {
        Name = name,
        Unit = "",
        Assumed = assumed,
        Description = description,
        Allowed = "a list of contact, droplet, airborne; an empty list for none",
        Parse = json =>
        {
            if (json.ValueKind != JsonValueKind.Array)
            {
                return default;
            }

            var members = json.EnumerateArray().Select(e => e.ValueKind == JsonValueKind.String ? Member<Precaution>(e.GetString()!) : default).ToList();
            return members.All(m => m.Accepted) ? (true, members.Select(m => m.Value).ToSet()) : default;
        },
    };

    /// <summary>Text of 1 to 60 characters, or null for none.</summary>
    public static Setting<string?> Text(string name, string? assumed, string description) => new()
    {
        Name = name,
        Unit = "",
        Assumed = assumed,
        Description = description,
        Allowed = "text of 1 to 60 characters, or null for none",
        Parse = json => json.ValueKind switch
        {
            JsonValueKind.Null => (true, null),
            JsonValueKind.String when json.GetString() is { Length: >= 1 and <= 60 } text => (true, text),
            _ => default,
        },
    };

    private static (bool Accepted, T Value) Member<T>(string text)
        where T : struct, Enum =>
        Enum.GetValues<T>().Where(v => JsonNamingPolicy.CamelCase.ConvertName($"{v}") == text).Select(v => (true, v)).FirstOrDefault();
}
