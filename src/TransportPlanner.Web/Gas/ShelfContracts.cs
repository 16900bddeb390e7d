using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>A cylinder that is put on a site's shelf.</summary>
public sealed record ShelfCylinderRequest
{
    /// <summary>Slug of the site.</summary>
    [Length(1, 100, ErrorMessage = "Give the slug of a site, 1 to 100 characters.")]
    public required string SiteId { get; init; }

    /// <summary>What is written on it at this site, 1 to 30 characters; no two on the shelf have the same.</summary>
    [Length(1, 30, ErrorMessage = "Give what is written on the cylinder, 1 to 30 characters.")]
    public required string Tag { get; init; }

    /// <summary>Gas, capacity and gauge reading.</summary>
    public required CylinderRequest Cylinder { get; init; }

    /// <summary>The role that read the gauge, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that read the gauge, 1 to 80 characters.")]
    public required string ReadBy { get; init; }

    /// <summary>When the gauge was read; left out: now. Not in the future.</summary>
    public DateTimeOffset? ReadAt { get; init; }
}

/// <summary>A new gauge reading: exactly one of the three units.</summary>
public sealed record GaugeReadingRequest : IValidatableObject
{
    /// <summary>psi, 0 to 3,300, and at most 110 % of a known full pressure.</summary>
    [Range(0, 3_300.0, ErrorMessage = "Give 0 to 3300 psi.")]
    public decimal? GaugePsi { get; init; }

    /// <summary>bar, 0 to 300.</summary>
    [Range(0, 300.0, ErrorMessage = "Give 0 to 300 bar.")]
    public decimal? GaugeBar { get; init; }

    /// <summary>kPa, 0 to 30,000.</summary>
    [Range(0, 30_000.0, ErrorMessage = "Give 0 to 30000 kPa.")]
    public decimal? GaugeKpa { get; init; }

    /// <summary>The role that read the gauge.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that read the gauge, 1 to 80 characters.")]
    public required string ReadBy { get; init; }

    /// <summary>When; left out: now. Not in the future, and not before the reading that is there.</summary>
    public DateTimeOffset? ReadAt { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (new[] { GaugePsi, GaugeBar, GaugeKpa }.Count(gauge => gauge is not null) != 1)
            yield return new("Give the gauge reading in exactly one unit: gaugePsi, gaugeBar or gaugeKpa.", [nameof(GaugePsi)]);
    }
}

/// <summary>What two people find at a cylinder: each step true where both saw or felt it.</summary>
public sealed record FlowCheckRequest
{
    /// <summary>Role of the one who does it.</summary>
    [Length(1, 80, ErrorMessage = "Give the role of the first person, 1 to 80 characters.")]
    public required string FirstRole { get; init; }

    /// <summary>Role of the one who looks on.</summary>
    [Length(1, 80, ErrorMessage = "Give the role of the second person, 1 to 80 characters.")]
    public required string SecondRole { get; init; }

    /// <summary>The cap is off the outlet.</summary>
    public required bool CapOff { get; init; }

    /// <summary>The valve is open.</summary>
    public required bool ValveOpen { get; init; }

    /// <summary>The flow is set.</summary>
    public required bool FlowSet { get; init; }

    /// <summary>The flow is felt at the patient end.</summary>
    public required bool FlowFeltAtPatientEnd { get; init; }
}

/// <summary>One check as it was made.</summary>
public sealed record FlowCheckResponse(DateTimeOffset At, string FirstRole, string SecondRole, bool CapOff, bool ValveOpen, bool FlowSet, bool FlowFeltAtPatientEnd);

/// <summary>A cylinder on the shelf.</summary>
public sealed record ShelfCylinderResponse
{
    public required string Id { get; init; }
    public required string SiteId { get; init; }

    /// <summary>What is written on it.</summary>
    public required string Tag { get; init; }

    /// <summary>As it was given, with the last reading.</summary>
    public required CylinderRequest Cylinder { get; init; }

    /// <summary>The last reading with its unit.</summary>
    public required string Gauge { get; init; }
    public required DateTimeOffset ReadAt { get; init; }

    /// <summary>The role that read it.</summary>
    public required string ReadBy { get; init; }

    /// <summary>Whole minutes since the reading.</summary>
    public required long AgeMinutes { get; init; }

    /// <summary>Older than the site allows: not counted until somebody reads the gauge again.</summary>
    public required bool Stale { get; init; }

    /// <summary>Litres above the residual, the smaller of trade and real-gas figure, at 20 °C (assumed); null where it cannot be counted.</summary>
    public required decimal? UsableLitres { get; init; }

    /// <summary>The litres with the numbers put in.</summary>
    public required string? Working { get; init; }

    /// <summary>Why it cannot be counted; null where it can.</summary>
    public required string? Problem { get; init; }

    /// <summary>The last four checks, the newest first.</summary>
    public required IReadOnlyList<FlowCheckResponse> FlowChecks { get; init; }

    /// <summary>What is known about its flow, in words.</summary>
    public required string Flow { get; init; }

    /// <summary>Names it in If-Match.</summary>
    public required long Version { get; init; }
}

/// <summary>What stands on a site's shelf.</summary>
/// <param name="StaleMinutes">A reading older than this is stale.</param>
/// <param name="StaleMinutesAssumed">True where the site did not say so itself.</param>
/// <param name="Cylinders">By tag.</param>
/// <param name="Cautions">To be shown with it.</param>
public sealed record ShelfResponse(int StaleMinutes, bool StaleMinutesAssumed, IReadOnlyList<ShelfCylinderResponse> Cylinders, IReadOnlyList<string> Cautions);

/// <summary>Which cylinders of the shelf does this journey need?</summary>
public sealed record SmallestSetRequest
{
    /// <summary>Slug of the site.</summary>
    [Length(1, 100, ErrorMessage = "Give the slug of a site, 1 to 100 characters.")]
    public required string SiteId { get; init; }

    /// <summary>Minutes of the journey, 0.1 to 1,440.</summary>
    [Range(0.1, 1_440.0, ErrorMessage = "Give the journey in minutes, 0.1 to 1440.")]
    public required decimal JourneyMinutes { get; init; }

    /// <summary>What the device draws.</summary>
    public required GasDemandRequest Demand { get; init; }
}

/// <summary>A cylinder that was not looked at.</summary>
public sealed record LeftOutResponse(string Tag, string Why);

/// <summary>The fewest cylinders of each gas that meet the site's rule; among as few, those with the least gas. A shortage is an answer.</summary>
/// <param name="Found">False where all that could be counted is not enough.</param>
/// <param name="Tags">Which to take.</param>
/// <param name="Supply">The supply with them.</param>
/// <param name="ShortOf">The gas that is short.</param>
/// <param name="NeededLitres">Of that gas, rounded up.</param>
/// <param name="ThereLitres">On the shelf above the residuals, rounded down.</param>
/// <param name="Working">How the need comes about.</param>
/// <param name="LeftOut">What was not counted and why.</param>
public sealed record SmallestSetResponse(
    bool Found, IReadOnlyList<string> Tags, GasSupplyResponse? Supply, GasKind? ShortOf, decimal? NeededLitres, decimal? ThereLitres, string? Working,
    IReadOnlyList<LeftOutResponse> LeftOut);
