using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace TransportPlanner.Web.Http;

/// <summary>JSON as the API reads it: nothing unknown, nothing twice, no number as text, no enumeration as number, no instant without its offset.</summary>
internal static class StrictJson
{
    public static IServiceCollection AddStrictJson(this IServiceCollection services) =>
        services.ConfigureHttpJsonOptions(options => Apply(options.SerializerOptions));

    public static void Apply(JsonSerializerOptions options)
    {
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.PropertyNameCaseInsensitive = false;
        options.AllowDuplicateProperties = false;
        options.RespectNullableAnnotations = true;
        options.RespectRequiredConstructorParameters = true;
        options.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false));
        options.Converters.Add(new InstantConverter());
    }

    /// <summary>Without an offset the server's own time zone would decide when a corridor is closed.</summary>
    private sealed class InstantConverter : JsonConverter<DateTimeOffset>
    {
        public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            var text = reader.TokenType == JsonTokenType.String ? reader.GetString()! : "";
            var time = text.IndexOf('T', StringComparison.Ordinal);
            return time > 0
                && (text.EndsWith('Z') || text.AsSpan(time).IndexOfAny('+', '-') > 0)
                && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var instant)
                ? instant.ToUniversalTime()
                : throw new JsonException();
        }

        public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) =>
            writer.WriteStringValue(value.ToUniversalTime());
    }
}
