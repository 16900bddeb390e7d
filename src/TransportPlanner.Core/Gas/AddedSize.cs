using System.Text.RegularExpressions;

namespace TransportPlanner.Core.Gas;

/// <summary>
/// A size that a site adds to the library, from the label of its own cylinders. One role enters it, a second enters it again, apart from
/// the first, and a reading whose litres somebody worked out is recomputed each time it is saved.
/// </summary>
/// <param name="Id">2 to 32 letters, digits, dots, dashes; a letter first, and a dash: a bare letter means another cylinder in another country.</param>
/// <param name="Gas">What it holds.</param>
/// <param name="LabelLitres">Litres of free gas that the label promises, above 0 to 20,000.</param>
/// <param name="Full">Pressure of the full cylinder on the label.</param>
/// <param name="WaterLitres">Water capacity as stamped, above 0 to 100 L; null where unknown: there is no real-gas figure then.</param>
/// <param name="TestGauge">A reading above 0, up to the full pressure, in its unit.</param>
/// <param name="TestLitres">Litres of gas at that reading, down to empty, worked out apart from this planner.</param>
/// <param name="Source">Where the label was read.</param>
public sealed partial record AddedSize(
    string Id, GasKind Gas, decimal LabelLitres, PressureReading Full, decimal? WaterLitres, PressureReading TestGauge, decimal TestLitres, string Source)
{
    /// <summary>How far two figures of one cylinder may lie apart. Source: input limit IL-13 (common practice).</summary>
    private static readonly Rational Tolerance = 0.10m;

    /// <summary>The test reading with the numbers put in: <c>1100 psi × 616 L ÷ 2200 psi = 308 L</c>.</summary>
    public string TestWorking => $"{TestGauge} × {GasText.Number(LabelLitres)} L ÷ {Full} = {GasText.Number(Computed)} L";

    private Rational Computed => TestGauge.In(Full.Unit) * (Rational)LabelLitres / (Rational)Full.Value;

    /// <summary>Why these figures cannot be those of one cylinder, each with the member it belongs to; empty where they can.</summary>
    public IReadOnlyList<(string Member, string Words)> WhyRefused()
    {
        List<(string, string)> refusals = [];
        if (!Shape().IsMatch(Id))
            refusals.Add((nameof(Id), "Give 2 to 32 letters, digits, dots and dashes, a letter first and at least one dash: a bare letter means another cylinder in another country."));
        if (CylinderLibrary.Sizes.Any(size => size.Id.Equals(Id, StringComparison.OrdinalIgnoreCase)))
            refusals.Add((nameof(Id), $"{Id} ships with the planner and stays what was published. Give another id."));
        if (TestGauge.Value <= 0 || TestGauge.In(Full.Unit) > Full.Value)
            refusals.Add((nameof(TestGauge), $"Give a reading above 0 and up to the full pressure of {Full}."));
        else if (!IsNear(TestLitres, Computed))
            refusals.Add((nameof(TestLitres), $"{TestWorking}, more than 10 percent away from the {GasText.Number(TestLitres)} L given: check litres, pressure and unit of the label."));
        if (WaterLitres is { } water && !IsNear(LabelLitres, water * Full.In(PressureUnit.Bar)))
        {
            refusals.Add((nameof(WaterLitres),
                $"{GasText.Number(water)} L × {GasText.Number(Full.In(PressureUnit.Bar))} bar = {GasText.Number(water * Full.In(PressureUnit.Bar))} L, more than 10 percent away from the label's "
                + $"{GasText.Number(LabelLitres)} L: check both, or leave the water capacity out."));
        }

        return refusals;
    }

    /// <summary>Members in which a second entry differs from this one; empty where it confirms it. The test reading is not entered twice.</summary>
    public IReadOnlyList<string> DifferencesFrom(GasKind gas, decimal labelLitres, PressureReading full, decimal? waterLitres) =>
    [
        .. gas == Gas ? [] : new[] { nameof(Gas) },
        .. labelLitres == LabelLitres ? [] : new[] { nameof(LabelLitres) },
        .. full == Full ? [] : new[] { nameof(Full) },
        .. waterLitres == WaterLitres ? [] : new[] { nameof(WaterLitres) },
    ];

    /// <summary>The row of the library that a confirmed entry makes.</summary>
    public CylinderSize ToSize() => new(
        Id, "site", Id, null, Gas, WaterLitres, Full, Full, LabelLitres, LabelLitres, null, Source, "label, entered twice at this site", "The label on the cylinder decides.");

    private static bool IsNear(decimal given, Rational computed) => given >= computed * (1 - Tolerance) && given <= computed * (1 + Tolerance);

    [GeneratedRegex("^(?=.{2,32}$)[A-Za-z][A-Za-z0-9.]*(-[A-Za-z0-9.]+)+$", RegexOptions.CultureInvariant)]
    private static partial Regex Shape();
}
