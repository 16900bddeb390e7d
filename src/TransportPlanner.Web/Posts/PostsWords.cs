using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Posts;

/// <summary>Posts in words for somebody who has never seen the floor plan.</summary>
public static class PostsWords
{
    /// <summary>Local time of day to the second, <c>02:08:30</c>: an officer's list is exact to seconds. The offset stands in the head of the sheet.</summary>
    public static string Time(DateTimeOffset instant, string timeZone) =>
        TimeOfDay.Of(instant, timeZone, "HH:mm:ss");

    /// <summary>Against the departure: <c>1:30 before go</c>, <c>at go</c>, <c>4:05 after go</c>; minutes and seconds.</summary>
    public static string AgainstGo(DateTimeOffset instant, DateTimeOffset go)
    {
        var seconds = (long)Math.Round((instant - go).TotalSeconds);
        var clock = string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(seconds) / 60}:{Math.Abs(seconds) % 60:00}");
        return seconds == 0 ? WordTexts.GoAt : WordText.Of(seconds < 0 ? WordTexts.GoBefore : WordTexts.GoAfter, clock);
    }

    /// <summary>Name and number of a place, the number once.</summary>
    public static string Place(string number, string name) => name.Contains(number, StringComparison.Ordinal) ? name : $"{name} {number}";

    public static string Where(PostResponse post) =>
        post.Level is { } level ? WordText.Of(WordTexts.PlaceOnLevel, Place(post.Place, post.Name), level) : Place(post.Place, post.Name);

    /// <summary><c>door DR-2.005, to Store S-2.09</c>.</summary>
    public static string Of(WatchedDoorResponse door) => WordText.Of(WordTexts.DoorWatched, door.Passage, Place(door.Behind, door.Name));

    /// <summary>A walk: <c>45 s</c>, <c>1 min 20 s</c>.</summary>
    public static string Walk(int seconds) =>
        seconds < 60 ? WordText.Of(WordTexts.WalkSeconds, seconds) : WordText.Of(WordTexts.WalkMinutes, seconds / 60, seconds % 60);

    public static string Of(DoorOpener opener) => opener == DoorOpener.CleanHelper ? WordTexts.OpenerHelper : WordTexts.OpenerCrew;

    public static string With(AccessControl access) => access switch
    {
        AccessControl.None => WordTexts.KeyNone,
        AccessControl.Badge => WordTexts.KeyBadge,
        AccessControl.Code => WordTexts.KeyCode,
        AccessControl.Key => WordTexts.KeyKey,
        _ => throw new ArgumentOutOfRangeException(nameof(access), access, "No words for this key."),
    };

    /// <summary>How few it takes and how many there are, in one line.</summary>
    public static string Headline(RoutePostsResponse posts)
    {
        var given = posts.Officers.Count;
        var all = posts.Posts.Count == 1 ? WordTexts.PostsAllOne : WordText.Of(WordTexts.PostsAll, posts.Posts.Count);
        return posts.Posts.Count == 0 ? WordTexts.PostsNoneToMan
            : given == posts.FewestOfficers && posts.Unmanned.Count == 0 ? WordText.Of(posts.FewestOfficers == 1 ? WordTexts.PostsFewestOne : WordTexts.PostsFewest, Officers(posts.FewestOfficers), all)
            : WordText.Of(WordTexts.PostsGiven, Officers(given), posts.FewestOfficers, all);
    }

    public static string Officers(int count) => WordText.Of(count == 1 ? WordTexts.Officer : WordTexts.Officers, count);
}
