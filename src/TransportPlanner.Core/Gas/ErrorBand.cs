namespace TransportPlanner.Core.Gas;

/// <summary>How far gauge and flowmeter may be off; the low end of a duration takes both at once.</summary>
internal static class ErrorBand
{
    /// <summary>Percent of span. Source: EN 837-1:1996, Table 11; the class itself is common practice for cylinder gauges.</summary>
    private const decimal GaugeClassPercent = 2.5m;

    /// <summary>Spans: common practice, 3,000 psi for US sizes, 315 bar elsewhere.</summary>
    private static readonly PressureReading UsError = PressureReading.FromPsi(GaugeError(3_000, GaugeClassPercent));
    private static readonly PressureReading ElsewhereError = PressureReading.FromBar(GaugeError(315, GaugeClassPercent));

    internal static PressureReading GaugeErrorOf(CylinderCapacity capacity) => capacity.IsUsSize ? UsError : ElsewhereError;

    /// <summary>Permissible error of a gauge, in the unit of its span.</summary>
    internal static decimal GaugeError(decimal span, decimal classPercent) => span * classPercent / 100;

    /// <summary>Error of a flowmeter, L/min: 0.5 below 5 L/min, else 10 percent. Source: ISO 15002 (as paraphrased; derived).</summary>
    internal static Rational FlowError(Rational litresPerMinute) => litresPerMinute < 5 ? 0.5m : litresPerMinute / 10m;

    /// <summary>By how much more may be drawn than the flowmeter shows: its share at the set flow.</summary>
    internal static Rational FlowFactor(GasDemand demand)
    {
        var set = GasDemand.Litres(demand.Flow);
        return (set + FlowError(set)) / set;
    }
}
