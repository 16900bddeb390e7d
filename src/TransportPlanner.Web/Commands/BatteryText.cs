using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace TransportPlanner.Web.Commands;

/// <summary>
/// A battery as one types it: the device, then what is known of it in any order. <c>monitor rated 180 charge 90 age 2</c>, <c>infusionPump
/// charge 100 tested 150 on 2026-03-01</c>. It only sorts words into members of the API's request: ranges and refusals are the API's.
/// </summary>
internal static partial class BatteryText
{
    public const string Form = "Give the device and what is known of it, such as \"monitor rated 180 charge 90 age 2\" (minutes, percent, years), \"from 2024-05-01\" for the age, or \"tested 150 on 2026-03-01\".";

    /// <summary>Null where the text has another form, or says something twice.</summary>
    public static JsonObject? Read(string text)
    {
        if (Whole().Match(text.Trim()) is not { Success: true } match)
        {
            return null;
        }

        var battery = new JsonObject { ["device"] = match.Groups["device"].Value };
        foreach (var (word, value) in match.Groups["word"].Captures.Zip(match.Groups["value"].Captures))
        {
            var member = word.Value.ToUpperInvariant() switch
            {
                "RATED" => "ratedMinutes",
                "CHARGE" => "chargePercent",
                "AGE" => "ageYears",
                "TESTED" => "testedMinutes",
                "FROM" => "batteryDate",
                _ => "testedOn",
            };
            JsonNode? node = member is "batteryDate" or "testedOn" ? value.Value
                : decimal.TryParse(value.ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;
            if (node is null || !battery.TryAdd(member, node))
            {
                return null;
            }
        }

        return battery;
    }

    [GeneratedRegex(
        """
        ^(?<device>[A-Za-z]+)
        (?:\s+(?<word>rated|charge|age|tested|from|on)\s+(?<value>-?[\d.-]+)\s*(?:min|%|years?)?)*$
        """,
        RegexOptions.IgnoreCase | RegexOptions.IgnorePatternWhitespace | RegexOptions.CultureInvariant)]
    private static partial Regex Whole();
}
