using System.Globalization;
using Microsoft.AspNetCore.Html;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>The short words of the cards.</summary>
internal static class PackWords
{
    public static string Of(PackSheet sheet) => sheet switch
    {
        PackSheet.Huddle => PackTexts.SheetHuddle,
        PackSheet.Calls => PackTexts.SheetCalls,
        PackSheet.Strip => PackTexts.SheetStrip,
        PackSheet.Gas => PackTexts.SheetGas,
        PackSheet.Posts => PackTexts.SheetPosts,
        PackSheet.Receiving => PackTexts.SheetReceiving,
        PackSheet.Helper => PackTexts.SheetHelper,
        PackSheet.Stuck => PackTexts.SheetStuck,
        PackSheet.CloseOut => PackTexts.SheetCloseOut,
        PackSheet.Labels => PackTexts.SheetLabels,
        _ => throw new ArgumentOutOfRangeException(nameof(sheet), sheet, "No words for this sheet."),
    };

    /// <summary>Time of day without the offset, which stands in the head of each sheet: <c>02:10</c>. In the night in which clocks change with it.</summary>
    public static string Time(DateTimeOffset instant, string timeZone) => TimeOfDay.Of(instant, timeZone);

    /// <summary>The next full minute: for what is expected at an instant or is not before it. What must be done by an instant takes the minute before: <see cref="Time"/>.</summary>
    public static string NextMinute(DateTimeOffset instant, string timeZone) => Time(instant.AddSeconds(59.999), timeZone);

    /// <summary>Bail-out points by their letters: <c>back E, 3 m, 0:05 · on F, 6 m, 0:12</c>; <c>on this leg</c> where nobody turns back for one.</summary>
    public static string BailOuts(LegResponse leg, RouteStrip strip, SiteDisplay show) => Points(
        leg.WaysOut is { } ways ? (ways.BailOutBack, ways.BailOutOnward) : (null, leg.BailOut), leg.WaysOut is { IsBailOutBackOnLeg: true }, leg, strip.Letter, show);

    /// <summary>Wall oxygen, by the letter where it is at a bail-out point.</summary>
    public static string Oxygen(LegResponse leg, RouteStrip strip, SiteDisplay show)
    {
        var same = leg.WaysOut is { } ways && (ways.BailOutBack, ways.BailOutOnward) == (ways.OxygenBack, ways.OxygenOnward);
        return same && leg.BailOut is not null ? PackTexts.NearbySame : Points(
            leg.WaysOut is { } out_ ? (out_.OxygenBack, out_.OxygenOnward) : (null, leg.NearestOxygenOutlet), leg.WaysOut is { IsOxygenBackOnLeg: true }, leg, strip.Letter, show);
    }

    /// <summary>What a door is and what opens it: <c>automatic door, badge</c>.</summary>
    public static string Kind(DoorOnWay door) =>
        door.Access == AccessControl.None ? FloorPlanWords.Of(door.Kind) : PackText.Of(PackTexts.DoorKindLocked, FloorPlanWords.Of(door.Kind), FloorPlanWords.Of(door.Access));

    /// <summary>What the officer at a post says, from what it holds. Where an earlier release kept less, the English sentence of the plan.</summary>
    public static string Say(PostResponse post, RoutePostsResponse posts) => post.Kind switch
    {
        PostKind.Elevator when posts.Elevators.FirstOrDefault(car => car.LandingDoor == post.Passage) is { } car => PackText.Of(PackTexts.PostSayElevator, car.Name),
        PostKind.Door when posts.Held.FirstOrDefault(held => held.Place == post.Place) is { } held =>
            PackText.Of(held.Cleared ? PackTexts.PostSayLeave : PackTexts.PostSayWait, PostsWords.Place(post.Place, post.Name)),
        _ => post.Say,
    };

