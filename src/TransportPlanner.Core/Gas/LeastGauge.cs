namespace TransportPlanner.Core.Gas;

/// <summary>The least reading with which one cylinder of a size meets a rule.</summary>
/// <param name="Size">The library row.</param>
/// <param name="Gauge">Rounded up to 10 psi or 1 bar; null where not even a full cylinder is enough.</param>
/// <param name="Working">The rule and the litres with the numbers put in.</param>
/// <param name="Steps">From those litres to the reading of this size, with the numbers put in: trade figure, real gas where the water capacity is known, and the greater of the two.</param>
public sealed record LeastGauge(CylinderSize Size, PressureReading? Gauge, string Working, string Steps)
{
    /// <summary>The rule in figures, as <see cref="Working"/> begins: <c>2 × 4.3 min = 8.6 min</c>.</summary>
    public required string RuleFigures { get; init; }

    /// <summary>Those minutes as litres in figures, as <see cref="Working"/> ends: <c>9 min × 10 L/min = 90 L</c>.</summary>
    public required string LitresFigures { get; init; }

    /// <summary>The minutes of the rule were rounded up to whole ones.</summary>
    public required bool IsInWholeMinutes { get; init; }

    /// <summary>How near to a whole step a floating-point pressure is looked at again with the exact litres.</summary>
    private const double NearStep = 1e-4;

    /// <summary>
    /// For every size that holds the gas and whose pressure is known. Oxygen is counted at the full flow and fraction 1.0, as the rules are
    /// judged on the lesser of the supply and oxygen alone; air at what the demand draws. Minutes of gas are whole ones, so the time that the
    /// rule asks for is rounded up to the next whole minute. The residual is the default one.
    /// </summary>
    /// <param name="gas">Which gas.</param>
    /// <param name="demand">What is drawn.</param>
    /// <param name="rule">The rule that is to be met.</param>
    /// <param name="journeyMinutes">Above 0.</param>
    /// <param name="celsius">Temperature of the cylinder, −20 to 50 °C.</param>
    /// <param name="sizes">Null: the sizes that ship with the planner.</param>
    /// <returns>Empty where the demand draws no such gas from cylinders.</returns>
    public static IReadOnlyList<LeastGauge> ForAll(
        GasKind gas, GasDemand demand, ReserveRule rule, decimal journeyMinutes, decimal celsius = GasRequest.AssumedCelsius,
        IEnumerable<CylinderSize>? sizes = null)
    {
        demand.Validate();
        var flow = gas == GasKind.Oxygen ? demand.OxygenAloneFlow : demand.AirSource == AirSource.Cylinder ? demand.ExactFlowOf(gas) : Rational.Zero;
        if (!flow.IsPositive)
            return [];
        var required = rule.RequiredMinutes(journeyMinutes);
        var minutes = decimal.Ceiling(required);
        var litres = flow * minutes;
        var (asked, isUp) = (rule.WorkingOf(journeyMinutes), minutes > required);
        var figures = $"{GasText.Number(minutes)} min × {GasText.Number(flow, 6)} L/min {GasText.Is(litres, litres.Nearest(3))} {GasText.Number(litres)} L";
        var need = $"{asked}; {(isUp ? "in whole minutes: " : "")}{figures}";
        var densities = new Dictionary<PressureReading, (double Residual, double Reference)>();
        return
        [
            .. from size in sizes ?? CylinderLibrary.Sizes
               where size.Gas == gas && size.Full is not null
               let least = Least(size, litres, celsius, densities)
               select new LeastGauge(size, least.Gauge, need, least.Steps) { RuleFigures = asked, LitresFigures = figures, IsInWholeMinutes = isUp },
        ];
    }

    private static (PressureReading? Gauge, string Steps) Least(
        CylinderSize size, Rational litres, decimal celsius, Dictionary<PressureReading, (double Residual, double Reference)> densities)
    {
        var full = size.Full!.Value;
        var capacity = CylinderCapacity.FromSize(size);
        var residual = Cylinder.DefaultResidual(full.Unit);
        var step = full.Unit == PressureUnit.Psi ? 10 : 1;
        var most = decimal.Floor(full.Value / step);
        var trade = litres / capacity.LitresPerUnit + residual.Value;
        var unit = PressureReading.NameOf(full.Unit);
        var steps = (trade / (Rational)step).Up(0);
        var working = $"{GasText.Number(litres)} L ÷ ({GasText.Number(size.LeastLitres)} L ÷ {full}) + {residual} {GasText.Is(trade, trade.Up(1))} {GasText.Number(trade.Up(1))} {unit}";
        if (steps <= most && size.WaterLitres is { } water)
        {
            var real = RealGasSteps(water);
            working += $"; as real gas in {GasText.Number(water)} L of water at {GasText.Number(celsius)} °C up to {GasText.Number(real * step)} {unit}; the greater";
            steps = Math.Max(steps, real);
        }

        return steps <= most
            ? (PressureReading.From(steps * step, full.Unit), $"{working}, up to the next {step} {unit}: {GasText.Number(steps * step)} {unit}")
            : (null, $"{working}: more than a full cylinder reads");

        decimal RealGasSteps(decimal water)
        {
            var state = EquationOfState.Of(size.Gas);
            if (!densities.TryGetValue(residual, out var density))
                densities[residual] = density = state.Densities(residual.In(PressureUnit.Bar).ToDouble(), (double)celsius);
            var bar = state.GaugeBar((litres / (Rational)water).ToDouble(), density, (double)celsius);
            var exact = bar * PressureReading.Factor(PressureUnit.Bar, full.Unit).ToDouble() / step;
            var nearest = Math.Round(exact);
            return Math.Abs(exact - nearest) > NearStep ? (decimal)Math.Ceiling(exact) : IsEnough((decimal)nearest) ? (decimal)nearest : (decimal)nearest + 1;
        }

        bool IsEnough(decimal count) => count <= most && CylinderAmount.Of(new(size.Gas, capacity, PressureReading.From(count * step, full.Unit)), celsius).Litres >= litres;
    }
}
