using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>The binder in words for its pages and prints.</summary>
internal static class BinderWords
{
    public static BinderProgress ProgressOf(BinderState state) => state switch
    {
        { IsBeingMade: true } => BinderProgress.Making,
        { HasFailed: true } => BinderProgress.Failed,
        { IsStopped: true } => BinderProgress.Stopped,
        { Made: not null } => BinderProgress.Made,
        _ => BinderProgress.None,
    };

    /// <summary>Where the least gauges come from, and what is not in them.</summary>
    public static IReadOnlyList<string> Demand(Binder binder) => binder.Demand is not { } demand
        ? [PackTexts.GasNotDrawn]
        :
        [
            binder.Choices.Support is { } support
                ? PackText.Of(PackTexts.DemandSupport, KitWords.Of(support))
                : PackTexts.DemandAny,
            .. demand.Listed is { } listed ? [PackText.Of(PackTexts.DemandListed, listed.LitresPerMinute, listed.Device, listed.Source)] : demand.Assumed,
            PackTexts.DemandMore,
        ];

    public static string Of(Closure closure, string timeZone) => PackText.Of(
        closure.Target switch
        {
            ClosureTarget.Elevator => PackTexts.BinderClosureElevator,
            ClosureTarget.Passage => PackTexts.BinderClosurePassage,
            _ => PackTexts.BinderClosurePlace,
        },
        closure.TargetId, FloorPlanWords.LocalDay(closure.To, timeZone), closure.Reason);

    /// <summary>What was out of use when the set was made.</summary>
    public static string Shut(Binder made) => string.Join("; ", made.Shut.Select(closure => Of(closure, made.Plan.TimeZone)));

    /// <summary>The hour that is planned: <c>Wednesday 10:00</c>.</summary>
    public static string Hour(Binder binder, bool isNight) =>
        PackText.Of(PackTexts.BinderHour, Of(binder.Choices.Weekday), isNight ? binder.Choices.NightTime : binder.Choices.DayTime);

    public static string Of(DayOfWeek day) => day switch
    {
        DayOfWeek.Sunday => PackTexts.Sunday,
        DayOfWeek.Monday => PackTexts.Monday,
        DayOfWeek.Tuesday => PackTexts.Tuesday,
        DayOfWeek.Wednesday => PackTexts.Wednesday,
        DayOfWeek.Thursday => PackTexts.Thursday,
        DayOfWeek.Friday => PackTexts.Friday,
        DayOfWeek.Saturday => PackTexts.Saturday,
        _ => throw new ArgumentOutOfRangeException(nameof(day), day, "No words for this day."),
    };

    /// <summary>Least gauges of one gas, the sizes that are enough first: <c>US-E 1,340 psi</c>.</summary>
    public static IReadOnlyList<string> Gauges(RouteGasResponse gas, GasKind kind, SiteDisplay show) =>
    [
        .. gas.LeastGauges.Where(least => least.Gas == kind && least.Gauge is not null).Select(least => $"{least.SizeId} {show.LeastGauge(least.Gauge!)}"),
    ];

    /// <summary>Sizes of one gas of which not even a full cylinder is enough.</summary>
    public static IReadOnlyList<string> TooSmall(RouteGasResponse gas, GasKind kind) =>
        [.. gas.LeastGauges.Where(least => least.Gas == kind && least.Gauge is null).Select(least => least.SizeId)];

    public static string Seconds(double seconds) => seconds.ToString("0.0", CultureInfo.InvariantCulture);
}
