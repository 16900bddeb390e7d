using System.Text.Json;
using System.Text.RegularExpressions;

namespace TransportPlanner.Web.Http;

/// <summary>Turns the framework's complaints about a request into the path of the field and what to do about it; its own texts name our types.</summary>
internal static partial class JsonErrors
{
    /// <summary>The whole body, where no field can be named.</summary>
    public const string Root = "$";

    public static Dictionary<string, string[]> From(BadHttpRequestException exception)
    {
        if (exception.InnerException is JsonException json)
        {
            return From(json);
        }

        var parameter = Parameter().Match(exception.Message);
        return parameter.Success
            ? One(parameter.Groups["name"].Value, $"Give {Kind(parameter.Groups["type"].Value)} as the parameter {parameter.Groups["name"].Value}.")
            : One(Root, exception.Message.Contains("body", StringComparison.Ordinal)
                ? "Send a JSON body with the content type application/json."
                : "The request could not be read.");
    }

    /// <summary>Camel case for each part of a path such as <c>Cylinders[0].GaugePsi</c>; the name of a header stays.</summary>
    public static string CamelCase(string path) =>
        path.Contains('-', StringComparison.Ordinal) ? path : string.Join('.', path.Split('.').Select(JsonNamingPolicy.CamelCase.ConvertName));

    private static Dictionary<string, string[]> From(JsonException json)
    {
        var path = json.Path is null or Root ? "" : json.Path.StartsWith("$.", StringComparison.Ordinal) ? json.Path[2..] : json.Path[1..];
        var message = json.Message;
        if (message.Contains("missing required properties", StringComparison.Ordinal))
        {
            return Quoted().Matches(message[message.IndexOf("including:", StringComparison.Ordinal)..])
                .Select(m => One(Join(path, m.Groups["name"].Value), "Required: give a value.").Single())
                .ToDictionary();
        }

        if (message.Contains("could not be mapped to any .NET member", StringComparison.Ordinal))
        {
            return One(Child(path, message), "Unknown member: remove it or correct its name.");
        }

        if (message.Contains("Duplicate property", StringComparison.Ordinal))
        {
            return One(Child(path, message), "Given twice: give it once.");
        }

        if (message.Contains("doesn't allow setting null", StringComparison.Ordinal) || message.Contains("doesn't allow null", StringComparison.Ordinal))
        {
            return One(path, "Give a value: null is not allowed here.");
        }

        return Converted().Match(message) is { Success: true } converted
            ? One(path, $"Give {Kind(converted.Groups["type"].Value)}.")
            : One(path, $"Not valid JSON near line {json.LineNumber + 1}, position {json.BytePositionInLine + 1}.");
    }

    private static Dictionary<string, string[]> One(string path, string message) => new() { [path.Length == 0 ? Root : path] = [message] };

    private static string Join(string path, string name) => path.Length == 0 ? name : $"{path}.{name}";

    private static string Child(string path, string message)
    {
        var name = Quoted().Match(message).Groups["name"].Value;
        return path == name || path.EndsWith($".{name}", StringComparison.Ordinal) ? path : Join(path, name);
    }

    private static string Kind(string clrType)
    {
        var name = Nullable().Match(clrType) is { Success: true } nullable ? nullable.Groups["type"].Value : clrType;
        var type = AppDomain.CurrentDomain.GetAssemblies().Select(a => a.GetType(name)).FirstOrDefault(t => t is not null);
        var generic = name.IndexOf('`', StringComparison.Ordinal);
        name = generic < 0 ? name : name[..generic];
        return type is { IsEnum: true }
            ? $"one of {string.Join(", ", Enum.GetNames(type).Select(JsonNamingPolicy.CamelCase.ConvertName))}"
            : name[(name.LastIndexOf('.') + 1)..] switch
            {
                "Double" or "Decimal" or "Single" or "double" or "decimal" => "a number",
                "Int32" or "Int64" or "int" or "long" => "a whole number",
                "Boolean" or "bool" => "true or false",
                "String" or "string" => "text",
                "DateTimeOffset" => "an instant with its offset, such as 2026-05-04T02:10:00+00:00",
                "DateOnly" => "a day, such as 2026-05-04",
                "Guid" => "an id",
                var t when t.Contains("List", StringComparison.Ordinal) || t.Contains("Array", StringComparison.Ordinal) || t.EndsWith("[]", StringComparison.Ordinal) => "a list",
                _ => "an object",
            };
    }

    [GeneratedRegex("'(?<name>[^']+)'")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"could not be converted to (?<type>[^ ]+?)\.( |$)")]
    private static partial Regex Converted();

    [GeneratedRegex(@"Nullable`1\[(\[)?(?<type>[\w.+]+)")]
    private static partial Regex Nullable();

    [GeneratedRegex("parameter \"(?<type>[^ \"]+) (?<name>\\w+)\"")]
    private static partial Regex Parameter();
}
