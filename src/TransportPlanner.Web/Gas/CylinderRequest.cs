using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>
/// One cylinder: its gas, one capacity (sizeId, litresPerPsi, waterCapacityLitres, or labelLitres with labelPsi or labelBar), exactly one
/// gauge reading and at most one residual. Without a capacity it is the one that the site presets for the gas, named as assumed; where the
/// site presets none, the capacity is asked for. Every pressure is a gauge pressure.
/// </summary>
public sealed record CylinderRequest : IValidatableObject
{
    private const string OneCapacity = "Give exactly one capacity: sizeId, litresPerPsi, waterCapacityLitres, or labelLitres with labelPsi or labelBar.";
    private const string PsiRange = "Give 0 to 3300 psi.";
    private const string BarRange = "Give 0 to 300 bar.";
    private const string KpaRange = "Give 0 to 30000 kPa.";

    /// <summary>What it holds.</summary>
    public required GasKind Gas { get; init; }

    /// <summary>Id from the cylinder library, with its country: US-E, UK-CD. A letter alone is refused.</summary>
    [StringLength(32, MinimumLength = 1, ErrorMessage = "Give an id from the cylinder library, at most 32 characters.")]
    public string? SizeId { get; init; }

    /// <summary>Litres of free gas per psi, 0.001 to 10.</summary>
    [Range(0.001, 10.0, ErrorMessage = "Give 0.001 to 10 L/psi.")]
    public decimal? LitresPerPsi { get; init; }

    /// <summary>Water capacity in litres, 0.1 to 100.</summary>
    [Range(0.1, 100.0, ErrorMessage = "Give a water capacity of 0.1 to 100 L, as stamped on the cylinder.")]
    public decimal? WaterCapacityLitres { get; init; }

    /// <summary>Litres of free gas that the label promises, 1 to 20,000; needs labelPsi or labelBar.</summary>
    [Range(1, 20_000.0, ErrorMessage = "Give the label's contents, 1 to 20000 L of gas.")]
    public decimal? LabelLitres { get; init; }

    /// <summary>Pressure of the full cylinder on its label, psi, 1 to 3,300.</summary>
    [Range(1, 3_300.0, ErrorMessage = "Give the label's pressure, 1 to 3300 psi.")]
    public decimal? LabelPsi { get; init; }

    /// <summary>Pressure of the full cylinder on its label, bar, 1 to 300.</summary>
    [Range(1, 300.0, ErrorMessage = "Give the label's pressure, 1 to 300 bar.")]
    public decimal? LabelBar { get; init; }

    /// <summary>Gauge reading in psi, 0 to 3,300, and at most 110 % of a known full pressure.</summary>
    [Range(0, 3_300.0, ErrorMessage = PsiRange)]
    public decimal? GaugePsi { get; init; }

    /// <summary>Gauge reading in bar, 0 to 300, and at most 110 % of a known full pressure.</summary>
    [Range(0, 300.0, ErrorMessage = BarRange)]
    public decimal? GaugeBar { get; init; }

    /// <summary>Gauge reading in kPa, 0 to 30,000, and at most 110 % of a known full pressure.</summary>
    [Range(0, 30_000.0, ErrorMessage = KpaRange)]
    public decimal? GaugeKpa { get; init; }

    /// <summary>What is never planned with, psi, 0 to 3,300. Without a residual: 200 psi, or 14 bar where the gauge is in bar or kPa, named as assumed.</summary>
    [Range(0, 3_300.0, ErrorMessage = PsiRange)]
    public decimal? ResidualPsi { get; init; }

    /// <summary>What is never planned with, bar, 0 to 300.</summary>
    [Range(0, 300.0, ErrorMessage = BarRange)]
    public decimal? ResidualBar { get; init; }

    /// <summary>What is never planned with, kPa, 0 to 30,000.</summary>
    [Range(0, 30_000.0, ErrorMessage = KpaRange)]
    public decimal? ResidualKpa { get; init; }

