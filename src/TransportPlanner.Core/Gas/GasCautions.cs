namespace TransportPlanner.Core.Gas;

/// <summary>What a person must know or check beside the minutes. Limits without a source here are the project's own (input limits, common practice).</summary>
internal static class GasCautions
{
    internal static IReadOnlyList<string> Of(GasRequest request, IReadOnlyList<GasDuration> gases)
    {
        var demand = request.Demand;
        List<string> cautions = ["Planning aid: local policy and licensed practice decide. Check the flow at the patient end: a full cylinder that is shut gives nothing."];
        cautions.AddRange(demand.Assumed);
        if (demand.OxygenFraction is null)
            cautions.Add("The oxygen fraction is not known: oxygen is counted at fraction 1.0 and air at 0.21, each at its worst.");
        cautions.AddRange(
            from duration in gases
            where duration.Minutes is not null && request.Cylinders.All(cylinder => cylinder.Gas != duration.Gas)
            select $"The demand draws {GasText.Name(duration.Gas)} and no {GasText.Name(duration.Gas)} cylinder is given: it counts as 0 min.");
        if (gases[1].Minutes is null && request.Cylinders.Any(cylinder => cylinder.Gas == GasKind.Air))
            cautions.Add("An air cylinder is given and no air is drawn from it: it is not counted. Check that it is not an oxygen cylinder.");
        if (request.Cylinders.All(cylinder => cylinder.Gas != GasKind.Oxygen) && gases[0].Minutes is null)
            cautions.Add("No oxygen cylinder is given: oxygen alone counts as 0 min.");
        for (var i = 0; i < request.Cylinders.Count; i++)
            cautions.AddRange(Of(request.Cylinders[i], $"Cylinder {i + 1} ({GasText.Name(request.Cylinders[i].Gas)})"));
        if (request.CylinderCelsius is null && request.Cylinders.Any(cylinder => cylinder.Capacity.WaterLitres is not null))
            cautions.Add($"The cylinders' temperature is assumed: {GasRequest.AssumedCelsius} °C.");
        if (request.CylinderCelsius > 30)
            cautions.Add("Above 30 °C a gauge reads high: the same gas shows less once it cools.");
        if (demand.Flow.LitresPerMinute < 0.5)
            cautions.Add("Below 0.5 L/min a flowmeter's permissible error is as large as the flow.");
        if (demand.Flow.LitresPerMinute > 15)
            cautions.Add("Above 15 L/min: check the flow, it is high for a newborn.");
        if (demand.OxygenFraction is > GasDemand.MinOxygenFraction and < GasDemand.MaxOxygenFraction && demand.Bleed == default)
            cautions.Add("Blender bleed counts as 0 L/min: some blenders let several L/min go; take the maker's figure.");
        return cautions;
    }

    private static IEnumerable<string> Of(Cylinder cylinder, string name)
    {
        var (gauge, residual) = (cylinder.Gauge, cylinder.Residual);
        if (cylinder.Gauge.In(PressureUnit.Bar) <= residual.In(PressureUnit.Bar))
        {
            var unit = cylinder.Capacity.Full is { } listed && listed.Unit != gauge.Unit && gauge.Unit != PressureUnit.Kilopascal
                ? $" Its full pressure is known in {PressureReading.NameOf(listed.Unit)}: is {PressureReading.NameOf(gauge.Unit)} the unit of the gauge?"
                : "";
            yield return $"{name}: {gauge} is not above the residual of {residual}: it counts as 0 L, change the cylinder.{unit}";
        }
        else if (cylinder.Capacity.Full is { } full && gauge.In(full.Unit) < (Rational)full.Value / 4m)
            yield return $"{name}: {gauge} is less than a quarter of its full pressure of {full}.";
        if (cylinder.SizeIsAssumed)
            yield return $"{name}: that it is the one which the site presets is assumed: read its label.";
        if (cylinder.ResidualIsAssumed)
            yield return $"{name}: a residual of {residual} is assumed.";
        else if (residual.In(PressureUnit.Bar) < (residual.Unit == PressureUnit.Psi ? Cylinder.DefaultResidualPsi.In(PressureUnit.Bar) : 10m))
            yield return $"{name}: a residual of {residual} is less than 200 psi or 10 bar, about the permissible error of the gauge.";
        if (cylinder.Capacity.Size is { } size)
            yield return $"{name}: {GasText.Number(size.LeastLitres)} L at {size.Full} come from a table ({size.Source}; {size.Provenance}); the label on the cylinder decides.";
    }
}
