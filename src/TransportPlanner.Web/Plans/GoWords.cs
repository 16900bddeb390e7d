using TransportPlanner.Core.Plans;
using TransportPlanner.Web.FloorPlans;

namespace TransportPlanner.Web.Plans;

/// <summary>What was said about leaving, in words for the pages.</summary>
internal static class GoWords
{
    public static string Of(GoItem item) => item switch
    {
        GoItem.Support => "breathing support",
        GoItem.Flow => "flow",
        GoItem.OxygenFraction => "oxygen fraction",
        GoItem.Crew => "crew",
        GoItem.Way => "the way",
        GoItem.Gauge => "gauge",
        _ => throw new ArgumentOutOfRangeException(nameof(item), item, "No words for this item."),
    };

    /// <summary>What stands in the way of a word, with the fix.</summary>
    public static string Of(GoRefusal why) => why switch
    {
        GoRefusal.AlreadySaid => "This role has said go about this version and way, and it stands.",
        GoRefusal.ClosureOnWay => "A closure touches the way. Make the next version, which leads round it, or end the closure where it is wrong.",
        GoRefusal.PlanVoid => "The plan is void. Make the next version.",
        GoRefusal.RecheckFirst => "Go is the last word. Answer what may have changed about this way first, and read the gauges again where that is long ago.",
        _ => throw new ArgumentOutOfRangeException(nameof(why), why, "No words for this refusal."),
    };

    public static string Of(GoMissing missing, GoResponse go, RoleTitles titles) => missing switch
    {
        GoMissing.Recheck => "Nobody has answered what may have changed.",
        GoMissing.Changed => $"Changed: {string.Join(", ", go.Recheck!.Changed.Select(Of))}. Make the next version of the plan.",
        GoMissing.Stale => $"The re-check is older than {go.StaleMinutes} min: read the gauges and look again.",
        GoMissing.TeamLead => $"The {titles.Lead} has not said go.",
        GoMissing.Security => $"{RoleTitles.Capital(titles.Security)} has not said go.",
        GoMissing.Void => "The plan is void: make the next version.",
        _ => throw new ArgumentOutOfRangeException(nameof(missing), missing, "No words for what is missing."),
    };

    /// <summary>Where it stands, in one line.</summary>
    public static string Headline(GoResponse go, PlanResponse plan) => go.GivenAt is { } at
        ? $"Both voices say go: way {go.Way}, version {go.PlanVersion}, {FloorPlanWords.LocalTime(at, plan.TimeZone)}"
        : "Go is not given";
}
