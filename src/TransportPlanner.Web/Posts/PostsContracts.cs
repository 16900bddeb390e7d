using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Posts;

/// <summary>How many officers there are, and where.</summary>
public sealed record OfficersRequest : IValidatableObject
{
    /// <summary>How many there are, 0 to 60.</summary>
    [Range(0, OfficersGiven.MaxCount, ErrorMessage = "Give 0 to 60 officers, or leave officers out: then the plan says how few it takes.")]
    public required int Count { get; init; }

    /// <summary>Numbers of the places where they are when called, at most as many as there are officers. Empty: each is at the first post in time.</summary>
    [NoNullItems, MaxLength(OfficersGiven.MaxCount, ErrorMessage = "Give at most 60 places.")]
    public IReadOnlyList<string> Starts { get; init; } = [];

    /// <summary>When they are called and begin to walk; counts only with starts. Left out: now, assumed.</summary>
    public DateTimeOffset? CalledAt { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Starts.Count > Count)
        {
            yield return new("Give no more starts than officers.", [nameof(Starts)]);
        }
    }

    internal OfficersGiven ToGiven(DateTimeOffset now) => new() { Count = Count, Starts = [.. Starts], Called = CalledAt ?? now };
}

/// <summary>What is held for one way, who stands where, and how few officers that takes.</summary>
public sealed record RoutePostsResponse
{
    /// <summary>Id of the way.</summary>
    public required string Route { get; init; }

    /// <summary>Held places in the order of the way; cars are captured and not among them.</summary>
    public required IReadOnlyList<HeldPlaceResponse> Held { get; init; }

    /// <summary>Elevators to capture, in order.</summary>
    public required IReadOnlyList<ElevatorCapture> Elevators { get; init; }

    /// <summary>Doors on the way, in order, with who opens each.</summary>
    public required IReadOnlyList<DoorToOpen> DoorsToOpen { get; init; }

    /// <summary>Doors onto held places that need no post, because next to nobody is behind them.</summary>
    public required IReadOnlyList<QuietDoor> QuietDoors { get; init; }

    /// <summary>Posts in order of time.</summary>
    public required IReadOnlyList<PostResponse> Posts { get; init; }

    /// <summary>The fewest officers that man every post, each at the first post in time.</summary>
    public required int FewestOfficers { get; init; }

    /// <summary>One list for each officer: as many as were given, else the fewest.</summary>
    public required IReadOnlyList<OfficerResponse> Officers { get; init; }

    /// <summary>Ids of posts that nobody mans.</summary>
    public required IReadOnlyList<string> Unmanned { get; init; }

    /// <summary>People expected to come through the unmanned posts: a mean, not a prediction.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The same for the best use of 0, 1, 2 … officers; empty where starts were given.</summary>
    public required IReadOnlyList<double> PeopleLikelyMetByOfficers { get; init; }

    /// <summary>The same posts for a later go: every instant moves by as much, walks and people stay those of the plan's departure.</summary>
    internal RoutePostsResponse MovedBy(TimeSpan later) => later == TimeSpan.Zero ? this : this with
    {
        Held = [.. Held.Select(held => held with { HeldFrom = held.HeldFrom + later, HeldTo = held.HeldTo + later, ClosedUntil = held.ClosedUntil + later })],
        Elevators =
        [
            .. Elevators.Select(car => car with { Captured = new(car.Captured.From + later, car.Captured.To + later), GivenBack = car.GivenBack + later, GivenBackDoorsOpen = car.GivenBackDoorsOpen + later }),
        ],
        Posts = [.. Posts.Select(post => post with { From = post.From + later, To = post.To + later })],
    };

    internal static RoutePostsResponse From(FloorPlan plan, RoutePosts posts, Deployment deployment)
    {
        var places = plan.Places.ToDictionary(place => place.Number);
        string Id(Post post) => $"P{posts.Posts.IndexOf(post) + 1}";
        return new()
        {
            Route = posts.RouteId,
            Held = [.. posts.Places.Select(held => HeldPlaceResponse.From(held, places[held.Place]))],
            Elevators = posts.Elevators,
            DoorsToOpen = posts.DoorsToOpen,
            QuietDoors = posts.QuietDoors,
            Posts = [.. posts.Posts.Select(post => PostResponse.Of(post, Id(post), places))],
            FewestOfficers = deployment.Fewest,
            Officers = [.. deployment.Officers.Select(officer => OfficerResponse.From(officer, Id))],
            Unmanned = [.. deployment.Unmanned.Select(Id)],
            PeopleLikelyMet = deployment.PeopleLikelyMet,
            PeopleLikelyMetByOfficers = deployment.PeopleLikelyMetByOfficers,
        };
    }
}

/// <summary>A held place, with the four things a site may do with it: clear, hold, close, clean.</summary>
public sealed record HeldPlaceResponse
{
    /// <summary>Number of the place.</summary>
    public required string Place { get; init; }

    /// <summary>Name of the place.</summary>
    public required string Name { get; init; }

