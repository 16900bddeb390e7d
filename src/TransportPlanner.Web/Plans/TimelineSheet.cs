using System.Globalization;
using Microsoft.AspNetCore.WebUtilities;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>What the timeline and the call list of one way are read from.</summary>
/// <param name="Plan">The version that is shown.</param>
/// <param name="Way">The way that is shown.</param>
/// <param name="Tempo">The tempo that is shown.</param>
/// <param name="Titles">Roles as the site calls them.</param>
/// <param name="Names">Names of places by their numbers, as far as they are known.</param>
internal sealed record TimelineSheet(PlanResponse Plan, RouteResponse Way, Tempo Tempo, RoleTitles Titles, IReadOnlyDictionary<string, string> Names)
{
    /// <summary>At the tempo that is shown; null in a version that was made before timelines were planned.</summary>
    public RouteTimelineResponse? Chosen => At(Tempo);

    /// <summary>For the plan's departure, or for the earliest go where much of it no longer fits.</summary>
    public TimelineResponse? Shown => ShownOf(Chosen);

    /// <summary>The times below are those of the earliest go, not of the plan's departure.</summary>
    public bool IsFromNow => Shown is not null && Shown != Chosen!.ForGo;

    /// <summary>The go from which every sheet and card counts its times: the earliest that fits, else the plan's departure.</summary>
    public DateTimeOffset Go => Shown?.Go ?? Plan.Routes.DepartAt;

    /// <summary>By how much every time of a sheet lies behind that of the plan's answer; zero where go is the departure.</summary>
    public TimeSpan Later => Go - Plan.Routes.DepartAt;

    /// <summary>On paper, where go is not the plan's departure: from which go the times count, and how much later that is. Null where it is the departure.</summary>
    public string? CountsFrom => IsFromNow
        ? PackText.Of(IsVoidBeforeThere ? PackTexts.CountsFromVoid : PackTexts.CountsFrom, By(Go), WholeMinutes, By(Plan.Routes.DepartAt))
        : null;

    /// <summary>The team is nearly always still on its way when the version is void.</summary>
    public bool IsVoidBeforeThere => Go.AddSeconds(Way.NearlyAlwaysSeconds) > Plan.VoidAfter;

    /// <summary>How much later than planned, as the two times read: a go lies on a full minute, a departure is read by the minute before.</summary>
    public string WholeMinutes => System.FormattableString.Invariant($"{Math.Ceiling(Later.TotalMinutes):0} min");

    public string NextVersionAddress => NextVersion(Plan, Go);

    /// <summary>
    /// Where the next version is made for a go, so that every sheet has one time of go. A plan that leaves now stays one that leaves now: a departure would be
    /// read at the slower tempo.
    /// </summary>
    public static string NextVersion(PlanResponse plan, DateTimeOffset? go) => plan.Given.DepartAt is null || go is not { } departAt
        ? QueryHelpers.AddQueryString("/", "again", plan.Id)
        : QueryHelpers.AddQueryString("/", new Dictionary<string, string?>
        {
            ["again"] = plan.Id,
            ["departAt"] = TimeZoneInfo.ConvertTime(departAt, TimeZoneInfo.FindSystemTimeZoneById(plan.TimeZone)).ToString("yyyy-MM-ddTHH:mm", CultureInfo.InvariantCulture),
        });

    /// <summary>What is held on the way, moved with go; null in a version that was made before posts were planned.</summary>
    public RoutePostsResponse? Posts => Plan.Posts.FirstOrDefault(posts => posts.Route == Way.Id)?.MovedBy(Later);

    public RouteWearResponse? Wear => Plan.WearByRoute.FirstOrDefault(wear => wear.Route == Way.Id);

    public bool DrawsGas => Plan.GasByRoute.FirstOrDefault(gas => gas.Route == Way.Id)?.Answer != GasAnswer.NotDrawn;

    /// <summary>Who leaves now has no time to spare; who named a departure has.</summary>
    public static Tempo TempoOf(PlanResponse plan) => plan.Given.DepartAt is null ? Tempo.Urgent : Tempo.Planned;

    /// <summary>The go from which every sheet and card of a way counts its times, at the tempo that is shown unless somebody asks for another.</summary>
    public static DateTimeOffset GoOf(PlanResponse plan, string way) =>
        ShownOf(plan.Timeline.FirstOrDefault(timeline => timeline.Route == way && timeline.Tempo == TempoOf(plan)))?.Go ?? plan.Routes.DepartAt;

    private static TimelineResponse? ShownOf(RouteTimelineResponse? chosen) => chosen is { FromNow: { } now, Late.Count: > TransportPlan.FewLate } ? now : chosen?.ForGo;

    public RouteTimelineResponse? At(Tempo tempo) => Plan.Timeline.FirstOrDefault(timeline => timeline.Route == Way.Id && timeline.Tempo == tempo);

    /// <summary>The first step of a kind; null where the timeline has none.</summary>
    public TimelineStepResponse? Step(TimelineStepKind kind) => Shown?.Steps.FirstOrDefault(step => step.Step == kind);

    /// <summary>Lines on one side of go, in the order of the instants that stand at their left.</summary>
    public IEnumerable<TimelineStepResponse> Lines(bool afterGo) => Shown!.Steps.Where(step => step.From >= Shown.Go == afterGo).OrderBy(At);

    /// <summary>The latest beginning of a step before go, the usual one after it, and the end of airing.</summary>
    public static DateTimeOffset At(TimelineStepResponse step) => step.Step == TimelineStepKind.Airing ? step.To : step.From;

    /// <summary>For what must be done, or begun, by an instant, and for go: the full minute before it, so that nobody is late by the minute that is read.</summary>
    public string By(DateTimeOffset instant) => PackWords.Time(instant, Plan.TimeZone);

    /// <summary>For what is expected at an instant, is not before it, or is nearly always over by it: the next full minute.</summary>
    public string NotBefore(DateTimeOffset instant) => PackWords.NextMinute(instant, Plan.TimeZone);
}
