using System.Globalization;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Gas;

/// <summary>A flow of device-flows.csv.</summary>
/// <param name="LitresPerMinute">L/min, as listed.</param>
/// <param name="Device">What has the flow.</param>
/// <param name="Source">Who says so.</param>
public sealed record ListedFlow(decimal LitresPerMinute, string Device, string Source);

/// <summary>The demand of a respiratory support where flow or oxygen fraction is not known: its worst listed case, marked as such. It proposes no setting.</summary>
public static class SupportDemand
{
    /// <summary>Rows of device-flows.csv that list a set or bias flow of the support in L/min for a newborn.</summary>
    private static readonly Dictionary<RespiratorySupport, string[]> Rows = new()
    {
        [RespiratorySupport.SelfVentilating] = [],
        [RespiratorySupport.LowFlowCannula] = ["DF-10", "DF-11", "DF-12"],
        [RespiratorySupport.HighFlowCannula] = ["DF-08"],
        [RespiratorySupport.Cpap] = ["DF-05", "DF-06"],
        [RespiratorySupport.NonInvasiveVentilation] = ["DF-07"],
        [RespiratorySupport.BagMaskVentilation] = ["DF-01", "DF-04", "DF-20"],
        [RespiratorySupport.InvasiveVentilation] = ["DF-15", "DF-16"],
    };

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Flows =
        DataFile.Read("device-flows.csv").ToDictionary(row => row["id"]);

    /// <summary>
    /// The demand to plan with, or null for a support that draws no gas (self-ventilating) where no flow was given.
    /// </summary>
    /// <param name="support">What decides the listed flows.</param>
    /// <param name="flow">Set flow; null: the highest listed flow of the support, with its source in <see cref="GasDemand.Assumed"/>.</param>
    /// <param name="oxygenFraction">Null: each gas counts at its worst.</param>
    public static GasDemand? For(RespiratorySupport support, GasFlow? flow = null, decimal? oxygenFraction = null)
    {
        if (flow is { } given)
            return new() { Flow = given, OxygenFraction = oxygenFraction };
        if (!Rows.TryGetValue(support, out var ids))
            throw new ArgumentOutOfRangeException(nameof(support), support, "This respiratory support does not exist.");
        var highest = ids.Select(id => Flows[id]).MaxBy(row => Litres(row));
        return highest is null ? null : new()
        {
            Listed = new(Litres(highest), highest["device"], highest["source"]),
            Flow = GasFlow.FromLitresPerMinute((double)Litres(highest)),
            OxygenFraction = oxygenFraction,
            Assumed = [$"The flow is not known: the highest listed of this support is counted, {highest["value_max"]} L/min ({highest["device"]}; {highest["source"]}). Read the device."],
        };
    }

    private static decimal Litres(IReadOnlyDictionary<string, string> row) => decimal.Parse(row["value_max"], CultureInfo.InvariantCulture);
}
