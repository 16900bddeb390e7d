using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>Finds the place somebody typed: a number, a number in another spelling, or words of the name.</summary>
public static class PlaceFinder
{
    private const int MostCandidates = 8;

    /// <summary>One place, or the few that the text could mean, best first; none when nothing fits.</summary>
    public static IReadOnlyList<Place> Find(FloorPlan plan, string text)
    {
        var typed = text.Trim();
        // The list of the start page offers "D-2.14 delivery room 3": the number stands before the first space.
        var number = typed.Split(' ', 2)[0];
        var exact = plan.Places.Where(p => Same(p.Number, number) || Same(p.Number, typed)).ToList();
        if (exact.Count == 0)
        {
            exact = [.. plan.Places.Where(p => p.Name.Equals(typed, StringComparison.OrdinalIgnoreCase))];
        }

        if (exact.Count == 1)
        {
            return exact;
        }

        var words = typed.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries);
        return words.Length == 0
            ? []
            : [.. plan.Places
                .Where(p => p.Level is not null && words.All(w => Has(p.Name, w) || Has(Bare(p.Number), Bare(w))))
                .OrderBy(p => p.Name.Length).ThenBy(p => p.Number, StringComparer.Ordinal)
                .Take(MostCandidates)];
    }

    private static bool Same(string number, string typed) => string.Equals(Bare(number), Bare(typed), StringComparison.OrdinalIgnoreCase);
    private static bool Has(string text, string word) => word.Length > 0 && text.Contains(word, StringComparison.OrdinalIgnoreCase);
    private static string Bare(string number) => new([.. number.Where(char.IsLetterOrDigit)]);
}
