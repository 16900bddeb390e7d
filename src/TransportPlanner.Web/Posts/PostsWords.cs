using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;

namespace TransportPlanner.Web.Posts;

/// <summary>Posts in words for somebody who has never seen the floor plan.</summary>
public static class PostsWords
{
    /// <summary>Local time of day to the second, <c>02:08:30</c>: an officer's list is exact to seconds. The offset stands in the head of the sheet.</summary>
    public static string Time(DateTimeOffset instant, string timeZone) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(timeZone)).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Against the departure: <c>1:30 before go</c>, <c>at go</c>, <c>4:05 after go</c>; minutes and seconds.</summary>
    public static string AgainstGo(DateTimeOffset instant, DateTimeOffset go)
    {
        var seconds = (long)Math.Round((instant - go).TotalSeconds);
        var clock = string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(seconds) / 60}:{Math.Abs(seconds) % 60:00}");
        return seconds == 0 ? "at go" : seconds < 0 ? $"{clock} before go" : $"{clock} after go";
    }

    /// <summary>Name and number of a place, the number once.</summary>
    public static string Place(string number, string name) => name.Contains(number, StringComparison.Ordinal) ? name : $"{name} {number}";

    public static string Where(PostResponse post) =>
        Place(post.Place, post.Name) + (post.Level is { } level ? $", level {level}" : "");

    /// <summary><c>door DR-2.005, to Store S-2.09</c>.</summary>
    public static string Of(WatchedDoorResponse door) => $"door {door.Passage}, to {Place(door.Behind, door.Name)}";

    /// <summary>A walk: <c>45 s</c>, <c>1 min 20 s</c>.</summary>
    public static string Walk(int seconds) =>
        seconds < 60 ? $"{seconds} s" : string.Create(CultureInfo.InvariantCulture, $"{seconds / 60} min {seconds % 60} s");

    public static string Of(DoorOpener opener) => opener == DoorOpener.CleanHelper ? "clean helper" : "one of the crew";

    public static string With(AccessControl access) => access == AccessControl.None ? "no key needed" : $"with {access.ToString().ToLowerInvariant()}";

    /// <summary>How few it takes and how many there are, in one line.</summary>
    public static string Headline(RoutePostsResponse posts)
    {
        var given = posts.Officers.Count;
        var all = posts.Posts.Count == 1 ? "the one post" : $"all {posts.Posts.Count} posts";
        return posts.Posts.Count == 0 ? "no post to man"
            : given == posts.FewestOfficers && posts.Unmanned.Count == 0 ? $"{Officers(posts.FewestOfficers)} man {all}, and no fewer can while officers pass one-way doors one way"
            : $"{Officers(given)} given; it takes {posts.FewestOfficers} to man {all}";
    }

    public static string Officers(int count) => count == 1 ? "1 officer" : $"{count} officers";
}
