using System.Globalization;

namespace TransportPlanner.Web;

/// <summary>Reads what somebody typed into a form. A decimal comma is read as a point; what cannot be read becomes a problem with the fix.</summary>
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

        if (decimal.TryParse(typed.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value)
            && value >= least && value <= most)
        {
            return value;
        }

        var range = FormattableString.Invariant($"{least:0.###} to {most:0.###}");
        _problems.Add(new(field, $"{name}: give a number from {range}{(unit.Length > 0 ? " " : "")}{unit}; \"{typed.Trim()}\" is not."));
        return null;
    }

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
