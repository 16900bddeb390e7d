using System.Globalization;

namespace TransportPlanner.Core.Tests.Reference;

/// <summary>Reads numbers of a reference row, and the name=value pairs of its column <c>inputs</c>.</summary>
internal static class Inputs
{
    internal static double Number(this IReadOnlyDictionary<string, string> row, string column) => Parse(row[column]);

    internal static Dictionary<string, double> InputsOf(IReadOnlyDictionary<string, string> row) =>
        row["inputs"].Split(';').Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => Parse(pair[1]));

    private static double Parse(string number) => double.Parse(number, CultureInfo.InvariantCulture);
}
