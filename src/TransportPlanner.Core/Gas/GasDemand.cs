using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Gas;

/// <summary>
/// What a device draws: a set flow blended from oxygen and air, the gas that drives it, and what its blender lets go. Air counts as 21 %
/// oxygen: oxygen = Q(F − 0.21)/0.79, air = Q(1 − F)/0.79, with bleed in Q. Source: blending algebra, docs/gas.md.
/// </summary>
public sealed record GasDemand
{
    public const decimal MinOxygenFraction = 0.21m;
    public const decimal MaxOxygenFraction = 1;
    public const double MinLitresPerMinute = 0.01;
    /// <summary>Source: project input limit IL-03 (common practice).</summary>
    public const double MaxLitresPerMinute = 30;

    private const decimal NotOxygenInAir = 1 - MinOxygenFraction;

    private readonly decimal? _oxygenFraction;

    /// <summary>Set total flow, 0.01 to 30 L/min.</summary>
    public required GasFlow Flow { get; init; }

    /// <summary>What <see cref="Flow"/> tells. Both kinds are counted alike; a minute volume is cautioned about, and the adults' rule stands beside the others.</summary>
    public FlowKind FlowIs { get; init; }

    /// <summary>0.21 to 1, kept to four decimals; null: not known, then each gas counts at its worst, oxygen at 1.0 and air at 0.21.</summary>
    public required decimal? OxygenFraction
    {
        get => _oxygenFraction;
        init => _oxygenFraction = value is { } fraction ? decimal.Round(fraction, 4, MidpointRounding.AwayFromZero) : null;
    }

    /// <summary>Gas that drives the device and does not reach the infant, 0 to 30 L/min.</summary>
    public GasFlow DriveFlow { get; init; }
    public GasKind DriveGas { get; init; } = GasKind.Oxygen;

    /// <summary>What the blender lets go on purpose, 0 to 30 L/min; it joins the set flow before the split.</summary>
    public GasFlow Bleed { get; init; }

    public AirSource AirSource { get; init; } = AirSource.Cylinder;

    /// <summary>What was not given and is counted at its worst, in words with the source.</summary>
    public IReadOnlyList<string> Assumed { get; init; } = [];

    /// <summary>The listed flow that is counted where nobody knows it, as <see cref="Assumed"/> says in words; null where it was given.</summary>
    public ListedFlow? Listed { get; init; }

    /// <summary>Set flow and bleed: what the split divides.</summary>
    public GasFlow Blended => Flow + Bleed;

    /// <summary>Flow of one gas in whole µL/min, drive gas included; where the fraction is known the two add up to everything drawn.</summary>
    public GasFlow FlowOf(GasKind gas)
    {
        var oxygen = Micro(BlendedPart(GasKind.Oxygen));
        var blend = gas == GasKind.Oxygen ? oxygen : OxygenFraction is null ? Blended : Blended - oxygen;
        return DriveGas == gas ? blend + DriveFlow : blend;
    }

    /// <summary>Litres of one gas that the given minutes take, exactly as the durations count it, rounded up to a thousandth.</summary>
    public decimal LitresFor(GasKind gas, decimal minutes) => (ExactFlowOf(gas) * minutes).Up(3);

    /// <summary>Litres per minute of one gas, before any rounding.</summary>
    internal Rational ExactFlowOf(GasKind gas) => BlendedPart(gas) + (DriveGas == gas ? Litres(DriveFlow) : Rational.Zero);

    /// <summary>Oxygen at fraction 1.0 and the full flow: what the oxygen cylinders must give once air ends or the infant worsens.</summary>
    internal Rational OxygenAloneFlow => Litres(Blended) + (DriveGas == GasKind.Oxygen ? Litres(DriveFlow) : Rational.Zero);

    /// <summary>Air at the full flow: what the air cylinders must give once oxygen has ended.</summary>
    internal Rational AirAloneFlow => Litres(Blended) + (DriveGas == GasKind.Air ? Litres(DriveFlow) : Rational.Zero);

    /// <summary>The flow of one gas with the numbers put in, and in words what was counted for a fraction that is not known.</summary>
    internal string WorkingOf(GasKind gas) =>
        $"{(OxygenFraction is null ? $"oxygen fraction not known, counted as {(gas == GasKind.Oxygen ? "1.0" : "0.21")}: " : "")}{FiguresOf(gas)}";

    /// <summary>The flow of one gas with the numbers put in, without a word: <c>10 L/min × (0.4 − 0.21) ÷ 0.79 = 2.405 L/min</c>, where about, to the nearest.</summary>
    public string FiguresOf(GasKind gas)
    {
        var flow = Bleed > GasFlow.Zero ? $"({Text(Flow)} + {Text(Bleed)}) L/min" : $"{Text(Flow)} L/min";
        var share = (gas, OxygenFraction) switch
        {
            (GasKind.Oxygen, { } fraction) => $" × ({GasText.Number(fraction)} − 0.21) ÷ 0.79",
            (_, { } fraction) => $" × (1 − {GasText.Number(fraction)}) ÷ 0.79",
            _ => "",
        };
        var drive = DriveGas == gas && DriveFlow > GasFlow.Zero ? $" + {Text(DriveFlow)} L/min" : "";
        // The set flow alone needs no sum: it is what flows.
        var sum = share.Length > 0 || drive.Length > 0 || Bleed > GasFlow.Zero ? $" = {GasText.Number(ExactFlowOf(gas))} L/min" : "";
        return $"{flow}{share}{drive}{sum}";
    }

    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    internal void Validate()
    {
        Require(Flow.LitresPerMinute, MinLitresPerMinute, MaxLitresPerMinute, nameof(Flow), "L/min");
        Require(DriveFlow.LitresPerMinute, 0, MaxLitresPerMinute, nameof(DriveFlow), "L/min");
        Require(Bleed.LitresPerMinute, 0, MaxLitresPerMinute, nameof(Bleed), "L/min");
        if (OxygenFraction is { } fraction)
            Require((double)fraction, (double)MinOxygenFraction, (double)MaxOxygenFraction, nameof(OxygenFraction), "(a fraction, not percent)");
    }

    internal static Rational Litres(GasFlow flow) => (Rational)flow.MicrolitresPerMinute / 1_000_000m;

    private Rational BlendedPart(GasKind gas) => (gas, OxygenFraction) switch
    {
        (_, null) => Litres(Blended),
        (GasKind.Oxygen, { } fraction) => Litres(Blended) * (fraction - MinOxygenFraction) / NotOxygenInAir,
        (_, { } fraction) => Litres(Blended) * (1 - fraction) / NotOxygenInAir,
    };

    private static GasFlow Micro(Rational litresPerMinute) => GasFlow.FromMicrolitresPerMinute((long)(litresPerMinute.Nearest(6) * 1_000_000));

    private static string Text(GasFlow flow) => GasText.Number(Litres(flow), 6);

    private static void Require(double value, double min, double max, string name, string unit)
    {
        if (!(value >= min && value <= max))
            throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"Give a number from {min} to {max} {unit}."));
    }
}
