using TransportPlanner.Core.Units;

namespace TransportPlanner.Web.Imports;

/// <summary>
/// Which unit a column is in. Handover files name one unit for the whole building and keep each column in its own (a public clinic says
/// millimetres and writes its points in metres), so the figures are asked first.
/// </summary>
internal static class LengthUnit
{
    private const double Foot = Distance.MetresPerFoot;
    private static readonly double[] Candidates = [1, 0.001, 0.01, Foot, Foot / 12];

    /// <summary>Metres in the unit that the file names; null for a word that is none.</summary>
    public static double? Named(string? word) => word is null ? null : WorkbookTables.Plain(word) switch
    {
        "m" or "meter" or "meters" or "metre" or "metres" => 1,
        "mm" or "millimeter" or "millimeters" or "millimetre" or "millimetres" => 0.001,
        "cm" or "centimeter" or "centimeters" or "centimetre" or "centimetres" => 0.01,
        "ft" or "foot" or "feet" => Foot,
        "in" or "inch" or "inches" => Foot / 12,
        _ => null,
    };

    /// <summary>Square metres in the unit of area that the file names; square metres where it names none.</summary>
    public static double NamedArea(string? word) =>
        word is not null && WorkbookTables.Plain(word) is "sqft" or "ft2" or "sf" or "squarefeet" or "squarefoot" ? Foot * Foot : 1;

    /// <summary>The unit in which the median figure comes nearest to <paramref name="usualMetres"/>, by ratio.</summary>
    public static double ByMedian(IEnumerable<double> figures, double usualMetres, double? named)
    {
        var sorted = figures.Where(figure => figure > 0).Order().ToArray();
        return sorted.Length == 0
            ? named ?? 1
            : Candidates.MinBy(unit => Math.Abs(Math.Log(sorted[sorted.Length / 2] * unit / usualMetres)));
    }

    /// <summary>The unit in which drawn areas come nearest to the stated ones; each pair is a drawn area in square units and square metres.</summary>
    public static double ByArea(IEnumerable<(double Drawn, double SquareMetres)> pairs, double? named)
    {
        var ratios = pairs.Where(pair => pair.Drawn > 0 && pair.SquareMetres > 0).Select(pair => pair.SquareMetres / pair.Drawn).Order().ToArray();
        return ratios.Length == 0
            ? named ?? 1
            : Candidates.MinBy(unit => Math.Abs(Math.Log(ratios[ratios.Length / 2] / (unit * unit))));
    }
}
