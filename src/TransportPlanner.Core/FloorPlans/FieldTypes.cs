using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>The kinds of value that a floor plan file holds.</summary>
internal static class FieldTypes
{
    private const int LongestText = 500;
    private const double FarthestMetres = Distance.MaxMetres;

    internal static FieldType<string> Text { get; } = new(
        $"a text of 1 to {LongestText} characters without blanks at its ends and without control characters",
        (JsonElement json, [NotNullWhen(true)] out string value) =>
        {
            value = json.ValueKind == JsonValueKind.String ? json.GetString()! : "";
            return value.Length is > 0 and <= LongestText && value.Trim().Length == value.Length && !value.Any(char.IsControl);
        },
        (json, value) => json.WriteStringValue(value));

    internal static FieldType<string?> TextOrNull { get; } = new(
        Text.Expected,
        (JsonElement json, out string? value) =>
        {
            var read = Text.Read(json, out var text);
            value = text;
            return read;
        },
        (json, value) => json.WriteStringValue(value));

    internal static FieldType<FireCompartment> Compartment { get; } = new(
        Text.Expected,
        (JsonElement json, out FireCompartment value) =>
        {
            var read = Text.Read(json, out var text);
            value = new(text ?? "");
            return read;
        },
        (json, value) => json.WriteStringValue(value.Name));

    internal static FieldType<string> Slug { get; } = new(
        "a text of 1 to 40 lowercase letters a-z, digits and hyphens",
        (JsonElement json, out string value) => Text.Read(json, out value) && value.Length <= 40
            && value.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'),
        Text.Write);

    internal static FieldType<string> TimeZone { get; } = new(
        "an IANA time zone that this machine knows, such as Europe/Vienna",
        (JsonElement json, out string value) =>
            Text.Read(json, out value) && TimeZoneInfo.TryFindSystemTimeZoneById(value, out var zone) && zone.HasIanaId,
        Text.Write);

    internal static FieldType<bool> Flag { get; } = new(
        "true or false",
        (JsonElement json, out bool value) =>
        {
            value = json.ValueKind == JsonValueKind.True;
            return json.ValueKind is JsonValueKind.True or JsonValueKind.False;
        },
        (json, value) => json.WriteBooleanValue(value));

    internal static FieldType<int> Count { get; } = new(
        "a whole number from 0",
        (JsonElement json, out int value) =>
        {
            value = 0;
            return json.ValueKind == JsonValueKind.Number && json.TryGetInt32(out value) && value >= 0;
        },
        (json, value) => json.WriteNumberValue(value));

    internal static FieldType<(string From, string To)> TwoPlaces { get; } = new(
        "the numbers of the two places, [\"first\", \"second\"]",
        (JsonElement json, out (string, string) value) =>
        {
            value = ("", "");
            return json.ValueKind == JsonValueKind.Array && json.GetArrayLength() == 2
                && Text.Read(json[0], out value.Item1) && Text.Read(json[1], out value.Item2);
        },
        (json, value) =>
        {
            json.WriteStartArray();
            json.WriteStringValue(value.From);
            json.WriteStringValue(value.To);
            json.WriteEndArray();
        });

    internal static FieldType<(FactSource Source, DateOnly? AsOf)> Source { get; } = new(
        "assumed, drawing or measured, and a date if known, such as \"measured 2026-03-31\"",
        (JsonElement json, out (FactSource, DateOnly?) value) =>
        {
            value = default;
            var words = json.ValueKind == JsonValueKind.String ? json.GetString()!.Split(' ') : [];
            if (words.Length is not (1 or 2) || !EnumWords<FactSource>.ByWord.TryGetValue(words[0], out value.Item1))
            {
                return false;
            }

            if (words.Length == 1)
            {
                return true;
            }

            var dated = DateOnly.TryParseExact(words[1], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date);
            value.Item2 = date;
            return dated;
        },
        (json, value) => json.WriteStringValue(value.AsOf is { } date
            ? string.Create(CultureInfo.InvariantCulture, $"{EnumWords<FactSource>.Of(value.Source)} {date:yyyy-MM-dd}")
            : EnumWords<FactSource>.Of(value.Source)));