    /// <summary>Id of its level.</summary>
    public required string? Level { get; init; }

    /// <summary>When the team comes into it, in seconds after departure.</summary>
    public required Arrival TeamArrives { get; init; }

    /// <summary>When the team leaves it, in seconds after departure.</summary>
    public required Arrival TeamLeaves { get; init; }

    /// <summary>People are asked to leave it first.</summary>
    public required bool Cleared { get; init; }

    /// <summary>Nobody else is in it from then on.</summary>
    public required DateTimeOffset HeldFrom { get; init; }

    /// <summary>The release: the team has nearly always left and the hold is over. A person releases it.</summary>
    public required DateTimeOffset HeldTo { get; init; }

    /// <summary>A sign keeps people out until then; null where it is not closed.</summary>
    public required DateTimeOffset? ClosedUntil { get; init; }

    /// <summary>It is cleaned before it is used again.</summary>
    public required bool Cleaned { get; init; }

    internal static HeldPlaceResponse From(HeldPlace held, Place place) => new()
    {
        Place = held.Place,
        Name = place.Name,
        Level = place.Level,
        TeamArrives = held.TeamArrives,
        TeamLeaves = held.TeamLeaves,
        Cleared = held.IsCleared,
        HeldFrom = held.Held.From,
        HeldTo = held.Held.To,
        ClosedUntil = held.ClosedUntil,
        Cleaned = held.IsCleaned,
    };
}

/// <summary>Where an officer stands, from when to when, and what the officer says.</summary>
public sealed record PostResponse
{
    /// <summary>P1, P2 … in order of time.</summary>
    public required string Id { get; init; }

    /// <summary>What the officer does there.</summary>
    public required PostKind Kind { get; init; }

    /// <summary>Id of the passage at which the officer stands, on the side of the held place.</summary>
    public required string Passage { get; init; }

    /// <summary>Number of the held place, or of the landing where the car waits.</summary>
    public required string Place { get; init; }

    /// <summary>Name of that place.</summary>
    public required string Name { get; init; }

    /// <summary>Id of its level.</summary>
    public required string? Level { get; init; }

    /// <summary>From when the officer stands there.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>When the post nearly always ends; the officer leaves by word, never by the clock.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Doors watched from there.</summary>
    public required IReadOnlyList<WatchedDoorResponse> Doors { get; init; }

    /// <summary>One sentence for whoever comes.</summary>
    public required string Say { get; init; }

    /// <summary>People expected to come through its doors if nobody stands there: a mean, not a prediction.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The post that this tells of.</summary>
    internal Post ToPost() => new()
    {
        Kind = Kind,
        Passage = Passage,
        Place = Place,
        Window = new(From, To),
        Doors = [.. Doors.Select(door => new WatchedDoor(door.Passage, door.Behind, door.PeoplePerMinute, door.Assumed))],
        Say = Say,
    };

    internal static PostResponse Of(Post post, string id, Dictionary<string, Place> places) => new()
    {
        Id = id,
        Kind = post.Kind,
        Passage = post.Passage,
        Place = post.Place,
        Name = places[post.Place].Name,
        Level = places[post.Place].Level,
        From = post.Window.From,
        To = post.Window.To,
        Doors =
        [
            .. post.Doors.Select(door => new WatchedDoorResponse(
                door.Passage, door.Behind, places[door.Behind].Name, door.PeoplePerMinute, door.IsAssumed)),
        ],
        Say = post.Say,
        PeopleLikelyMet = post.PeopleLikelyMet,
    };
}

/// <summary>A door that a post watches.</summary>
/// <param name="Passage">Id of the passage.</param>
/// <param name="Behind">Number of the place behind it.</param>
/// <param name="Name">Name of the place behind it.</param>
/// <param name="PeoplePerMinute">People expected through it if nobody stands there.</param>
/// <param name="Assumed">The number of people behind rests on a default.</param>
public sealed record WatchedDoorResponse(string Passage, string Behind, string Name, double PeoplePerMinute, bool Assumed);

/// <summary>One officer's list.</summary>
public sealed record OfficerResponse
{
    /// <summary>From 1.</summary>
    public required int Number { get; init; }

    /// <summary>Number of the place where the officer is called; null where nobody said.</summary>
    public required string? Start { get; init; }

    /// <summary>In order of time; empty where nothing is left to do, or nothing is reached in time.</summary>
    public required IReadOnlyList<DutyResponse> Duties { get; init; }

    internal static OfficerResponse From(Officer officer, Func<Post, string> id) => new()
    {
        Number = officer.Number,
        Start = officer.Start,
        Duties = [.. officer.Duties.Select(duty => new DutyResponse(id(duty.Post), duty.WalkSeconds))],
    };
}

/// <summary>One turn of an officer.</summary>
/// <param name="Post">Id of the post.</param>
/// <param name="WalkSeconds">The walk to it, from the post before or from the start; 0 for a first post without one.</param>
public sealed record DutyResponse(string Post, int WalkSeconds);
