using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Plans;

/// <summary>Workings of the gas in the language of the pack: Core's figures, our words. A plan of an earlier release has the words only, which are English.</summary>
internal static class PackGasWords
{
    /// <summary>Where a cylinder is changed.</summary>
    public static string Where(ChangeOverResponse change) => change.PlaceNumber is not { } place ? change.Where
        : PackText.Of(change.ChangeOver == ChangeOverPlace.Best ? PackTexts.GasAtOutlet : PackTexts.GasClearOfDoor, place);

    /// <summary>How the flow comes about: the figures are those of what the plan was asked with.</summary>
    public static string Flow(GasResponse gas, PlanResponse plan) =>
        PlanMaker.DemandOf(plan.Given) is { OxygenFraction: null } demand && demand.FiguresOf(gas.Gas) is var figures && gas.FlowWorking.EndsWith($": {figures}", StringComparison.Ordinal)
            ? PackText.Of(PackTexts.GasFractionUnknown, gas.Gas == GasKind.Oxygen ? "1.0" : "0.21", figures)
            : gas.FlowWorking;

    /// <summary>How the least gauge comes about, up to the litres.</summary>
    public static string Least(LeastGaugeResponse least) => least.RuleFigures.Length == 0 ? least.Working
        : PackText.Of(least.InWholeMinutes ? PackTexts.GasWholeMinutes : PackTexts.GasRuleFigures, least.RuleFigures, least.LitresFigures);

    /// <summary>What is left on reaching an elevator, as a sentence.</summary>
    public static string Stall(ElevatorStallResponse stall) => stall switch
    {
        { Minutes: null } => PackTexts.StuckNotDrawn,
        { Counted: { } gas } => PackText.Of(PackTexts.StuckWorking, GasWords.Number(stall.ReachedMinute), stall.Figures, gas switch
        {
            StallGas.OxygenSinceAirEnded => PackTexts.StuckOxygenAfterAir,
            StallGas.OxygenAlone => PackTexts.StuckOxygenAlone,
            _ => GasWords.Of(gas == StallGas.Air ? GasKind.Air : GasKind.Oxygen),
        }),
        _ => GasWords.Sentence(stall.Working),
    };
}
