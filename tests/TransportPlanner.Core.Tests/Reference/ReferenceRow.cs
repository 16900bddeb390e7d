using System.Globalization;

namespace TransportPlanner.Core.Tests.Reference;

/// <summary>Reads fields of a reference row as the decimals they are printed as: gas minutes are compared without rounding.</summary>
internal static class ReferenceRow
{
    internal static decimal Exact(this IReadOnlyDictionary<string, string> row, string column) => Parse(row[column]);

    internal static decimal? ExactOrNull(this IReadOnlyDictionary<string, string> row, string column) => row[column].Length == 0 ? null : Parse(row[column]);

    /// <summary>The <c>name=value</c> pairs of the column <c>inputs</c>.</summary>
    internal static IReadOnlyDictionary<string, decimal> ExactInputs(this IReadOnlyDictionary<string, string> row) =>
        row["inputs"].Split(';').Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => Parse(pair[1]));

    /// <summary>Ids of the rows of a file, as theory data, where <paramref name="used"/> says so.</summary>
    internal static TheoryData<string> Ids(string file, Func<IReadOnlyDictionary<string, string>, bool> used) =>
        [.. ReferenceFile.Rows(file).Where(used).Select(row => row["id"])];

    internal static IReadOnlyDictionary<string, string> Find(string file, string id) => ReferenceFile.Rows(file).Single(row => row["id"] == id);

    private static decimal Parse(string text) => decimal.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
