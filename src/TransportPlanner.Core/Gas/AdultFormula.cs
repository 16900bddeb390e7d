namespace TransportPlanner.Core.Gas;

/// <summary>What the flow of a demand tells.</summary>
public enum FlowKind
{
    /// <summary>What the device lets flow all the time: the flow that was set.</summary>
    SetFlow,
    /// <summary>Tidal volume × rate, of a ventilator that gives gas breath by breath and lets none flow between.</summary>
    MinuteVolume,
}

/// <summary>
/// The rule taught for adults: 2 × minutes × (minute volume × oxygen fraction + drive gas) litres of oxygen. It fits only a ventilator that gives gas breath by
/// breath: for a newborn on a continuous flow it asks for less than a sixth of what flows. It takes the fraction times the flow for oxygen, so it errs on the
/// careful side there, and says nothing of air.
/// </summary>
/// <param name="NeededLitres">Rounded up to a thousandth of a litre.</param>
/// <param name="ThereLitres">Usable oxygen, rounded down to a thousandth.</param>
/// <param name="Met">Whether that is enough; exactly enough is.</param>
/// <param name="Working">The litres with the numbers put in.</param>
/// <remarks>Source: <see cref="Source"/>. Beside the reserve rules, never instead of them.</remarks>
public sealed record AdultFormula(decimal NeededLitres, decimal ThereLitres, bool Met, string Working)
{
    public const string Source = "UK emergency-medicine teaching, Oxygen requirements for patient transfer, undated";

    /// <summary>Null where the flow is no minute volume, or fraction or journey are not known.</summary>
    internal static AdultFormula? Of(GasRequest request, Rational oxygenLitres)
    {
        var demand = request.Demand;
        if (demand.FlowIs != FlowKind.MinuteVolume || demand.OxygenFraction is not { } fraction || request.Journey is not { } minutes)
            return null;
        var (volume, drive) = (GasDemand.Litres(demand.Flow), demand.DriveGas == GasKind.Oxygen ? GasDemand.Litres(demand.DriveFlow) : Rational.Zero);
        var needed = 2m * (Rational)minutes * (volume * fraction + drive);
        return new(
            needed.Up(3), oxygenLitres.Down(3), oxygenLitres >= needed,
            $"2 × {GasText.Number(minutes)} min × ({GasText.Number(volume, 6)} L/min × {GasText.Number(fraction)} + {GasText.Number(drive, 6)} L/min) = {GasText.Number(needed)} L");
    }
}
