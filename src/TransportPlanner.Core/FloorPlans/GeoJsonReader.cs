using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Reads the whole file, collects every finding, and gives a plan only where there is none.</summary>
internal static class GeoJsonReader
{
    private const string Features = "features";
    private const string File = "the file";
    private const string HalfCharacter = "A text holds half a character (an escape from \\ud800 to \\udfff alone): write the whole character.";

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };
    private static readonly FloorPlan BlankPlan = new() { SiteId = "", Name = "", TimeZone = "", Levels = [], Places = [], Passages = [] };

    internal static FloorPlanReading Read(string geoJson)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(Encoding.UTF8.GetBytes(geoJson), Strict);
        }
        catch (JsonException broken)
        {
            var where = broken.LineNumber is { } line
                ? FormattableString.Invariant($"line {line + 1}, byte {broken.BytePositionInLine + 1}")
                : "the whole text";
            return Refused($"This is no JSON, or it names one member twice ({where}): mend the text there and send it again.");
        }

        catch (InvalidOperationException)
        {
            return Refused(HalfCharacter);
        }

        using (document)
        {
            if (!IsText(document.RootElement))
            {
                return Refused(HalfCharacter);
            }

            var reading = new Reading();
            var plan = reading.Site(document.RootElement);
            return reading.Findings.Count == 0 ? FloorPlanReading.Read(CanonicalOrder.Of(plan)) : FloorPlanReading.Refused(reading.Findings);
        }
    }

    private static FloorPlanReading Refused(string text) => FloorPlanReading.Refused([new(FindingSeverity.Error, File, "$", text)]);

    /// <summary>False where a name or a text cannot be a text in .NET; the parser lets such escapes pass and throws when they are read.</summary>
    private static bool IsText(JsonElement json)
    {
        try
        {
            return json.ValueKind switch
            {
                JsonValueKind.Object => json.EnumerateObject().All(member => member.Name is not null && IsText(member.Value)),
                JsonValueKind.Array => json.EnumerateArray().All(IsText),
                JsonValueKind.String => json.GetString() is not null,
                _ => true,
            };
        }
        catch (InvalidOperationException)
        {
            return false;
        }
    }

    private sealed class Reading
    {
        private readonly Dictionary<string, JsonElement> _profiles = new(StringComparer.Ordinal);

        private readonly List<Level> _levels = [];
        private readonly List<ElevatorGroup> _groups = [];
        private readonly List<Elevator> _elevators = [];
        private readonly List<Place> _places = [];
        private readonly List<Passage> _passages = [];

        internal List<Finding> Findings { get; } = [];

        internal FloorPlan Site(JsonElement root)
        {
            var fields = new FieldReader(this, root, File, "");
            fields.Literal("type", "FeatureCollection");
            fields.Literal("coordinateSystem", FloorPlanGeoJson.CoordinateSystem);
            var plan = PlanSchema.Site(fields, BlankPlan);
            if (fields.Find("profiles") is { } profiles)
            {
                ReadProfiles(profiles);
            }

            var features = fields.Find(Features);
            fields.RefuseUnknown();
            if (features is not { ValueKind: JsonValueKind.Array })
            {
                Findings.Add(new(FindingSeverity.Error, File, Features, "The list of features is missing: give an array of GeoJSON features."));
                return plan;
            }

            var index = 0;
            foreach (var feature in features.Value.EnumerateArray())
            {
                Feature(feature, FormattableString.Invariant($"{Features}[{index++}]"));
            }

            return plan with
            {
                Levels = [.. _levels],
                Places = [.. _places],
                Passages = [.. _passages],
                ElevatorGroups = [.. _groups],
                Elevators = [.. _elevators],
            };
        }

        private void ReadProfiles(JsonElement profiles)
        {
            if (profiles.ValueKind != JsonValueKind.Object)
            {
                Findings.Add(new(FindingSeverity.Error, File, "profiles", "Give an object of named profiles."));
                return;
            }

            foreach (var profile in profiles.EnumerateObject())
            {
                _profiles.Add(profile.Name, profile.Value);
                if (ProfileJson.Read(profile.Value, double.MaxValue) is null)
                {
                    Findings.Add(new(FindingSeverity.Error, $"profile {profile.Name}", $"profiles.{profile.Name}",
                        $"{Excerpt(profile.Value)} is no profile: give {ProfileJson.Expected}."));
                }
            }
        }

        private void Feature(JsonElement json, string path)
        {
            var outer = new FieldReader(this, json, path, path);
            outer.Literal("type", "Feature");
            var geometry = outer.Find("geometry");
            var properties = outer.Find("properties") ?? default;
            outer.RefuseUnknown();

            var fields = new FieldReader(this, properties, Subject(properties, path), $"{path}.properties") { GeometryElement = geometry };
            var before = Findings.Count;
            var kind = fields.Required("feature", default, FieldTypes.Word<PlanSchema.FeatureKind>());
            if (Findings.Count > before)
            {
                return;
            }

            switch (kind)
            {
                case PlanSchema.FeatureKind.Level:
                    _levels.Add(PlanSchema.Level(fields, PlanSchema.BlankLevel));
                    break;
                case PlanSchema.FeatureKind.ElevatorGroup:
                    _groups.Add(PlanSchema.Group(fields, PlanSchema.BlankGroup));
                    break;
                case PlanSchema.FeatureKind.Elevator:
                    _elevators.Add(PlanSchema.Elevator(fields, PlanSchema.BlankElevator));
                    break;
                case PlanSchema.FeatureKind.Place:
                    _places.Add(PlanSchema.Place(fields, PlanSchema.BlankPlace));
                    break;
                default:
                    _passages.Add(PlanSchema.Passage(fields, PlanSchema.BlankPassage));
                    break;
            }

            fields.RefuseUnknown();
        }

        /// <summary>A profile by its name or written out; null with a finding where it is neither.</summary>
        internal QuarterHourProfile? Profile(JsonElement json, double max) =>
            ProfileJson.Read(json.ValueKind == JsonValueKind.String && _profiles.TryGetValue(json.GetString()!, out var named) ? named : json, max);

        private static string Subject(JsonElement properties, string path)
        {
            var named = properties.ValueKind == JsonValueKind.Object
                && properties.TryGetProperty("feature", out var kind) && kind.ValueKind == JsonValueKind.String
                && properties.TryGetProperty("number", out var number) && number.ValueKind == JsonValueKind.String
                    ? $"{kind.GetString()} {number.GetString()}" : path;
            return named.Length <= 80 ? named : path;
        }
    }

    private static string Excerpt(JsonElement json)
    {
        var text = json.ValueKind == JsonValueKind.Undefined ? "nothing" : json.GetRawText();
        return text.Length <= 60 ? text : string.Concat(text.AsSpan(0, 60), "…");
    }

    private sealed class FieldReader : PlanFields
    {
        private readonly Reading _reading;
        private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
        private readonly HashSet<string> _known = new(StringComparer.Ordinal);
        private readonly string _subject;
        private readonly string _path;
        private Dictionary<string, JsonElement>? _sourcesByFact;

        internal FieldReader(Reading reading, JsonElement json, string subject, string path)
        {
            (_reading, _subject, _path) = (reading, subject, path);
            if (json.ValueKind != JsonValueKind.Object)
            {
                reading.Findings.Add(new(FindingSeverity.Error, subject, path.Length == 0 ? "$" : path, $"{Excerpt(json)} stands here: give a JSON object."));
                return;
            }

            foreach (var member in json.EnumerateObject())
            {
                _members.Add(member.Name, member.Value);
            }
        }

        internal JsonElement? GeometryElement { get; init; }

        internal JsonElement? Find(string name)
        {
            _known.Add(name);
            return _members.TryGetValue(name, out var json) ? json : null;
        }

        internal void Literal(string name, string expected)
        {
            if (Find(name) is not { ValueKind: JsonValueKind.String } json || !json.ValueEquals(expected))
            {
                Refuse(name, $"{Excerpt(Find(name) ?? default)} stands here: give \"{expected}\".");
            }
        }

        internal override T Required<T>(string name, T value, FieldType<T> type) =>
            Find(name) is { } json ? Value(name, json, value, type) : Missing(name, value, type.Expected);

        internal override T Optional<T>(string name, T value, FieldType<T> type, T absent) =>
            Find(name) is { ValueKind: not JsonValueKind.Null } json ? Value(name, json, absent, type) : absent;

        internal override Fact<T> Fact<T>(string name, Fact<T> fact, FieldType<T> type)
        {
            Sources();
            if (Find(name) is not { ValueKind: not JsonValueKind.Null } json)
            {
                return default;
            }

            var (source, asOf) = SourceOf(name);
            return new(Value(name, json, default, type), source, asOf);
        }

        internal override (QuarterHourProfile? Profile, FactSource Source) Profile(
            string name, QuarterHourProfile? profile, FactSource source, double max)
        {
            Sources();
            if (Find(name) is not { ValueKind: not JsonValueKind.Null } json)
            {
                return default;
            }

            var read = _reading.Profile(json, max);
            if (read is null)
            {
                Refuse(name, FormattableString.Invariant($"{Excerpt(json)} is no profile: give {ProfileJson.Expected}; each value from 0 to {max}."));
            }

            var (known, asOf) = SourceOf(name);
            if (asOf is not null)
            {
                Refuse($"sources.{name}", "A profile has a source without a date: leave the date out.");
            }

            return (read, known);
        }

        internal override ImmutableArray<T> List<T>(string name, ImmutableArray<T> items, T blank, Func<PlanFields, T, T> schema)
        {
            if (Find(name) is not { ValueKind: not JsonValueKind.Null } json)
            {
                return [];
            }

            if (json.ValueKind != JsonValueKind.Array)
            {
                return Missing<ImmutableArray<T>>(name, [], "an array of objects");
            }

            var list = ImmutableArray.CreateBuilder<T>();
            foreach (var element in json.EnumerateArray())
            {
                var item = new FieldReader(_reading, element, _subject, FormattableString.Invariant($"{_path}.{name}[{list.Count}]"));
                list.Add(schema(item, blank));
                item.RefuseUnknown();
            }

            return list.ToImmutable();
        }

        internal override T Geometry<T>(T value, FieldType<T> type)
        {
            if (GeometryElement is { } json && type.Read(json, out var read))
            {
                return read;
            }

            var path = _path.Replace(".properties", ".geometry", StringComparison.Ordinal);
            _reading.Findings.Add(new(FindingSeverity.Error, _subject, path, $"{Excerpt(GeometryElement ?? default)} stands here: give {type.Expected}."));
            return value;
        }

        /// <summary>To be called last: whatever nobody asked for is refused by name.</summary>
        internal void RefuseUnknown()
        {
            foreach (var name in _members.Keys.Where(name => !_known.Contains(name)))
            {
                Refuse(name, $"The member {name} is unknown here: remove it. Known are {string.Join(", ", _known)}.");
            }

            foreach (var name in _sourcesByFact?.Keys ?? Enumerable.Empty<string>())
            {
                Refuse($"sources.{name}", $"{name} has a source and no value: give the value or remove the source.");
            }
        }

        private T Value<T>(string name, JsonElement json, T fallback, FieldType<T> type)
        {
            if (type.Read(json, out var value))
            {
                return value;
            }

            Refuse(name, $"{name} is {Excerpt(json)}: give {type.Expected}.");
            return fallback;
        }

        private T Missing<T>(string name, T value, string expected)
        {
            Refuse(name, $"{name} is missing: give {expected}.");
            return value;
        }

        /// <summary>A figure without a source is assumed until somebody says better.</summary>
        private (FactSource Source, DateOnly? AsOf) SourceOf(string name) =>
            Sources().Remove(name, out var source) ? Value($"sources.{name}", source, default, FieldTypes.Source) : default;

        private Dictionary<string, JsonElement> Sources()
        {
            if (_sourcesByFact is null)
            {
                var json = Find("sources");
                _sourcesByFact = json is { ValueKind: JsonValueKind.Object }
                    ? json.Value.EnumerateObject().ToDictionary(entry => entry.Name, entry => entry.Value, StringComparer.Ordinal)
                    : [];
                if (json is { ValueKind: not (JsonValueKind.Object or JsonValueKind.Null) })
                {
                    Refuse("sources", $"sources is {Excerpt(json.Value)}: give an object with the source of each fact.");
                }
            }

            return _sourcesByFact;
        }

        private void Refuse(string name, string text) =>
            _reading.Findings.Add(new(FindingSeverity.Error, _subject, _path.Length == 0 ? name : $"{_path}.{name}", text));
    }
}
