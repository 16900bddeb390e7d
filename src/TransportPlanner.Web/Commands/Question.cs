using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Commands;

/// <summary>A question to the API that is put together from options, and which option each member of its body came from.</summary>
internal sealed class Question(ParseResult parsed)
{
    private readonly Dictionary<string, string> _options = [];

    public JsonObject Body { get; } = [];

    /// <summary>What cannot even be asked, one sentence each.</summary>
    public List<string> Refusals { get; } = [];

    /// <summary>Puts an option where <paramref name="path"/> says, a number as a number; leaves out what was not given.</summary>
    public void Put(string path, Option<string?> option, bool isNumber = false)
    {
        _options[path] = option.Name;
        if (parsed.GetValue(option) is not { } text)
        {
            return;
        }

        if (!isNumber)
        {
            Set(path, text);
        }
        else if (decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
        {
            Set(path, number);
        }
        else
        {
            Refusals.Add($"{option.Name}: \"{text}\" is not a number. Write it with a point and without its unit, such as 0.30.");
        }
    }

    /// <summary>Puts a member that has no option, or one of its own kind.</summary>
    public void Set(string path, JsonNode value, string? option = null)
    {
        if (option is not null)
        {
            _options[path] = option;
        }

        var (parent, parts) = (Body, path.Split('.'));
        foreach (var part in parts[..^1])
        {
            parent[part] ??= new JsonObject();
            parent = parent[part]!.AsObject();
        }

        parent[parts[^1]] = value;
    }

    /// <summary>Cylinders of both gases in the order given.</summary>
    public void PutCylinders(params (string Gas, Option<string[]> Option)[] given)
    {
        var cylinders = new JsonArray();
        foreach (var (gas, option) in given)
        {
            foreach (var text in parsed.GetValue(option) ?? [])
            {
                if (CylinderText.Read(gas, text) is { } cylinder)
                {
                    _options[$"cylinders[{cylinders.Count}]"] = $"{option.Name} \"{text}\"";
                    cylinders.Add(cylinder);
                }
                else
                {
                    Refusals.Add($"{option.Name} \"{text}\": {CylinderText.Form}");
                }
            }
        }

        Body["cylinders"] = cylinders;
    }

    /// <summary>The refusal of the API with the option in front of each sentence.</summary>
    public IEnumerable<string> Complaints(JsonNode problem)
    {
        var errors = (problem["errors"] as JsonObject)?.SelectMany(
            error => error.Value!.AsArray().Select(words => $"{OptionOf(error.Key)}: {words}")).ToList();
        return errors is { Count: > 0 } ? errors : [$"{problem["detail"] ?? problem["title"]}"];
    }

    /// <summary>The option whose path is the longest beginning of the field's.</summary>
    private string OptionOf(string field) =>
        _options.Where(o => field == o.Key || field.StartsWith(o.Key + ".", StringComparison.Ordinal) || field.StartsWith(o.Key + "[", StringComparison.Ordinal))
            .OrderByDescending(o => o.Key.Length).Select(o => o.Value).FirstOrDefault() ?? field;
}
