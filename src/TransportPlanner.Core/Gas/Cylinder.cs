namespace TransportPlanner.Core.Gas;

/// <summary>One cylinder as it stands beside the incubator: its gas, capacity and gauge reading, and what is never planned with.</summary>
public sealed record Cylinder
{
    /// <summary>Residual where none is given. Source: reserve rules RR-09 (200 psi; Virginia Office of EMS, 2010) and its rounding in bar.</summary>
    public static readonly PressureReading DefaultResidualPsi = PressureReading.FromPsi(200);

    /// <inheritdoc cref="DefaultResidualPsi"/>
    public static readonly PressureReading DefaultResidualBar = PressureReading.FromBar(14);

    /// <summary>A missing residual is 200 psi, or 14 bar where the gauge reads bar or kPa; marked assumed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The gauge is above 110 percent of the full cylinder's pressure.</exception>
    public Cylinder(GasKind gas, CylinderCapacity capacity, PressureReading gauge, PressureReading? residual = null)
    {
        if (WhyRefused(capacity, gauge) is { } refusal)
            throw new ArgumentOutOfRangeException(nameof(gauge), gauge, refusal);
        Gas = gas;
        Capacity = capacity;
        Gauge = gauge;
        Residual = residual ?? DefaultResidual(gauge.Unit);
        ResidualIsAssumed = residual is null;
    }

    public GasKind Gas { get; }
    public CylinderCapacity Capacity { get; }
    public PressureReading Gauge { get; }
    public PressureReading Residual { get; }
    public bool ResidualIsAssumed { get; }

    /// <summary>True where nobody said which cylinder it is and the one that the site presets stands in.</summary>
    public bool SizeIsAssumed { get; init; }

    /// <summary>The residual that stands in for a missing one, by the unit of the gauge.</summary>
    public static PressureReading DefaultResidual(PressureUnit gauge) => gauge == PressureUnit.Psi ? DefaultResidualPsi : DefaultResidualBar;

    /// <summary>Why a reading cannot belong to a cylinder of this capacity, or null. Warmth is no excuse: 10 percent more are some 30 °C more.</summary>
    public static string? WhyRefused(CylinderCapacity capacity, PressureReading gauge) =>
        capacity.Full is { } full && gauge.In(full.Unit) > CylinderCapacity.MostOfFull * (Rational)full.Value
            ? $"{gauge} is above {GasText.Number(CylinderCapacity.MostOfFull * (Rational)full.Value)} {PressureReading.NameOf(full.Unit)}, "
                + $"110 percent of this cylinder's full pressure of {full}; a warm cylinder does not read that much higher. "
                + "Check the reading, its unit and the cylinder."
            : null;
}
