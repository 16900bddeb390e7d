namespace TransportPlanner.Core.Gas;

/// <summary>Which gas ends first.</summary>
public enum LimitingGas
{
    Oxygen,
    Air,
    /// <summary>Both end together.</summary>
    Equal,
}

/// <summary>The same oxygen at the full flow and fraction 1.0: what is left once air ends or the infant worsens.</summary>
/// <param name="LitresPerMinute">To a thousandth.</param>
/// <param name="ExactMinutes">Rounded down to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded down.</param>
/// <param name="Working">The formula with the numbers put in.</param>
public sealed record OxygenAlone(decimal LitresPerMinute, decimal ExactMinutes, long Minutes, string Working)
{
    internal Rational Exact { get; init; }
    internal Rational ExactLow { get; init; }
}

/// <summary>Oxygen where air ends first: as set until then, at the full flow and fraction 1.0 from then on, as a blender passes it.</summary>
/// <param name="AirMinutes">When air ends, rounded down to a thousandth; 0: no air is there.</param>
/// <param name="ExactMinutes">From the start until oxygen ends, rounded down to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded down.</param>
/// <param name="MinutesLow">The same with gauges too high and the flowmeter too low by their permissible errors at once.</param>
/// <param name="Working">The formula with the numbers put in.</param>
public sealed record OxygenOnceAirEnds(decimal AirMinutes, decimal ExactMinutes, long Minutes, long MinutesLow, string Working)
{
    /// <summary>Null where oxygen ends first or no air is drawn from cylinders: then the oxygen's own minutes hold to their end.</summary>
    internal static OxygenOnceAirEnds? Of(GasDemand demand, GasDuration oxygen, GasDuration air)
    {
        var (own, alone) = (demand.ExactFlowOf(GasKind.Oxygen), demand.OxygenAloneFlow);
        if (oxygen is not { Exact: { } until, ExactLow: { } untilLow } || air is not { Exact: { } ends, ExactLow: { } endsLow } || ends >= until || own >= alone)
            return null;
        var exact = ends + (until - ends) * own / alone;
        var low = endsLow >= untilLow ? untilLow : endsLow + (untilLow - endsLow) * own / alone;
        return new(ends.Down(3), exact.Down(3), exact.Floor(), low.Floor(), $"air ends first: {GasText.Twice(until * own, ends, own, alone)}");
    }
}

/// <summary>One reserve rule against one supply.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="RequiredMinutes">What the rule asks for this journey.</param>
/// <param name="AvailableMinutes">The lesser of the supply's minutes and those of oxygen alone.</param>
/// <param name="Met">Exactly enough is enough.</param>
/// <param name="Working">Both numbers and which of the two was the lesser.</param>
public sealed record RuleVerdict(ReserveRule Rule, decimal RequiredMinutes, long AvailableMinutes, bool Met, string Working);