    /// <summary>What attributes cannot see: one unit, one capacity.</summary>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        var gauges = Given((nameof(GaugePsi), GaugePsi), (nameof(GaugeBar), GaugeBar), (nameof(GaugeKpa), GaugeKpa));
        if (gauges.Count != 1)
            yield return new("Give the gauge reading in exactly one unit: gaugePsi, gaugeBar or gaugeKpa.", gauges.Count == 0 ? [nameof(GaugePsi)] : gauges);

        var residuals = Given((nameof(ResidualPsi), ResidualPsi), (nameof(ResidualBar), ResidualBar), (nameof(ResidualKpa), ResidualKpa));
        if (residuals.Count > 1)
            yield return new("Give the residual in one unit: residualPsi, residualBar or residualKpa.", residuals);

        var capacities = Given((nameof(SizeId), SizeId), (nameof(LitresPerPsi), LitresPerPsi), (nameof(WaterCapacityLitres), WaterCapacityLitres), (nameof(LabelLitres), LabelLitres));
        if (capacities.Count > 1)
            yield return new(OneCapacity, capacities);

        var labels = Given((nameof(LabelPsi), LabelPsi), (nameof(LabelBar), LabelBar));
        if (LabelLitres is not null && labels.Count != 1)
            yield return new("Give the label's pressure in exactly one unit: labelPsi or labelBar.", labels.Count == 0 ? [nameof(LabelPsi)] : labels);
        if (LabelLitres is null && labels.Count > 0)
            yield return new("A label's pressure says nothing without its litres: give labelLitres too, or leave it out.", labels);
    }

    /// <summary>The cylinder of the computation, or why there is none.</summary>
    internal CylinderAnswer Find(CylinderChoice choice)
    {
        var isPreset = (SizeId, LitresPerPsi, WaterCapacityLitres, LabelLitres) is (null, null, null, null);
        if (isPreset && choice.Preset(Gas) is null)
            return new CylinderAnswer.Refused(nameof(SizeId), $"{OneCapacity} This site presets no {GasWords.Of(Gas)} cylinder.");
        var lookup = (isPreset ? choice.Preset(Gas) : SizeId) is { } id ? choice.Find(id, Gas) : null;
        if (lookup is not (null or CylinderLookup.Found))
            return new CylinderAnswer.NoSize(lookup, isPreset);
        var capacity = (lookup as CylinderLookup.Found)?.Size is { } size ? CylinderCapacity.FromSize(size) : OwnCapacity();
        return Cylinder.WhyRefused(capacity, Gauge()) is { } refusal
            ? new CylinderAnswer.Refused(GaugePsi is not null ? nameof(GaugePsi) : GaugeBar is not null ? nameof(GaugeBar) : nameof(GaugeKpa), refusal)
            : new CylinderAnswer.Found(new(Gas, capacity, Gauge(), Residual()) { SizeIsAssumed = isPreset });
    }

    private CylinderCapacity OwnCapacity() => this switch
    {
        { LitresPerPsi: { } factor } => CylinderCapacity.FromLitresPerPsi(factor),
        { WaterCapacityLitres: { } water } => CylinderCapacity.FromWaterLitres(water),
        { LabelLitres: { } litres, LabelPsi: { } psi } => CylinderCapacity.FromLabel(litres, PressureReading.FromPsi(psi)),
        { LabelLitres: { } litres, LabelBar: { } bar } => CylinderCapacity.FromLabel(litres, PressureReading.FromBar(bar)),
        _ => throw new InvalidOperationException("The request was not validated first."),
    };

    /// <summary>The reading with its unit, as typed.</summary>
    internal string GaugeText => Gauge().ToString();

    private PressureReading Gauge() =>
        Reading(GaugePsi, GaugeBar, GaugeKpa) ?? throw new InvalidOperationException("The gauge was not checked first.");

    private PressureReading? Residual() => Reading(ResidualPsi, ResidualBar, ResidualKpa);

    private static PressureReading? Reading(decimal? psi, decimal? bar, decimal? kpa) =>
        psi is { } p ? PressureReading.FromPsi(p)
        : bar is { } b ? PressureReading.FromBar(b)
        : kpa is { } k ? PressureReading.FromKilopascals(k) : null;

    private static List<string> Given(params (string Name, object? Value)[] members) => [.. members.Where(m => m.Value is not null).Select(m => m.Name)];
}
