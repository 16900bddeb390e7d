using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Data;

/// <summary>A size that a site added to the cylinder library. It is used once a second role has confirmed it.</summary>
internal sealed class AddedCylinderSize : IVersioned
{
    public required string SiteId { get; init; }
    public required string Id { get; init; }
    public required GasKind Gas { get; init; }
    public required decimal LabelLitres { get; init; }

    /// <summary>Pressure of the full cylinder, in <see cref="Unit"/>; so is <see cref="TestGauge"/>.</summary>
    public required decimal FullPressure { get; init; }
    public required PressureUnit Unit { get; init; }
    public decimal? WaterLitres { get; init; }
    public required decimal TestGauge { get; init; }
    public required decimal TestLitres { get; init; }
    public required string Source { get; init; }

    /// <summary>Roles, never names.</summary>
    public required string EnteredBy { get; init; }
    public required DateTimeOffset EnteredAt { get; init; }
    public string? ConfirmedBy { get; set; }
    public DateTimeOffset? ConfirmedAt { get; set; }
    public long Version { get; set; }

    public AddedSize ToSize() => new(
        Id, Gas, LabelLitres, PressureReading.From(FullPressure, Unit), WaterLitres, PressureReading.From(TestGauge, Unit), TestLitres, Source);

    public static Task<List<AddedCylinderSize>> OfSiteAsync(PlannerContext context, string siteId, CancellationToken cancellationToken) =>
        context.CylinderSizes.AsNoTracking().Where(size => size.SiteId == siteId).OrderBy(size => size.Id).ToListAsync(cancellationToken);
}

/// <summary>A cylinder that stands on a site's shelf, with its last gauge reading.</summary>
internal sealed class ShelfCylinder : IVersioned
{
    /// <summary>128 random bits in hexadecimal.</summary>
    public required string Id { get; init; }
    public required string SiteId { get; init; }

    /// <summary>What is written on it at this site; unique among what stands there.</summary>
    public required string Tag { get; init; }

    /// <summary>Gas, capacity, reading and residual as a request of the API gives them, as JSON text.</summary>
    public required string Cylinder { get; set; }
    public required DateTimeOffset ReadAt { get; set; }

    /// <summary>The role that read the gauge, never a name.</summary>
    public required string ReadBy { get; set; }
    public long Version { get; set; }
}

/// <summary>What two people found at a cylinder: never changed.</summary>
internal sealed class FlowCheck
{
    public required string Id { get; init; }
    public required string CylinderId { get; init; }
    public required DateTimeOffset At { get; init; }
    public required string FirstRole { get; init; }
    public required string SecondRole { get; init; }
    public required bool CapOff { get; init; }
    public required bool ValveOpen { get; init; }
    public required bool FlowSet { get; init; }
    public required bool FlowFelt { get; init; }

    public bool IsComplete => CapOff && ValveOpen && FlowSet && FlowFelt;
}