/// <summary>How long the gas lasts, both gases, with the arithmetic. A shortfall is an answer, not an error. Minutes round down.</summary>
/// <param name="Gases">Oxygen, then air.</param>
/// <param name="Limiting">The gas that ends first; null where no cylinder is drawn.</param>
/// <param name="ExactMinutes">Of the limiting gas, rounded down to a thousandth.</param>
/// <param name="Minutes">Of the limiting gas, whole minutes rounded down; null where no cylinder is drawn.</param>
/// <param name="OxygenAlone">Stands beside the supply, never instead of it.</param>
/// <param name="CylinderCelsius">Temperature at which the litres are counted.</param>
/// <param name="Rules">Empty where no journey time was given.</param>
/// <param name="Cautions">What a person must know or check.</param>
public sealed record GasSupply(
    IReadOnlyList<GasDuration> Gases, LimitingGas? Limiting, decimal? ExactMinutes, long? Minutes, OxygenAlone OxygenAlone,
    decimal CylinderCelsius, IReadOnlyList<RuleVerdict> Rules, IReadOnlyList<string> Cautions)
{
    /// <summary>How long oxygen flows in all where air ends first; null where it does not.</summary>
    public OxygenOnceAirEnds? OxygenOnceAirEnds { get; init; }

    /// <summary>The adults' rule; null where the flow is no minute volume, or fraction or journey are not known.</summary>
    public AdultFormula? AdultFormula { get; init; }

    /// <summary>Contents over the journey and where to change over; null where no journey was given.</summary>
    public GasTimeline? Timeline { get; init; }

    /// <summary>The lesser of <see cref="Minutes"/> and oxygen alone: what rules are judged on.</summary>
    public long AvailableMinutes => Math.Min(Minutes ?? long.MaxValue, OxygenAlone.Minutes);

    /// <exception cref="ArgumentOutOfRangeException">A figure of the request is out of its range.</exception>
    public static GasSupply For(GasRequest request)
    {
        request.Validate();
        GasDuration[] gases = [GasDuration.Of(GasKind.Oxygen, request), GasDuration.Of(GasKind.Air, request)];
        var (oxygen, air) = (gases[0], gases[1]);
        LimitingGas? limiting = (oxygen.Exact, air.Exact) switch
        {
            (null, null) => null,
            ({ } o, { } a) when o == a => LimitingGas.Equal,
            ({ } o, { } a) => o < a ? LimitingGas.Oxygen : LimitingGas.Air,
            (null, _) => LimitingGas.Air,
            _ => LimitingGas.Oxygen,
        };
        var first = limiting is null ? null : limiting == LimitingGas.Air ? air : oxygen;
        var supply = new GasSupply(
            gases, limiting, first?.ExactMinutes, first?.Minutes, AloneOf(request), request.CylinderCelsius ?? GasRequest.AssumedCelsius,
            [], GasCautions.Of(request, gases))
        { OxygenOnceAirEnds = OxygenOnceAirEnds.Of(request.Demand, oxygen, air) };
        return request.Journey is { } journey
            ? supply with
            {
                Rules = [.. request.Rules.Select(rule => supply.Judge(rule, journey))],
                AdultFormula = AdultFormula.Of(request, supply.OxygenAlone.Exact * request.Demand.OxygenAloneFlow),
                Timeline = GasTimeline.For(request, request.Timeline.Count > 0 ? request.Timeline : GasTimeline.WithoutStops(journey)),
            }
            : supply;
    }

    private static OxygenAlone AloneOf(GasRequest request)
    {
        var flow = request.Demand.OxygenAloneFlow;
        var celsius = request.CylinderCelsius ?? GasRequest.AssumedCelsius;
        var cylinders = request.Cylinders.Where(cylinder => cylinder.Gas == GasKind.Oxygen).ToList();
        var amounts = cylinders.ConvertAll(cylinder => CylinderAmount.Of(cylinder, celsius));
        var lowest = GasDuration.Sum(cylinders.ConvertAll(cylinder => CylinderAmount.LowestOf(cylinder, celsius)), amount => amount.Litres);
        var litres = GasDuration.Sum(amounts, amount => amount.Litres);
        var minutes = litres / flow;
        return new(flow.Nearest(3), minutes.Down(3), minutes.Floor(), GasDuration.WorkingOf(GasKind.Oxygen, amounts, litres, flow, 1m))
        {
            Exact = minutes,
            ExactLow = lowest / (flow * ErrorBand.FlowFactor(request.Demand)),
        };
    }

    /// <summary>One rule against this supply, for any journey time above 0.</summary>
    public RuleVerdict Judge(ReserveRule rule, decimal journeyMinutes)
    {
        var required = rule.RequiredMinutes(journeyMinutes);
        var met = AvailableMinutes >= required;
        var lesser = Minutes is { } minutes && minutes <= OxygenAlone.Minutes ? "the supply" : "oxygen alone";
        return new(
            rule, required, AvailableMinutes, met,
            $"{rule.WorkingOf(journeyMinutes)}; the lesser is {lesser}: {GasText.Number(AvailableMinutes)} min {(met ? "≥" : "<")} {GasText.Number(required)} min");
    }
}
