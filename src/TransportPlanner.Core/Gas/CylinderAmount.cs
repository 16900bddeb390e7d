using System.Globalization;

namespace TransportPlanner.Core.Gas;

/// <summary>Usable litres of one cylinder: the trade figure, the real-gas figure where the water capacity is known, and the smaller.</summary>
internal sealed record CylinderAmount(Rational TradeLitres, Rational? RealGasLitres, string Working)
{
    private const int RealGasDecimals = 6;

    internal Rational Litres => RealGasLitres is { } real ? Rational.Min(TradeLitres, real) : TradeLitres;

    /// <summary>True where the real-gas figure is the smaller one.</summary>
    internal bool IsRealGas => RealGasLitres is { } real && real < TradeLitres;

    internal static CylinderAmount Of(Cylinder cylinder, decimal celsius) => Of(cylinder, celsius, null);

    /// <summary>The same with the gauge reading too high by its permissible error.</summary>
    internal static CylinderAmount LowestOf(Cylinder cylinder, decimal celsius) => Of(cylinder, celsius, ErrorBand.GaugeErrorOf(cylinder.Capacity));

    private static CylinderAmount Of(Cylinder cylinder, decimal celsius, PressureReading? error)
    {
        var (gauge, capacity) = (cylinder.Gauge, cylinder.Capacity);
        var residual = cylinder.Residual.In(gauge.Unit);
        var reading = gauge.Value - (error?.In(gauge.Unit) ?? Rational.Zero);
        if (reading <= residual)
        {
            var less = error is { } e ? $" less its error of {e}" : "";
            return new(Rational.Zero, capacity.WaterLitres is null ? null : Rational.Zero, $"{gauge}{less} is not above the residual of {cylinder.Residual}: 0 L");
        }

        var factor = PressureReading.Factor(gauge.Unit, capacity.Unit);
        var trade = (reading - residual) * factor * capacity.LitresPerUnit;
        var working = TradeWorking(cylinder, error, residual, factor, trade);
        if (capacity.WaterLitres is not { } water)
            return new(trade, null, working);

        var toBar = PressureReading.Factor(gauge.Unit, PressureUnit.Bar);
        var real = EquationOfState.Of(cylinder.Gas).Litres((double)water, (reading * toBar).ToDouble(), (residual * toBar).ToDouble(), (double)celsius);
        var litres = (Rational)Math.Round((decimal)real.Litres, RealGasDecimals, MidpointRounding.ToNegativeInfinity);
        return new(trade, litres, $"{working}; {RealGasWorking(water, celsius, real, litres)}");
    }

    private static string TradeWorking(Cylinder cylinder, PressureReading? error, Rational residual, Rational factor, Rational litres)
    {
        var unit = PressureReading.NameOf(cylinder.Gauge.Unit);
        var less = error is { } e ? $" − {GasText.Number(e.In(cylinder.Gauge.Unit), 6)}" : "";
        var convert = cylinder.Gauge.Unit == cylinder.Capacity.Unit
            ? ""
            : $" × {GasText.Number(factor, 10)} {PressureReading.NameOf(cylinder.Capacity.Unit)}/{unit}";
        return $"({GasText.Number(cylinder.Gauge.Value)} − {GasText.Number(residual, 6)}{less}) {unit}{convert} × {cylinder.Capacity.Text} = {GasText.Number(litres)} L";
    }

    private static string RealGasWorking(decimal water, decimal celsius, RealGasLitres real, Rational litres) =>
        string.Create(CultureInfo.InvariantCulture,
            $"real gas at {celsius:0.#} °C: {GasText.Number(water)} L × ({real.FromBar:0.######} bar ÷ {real.FromZ:0.0000000} − {real.ToBar:0.######} bar ÷ {real.ToZ:0.0000000})")
        + string.Create(CultureInfo.InvariantCulture, $" × {real.ReferenceZ:0.0000000} ÷ {EquationOfState.AtmosphereBar} bar = {GasText.Number(litres)} L");
}
