using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Data;

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

    /// <summary>Batteries in the order given.</summary>
    public void PutBatteries(Option<string[]> option)
    {
        var batteries = new JsonArray();
        foreach (var text in parsed.GetValue(option) ?? [])
        {
            if (BatteryText.Read(text) is { } battery)
            {
                _options[$"batteries[{batteries.Count}]"] = $"{option.Name} \"{text}\"";
                batteries.Add(battery);
            }
            else
            {
                Refusals.Add($"{option.Name} \"{text}\": {BatteryText.Form}");
            }
        }

        Body["batteries"] = batteries;
    }

    /// <summary>The site that is asked about, the hospital's own where nobody says; null, with a refusal, where there is no such site.</summary>
    public FloorPlanSnapshot? PutSite(Option<string?> option, LocalPlanner planner)
    {
        var store = planner.Services.GetRequiredService<FloorPlanStore>();
        var siteId = parsed.GetValue(option) ?? store.Default?.Plan.SiteId ?? "";
        Set("siteId", siteId, option.Name);
        if (store.TryFind(siteId, out var site))
        {
            return site;
        }

        Refusals.Add($"{option.Name}: there is no site {siteId}. Give one of {string.Join(", ", store.Sites.Select(s => s.Plan.SiteId))}.");
        return null;
    }

    /// <summary>Cylinders of both gases in the order given. One that stands on the shelf of the site is read from there, if its reading still counts.</summary>
    public async Task PutCylindersAsync(LocalPlanner planner, CancellationToken cancellationToken, params (string Gas, Option<string[]> Option)[] given)
    {
        var cylinders = new JsonArray();
        JsonNode? shelf = null;
        foreach (var (gas, option) in given)
        {
            foreach (var text in parsed.GetValue(option) ?? [])
            {
                if (CylinderText.TagOf(text) is { } tag)
                {
                    shelf ??= await planner.GetAsync($"/shelf?siteId={Uri.EscapeDataString($"{Body["siteId"]}")}", cancellationToken);
                    var standing = shelf?["cylinders"]!.AsArray().FirstOrDefault(c => tag.Equals($"{c!["tag"]}", StringComparison.OrdinalIgnoreCase));
                    if (WhyNotFromShelf(standing, gas, tag, shelf) is { } why)
                    {
                        Refusals.Add($"{option.Name} \"{text}\": {why}");
                        continue;
                    }

                    _options[$"cylinders[{cylinders.Count}]"] = $"{option.Name} \"{text}\"";
                    cylinders.Add(standing!["cylinder"]!.DeepClone());
                }
                else if (CylinderText.Read(gas, text) is { } cylinder)
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

    private static string? WhyNotFromShelf(JsonNode? standing, string gas, string tag, JsonNode? shelf) =>
        standing is null ? $"no cylinder {tag} stands on the shelf of this site; there are {Tags(shelf)}."
        : $"{standing["cylinder"]!["gas"]}" != gas ? $"{tag} holds {standing["cylinder"]!["gas"]}, not {gas}."
        : standing["problem"] is { } problem ? $"{problem}"
        : (bool)standing["stale"]! ? $"the reading of {tag} is {standing["ageMinutes"]} min old. Read its gauge again."
        : null;

    private static string Tags(JsonNode? shelf) =>
        shelf?["cylinders"]!.AsArray() is { Count: > 0 } all ? string.Join(", ", all.Select(c => $"{c!["tag"]}")) : "none";

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
