namespace TransportPlanner.Core.Gas;

/// <summary>What a person must know or check beside the minutes. Limits without a source here are the project's own (input limits, common practice).</summary>
public static class GasCautions
{
    /// <summary>Tells the caution about a cylinder that gives nothing from the others: a page that shows 0 minutes says so at once.</summary>
    public const string NotAboveResidual = "is not above the residual";

    internal static IReadOnlyList<string> Of(GasRequest request, IReadOnlyList<GasDuration> gases)
    {
        var demand = request.Demand;
        List<string> cautions = ["Planning aid: local policy and licensed practice decide.", "Check the flow at the patient end: a full cylinder that is shut gives nothing."];
        cautions.AddRange(demand.Assumed);
        if (demand.FlowIs == FlowKind.MinuteVolume)
            cautions.Add("The flow is a minute volume: it holds only for a ventilator that gives gas breath by breath. One with a continuous flow draws its set flow, for a newborn many times as much: give that.");
        if (demand.OxygenFraction is null)
            cautions.Add("The oxygen fraction is not known: oxygen is counted at fraction 1.0 and air at 0.21, each at its worst.");
        cautions.AddRange(
            from duration in gases
            where duration.Minutes is not null && request.Cylinders.All(cylinder => cylinder.Gas != duration.Gas)
            select $"The demand draws {GasText.Name(duration.Gas)} and no {GasText.Name(duration.Gas)} cylinder is given: it counts as 0 min."
                + (duration.Gas == GasKind.Air ? " Say so where air comes from a compressor or the room." : ""));
        if (gases[1].Minutes is null && request.Cylinders.Any(cylinder => cylinder.Gas == GasKind.Air))
            cautions.Add("An air cylinder is given and no air is drawn from it: it is not counted. Check that it is not an oxygen cylinder.");
        if (request.Cylinders.All(cylinder => cylinder.Gas != GasKind.Oxygen) && gases[0].Minutes is null)
            cautions.Add("No oxygen cylinder is given: oxygen alone counts as 0 min.");
        // What holds of several cylinders is said once; where all are of one size, so is what is assumed of it.
        var isOneSize = request.Cylinders.Select(cylinder => cylinder.Capacity.Size?.Id).Distinct().Count() == 1;
        cautions.AddRange(
            from caution in request.Cylinders.Index().SelectMany(at => Of(at.Item, isOneSize), (at, words) => (Number: at.Index + 1, at.Item.Gas, Words: words))
            group caution by caution.Words into same
            let named = from one in same
                        group one.Number by one.Gas into numbers
                        select $"{string.Join(", ", numbers)} ({GasText.Name(numbers.Key)})"
            select $"{(same.Count() == 1 ? "Cylinder" : "Cylinders")} {string.Join(", ", named)}: {same.Key}");
        if (request.CylinderCelsius is null && request.Cylinders.Any(cylinder => cylinder.Capacity.WaterLitres is not null))
            cautions.Add($"The cylinders' temperature is assumed: {GasRequest.AssumedCelsius} °C.");
        if (request.CylinderCelsius > 30)
            cautions.Add("Above 30 °C a gauge reads high: the same gas shows less once it cools.");
        if (demand.Flow.LitresPerMinute < 0.5)
            cautions.Add("Below 0.5 L/min a flowmeter's permissible error is as large as the flow.");
        if (demand.Flow.LitresPerMinute > 15)
            cautions.Add("Above 15 L/min: check the flow, it is high for a newborn.");
        if (demand.OxygenFraction is > GasDemand.MinOxygenFraction and < GasDemand.MaxOxygenFraction && demand.Bleed == default)
            cautions.Add("Blender bleed counts as 0 L/min; some let several go: take the maker's figure.");
        return cautions;
    }

    private const decimal MostCarriedWaterLitres = 15;

    /// <summary>
    /// Asks which unit was meant: the number leaves next to nothing in the unit as typed, and in another one it is a quarter to all of a full cylinder, which
    /// reads as one that somebody would take along. Null where no other unit fits or the full pressure is unknown. Only asked: the figure as typed is counted.
    /// </summary>
    private static string? UnitQuestion(Cylinder cylinder)
    {
        var gauge = cylinder.Gauge;
        if (cylinder.Capacity.Full is not { } full || gauge.In(full.Unit) * 4m >= full.Value)
            return null;
        var fits = Enum.GetValues<PressureUnit>().Where(unit => unit != gauge.Unit && gauge.Value <= PressureReading.MaxOf(unit))
            .Select(unit => PressureReading.From(gauge.Value, unit))
            .Where(other => other.In(full.Unit) * 4m >= full.Value && other.In(full.Unit) <= CylinderCapacity.MostOfFull * (Rational)full.Value).ToList();
        return fits.Count == 0 ? null : $"Is it {gauge}, or {string.Join(" or ", fits)}? Read the unit on the gauge.";
    }

    private static IEnumerable<string> Of(Cylinder cylinder, bool isOneSize)
    {
        var (gauge, residual) = (cylinder.Gauge, cylinder.Residual);
        if (cylinder.Gauge.In(PressureUnit.Bar) <= residual.In(PressureUnit.Bar))
        {
            var unit = UnitQuestion(cylinder) is { } question ? $" {question}" : cylinder.Capacity.Full is { } listed && listed.Unit != gauge.Unit && gauge.Unit != PressureUnit.Kilopascal
                ? $" Its full pressure is known in {PressureReading.NameOf(listed.Unit)}: is {PressureReading.NameOf(gauge.Unit)} the unit of the gauge?"
                : "";
            yield return $"{gauge} {NotAboveResidual} of {residual}: it counts as 0 L, change the cylinder.{unit}";
        }
        else if (cylinder.Capacity.Full is { } full && gauge.In(full.Unit) < (Rational)full.Value / 4m)
            yield return $"{gauge} is less than a quarter of its full pressure of {full}.{(UnitQuestion(cylinder) is { } question ? $" {question}" : "")}";
        // Litres typed with one digit too many make a cylinder that nobody carries beside an incubator. 15 L: common practice, no source.
        if (cylinder.Capacity.Size is null && cylinder.Capacity.LitresPerBar is var water and > MostCarriedWaterLitres)
            yield return $"its capacity is that of about {GasText.Number(decimal.Round(water))} L of water, more than travels with an incubator: read the label again.";
        if (cylinder.SizeIsAssumed)
            yield return "that it is the one which the site presets is assumed: read its label.";
        var assumed = cylinder.ResidualIsAssumed ? $"a residual of {residual} is assumed" : null;
        if (assumed is null && residual.In(PressureUnit.Bar) < (residual.Unit == PressureUnit.Psi ? Cylinder.DefaultResidualPsi.In(PressureUnit.Bar) : 10m))
            yield return $"a residual of {residual} is less than 200 psi or 10 bar, about the permissible error of the gauge.";
        var listedAs = cylinder.Capacity.Size is { } size
            ? $"{GasText.Number(size.LeastLitres)} L at {size.Full} as listed ({size.Id}{(size.Provenance == "memory" ? ", from memory" : "")}): the label decides"
            : null;
        string?[] parts = [listedAs, assumed];
        foreach (var said in isOneSize ? [string.Join("; ", parts.OfType<string>())] : parts)
        {
            if (said is { Length: > 0 })
                yield return $"{said}.";
        }
    }
}
