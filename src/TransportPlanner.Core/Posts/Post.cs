using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Posts;

/// <summary>A stretch of time, whole seconds from the departure. <paramref name="From"/> lies before <paramref name="To"/>. UTC.</summary>
public readonly record struct PostWindow(DateTimeOffset From, DateTimeOffset To)
{
    public double Minutes => (To - From).TotalMinutes;

    /// <summary>From the first beginning to the last end.</summary>
    public PostWindow Around(PostWindow other) => new(From < other.From ? From : other.From, To > other.To ? To : other.To);

    /// <summary>True where the two share an instant, or one begins as the other ends.</summary>
    public bool Touches(PostWindow other) => From <= other.To && other.From <= To;
}

/// <summary>What an officer does at a post.</summary>
public enum PostKind
{
    /// <summary>Keeps people out of a held place.</summary>
    Door,
    /// <summary>Keeps a captured elevator at its landing until the team is in; watches doors in sight like any other.</summary>
    Elevator,
}

/// <summary>A door that a post watches.</summary>
/// <param name="Passage">Id of the passage.</param>
/// <param name="Behind">Number of the place behind it, from which people would come.</param>
/// <param name="PeoplePerMinute">People expected to come through if nobody stands there: mean people behind ÷ their mean stay ÷ ways out of that place.</param>
/// <param name="IsAssumed">The number of people behind rests on a default, because the floor plan has none.</param>
public sealed record WatchedDoor(string Passage, string Behind, double PeoplePerMinute, bool IsAssumed);

/// <summary>Where an officer stands, from when to when, and what the officer says.</summary>
public sealed record Post
{
    public required PostKind Kind { get; init; }

    /// <summary>Id of the passage at which the officer stands, on the side of the held place; not always one of those watched.</summary>
    public required string Passage { get; init; }

    /// <summary>Number of the held place, or of the landing where the car waits.</summary>
    public required string Place { get; init; }
    public required PostWindow Window { get; init; }

    /// <summary>Doors watched from there, in the order of the plan.</summary>
    public required ImmutableArray<WatchedDoor> Doors { get; init; }

    /// <summary>One sentence for whoever comes. It names the place and nothing about the infant.</summary>
    public required string Say { get; init; }

    /// <summary>People expected to come through its doors in its window if nobody stands there. A mean, not a prediction.</summary>
    public double PeopleLikelyMet => Doors.Sum(door => door.PeoplePerMinute) * Window.Minutes;

    /// <summary>
    /// The posts of several transports as one list: where two of them have an officer at the same door with windows that touch, one post
    /// serves both. A car is kept for one team alone, so its keeper is never shared. Ordered by beginning.
    /// </summary>
    /// <returns>Each with the positions in <paramref name="posts"/> of those that it serves.</returns>
    public static ImmutableArray<(Post Post, ImmutableArray<int> Of)> Together(IEnumerable<Post> posts)
    {
        ArgumentNullException.ThrowIfNull(posts);
        var together = new List<(Post Post, ImmutableArray<int> Of)>();
        foreach (var (position, post) in posts.Index().OrderBy(one => one.Item.Window.From).ThenBy(one => one.Item.Passage, StringComparer.Ordinal))
        {
            var at = together.FindIndex(other =>
                other.Post.Passage == post.Passage && other.Post.Place == post.Place && other.Post.Window.Touches(post.Window)
                && (other.Post.Kind == PostKind.Door || post.Kind == PostKind.Door));
            if (at < 0)
            {
                together.Add((post, [position]));
                continue;
            }

            var (other, served) = together[at];
            together[at] = (
                other with
                {
                    // A captured car is the narrower duty, and its sentence the one that is needed.
                    Kind = other.Kind == PostKind.Elevator ? PostKind.Elevator : post.Kind,
                    Say = other.Kind == PostKind.Elevator || post.Kind == PostKind.Door ? other.Say : post.Say,
                    Window = other.Window.Around(post.Window),
                    Doors = [.. other.Doors.Concat(post.Doors).DistinctBy(door => door.Passage)],
                },
                served.Add(position));
        }

        return [.. together];
    }
}

/// <summary>A door that opens onto a held place and needs no post, and why.</summary>
/// <param name="Passage">Id of the passage.</param>
/// <param name="Place">Number of the held place.</param>
/// <param name="Behind">Number of the place behind it.</param>
/// <param name="People">Mean number of people in everything behind it.</param>
public sealed record QuietDoor(string Passage, string Place, string Behind, double People);

/// <summary>A held place, with the four things a site may do with it.</summary>
/// <param name="Place">Number of the place.</param>
/// <param name="TeamArrives">When the team comes into it, after departure.</param>
/// <param name="TeamLeaves">When the team leaves it, after departure.</param>
/// <param name="IsCleared">People are asked to leave it first.</param>
/// <param name="Held">Nobody else is in it: from the first officer's beginning to the release.</param>
/// <param name="ClosedUntil">A sign keeps people out until then, without an officer; null where it is not closed.</param>
/// <param name="IsCleaned">It is cleaned before it is used again.</param>
public sealed record HeldPlace(
    string Place, Travel.Arrival TeamArrives, Travel.Arrival TeamLeaves, bool IsCleared, PostWindow Held, DateTimeOffset? ClosedUntil, bool IsCleaned);

/// <summary>Who opens a door on the way, holds it until the incubator has passed, and turns back who comes through.</summary>
public enum DoorOpener
{
    CleanHelper,
    /// <summary>One of the crew, where no clean helper goes ahead.</summary>
    Crew,
}

/// <summary>A door on the way; landing doors and openings are left out.</summary>
/// <param name="Passage">Id of the passage.</param>
/// <param name="Kind">How it opens.</param>
/// <param name="Access">What is needed to open it.</param>
/// <param name="From">Number of the place before it.</param>
/// <param name="To">Number of the place behind it.</param>
/// <param name="By">Who opens and holds it.</param>
/// <param name="Passes">When the team has passed it, after departure.</param>
public sealed record DoorToOpen(
    string Passage, PassageKind Kind, AccessControl Access, string From, string To, DoorOpener By, Travel.Arrival Passes);

/// <summary>An elevator that somebody keeps for the transport.</summary>
/// <param name="Elevator">Id of the elevator.</param>
/// <param name="Name">Its name on site.</param>
/// <param name="Landing">Number of the landing where it is captured and boarded.</param>
/// <param name="LandingDoor">Id of the landing door there.</param>
/// <param name="Control">What captures it: key, badge, code.</param>
/// <param name="Captured">From when its keeper calls it until the doors are shut behind the team, nearly always.</param>
/// <param name="TeamArrives">When the team comes onto the landing, after departure.</param>
/// <param name="ReturnLanding">Number of the landing where the team leaves it.</param>
/// <param name="GivenBack">Not before: the team nearly always out, parking, and cleaning where the site asks for it; where the site airs, the air renewed with the doors shut. A person gives it back.</param>
/// <param name="IsCleaned">It is cleaned first.</param>
/// <param name="GivenBackDoorsOpen">The same for a car that stood with its doors open; null where the air asks for no more time than the rest.</param>
public sealed record ElevatorCapture(
    string Elevator, string Name, string Landing, string LandingDoor, AccessControl Control, PostWindow Captured, Travel.Arrival TeamArrives,
    string ReturnLanding, DateTimeOffset GivenBack, bool IsCleaned, DateTimeOffset? GivenBackDoorsOpen = null);
