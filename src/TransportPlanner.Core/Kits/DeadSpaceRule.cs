namespace TransportPlanner.Core.Kits;

/// <summary>How much of a breath a filter or exchanger at the airway takes up.</summary>
/// <remarks>
/// Percent = 100 × dead space ÷ (weight × tidal volume per kilogram). The tidal volume is an assumption for this sum only and never a
/// setting. Limits on the percentage are proposals without clinical sign-off, so the figure is shown and nothing is decided by it.
/// </remarks>
internal sealed record DeadSpaceRule(
    string Id, double LowMillilitres, double HighMillilitres, double TidalVolumeMillilitresPerKilogram, string Source)
{
    /// <param name="deadSpaceMillilitres">Dead space of the device, 0 or more.</param>
    /// <param name="weightKilograms">Weight, above 0.</param>
    /// <param name="tidalVolumeMillilitresPerKilogram">Assumed breath, above 0.</param>
    /// <returns>Percent, not rounded.</returns>
    internal static double Percent(double deadSpaceMillilitres, double weightKilograms, double tidalVolumeMillilitresPerKilogram) =>
        100 * deadSpaceMillilitres / (weightKilograms * tidalVolumeMillilitresPerKilogram);

    /// <summary>Percentages are rounded up: more dead space is the worse figure.</summary>
    internal KitNote Caution(KitQuery query, KitRules rules)
    {
        const string opening = "A filter or exchanger at the airway adds dead space; on the expiratory limb it adds none.";
        var text = query.WeightGrams is not { } grams
            ? $"{opening} Weight is not known, so its share of a breath cannot be shown. Read the dead space on its label."
            : FormattableString.Invariant(
                $"{opening} Those on test held {LowMillilitres} to {HighMillilitres} mL: {Working(LowMillilitres, grams)}; {Working(HighMillilitres, grams)} of a breath assumed for this sum. Read the dead space on its label.");
        return new KitNote(Id, text, rules.Sources[Source]);
    }

    private string Working(double millilitres, int grams)
    {
        var kilograms = grams / 1000.0;
        var percent = Math.Ceiling(Percent(millilitres, kilograms, TidalVolumeMillilitresPerKilogram));
        return FormattableString.Invariant($"{millilitres} mL ÷ ({kilograms} kg × {TidalVolumeMillilitresPerKilogram} mL/kg) = {percent} %");
    }
}
