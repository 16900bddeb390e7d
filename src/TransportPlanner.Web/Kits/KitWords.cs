using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Kits;

/// <summary>The kit's closed lists in the words of a page or a print.</summary>
public static class KitWords
{
    public static IReadOnlyList<(RespiratorySupport Value, string Words)> Supports =>
    [
        (RespiratorySupport.SelfVentilating, WordTexts.SupportSelfVentilating),
        (RespiratorySupport.LowFlowCannula, WordTexts.SupportLowFlowCannula),
        (RespiratorySupport.HighFlowCannula, WordTexts.SupportHighFlowCannula),
        (RespiratorySupport.Cpap, WordTexts.SupportCpap),
        (RespiratorySupport.NonInvasiveVentilation, WordTexts.SupportNonInvasiveVentilation),
        (RespiratorySupport.BagMaskVentilation, WordTexts.SupportBagMaskVentilation),
        (RespiratorySupport.InvasiveVentilation, WordTexts.SupportInvasiveVentilation),
    ];

    public static string Of(RespiratorySupport support) => Supports.First(s => s.Value == support).Words;

    public static string Of(KitPhase phase) => phase switch
    {
        KitPhase.BeforeDeparture => "Before departure",
        KitPhase.UnderWay => "Under way",
        KitPhase.Handoff => "Handoff",
        _ => throw new ArgumentOutOfRangeException(nameof(phase), phase, "No words for this phase."),
    };

    public static string Of(TransportRole role) => role switch
    {
        TransportRole.TeamLead => WordTexts.RoleTeamLead,
        TransportRole.RespiratoryTherapist => WordTexts.RoleRespiratoryTherapist,
        TransportRole.TransportNurse => WordTexts.RoleTransportNurse,
        TransportRole.CleanHelper => WordTexts.RoleCleanHelper,
        TransportRole.ReceivingNurse => WordTexts.RoleReceivingNurse,
        TransportRole.EnvironmentalServices => WordTexts.RoleEnvironmentalServices,
        TransportRole.DoffingWatcher => WordTexts.RoleWatcher,
        TransportRole.EveryCareGiver => WordTexts.RoleEveryCareGiver,
        TransportRole.EveryTeamMember => WordTexts.RoleEveryTeamMember,
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "No words for this role."),
    };

    public static string Of(SkipReason reason) => reason switch
    {
        SkipReason.NotAvailable => "not there",
        SkipReason.NotNeeded => "not needed",
        SkipReason.Replaced => "something else does it",
        SkipReason.LocalRule => "local rule",
        SkipReason.NoTime => "no time",
        _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, "No words for this reason."),
    };

    /// <summary>How many, where it is not one: <c>× 2</c>, <c>× 1 each</c>.</summary>
    public static string Quantity(KitItemResponse item) =>
        item.QuantityPer == QuantityBasis.Person ? $"× {item.Quantity} each" : item.Quantity == 1 ? "" : $"× {item.Quantity}";
}
