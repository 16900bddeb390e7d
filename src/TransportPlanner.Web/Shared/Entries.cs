using System.Globalization;

namespace TransportPlanner.Web;

/// <summary>
/// Reads what somebody typed into a form. A decimal comma is read as a point; what cannot be read becomes a problem with the fix. A comma
/// before exactly three digits, as in <c>1,500</c>, may be a thousand and a half or one and a half, so it is not guessed.
/// </summary>
public sealed class Entries
{
    private readonly List<EntryProblem> _problems = [];

    public IReadOnlyList<EntryProblem> Problems => _problems;

    public bool Has(string field) => _problems.Any(p => p.Field == field);

    /// <summary>Adds <paramref name="fix"/> unless <paramref name="given"/> holds.</summary>
    public void Need(string field, bool given, string fix)
    {
        if (!given)
        {
            _problems.Add(new(field, fix));
        }
    }

    /// <summary>A number from least to most; null where nothing was typed or the text is refused.</summary>
    public decimal? Number(string field, string name, string? typed, decimal least, decimal most, string unit)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        if (IsAmbiguous(typed.Trim()))
        {
            _problems.Add(new(field, $"{name}: \"{typed.Trim()}\" may mean thousands or decimals. Type it without the comma, as in {typed.Trim().Replace(",", "", StringComparison.Ordinal)}, or with a point."));
            return null;
        }

        if (decimal.TryParse(typed.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value)
            && value >= least && value <= most)
        {
            return value;
        }

        var range = FormattableString.Invariant($"{least:0.###} to {most:0.###}");
        _problems.Add(new(field, $"{name}: give a number from {range}{(unit.Length > 0 ? " " : "")}{unit}; \"{typed.Trim()}\" is not."));
        return null;
    }

    private static bool IsAmbiguous(string typed) =>
        typed.Split(',') is [var whole, { Length: 3 } part] && part.All(char.IsAsciiDigit) && whole.TrimStart('-', '+') is { Length: 1 or 2 or 3 } digits && digits != "0";

    /// <summary>A whole number from least to most; null where nothing was typed or the text is refused.</summary>
    public int? Whole(string field, string name, string? typed, int least, int most, string unit)
    {
        if (Number(field, name, typed, least, most, unit) is not { } value)
        {
            return null;
        }

        Need(field, value == decimal.Truncate(value), $"{name}: give whole {unit}.");
        return (int)value;
    }
}
