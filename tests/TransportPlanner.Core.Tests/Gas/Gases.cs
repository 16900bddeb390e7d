using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Gas;

/// <summary>Short forms for the cylinders and demands of the tests.</summary>
internal static class Gases
{
    internal static GasFlow Flow(decimal litresPerMinute) => GasFlow.FromMicrolitresPerMinute((long)(litresPerMinute * 1_000_000));

    internal static GasDemand Demand(decimal litresPerMinute, decimal? fraction) => new() { Flow = Flow(litresPerMinute), OxygenFraction = fraction };

    /// <summary>A cylinder of exactly so many usable litres.</summary>
    internal static Cylinder Holding(GasKind gas, decimal litres) =>
        new(gas, CylinderCapacity.FromLabel(litres, PressureReading.FromPsi(1000)), PressureReading.FromPsi(1000), default(PressureReading));

    internal static Cylinder Psi(GasKind gas, decimal litresPerPsi, decimal gauge, decimal? residual = 200) =>
        new(gas, CylinderCapacity.FromLitresPerPsi(litresPerPsi), PressureReading.FromPsi(gauge), residual is { } r ? PressureReading.FromPsi(r) : null);

    internal static Cylinder Water(GasKind gas, decimal litres, decimal gauge, decimal? residual = 14) =>
        new(gas, CylinderCapacity.FromWaterLitres(litres), PressureReading.FromBar(gauge), residual is { } r ? PressureReading.FromBar(r) : null);

    /// <summary>One cylinder that gives the whole flow of its gas.</summary>
    internal static GasDuration Lasting(decimal litresPerMinute, Cylinder cylinder, decimal? celsius = null) =>
        GasSupply.For(new()
        {
            Demand = Demand(litresPerMinute, cylinder.Gas == GasKind.Oxygen ? 1 : 0.21m),
            Cylinders = [cylinder],
            CylinderCelsius = celsius,
        }).Gases[(int)cylinder.Gas];
}
