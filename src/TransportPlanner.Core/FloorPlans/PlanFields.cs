using System.Collections.Immutable;
using System.Text.Json;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>How one kind of value stands in JSON. <paramref name="Expected"/> completes the sentence <i>give …</i>; reading answers false for anything else.</summary>
internal sealed record FieldType<T>(string Expected, FieldType<T>.Reader Read, Action<Utf8JsonWriter, T> Write)
{
    internal delegate bool Reader(JsonElement json, out T value);
}

/// <summary>
/// The members of one JSON object, visited once in writing order. A reader gives back what stands in the file; a writer writes what
/// it is handed and gives it back. So <see cref="PlanSchema"/> names each property once for both directions.
/// </summary>
internal abstract class PlanFields
{
    /// <summary>A member that must be there.</summary>
    internal abstract T Required<T>(string name, T value, FieldType<T> type);

    /// <summary>A member that is left out where it equals <paramref name="absent"/>.</summary>
    internal abstract T Optional<T>(string name, T value, FieldType<T> type, T absent);

    /// <summary>A fact: null is unknown; source and date stand in the object's <c>sources</c>.</summary>
    internal abstract Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type) where T : struct;

    /// <summary>A profile by quarter-hour with its source: null is unknown.</summary>
    internal abstract (QuarterHourProfile? Profile, FactSource Source) Profile(
        string name, QuarterHourProfile? profile, FactSource source, double max);

    /// <summary>A list of objects, left out where empty.</summary>
    internal abstract ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema);

    /// <summary>The geometry of the feature.</summary>
    internal abstract T Geometry<T>(T value, FieldType<T> type);

    internal Fact<Distance> Metres(string name, Fact<Distance> fact, double min, double max) =>
        Fact(name, fact, FieldTypes.Metres(min, max));

    internal Fact<double> Number(string name, Fact<double> fact, double min, double max, string unit) =>
        Fact(name, fact, FieldTypes.Number(min, max, unit));
}