    /// <summary>What is left in the weakest battery on reaching a car, as a sentence.</summary>
    /// <param name="batteries">Of the way.</param>
    /// <param name="ride">Its place among the rides of the way, from 0.</param>
    public static IHtmlContent BatteryLeft(BatterySheet batteries, int ride) =>
        batteries is not { First: { } first, OfWay: { } way } || way.Legs.Where(leg => leg.IsRide).ElementAtOrDefault(ride)?.MinutesLeft is not { } minutes ? PackText.Html(PackTexts.StuckBatteryUnknown)
        : way.Unknown.Count == 0 ? PackText.Html(PackTexts.StuckBattery, minutes, BatteryWords.Of(first))
        : PackText.Html(PackTexts.StuckBatteryKnown, minutes, BatteryWords.Of(first), PackText.List(PackTexts.ListAnd, batteries.Unknown.Select(BatteryWords.Of)));

    /// <summary>How many posts nobody mans, and their doors in order of time; null where every post is manned.</summary>
    /// <param name="posts">Of the way.</param>
    /// <param name="most">More doors than this are only counted.</param>
    public static string? Open(RoutePostsResponse posts, int most = int.MaxValue)
    {
        var doors = posts.Posts.Where(post => posts.Unmanned.Contains(post.Id)).Select(post => post.Passage).Distinct().ToList();
        var named = string.Join(", ", doors.Take(most));
        return doors.Count == 0 ? null : PackText.Of(
            posts.Unmanned.Count == 1 ? PackTexts.OpenPostsOne : PackTexts.OpenPosts, posts.Unmanned.Count,
            doors.Count > most ? PackText.Of(PackTexts.OpenPostsMore, named, doors.Count - most) : named);
    }

    /// <summary>What a person still sees of the clock on paper: whole minutes after go, rounded down, and the time of day.</summary>
    public static string Until(decimal minute, DateTimeOffset go, string timeZone) =>
        PackText.Of(PackTexts.AfterGo, Math.Floor(minute).ToString("0", CultureInfo.InvariantCulture), Time(go.AddMinutes((double)Math.Floor(minute)), timeZone));

    /// <summary>What stands ready behind the receiving door for a kind of support: devices, no sizes and no settings, which nobody gave. Common practice.</summary>
    public static string Ready(RespiratorySupport support) => support switch
    {
        RespiratorySupport.SelfVentilating => PackTexts.ReadySelfVentilating,
        RespiratorySupport.LowFlowCannula => PackTexts.ReadyLowFlowCannula,
        RespiratorySupport.HighFlowCannula => PackTexts.ReadyHighFlowCannula,
        RespiratorySupport.Cpap => PackTexts.ReadyCpap,
        RespiratorySupport.NonInvasiveVentilation => PackTexts.ReadyNonInvasiveVentilation,
        RespiratorySupport.BagMaskVentilation => PackTexts.ReadyBagMaskVentilation,
        RespiratorySupport.InvasiveVentilation => PackTexts.ReadyInvasiveVentilation,
        _ => throw new ArgumentOutOfRangeException(nameof(support), support, "No words for this support."),
    };

    /// <summary>A place with its name.</summary>
    public static string Place(string number, IReadOnlyDictionary<string, string> names) =>
        names.TryGetValue(number, out var name) ? PostsWords.Place(number, name) : number;

    private static string Points((NearbyPlace? Back, NearbyPlace? Onward) points, bool isBackOnLeg, LegResponse leg, Func<NearbyPlace, string> letter, SiteDisplay show) => points switch
    {
        (null, null) => PackTexts.NearbyNone,
        ({ Seconds: 0 } here, var onward) when here == onward => PackText.Of(PackTexts.NearbyHere, letter(here)),
        _ => string.Join(
            " · ",
            [.. One(isBackOnLeg ? (PackTexts.NearbyOnLeg, PackTexts.NearbyOnLegLevel) : (PackTexts.NearbyBack, PackTexts.NearbyBackLevel), points.Back, leg, letter, show), .. One((PackTexts.NearbyOn, PackTexts.NearbyOnLevel), points.Onward, leg, letter, show)]),
    };

    private static IEnumerable<string> One((string Here, string OtherLevel) text, NearbyPlace? point, LegResponse leg, Func<NearbyPlace, string> letter, SiteDisplay show) => point is null
        ? []
        : [point.Level == leg.Level
            ? PackText.Of(text.Here, letter(point), show.Length(point.Metres), PlanWords.Clock(point.Seconds))
            : PackText.Of(text.OtherLevel, letter(point), point.Level, show.Length(point.Metres), PlanWords.Clock(point.Seconds))];
}
