namespace TransportPlanner.Core.Gas;

/// <summary>The least reading with which one cylinder of a size meets a rule.</summary>
/// <param name="Size">The library row.</param>
/// <param name="Gauge">Rounded up to 10 psi or 1 bar; null where not even a full cylinder is enough.</param>
/// <param name="Working">The rule and the litres with the numbers put in.</param>
public sealed record LeastGauge(CylinderSize Size, PressureReading? Gauge, string Working)
{
    /// <summary>
    /// For every size of the library that holds the gas and whose pressure is known. Oxygen is counted at the full flow and fraction 1.0,
    /// as the rules are judged on the lesser of the supply and oxygen alone; air at what the demand draws. The residual is the default one.
    /// </summary>
    /// <returns>Empty where the demand draws no such gas from cylinders.</returns>
    public static IReadOnlyList<LeastGauge> ForAll(GasKind gas, GasDemand demand, ReserveRule rule, decimal journeyMinutes, decimal celsius = GasRequest.AssumedCelsius)
    {
        demand.Validate();
        var flow = gas == GasKind.Oxygen ? demand.OxygenAloneFlow : demand.AirSource == AirSource.Cylinder ? demand.ExactFlowOf(gas) : Rational.Zero;
        if (!flow.IsPositive)
            return [];
        var litres = flow * rule.RequiredMinutes(journeyMinutes);
        var need = $"{rule.WorkingOf(journeyMinutes)}; {GasText.Number(rule.RequiredMinutes(journeyMinutes))} min × {GasText.Number(flow, 6)} L/min = {GasText.Number(litres)} L";
        return
        [
            .. from size in CylinderLibrary.Sizes
               where size.Gas == gas && size.Full is not null
               select new LeastGauge(size, Least(size, litres, celsius), need),
        ];
    }

    private static PressureReading? Least(CylinderSize size, Rational litres, decimal celsius)
    {
        var full = size.Full!.Value;
        var capacity = CylinderCapacity.FromSize(size);
        var step = full.Unit == PressureUnit.Psi ? 10 : 1;
        var (low, high) = (0, (int)(full.Value / step));
        if (!IsEnough(high))
            return null;

        // Litres rise with the reading, so halving finds the least one.
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = IsEnough(middle) ? (low, middle) : (middle + 1, high);
        }

        return PressureReading.From(low * step, full.Unit);

        bool IsEnough(int steps) => CylinderAmount.Of(new(size.Gas, capacity, PressureReading.From(steps * step, full.Unit)), celsius).Litres >= litres;
    }
}
