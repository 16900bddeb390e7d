using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Gas;

/// <summary>Which figure a duration rests on.</summary>
public enum GasBasis
{
    /// <summary>(gauge − residual) × capacity is the smaller, or the only one.</summary>
    Trade,
    /// <summary>The figure with compressibility is the smaller one.</summary>
    RealGas,
    /// <summary>Several cylinders, some of either.</summary>
    Mixed,
}

/// <summary>How long one gas lasts.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="Flow">What is drawn of it, in whole µL/min.</param>
/// <param name="UsableLitres">Of its cylinders, the smaller figure of each, to a thousandth as the working prints it.</param>
/// <param name="TradeMinutes">Rounded down to a thousandth; null where the gas is not drawn from cylinders.</param>
/// <param name="RealGasMinutes">The same with compressibility; null also where a water capacity is unknown.</param>
/// <param name="Basis">Null where the gas is not drawn or has no cylinder.</param>
/// <param name="ExactMinutes">From the smaller figure of each cylinder, rounded down to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded down from the exact value; null where the gas is not drawn from cylinders.</param>
/// <param name="MinutesLow">The low end of the band, rounded down: gauge too high and flowmeter too low by their permissible errors at once.</param>
/// <param name="FlowWorking">How the flow comes about.</param>
/// <param name="Working">Litres of each cylinder and the division, with the numbers put in.</param>
/// <param name="WorkingLow">The same for the low end.</param>
public sealed record GasDuration(
    GasKind Gas, GasFlow Flow, decimal UsableLitres, decimal? TradeMinutes, decimal? RealGasMinutes, GasBasis? Basis,
    decimal? ExactMinutes, long? Minutes, long? MinutesLow, string FlowWorking, string Working, string? WorkingLow)
{
    private const int Decimals = 3;

    /// <summary>How many cylinders are in the minutes, one after another; 0 where the gas is not drawn from cylinders.</summary>
    public int Cylinders { get; private init; }

    /// <summary>The duration before any rounding; null where the gas is not drawn from cylinders.</summary>
    internal Rational? Exact { get; private init; }

    /// <summary>The low end before any rounding; null where the gas is not drawn from cylinders.</summary>
    internal Rational? ExactLow { get; private init; }

    internal static GasDuration Of(GasKind gas, GasRequest request)
    {
        var demand = request.Demand;
        var celsius = request.CylinderCelsius ?? GasRequest.AssumedCelsius;
        var cylinders = request.Cylinders.Where(cylinder => cylinder.Gas == gas).ToList();
        var amounts = cylinders.ConvertAll(cylinder => CylinderAmount.Of(cylinder, celsius));
        var litres = Sum(amounts, amount => amount.Litres);
        var flow = demand.ExactFlowOf(gas);

        var notDrawn = !flow.IsPositive
            ? $"{GasText.Name(gas)} is not drawn"
            : gas == GasKind.Air && demand.AirSource != AirSource.Cylinder
                ? demand.AirSource == AirSource.Compressor ? "air comes from a compressor, no cylinder is drawn" : "room air is drawn in, no cylinder is drawn"
                : null;
        if (notDrawn is not null)
            return new(gas, demand.FlowOf(gas), litres.Nearest(Decimals), null, null, null, null, null, null, demand.WorkingOf(gas), notDrawn, null);

        var lowest = cylinders.ConvertAll(cylinder => CylinderAmount.LowestOf(cylinder, celsius));
        var lowLitres = Sum(lowest, amount => amount.Litres);
        var tooMuch = ErrorBand.FlowFactor(demand);
        var exact = litres / flow;
        var real = amounts.TrueForAll(amount => amount.RealGasLitres is not null) && amounts.Count > 0
            ? (Sum(amounts, amount => amount.RealGasLitres!.Value) / flow).Down(Decimals)
            : (decimal?)null;
        var basis = amounts.Count == 0 ? (GasBasis?)null
            : amounts.TrueForAll(amount => amount.IsRealGas) ? GasBasis.RealGas
            : amounts.Exists(amount => amount.IsRealGas) ? GasBasis.Mixed : GasBasis.Trade;
        return new(
            gas, demand.FlowOf(gas), litres.Nearest(Decimals), (Sum(amounts, amount => amount.TradeLitres) / flow).Down(Decimals), real, basis,
            exact.Down(Decimals), exact.Floor(), (lowLitres / (flow * tooMuch)).Floor(),
            demand.WorkingOf(gas), WorkingOf(gas, amounts, litres, flow, 1m), WorkingOf(gas, lowest, lowLitres, flow, tooMuch))
        {
            Cylinders = cylinders.Count,
            Exact = exact,
            ExactLow = lowLitres / (flow * tooMuch),
        };
    }

    internal static Rational Sum(IEnumerable<CylinderAmount> amounts, Func<CylinderAmount, Rational> litres) =>
        amounts.Aggregate(Rational.Zero, (sum, amount) => sum + litres(amount));

    internal static string WorkingOf(GasKind gas, List<CylinderAmount> amounts, Rational litres, Rational flow, Rational flowFactor)
    {
        if (amounts.Count == 0)
            return $"no {GasText.Name(gas)} cylinder is given: 0 min";
        var parts = amounts.Select(amount => amount.Working);
        if (amounts.Count > 1)
            parts = parts.Append($"{string.Join(" + ", amounts.Select(amount => $"{GasText.Number(amount.Litres)} L"))} = {GasText.Number(litres)} L");
        return string.Join("; ", parts.Append(GasText.Division(litres, flow, flowFactor)));
    }
}
