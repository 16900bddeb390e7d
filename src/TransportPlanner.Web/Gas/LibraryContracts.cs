using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Gas;

/// <summary>A size that a site adds to the cylinder library, from the label of its own cylinders. It is used once a second role has confirmed it.</summary>
public sealed record CylinderSizeRequest : IValidatableObject
{
    /// <summary>Slug of the site.</summary>
    [Length(1, 100, ErrorMessage = "Give the slug of a site, 1 to 100 characters.")]
    public required string SiteId { get; init; }

    /// <summary>2 to 32 letters, digits, dots and dashes, a letter first and at least one dash.</summary>
    [Length(2, 32, ErrorMessage = "Give 2 to 32 characters.")]
    public required string SizeId { get; init; }

    /// <summary>What it holds.</summary>
    public required GasKind Gas { get; init; }

    /// <summary>Litres of free gas on the label, 1 to 20,000.</summary>
    [Range(1, 20_000.0, ErrorMessage = "Give the label's contents, 1 to 20000 L of gas.")]
    public required decimal LabelLitres { get; init; }

    /// <summary>Pressure of the full cylinder on the label, psi, 1 to 3,300; or labelBar.</summary>
    [Range(1, 3_300.0, ErrorMessage = "Give the label's pressure, 1 to 3300 psi.")]
    public decimal? LabelPsi { get; init; }

    /// <summary>Pressure of the full cylinder on the label, bar, 1 to 300; or labelPsi.</summary>
    [Range(1, 300.0, ErrorMessage = "Give the label's pressure, 1 to 300 bar.")]
    public decimal? LabelBar { get; init; }

    /// <summary>Water capacity as stamped, 0.1 to 100 L. Left out: no real-gas figure.</summary>
    [Range(0.1, 100.0, ErrorMessage = "Give a water capacity of 0.1 to 100 L, or leave it out.")]
    public decimal? WaterCapacityLitres { get; init; }

    /// <summary>A reading in the unit of the label's pressure, above 0 and up to it, whose litres somebody worked out apart from this planner.</summary>
    [Range(1, 3_300.0, ErrorMessage = "Give a reading of 1 to 3300, in the unit of the label.")]
    public required decimal TestGauge { get; init; }

    /// <summary>Litres at that reading down to empty. It is recomputed at each save and refused where it is more than 10 % away.</summary>
    [Range(0.1, 20_000.0, ErrorMessage = "Give the litres at the test reading, 0.1 to 20000 L.")]
    public required decimal TestLitres { get; init; }

    /// <summary>Where the label was read.</summary>
    [Length(1, 200, ErrorMessage = "Say where the label was read, 1 to 200 characters.")]
    public required string Source { get; init; }

    /// <summary>The role that enters it, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that enters it, 1 to 80 characters.")]
    public required string EnteredBy { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext) => CylinderSizeConfirmation.OneUnit(LabelPsi, LabelBar);

    internal AddedCylinderSize ToRow(DateTimeOffset now) => new()
    {
        SiteId = SiteId,
        Id = SizeId.Trim(),
        Gas = Gas,
        LabelLitres = LabelLitres,
        FullPressure = LabelPsi ?? LabelBar!.Value,
        Unit = LabelPsi is null ? PressureUnit.Bar : PressureUnit.Psi,
        WaterLitres = WaterCapacityLitres,
        TestGauge = TestGauge,
        TestLitres = TestLitres,
        Source = Source.Trim(),
        EnteredBy = EnteredBy.Trim(),
        EnteredAt = now,
    };
}

/// <summary>The second entry: the same figures, read from the label again by another role.</summary>
public sealed record CylinderSizeConfirmation : IValidatableObject
{
    /// <summary>What it holds.</summary>
    public required GasKind Gas { get; init; }

    /// <summary>Litres of free gas on the label, 1 to 20,000.</summary>
    [Range(1, 20_000.0, ErrorMessage = "Give the label's contents, 1 to 20000 L of gas.")]
    public required decimal LabelLitres { get; init; }

    /// <summary>Pressure of the full cylinder on the label, psi; or labelBar.</summary>
    [Range(1, 3_300.0, ErrorMessage = "Give the label's pressure, 1 to 3300 psi.")]
    public decimal? LabelPsi { get; init; }

    /// <summary>Pressure of the full cylinder on the label, bar; or labelPsi.</summary>
    [Range(1, 300.0, ErrorMessage = "Give the label's pressure, 1 to 300 bar.")]
    public decimal? LabelBar { get; init; }

    /// <summary>Water capacity as stamped, 0.1 to 100 L; left out where the first entry left it out.</summary>
    [Range(0.1, 100.0, ErrorMessage = "Give a water capacity of 0.1 to 100 L, or leave it out.")]
    public decimal? WaterCapacityLitres { get; init; }

    /// <summary>The role that confirms; another one than entered it.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that confirms it, 1 to 80 characters.")]
    public required string ConfirmedBy { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext) => OneUnit(LabelPsi, LabelBar);

    internal PressureReading Full => LabelPsi is { } psi ? PressureReading.FromPsi(psi) : PressureReading.FromBar(LabelBar!.Value);

    internal static IEnumerable<ValidationResult> OneUnit(decimal? labelPsi, decimal? labelBar)
    {
        if ((labelPsi is null) == (labelBar is null))
            yield return new("Give the label's pressure in exactly one unit: labelPsi or labelBar.", [nameof(LabelPsi)]);
    }
}

/// <summary>How a size came into the library.</summary>
public enum CylinderSizeStatus
{
    /// <summary>Ships with the planner, as published.</summary>
    Listed,
    /// <summary>The site entered it once: not used until it is confirmed.</summary>
    Entered,
    /// <summary>The site entered it twice, in two roles: used like any other.</summary>
    Confirmed,
}

/// <summary>Who entered and confirmed a size of a site, and the reading that is recomputed at each save.</summary>
/// <param name="SiteId">Whose it is.</param>
/// <param name="EnteredBy">Role of the first entry.</param>
/// <param name="EnteredAt">When.</param>
/// <param name="ConfirmedBy">Role of the second entry; null while it waits.</param>
/// <param name="ConfirmedAt">When.</param>
/// <param name="TestWorking">The test reading with the numbers put in; null in the list while the size waits for its second entry.</param>
/// <param name="Version">Names it in If-Match when it is withdrawn.</param>
public sealed record CylinderSizeEntryResponse(
    string SiteId, string EnteredBy, DateTimeOffset EnteredAt, string? ConfirmedBy, DateTimeOffset? ConfirmedAt, string? TestWorking, long Version);
