using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>What the device draws.</summary>
public sealed record GasDemandRequest
{
    /// <summary>Set total flow in L/min, 0.01 to 30.</summary>
    [Range(GasDemand.MinLitresPerMinute, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give the set flow, 0.01 to 30 L/min.")]
    public required decimal FlowLitresPerMinute { get; init; }

    /// <summary>What that flow is. Default setFlow; a minuteVolume holds only for a ventilator that gives gas breath by breath, and adds the adults' rule.</summary>
    public FlowKind FlowIs { get; init; }

    /// <summary>Oxygen as a fraction, 0.21 to 1, kept to four decimals.</summary>
    [Range(0.21, 1.0, ErrorMessage = "Give a fraction of 0.21 to 1: 30 percent is 0.30.")]
    public required decimal OxygenFraction { get; init; }

    /// <summary>Gas that drives the device and does not reach the infant, L/min, 0 to 30. Default 0.</summary>
    [Range(0, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give 0 to 30 L/min.")]
    public decimal DriveGasLitresPerMinute { get; init; }

    /// <summary>What drives the device. Default oxygen.</summary>
    public GasKind DriveGas { get; init; } = GasKind.Oxygen;

    /// <summary>Gas that the blender lets go, L/min, 0 to 30; it joins the flow before the split. Default 0.</summary>
    [Range(0, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give 0 to 30 L/min.")]
    public decimal BleedLitresPerMinute { get; init; }

    /// <summary>Where air comes from. Default cylinder: no air cylinder then counts as zero minutes. A compressor or entrained room air needs none.</summary>
    public AirSource AirSource { get; init; } = AirSource.Cylinder;

    internal GasDemand ToDemand() => new()
    {
        Flow = Flow(FlowLitresPerMinute),
        FlowIs = FlowIs,
        OxygenFraction = OxygenFraction,
        DriveFlow = Flow(DriveGasLitresPerMinute),
        DriveGas = DriveGas,
        Bleed = Flow(BleedLitresPerMinute),
        AirSource = AirSource,
    };

    private static GasFlow Flow(decimal litresPerMinute) => GasFlow.FromLitresPerMinute((double)litresPerMinute);
}

/// <summary>How long will the gas last?</summary>
public sealed record GasSupplyRequest : IValidatableObject
{
    /// <summary>Slug of the site whose preset cylinder stands in where a cylinder has a gauge and no capacity. Left out: each cylinder needs its capacity.</summary>
    [StringLength(100, MinimumLength = 1, ErrorMessage = "Give the slug of a site, 1 to 100 characters, or leave it out.")]
    public string? SiteId { get; init; }

    /// <summary>Minutes of the journey, 0.1 to 1,440. Left out: the sum of the timeline; without one no rule is judged.</summary>
    [Range(0.1, 1_440.0, ErrorMessage = "Give the journey in minutes, 0.1 to 1440, or leave it out.")]
    public decimal? JourneyMinutes { get; init; }

    /// <summary>What the device draws.</summary>
    public required GasDemandRequest Demand { get; init; }

    /// <summary>Up to 12. Several of one gas add up, each with its own residual; a gas that is drawn without a cylinder counts as zero minutes.</summary>
    [NoNullItems]
    [MaxLength(12, ErrorMessage = "Give at most 12 cylinders.")]
    public required IReadOnlyList<CylinderRequest> Cylinders { get; init; }

    /// <summary>
    /// Up to 100 stretches of the journey in order, for contents over time and change-overs. Left out: nothing is known about stops, and a
    /// cylinder can be changed before leaving only. Where journeyMinutes is given too, the stretches add up to it.
    /// </summary>
    [NoNullItems]
    [MaxLength(JourneyStretch.Most, ErrorMessage = "Give at most 100 stretches.")]
    public IReadOnlyList<JourneyStretchRequest> Timeline { get; init; } = [];

    /// <summary>Temperature of the cylinders in °C, −20 to 50; litres are counted at it and 1.01325 bar. Default 20, named as assumed.</summary>
    [Range(-20, 50.0, ErrorMessage = "Give the cylinders' temperature, -20 to 50 °C.")]
    public decimal? CylinderTemperatureCelsius { get; init; }

    /// <summary>What attributes cannot see: one time for the journey.</summary>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Timeline.Count == 0 || Timeline.Any(stretch => stretch is null))
            yield break;
        var sum = Timeline.Sum(stretch => stretch.Minutes);
        if (sum is <= 0 or > GasRequest.MaxJourneyMinutes)
            yield return new($"The stretches add up to {sum} min: give a journey above 0 and up to 1440 min.", [nameof(Timeline)]);
        else if (JourneyMinutes is { } journey && journey != sum)
            yield return new($"The stretches add up to {sum} min, not to {journey}: give one of the two.", [nameof(JourneyMinutes)]);
    }

    internal GasRequest ToRequest(IReadOnlyList<Cylinder> cylinders) => new()
    {
        Demand = Demand.ToDemand(),
        Cylinders = cylinders,
        CylinderCelsius = CylinderTemperatureCelsius,
        JourneyMinutes = JourneyMinutes,
        Timeline = [.. Timeline.Select(stretch => stretch.ToStretch())],
    };
}

/// <summary>Minutes of both gases with the arithmetic. Minutes round down. Too little gas is an answer, not an error.</summary>
/// <param name="Gases">Oxygen, then air.</param>
/// <param name="LimitingGas">Which ends first; null where no cylinder is drawn.</param>
/// <param name="Minutes">Whole minutes of the limiting gas, rounded down; null where no cylinder is drawn.</param>
/// <param name="OxygenAlone">The same oxygen at the full flow and fraction 1.0.</param>
/// <param name="CylinderTemperatureCelsius">Temperature at which litres are counted, °C.</param>
/// <param name="Rules">Each reserve rule judged on the lesser of minutes and oxygenAlone.minutes; empty without journeyMinutes.</param>
/// <param name="Cautions">To be shown with the figures.</param>
/// <param name="Timeline">Contents over the journey and change-overs; null without a journey.</param>
public sealed record GasSupplyResponse(
    IReadOnlyList<GasResponse> Gases, LimitingGas? LimitingGas, long? Minutes, OxygenAloneResponse OxygenAlone,
    decimal CylinderTemperatureCelsius, IReadOnlyList<RuleResponse> Rules, IReadOnlyList<string> Cautions,
    GasTimelineResponse? Timeline)
{
    /// <summary>How long oxygen flows in all where air ends first; null where it does not, and in plans of earlier releases. The minutes of <c>gases</c> hold for each gas by itself.</summary>
    public OxygenOnceAirEndsResponse? OxygenOnceAirEnds { get; init; }

    /// <summary>The rule taught for adults; null unless the flow is a minute volume, with a fraction and a journey.</summary>
    public AdultFormulaResponse? AdultFormula { get; init; }

    internal static GasSupplyResponse From(GasSupply supply) => new(
        [.. supply.Gases.Select(GasResponse.From)], supply.Limiting, supply.Minutes,
        new(supply.OxygenAlone.LitresPerMinute, supply.OxygenAlone.ExactMinutes, supply.OxygenAlone.Minutes, supply.OxygenAlone.Working),
        supply.CylinderCelsius,
        [.. supply.Rules.Select(RuleResponse.From)],
        supply.Cautions, supply.Timeline is { } timeline ? GasTimelineResponse.From(timeline) : null)
    {
        OxygenOnceAirEnds = supply.OxygenOnceAirEnds is { } after ? new(after.AirMinutes, after.ExactMinutes, after.Minutes, after.MinutesLow, after.Working) : null,
        AdultFormula = supply.AdultFormula is { } adults ? new(adults.NeededLitres, adults.ThereLitres, adults.Met, adults.Working, Core.Gas.AdultFormula.Source) : null,
    };
}

/// <summary>Oxygen as set until air ends, at the full flow and fraction 1.0 from then on, as a blender passes it.</summary>
/// <param name="AirMinutes">When air ends, min, rounded down to a thousandth; 0: no air is there.</param>
/// <param name="ExactMinutes">From the start until oxygen ends, min, rounded down to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded down.</param>
/// <param name="MinutesLow">Whole minutes with the gauges too high and the flowmeter too low by their permissible errors at once.</param>
/// <param name="Working">The minutes with the numbers put in.</param>
public sealed record OxygenOnceAirEndsResponse(decimal AirMinutes, decimal ExactMinutes, long Minutes, long MinutesLow, string Working);

/// <summary>2 × minutes × (minute volume × oxygen fraction + drive gas): litres of oxygen, beside the rules and never instead of them.</summary>
/// <param name="NeededLitres">Rounded up to a thousandth.</param>
/// <param name="ThereLitres">Usable oxygen, rounded down to a thousandth.</param>
/// <param name="Met">Whether that is enough.</param>
/// <param name="Working">The litres with the numbers put in.</param>
/// <param name="Source">Where it is taught.</param>
public sealed record AdultFormulaResponse(decimal NeededLitres, decimal ThereLitres, bool Met, string Working, string Source);

/// <summary>How long one gas lasts.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="FlowLitresPerMinute">What is drawn of it, L/min to a thousandth.</param>
/// <param name="UsableLitres">The smaller figure of each of its cylinders, added up, L.</param>
/// <param name="TradeMinutes">(gauge − residual) × capacity ÷ flow, min; null where the gas is not drawn from cylinders.</param>
/// <param name="RealGasMinutes">The same with compressibility, min; null where a water capacity is unknown or the gas is not drawn.</param>
/// <param name="Basis">Which figure was the smaller: trade, real-gas, or mixed over several cylinders; null without a cylinder that is drawn.</param>
/// <param name="ExactMinutes">From the smaller figure of each cylinder, min, rounded down to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded down; null where the gas is not drawn from cylinders.</param>
/// <param name="MinutesLow">Whole minutes with the gauge too high and the flowmeter too low by their permissible errors at once.</param>
/// <param name="FlowWorking">The flow with the numbers put in.</param>
/// <param name="Working">The minutes with the numbers put in.</param>
/// <param name="WorkingLow">The low minutes with the numbers put in.</param>
public sealed record GasResponse(
    GasKind Gas, decimal FlowLitresPerMinute, decimal UsableLitres, decimal? TradeMinutes, decimal? RealGasMinutes,
    [property: JsonConverter(typeof(KebabCase<GasBasis>))] GasBasis? Basis,
    decimal? ExactMinutes, long? Minutes, long? MinutesLow, string FlowWorking, string Working, string? WorkingLow)
{
    /// <summary>How many of its cylinders are in the minutes, one after another; 0 where it is not drawn from cylinders, and in plans of earlier releases.</summary>
    public int Cylinders { get; init; }

    internal static GasResponse From(GasDuration gas) => new(
        gas.Gas, decimal.Round(gas.Flow.MicrolitresPerMinute / 1_000_000m, 3, MidpointRounding.AwayFromZero), gas.UsableLitres, gas.TradeMinutes,
        gas.RealGasMinutes, gas.Basis, gas.ExactMinutes, gas.Minutes, gas.MinutesLow, gas.FlowWorking, gas.Working, gas.WorkingLow)
    { Cylinders = gas.Cylinders };
}

/// <summary>What the oxygen cylinders give once air ends or the infant worsens.</summary>
/// <param name="FlowLitresPerMinute">The full flow, L/min.</param>
/// <param name="ExactMinutes">Rounded down to a thousandth, min.</param>
/// <param name="Minutes">Whole minutes, rounded down.</param>
/// <param name="Working">The minutes with the numbers put in.</param>
public sealed record OxygenAloneResponse(decimal FlowLitresPerMinute, decimal ExactMinutes, long Minutes, string Working);

/// <summary>One reserve rule.</summary>
/// <param name="Rule">Its stable name.</param>
/// <param name="RequiredMinutes">What it asks for this journey, min.</param>
/// <param name="AvailableMinutes">The lesser of the supply's minutes and those of oxygen alone.</param>
/// <param name="Met">Whether that is enough; exactly enough is.</param>
/// <param name="Working">Both figures, and which of the two was the lesser.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record RuleResponse(string Rule, decimal RequiredMinutes, long AvailableMinutes, bool Met, string Working, string Source)
{
    internal static RuleResponse From(RuleVerdict verdict) => new(
        verdict.Rule.Id, verdict.RequiredMinutes, verdict.AvailableMinutes, verdict.Met, verdict.Working, verdict.Rule.Source);
}
