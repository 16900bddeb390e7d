using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Gas;

/// <summary>Unit in which a pressure was typed.</summary>
public enum PressureUnit
{
    Psi,
    Bar,
    Kilopascal,
}

/// <summary>
/// A gauge pressure as somebody typed it: the number and its unit, so that trade litres are computed from what stands on the sheet.
/// 0 to 3,300 psi, 300 bar or 30,000 kPa. Default: 0 psi.
/// </summary>
public readonly record struct PressureReading
{
    // Exact by definition of pound, inch and standard gravity. Source: NIST SP 811, appendix B.8.
    private static readonly Rational PascalsPerPsi = (Rational)0.45359237m * 9.80665m / (0.0254m * 0.0254m);

    private PressureReading(decimal value, PressureUnit unit)
    {
        var max = MaxOf(unit);
        if (value < 0 || value > max)
            throw new ArgumentOutOfRangeException(nameof(value), value, FormattableString.Invariant($"Give a number from 0 to {max} {NameOf(unit)}."));
        Value = value;
        Unit = unit;
    }

    public decimal Value { get; }
    public PressureUnit Unit { get; }

    public static PressureReading FromPsi(decimal psi) => new(psi, PressureUnit.Psi);
    public static PressureReading FromBar(decimal bar) => new(bar, PressureUnit.Bar);
    public static PressureReading FromKilopascals(decimal kilopascals) => new(kilopascals, PressureUnit.Kilopascal);
    public static PressureReading From(decimal value, PressureUnit unit) => new(value, unit);

    /// <summary>The reading as a pressure of whole pascals, at most 300 bar.</summary>
    public GaugePressure ToGaugePressure() => GaugePressure.FromPascals((long)(In(PressureUnit.Kilopascal).Nearest(3) * 1_000));

    public override string ToString() => FormattableString.Invariant($"{Value:0.######} {NameOf(Unit)}");

    internal static decimal MaxOf(PressureUnit unit) => (decimal)(unit switch
    {
        PressureUnit.Psi => GaugePressure.MaxPsi,
        PressureUnit.Bar => GaugePressure.MaxBar,
        PressureUnit.Kilopascal => GaugePressure.MaxKilopascals,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "This unit does not exist."),
    });

    public static string NameOf(PressureUnit unit) => unit switch
    {
        PressureUnit.Psi => "psi",
        PressureUnit.Bar => "bar",
        _ => "kPa",
    };

    /// <summary>Distance between two marks of a gauge in that unit: 10 psi, 1 bar, 100 kPa (common practice).</summary>
    public static decimal MarkOf(PressureUnit unit) => unit switch
    {
        PressureUnit.Psi => 10,
        PressureUnit.Bar => 1,
        _ => 100,
    };

    /// <summary>What a cylinder holds, on a gauge in another unit: down to the mark, so that it is never more than there is. May be above the limit of a reading.</summary>
    public decimal DownToMark(PressureUnit unit) => (In(unit) / (Rational)MarkOf(unit)).Down(0) * MarkOf(unit);

    /// <summary>What a cylinder must hold, on a gauge in another unit: up to the mark, so that it is never less than is needed. May be above the limit of a reading.</summary>
    public decimal UpToMark(PressureUnit unit) => (In(unit) / (Rational)MarkOf(unit)).Up(0) * MarkOf(unit);

    /// <summary>How many of <paramref name="to"/> make one of <paramref name="from"/>.</summary>
    internal static Rational Factor(PressureUnit from, PressureUnit to) => PascalsPer(from) / PascalsPer(to);

    /// <summary>The number in another unit, exactly.</summary>
    internal Rational In(PressureUnit unit) => Value * Factor(Unit, unit);

    private static Rational PascalsPer(PressureUnit unit) => unit switch
    {
        PressureUnit.Psi => PascalsPerPsi,
        PressureUnit.Bar => 100_000m,
        _ => 1_000m,
    };
}
