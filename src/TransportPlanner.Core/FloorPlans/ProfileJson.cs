using System.Text.Json;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// A week by quarter-hour in its shortest exact form: one number, 24 hours or 96 quarters of every day, or 168 hours or 672
/// quarters of the week from Monday 00:00.
/// </summary>
internal static class ProfileJson
{
    internal const string Expected =
        "one number, 24 or 96 values of every day, or 168 or 672 of the week from Monday 00:00, or the name of a profile of the file";

    internal static bool IsConstant(QuarterHourProfile profile) => profile.Values.AsSpan().IndexOfAnyExcept(profile.Values[0]) < 0;

    internal static void Write(Utf8JsonWriter json, QuarterHourProfile profile)
    {
        if (IsConstant(profile))
        {
            json.WriteNumberValue(profile.Values[0]);
            return;
        }

        var everyDay = Enumerable.Range(0, QuarterHourProfile.Length)
            .All(i => profile.Values[i] == profile.Values[i % QuarterHourProfile.QuartersPerDay]);
        var hourly = Enumerable.Range(0, QuarterHourProfile.Length).All(i => profile.Values[i] == profile.Values[i / 4 * 4]);
        var length = everyDay ? QuarterHourProfile.QuartersPerDay : QuarterHourProfile.Length;
        json.WriteStartArray();
        for (var i = 0; i < length; i += hourly ? 4 : 1)
        {
            json.WriteNumberValue(profile.Values[i]);
        }

        json.WriteEndArray();
    }

    /// <summary>Null when the element is none of the forms or a value lies outside 0 to <paramref name="max"/>.</summary>
    internal static QuarterHourProfile? Read(JsonElement json, double max)
    {
        var number = FieldTypes.Number(0, max, "");
        var values = new List<double>();
        foreach (var element in json.ValueKind == JsonValueKind.Array ? [.. json.EnumerateArray()] : new[] { json })
        {
            if (!number.Read(element, out var value))
            {
                return null;
            }

            values.Add(value);
        }

        return (json.ValueKind, values.Count) switch
        {
            (JsonValueKind.Number, _) => QuarterHourProfile.Constant(values[0]),
            (_, 24 or 168) => QuarterHourProfile.FromHours([.. values]),
            (_, QuarterHourProfile.QuartersPerDay) => new([.. Enumerable.Range(0, QuarterHourProfile.Length).Select(i => values[i % values.Count])]),
            (_, QuarterHourProfile.Length) => new([.. values]),
            _ => null,
        };
    }
}
