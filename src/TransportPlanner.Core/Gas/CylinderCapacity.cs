namespace TransportPlanner.Core.Gas;

/// <summary>How many litres of free gas a cylinder gives per unit of gauge pressure, and what that is known from.</summary>
public sealed record CylinderCapacity
{
    public const decimal MaxLitresPerPsi = 10;
    public const decimal MaxWaterLitres = 100;
    public const decimal MaxLabelLitres = 20_000;

    /// <summary>A gauge above this share of a known full pressure is refused. Source: project input limit IL-01 (common practice).</summary>
    internal const decimal MostOfFull = 1.10m;

    private CylinderCapacity(Rational litresPerUnit, PressureUnit unit, string text, bool isUsSize)
    {
        LitresPerUnit = litresPerUnit;
        Unit = unit;
        Text = text;
        IsUsSize = isUsSize;
    }

    /// <summary>Water capacity in litres, or null where unknown: then there is no real-gas figure.</summary>
    public decimal? WaterLitres { get; private init; }

    /// <summary>Pressure of the full cylinder, or null where unknown.</summary>
    public PressureReading? Full { get; private init; }

    /// <summary>The library row, or null.</summary>
    public CylinderSize? Size { get; private init; }

    /// <summary>The capacity as a working prints it: <c>0.28 L/psi</c>.</summary>
    public string Text { get; }

    /// <summary>True where the gauge is taken to span 3,000 psi instead of 315 bar.</summary>
    public bool IsUsSize { get; }

    /// <summary>Litres of free gas per bar, to a thousandth: about the litres of water that the cylinder holds.</summary>
    internal decimal LitresPerBar => (LitresPerUnit * PressureReading.Factor(PressureUnit.Bar, Unit)).Nearest(3);

    internal Rational LitresPerUnit { get; }
    internal PressureUnit Unit { get; }

    /// <summary>By trade factor, above 0 to 10 L/psi.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static CylinderCapacity FromLitresPerPsi(decimal litresPerPsi) =>
        new(Positive(litresPerPsi, MaxLitresPerPsi, nameof(litresPerPsi), "L/psi"), PressureUnit.Psi, $"{GasText.Number(litresPerPsi)} L/psi", isUsSize: true);

    /// <summary>By water capacity, above 0 to 100 L: each bar is as many litres of gas.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static CylinderCapacity FromWaterLitres(decimal waterLitres) =>
        new(Positive(waterLitres, MaxWaterLitres, nameof(waterLitres), "L"), PressureUnit.Bar, $"{GasText.Number(waterLitres)} L/bar", isUsSize: false) { WaterLitres = waterLitres };

    /// <summary>By the label: litres of free gas, above 0 to 20,000, at the label's pressure.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of range, or the pressure is zero.</exception>
    public static CylinderCapacity FromLabel(decimal litres, PressureReading full)
    {
        if (full.Value <= 0)
            throw new ArgumentOutOfRangeException(nameof(full), full, "Give the pressure of the full cylinder, above 0.");
        return new(
            (Rational)Positive(litres, MaxLabelLitres, nameof(litres), "L") / full.Value, full.Unit,
            $"{GasText.Number(litres)} L ÷ {full}", isUsSize: full.Unit == PressureUnit.Psi)
        {
            Full = full,
        };
    }

    /// <summary>By a library row: the lowest contents at the highest pressure.</summary>
    /// <exception cref="ArgumentException">The row has no pressure.</exception>
    public static CylinderCapacity FromSize(CylinderSize size)
    {
        if (size.Full is not { } full)
            throw new ArgumentException($"{size.Id} has no pressure.", nameof(size));
        var label = FromLabel(size.LeastLitres, full);
        return new(label.LitresPerUnit, label.Unit, label.Text, isUsSize: size.Region == "US") { Full = full, WaterLitres = size.WaterLitres, Size = size };
    }

    private static decimal Positive(decimal value, decimal max, string name, string unit) =>
        value > 0 && value <= max
            ? value
            : throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"Give a number above 0 and up to {max} {unit}."));
}