    /// <summary>Minimum, likely and maximum seconds, or one number for all three.</summary>
    internal static FieldType<DurationEstimate> Seconds { get; } = new(
        FormattableString.Invariant($"minimum ≤ likely ≤ maximum seconds as [1, 2, 4], or one number, from 0 to {DurationEstimate.MaxSeconds}"),
        (JsonElement json, out DurationEstimate value) =>
        {
            value = default;
            double[] parts = json.ValueKind switch
            {
                JsonValueKind.Number when json.TryGetDouble(out var one) => [one, one, one],
                JsonValueKind.Array when json.EnumerateArray().All(part => part.ValueKind == JsonValueKind.Number)
                    => [.. json.EnumerateArray().Select(part => part.GetDouble())],
                _ => [],
            };
            if (parts is not [var min, var likely, var max]
                || !(min >= 0 && min <= likely && likely <= max && max <= DurationEstimate.MaxSeconds))
            {
                return false;
            }

            value = new(min, likely, max);
            return true;
        },
        (json, value) =>
        {
            if (value.MinimumSeconds == value.MaximumSeconds)
            {
                json.WriteNumberValue(value.LikelySeconds);
                return;
            }

            json.WriteStartArray();
            json.WriteNumberValue(value.MinimumSeconds);
            json.WriteNumberValue(value.LikelySeconds);
            json.WriteNumberValue(value.MaximumSeconds);
            json.WriteEndArray();
        });

    internal static FieldType<AirChangeRate> AirChanges { get; } = Converted(
        Number(0, AirChangeRate.MaxPerHour, "air changes per hour"), AirChangeRate.FromPerHour, rate => rate.PerHour);

    private static FieldType<double> Metre { get; } = Number(-FarthestMetres, FarthestMetres, "metres");

    internal static FieldType<PlanPoint> Point { get; } = new(
        FormattableString.Invariant($"a point [x, y] in local metres, each from −{FarthestMetres} to {FarthestMetres}"),
        (JsonElement json, out PlanPoint value) =>
        {
            value = default;
            if (json.ValueKind != JsonValueKind.Array || json.GetArrayLength() != 2
                || !Metre.Read(json[0], out var x) || !Metre.Read(json[1], out var y))
            {
                return false;
            }

            value = new(x, y);
            return true;
        },
        (json, value) =>
        {
            json.WriteStartArray();
            json.WriteNumberValue(value.X);
            json.WriteNumberValue(value.Y);
            json.WriteEndArray();
        });

    internal static FieldType<PlanPoint?> PointOrNull { get; } = new(
        Point.Expected,
        (JsonElement json, out PlanPoint? value) =>
        {
            var read = Point.Read(json, out var point);
            value = point;
            return read;
        },
        (json, value) => Point.Write(json, value!.Value));

    internal static FieldType<Outline> Polygon { get; } = new(
        "a Polygon of one ring: at least three corners [x, y] in metres, the first repeated at the end, no holes",
        (JsonElement json, out Outline value) =>
        {
            value = new([]);
            if (Coordinates(json, "Polygon") is not [var ring] || Points(ring) is not { Length: >= 4 } points || points[0] != points[^1])
            {
                return false;
            }

            value = new([.. points[..^1]]);
            return true;
        },
        (json, value) => WriteGeometry(json, "Polygon", [.. value.Corners, .. value.Corners.Take(1)], asRing: true));

    internal static FieldType<PlanSegment> Line { get; } = new(
        "a LineString of two points [x, y] in metres, from jamb to jamb",
        (JsonElement json, out PlanSegment value) =>
        {
            value = default;
            if (Coordinates(json, "LineString") is not [var a, var b] || !Point.Read(a, out var first) || !Point.Read(b, out var second))
            {
                return false;
            }

            value = new(first, second);
            return true;
        },
        (json, value) => WriteGeometry(json, "LineString", [value.A, value.B], asRing: false));

