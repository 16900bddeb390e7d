using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Writes a plan that is already in canonical order.</summary>
internal static class GeoJsonWriter
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    internal static string Write(FloorPlan plan)
    {
        var shared = SharedProfiles(plan);
        var lines = new List<string>();
        lines.AddRange(plan.Levels.Select(level => Feature(PlanSchema.FeatureKind.Level, level, PlanSchema.Level, shared)));
        lines.AddRange(plan.ElevatorGroups.Select(group => Feature(PlanSchema.FeatureKind.ElevatorGroup, group, PlanSchema.Group, shared)));
        lines.AddRange(plan.Elevators.Select(elevator => Feature(PlanSchema.FeatureKind.Elevator, elevator, PlanSchema.Elevator, shared)));
        lines.AddRange(plan.Places.Select(place => Feature(PlanSchema.FeatureKind.Place, place, PlanSchema.Place, shared)));
        lines.AddRange(plan.Passages.Select(passage => Feature(PlanSchema.FeatureKind.Passage, passage, PlanSchema.Passage, shared)));

        var text = new StringBuilder();
        text.Append(Json(json =>
        {
            json.WriteStartObject();
            json.WriteString("type", "FeatureCollection");
            json.WriteString("coordinateSystem", FloorPlanGeoJson.CoordinateSystem);
            PlanSchema.Site(new FieldWriter(json, shared), plan);
            json.WriteEndObject();
        })[..^1]);
        if (shared.Count > 0)
        {
            var profiles = shared.OrderBy(entry => entry.Value.Length).ThenBy(entry => entry.Value, StringComparer.Ordinal)
                .Select(entry => $"\"{entry.Value}\":" + Json(json => ProfileJson.Write(json, entry.Key)));
            text.Append(",\n\"profiles\":{\n").AppendJoin(",\n", profiles).Append('}');
        }

        return text.Append(",\n\"features\":[\n").AppendJoin(",\n", lines).Append("\n]}\n").ToString();
    }

    /// <summary>Profiles that occur twice or more, named in order of their first use.</summary>
    private static Dictionary<QuarterHourProfile, string> SharedProfiles(FloorPlan plan) =>
        plan.ElevatorGroups.Select(group => group.MeanCallWaitSeconds).Concat(plan.Places.Select(place => place.Occupancy))
            .OfType<QuarterHourProfile>().Where(profile => !ProfileJson.IsConstant(profile))
            .GroupBy(profile => profile).Where(uses => uses.Skip(1).Any())
            .Select((uses, i) => (uses.Key, Name: FormattableString.Invariant($"p{i + 1}"))).ToDictionary();

    private static string Feature<T>(
        PlanSchema.FeatureKind kind, T item, Func<PlanFields, T, T> schema, Dictionary<QuarterHourProfile, string> shared)
    {
        var geometry = "null";
        var properties = Json(json =>
        {
            var fields = new FieldWriter(json, shared);
            json.WriteStartObject();
            fields.Required("feature", kind, FieldTypes.Word<PlanSchema.FeatureKind>());
            schema(fields, item);
            fields.WriteSources();
            json.WriteEndObject();
            geometry = fields.GeometryText;
        });
        return $"{{\"type\":\"Feature\",\"geometry\":{geometry},\"properties\":{properties}}}";
    }

    private static string Json(Action<Utf8JsonWriter> write)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            write(json);
        }

        return Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length);
    }

    private sealed class FieldWriter(Utf8JsonWriter json, Dictionary<QuarterHourProfile, string> shared) : PlanFields
    {
        private readonly List<(string Name, FactSource Source, DateOnly? AsOf)> _sources = [];

        internal string GeometryText { get; private set; } = "null";

        internal override T Required<T>(string name, T value, FieldType<T> type)
        {
            json.WritePropertyName(name);
            type.Write(json, value);
            return value;
        }

        internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) =>
            EqualityComparer<T>.Default.Equals(value, absent) ? value : Required(name, value, type);

        internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type)
        {
            if (fact.IsKnown)
            {
                Required(name, fact.Value, type);
                _sources.Add((name, fact.Source, fact.AsOf));
            }
            else
            {
                json.WriteNull(name);
            }

            return fact;
        }

        internal override (QuarterHourProfile? Profile, FactSource Source) Profile(
            string name, QuarterHourProfile? profile, FactSource source, double max)
        {
            json.WritePropertyName(name);
            if (profile is null)
            {
                json.WriteNullValue();
                return (profile, source);
            }

            if (shared.TryGetValue(profile, out var sharedName))
            {
                json.WriteStringValue(sharedName);
            }
            else
            {
                ProfileJson.Write(json, profile);
            }

            _sources.Add((name, source, null));
            return (profile, source);
        }

        internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema)
        {
            if (items.IsEmpty)
            {
                return items;
            }

            json.WriteStartArray(name);
            foreach (var item in items)
            {
                json.WriteStartObject();
                schema(new FieldWriter(json, shared), item);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            return items;
        }

        internal override T Geometry<T>(T value, FieldType<T> type)
        {
            GeometryText = Json(writer => type.Write(writer, value));
            return value;
        }

        internal void WriteSources()
        {
            if (_sources.Count == 0)
            {
                return;
            }

            json.WriteStartObject("sources");
            foreach (var (name, source, asOf) in _sources)
            {
                json.WritePropertyName(name);
                FieldTypes.Source.Write(json, (source, asOf));
            }

            json.WriteEndObject();
        }
    }
}
