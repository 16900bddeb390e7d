using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace TransportPlanner.Web.Commands;

/// <summary>
/// A cylinder as one types it: what it is, its gauge, and where wanted its residual. <c>US-E 1500 psi</c>, <c>0.28 L/psi 1100 psi residual
/// 200 psi</c>, <c>2 L 150 bar</c> (water capacity), <c>616 L at 2200 psi 1500 psi</c> (label), <c>1500 psi</c> (the cylinder that the site
/// presets), <c>shelf O-12</c> (what stands on the site's shelf, as it was read last). It only sorts words into members of the
/// API's request: ranges and refusals are the API's.
/// </summary>
internal static partial class CylinderText
{
    public const string Form = "Give capacity and gauge, such as \"US-E 1500 psi\", \"0.28 L/psi 1100 psi\", \"2 L 150 bar\" (water capacity) or \"616 L at 2200 psi 1500 psi\" (label); the gauge alone, \"1500 psi\", for the cylinder that the site presets; \"shelf O-12\" for one on its shelf; add \"residual 200 psi\" where it differs.";

    /// <summary>The tag of a cylinder on the shelf; null where the text has another form.</summary>
    public static string? TagOf(string text) => FromShelf().Match(text.Trim()) is { Success: true } match ? match.Groups["tag"].Value : null;

    /// <summary>Null where the text has another form.</summary>
    public static JsonObject? Read(string gas, string text)
    {
        if (Whole().Match(text.Trim()) is not { Success: true } match)
        {
            return null;
        }

        var cylinder = new JsonObject { ["gas"] = gas };
        var (size, factor, litres) = (match.Groups["size"], match.Groups["factor"], match.Groups["litres"]);
        if (size.Success)
        {
            cylinder["sizeId"] = size.Value;
        }
        else if (factor.Success)
        {
            cylinder["litresPerPsi"] = Number(factor);
        }
        else if (match.Groups["label"].Success)
        {
            cylinder["labelLitres"] = Number(litres);
            cylinder["label" + Unit(match.Groups["labelUnit"])] = Number(match.Groups["label"]);
        }
        else if (litres.Success)
        {
            cylinder["waterCapacityLitres"] = Number(litres);
        }

        cylinder["gauge" + Unit(match.Groups["unit"])] = Number(match.Groups["gauge"]);
        if (match.Groups["residual"].Success)
        {
            cylinder["residual" + Unit(match.Groups["residualUnit"])] = Number(match.Groups["residual"]);
        }

        return cylinder;
    }

    private static JsonValue Number(Group group) => JsonValue.Create(decimal.Parse(group.ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture));

    private static string Unit(Group group) => group.Value.ToUpperInvariant() switch { "PSI" => "Psi", "BAR" => "Bar", _ => "Kpa" };

    [GeneratedRegex(
        """
        ^(?:(?:(?<factor>-?\d+(?:\.\d+)?)\s*L/psi
          |(?<litres>-?\d+(?:\.\d+)?)\s*L(?:\s+at\s+(?<label>-?\d+(?:\.\d+)?)\s*(?<labelUnit>psi|bar))?
          |(?<size>[A-Z][\w.-]*))\s+)?
        (?<gauge>-?\d+(?:\.\d+)?)\s*(?<unit>psi|bar|kpa)
        (?:\s+residual\s+(?<residual>-?\d+(?:\.\d+)?)\s*(?<residualUnit>psi|bar|kpa))?$
        """,
        RegexOptions.IgnoreCase | RegexOptions.IgnorePatternWhitespace | RegexOptions.CultureInvariant)]
    private static partial Regex Whole();

    [GeneratedRegex(@"^shelf\s+(?<tag>\S.*)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex FromShelf();
}
