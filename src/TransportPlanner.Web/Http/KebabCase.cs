using System.Text.Json;
using System.Text.Json.Serialization;

namespace TransportPlanner.Web.Http;

/// <summary>For the few enumerations whose text has hyphens: <c>real-gas</c>.</summary>
internal sealed class KebabCase<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