    /// <summary>Levels and elevators have facts, no shape.</summary>
    internal static FieldType<bool> NoGeometry { get; } = new(
        "null", (JsonElement json, out bool value) => !(value = json.ValueKind != JsonValueKind.Null), (json, _) => json.WriteNullValue());

    internal static FieldType<Distance> Metres(double min, double max) =>
        Converted(Number(min, max, "metres"), Distance.FromMetres, distance => distance.Metres);

    internal static FieldType<double> Number(double min, double max, string unit) => new(
        FormattableString.Invariant($"a number from {min} to {max} {unit}").TrimEnd(),
        (JsonElement json, out double value) =>
        {
            value = 0;
            return json.ValueKind == JsonValueKind.Number && json.TryGetDouble(out value) && value >= min && value <= max;
        },
        (json, value) => json.WriteNumberValue(value));

    internal static FieldType<T> Word<T>() where T : struct, Enum => new(
        "one of " + string.Join(", ", EnumWords<T>.ByWord.Keys),
        (JsonElement json, out T value) =>
        {
            value = default;
            return json.ValueKind == JsonValueKind.String && EnumWords<T>.ByWord.TryGetValue(json.GetString()!, out value);
        },
        (json, value) => json.WriteStringValue(EnumWords<T>.Of(value)));

    internal static FieldType<PlaceFlags> Flags { get; } = new(
        "a list of " + string.Join(", ", EnumWords<PlaceFlags>.ByWord.Keys.Skip(1)) + ", each once",
        (JsonElement json, out PlaceFlags value) =>
        {
            value = PlaceFlags.None;
            if (json.ValueKind != JsonValueKind.Array)
            {
                return false;
            }

            foreach (var word in json.EnumerateArray())
            {
                if (!Word<PlaceFlags>().Read(word, out var flag) || flag == PlaceFlags.None || value.HasFlag(flag))
                {
                    return false;
                }

                value |= flag;
            }

            return true;
        },
        (json, value) =>
        {
            json.WriteStartArray();
            foreach (var flag in Enum.GetValues<PlaceFlags>().Where(flag => flag != PlaceFlags.None && value.HasFlag(flag)))
            {
                json.WriteStringValue(EnumWords<PlaceFlags>.Of(flag));
            }

            json.WriteEndArray();
        });

    private static FieldType<T> Converted<T>(FieldType<double> number, Func<double, T> from, Func<T, double> to) => new(
        number.Expected,
        (JsonElement json, out T value) =>
        {
            var read = number.Read(json, out var figure);
            value = read ? from(figure) : default!;
            return read;
        },
        (json, value) => json.WriteNumberValue(to(value)));

    private static JsonElement[] Coordinates(JsonElement json, string type) =>
        json.ValueKind == JsonValueKind.Object && json.EnumerateObject().Count() == 2
        && json.TryGetProperty("type", out var kind) && kind.ValueKind == JsonValueKind.String && kind.ValueEquals(type)
        && json.TryGetProperty("coordinates", out var list) && list.ValueKind == JsonValueKind.Array
            ? [.. list.EnumerateArray()] : [];

    private static PlanPoint[]? Points(JsonElement ring)
    {
        var points = new List<PlanPoint>();
        foreach (var corner in ring.ValueKind == JsonValueKind.Array ? ring.EnumerateArray() : default)
        {
            if (!Point.Read(corner, out var point))
            {
                return null;
            }

            points.Add(point);
        }

        return [.. points];
    }

    private static void WriteGeometry(Utf8JsonWriter json, string type, ImmutableArray<PlanPoint> points, bool asRing)
    {
        json.WriteStartObject();
        json.WriteString("type", type);
        json.WriteStartArray("coordinates");
        if (asRing)
        {
            json.WriteStartArray();
        }

        foreach (var point in points)
        {
            Point.Write(json, point);
        }

        if (asRing)
        {
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Members of an enumeration as camelCase words, in order of declaration.</summary>
    internal static class EnumWords<T> where T : struct, Enum
    {
        internal static IReadOnlyDictionary<string, T> ByWord { get; } =
            Enum.GetValues<T>().ToDictionary(value => Of(value), StringComparer.Ordinal);

        internal static string Of(T value) => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
    }
}
