namespace TransportPlanner.Core.Gas;

/// <summary>One row of the cylinder library: what is published about a size. The label on the cylinder wins over it.</summary>
/// <param name="Id">Country, letter and, for air, the gas: <c>US-E</c>, <c>US-E-AIR</c>.</param>
/// <param name="Region">US, UK, AU, DE, IN or INT.</param>
/// <param name="Size">The letter or number used there.</param>
/// <param name="OtherName">Another name in use, or null.</param>
/// <param name="Gas">The gas that the contents are published for.</param>
/// <param name="WaterLitres">Water capacity in litres, or null where unknown.</param>
/// <param name="LeastFull">Lowest published pressure of a full cylinder, or null where unknown.</param>
/// <param name="Full">Highest published pressure of a full cylinder, or null where unknown: no minutes can then be computed from a gauge.</param>
/// <param name="LeastLitres">Lowest published contents, litres of free gas.</param>
/// <param name="MostLitres">Highest published contents.</param>
/// <param name="LitresPerPsi">Published trade factor, or null.</param>
/// <param name="Source">Where the contents or the factor were read.</param>
/// <param name="Provenance">How they are known: published, quoted, memory, derived.</param>
/// <param name="Note">Limits and conflicts.</param>
public sealed record CylinderSize(
    string Id, string Region, string Size, string? OtherName, GasKind Gas, decimal? WaterLitres, PressureReading? LeastFull, PressureReading? Full,
    decimal LeastLitres, decimal MostLitres, decimal? LitresPerPsi, string Source, string Provenance, string Note)
{
    /// <summary>The litres in words, as a person compares them with the label.</summary>
    public string LitresText => FormattableString.Invariant($"{Id} {(LeastLitres == MostLitres ? $"{LeastLitres:0}" : $"{LeastLitres:0}–{MostLitres:0}")} L");

    /// <summary>True where <paramref name="letter"/> is what this size is called in its country.</summary>
    internal bool IsCalled(string letter) =>
        Size.Equals(letter, StringComparison.OrdinalIgnoreCase)
        || (OtherName is { } other && other.Split(' ')[0].Equals(letter, StringComparison.OrdinalIgnoreCase));
}
