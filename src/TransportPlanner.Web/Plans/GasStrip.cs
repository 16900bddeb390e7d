using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Plans;

/// <summary>What is taped to one cylinder.</summary>
/// <param name="Number">Its place among the cylinders of the plan, from 1.</param>
/// <param name="Cylinder">As it was given.</param>
/// <param name="Use">When it is connected and when it ends; null: it stays unopened unless something goes wrong.</param>
/// <param name="Opened">The change-over to it; null: it is open from the start, or never.</param>
/// <param name="Shut">The change-over from it.</param>
/// <param name="Least">Least gauge of its size by the strictest rule; null: its size is not one of the library.</param>
/// <param name="Drawn">What is drawn of its gas.</param>
internal sealed record GasStrip(
    int Number, CylinderRequest Cylinder, CylinderInUseResponse? Use, ChangeOverResponse? Opened, ChangeOverResponse? Shut, LeastGaugeResponse? Least, GasResponse? Drawn)
{
    /// <summary>One strip for each cylinder, in their order; none without a computed supply.</summary>
    public static IReadOnlyList<GasStrip> Of(PlanResponse plan, RouteGasResponse gas)
    {
        if (gas.Supply is not { } supply)
        {
            return [];
        }

        var uses = supply.Timeline?.Gases.SelectMany(contents => contents.Cylinders).ToLookup(use => use.Cylinder);
        var changes = supply.Timeline?.ChangeOvers ?? [];
        return
        [
            .. plan.Given.Cylinders.Select((cylinder, i) => new GasStrip(
                i + 1, cylinder, uses?[i + 1].FirstOrDefault(),
                changes.FirstOrDefault(change => change.ToCylinder == i + 1), changes.FirstOrDefault(change => change.FromCylinder == i + 1),
                gas.LeastGauges.FirstOrDefault(least => string.Equals(least.SizeId, cylinder.SizeId, StringComparison.OrdinalIgnoreCase) && least.Gas == cylinder.Gas),
                supply.Gases.FirstOrDefault(duration => duration.Gas == cylinder.Gas))),
        ];
    }

    /// <summary>Its size as it was given.</summary>
    public string Size => SizeOf(Cylinder);

    public static string SizeOf(CylinderRequest cylinder) => cylinder switch
    {
        { SizeId: { } id } => id,
        { LitresPerPsi: { } factor } => $"{GasWords.Number(factor)} L/psi",
        { WaterCapacityLitres: { } water } => PackText.Of(PackTexts.SizeWater, GasWords.Number(water)),
        { LabelLitres: { } label } => PackText.Of(PackTexts.SizeLabel, GasWords.Number(label)),
        _ => PackTexts.SizePreset,
    };
}
