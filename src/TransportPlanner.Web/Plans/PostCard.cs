using Microsoft.AspNetCore.Html;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One officer's list, complete by itself: of one transport, or of all that run in the next hours.</summary>
internal sealed record PostCard
{
    public required int Number { get; init; }

    /// <summary>How many officers there are.</summary>
    public required int Count { get; init; }

    /// <summary>Number of the place from which the officer comes; null where nobody said.</summary>
    public required string? Start { get; init; }

    public required IReadOnlyList<PostTurn> Turns { get; init; }

    /// <summary>From which go the times count, a sentence.</summary>
    public required IHtmlContent CountsFrom { get; init; }

    public required string TimeZone { get; init; }

    /// <summary>What the site calls security.</summary>
    public required string Security { get; init; }

    /// <summary>Radio channel or number of security; null: a line to write it on.</summary>
    public required string? Contact { get; init; }

    /// <summary>A card for each officer of one transport.</summary>
    /// <param name="posts">All posts of the way, their times counted from the same go as the timeline.</param>
    /// <param name="timeline">From which go the times count.</param>
    /// <param name="titles">What the site calls the roles.</param>
    /// <param name="contact">Radio channel or number of security.</param>
    public static IEnumerable<PostCard> Of(RoutePostsResponse posts, TimelineSheet timeline, RoleTitles titles, string? contact)
    {
        var byId = posts.Posts.ToDictionary(post => post.Id);
        return posts.Officers.Select(officer => new PostCard
        {
            Number = officer.Number,
            Count = posts.Officers.Count,
            Start = officer.Start,
            Turns = [.. officer.Duties.Select(duty => PostTurn.Of(byId[duty.Post], duty.WalkSeconds, posts, timeline.Go, timeline.Plan.MadeAt))],
            CountsFrom = PackText.Html(timeline.IsFromNow ? PackTexts.PostLaterEarliest : PackTexts.PostLater, timeline.By(timeline.Go)),
            TimeZone = timeline.Plan.TimeZone,
            Security = titles.Security,
            Contact = contact,
        });
    }
}

/// <summary>One turn on a card.</summary>
/// <param name="Post">Where and when.</param>
/// <param name="WalkSeconds">The walk to it.</param>
/// <param name="Elevator">The car that is captured there; null where none is.</param>
/// <param name="Go">Of the transport; null where the post serves several.</param>
/// <param name="IsLate">The officer should have stood there when the plan was made.</param>
/// <param name="Say">What the officer says there.</param>
/// <param name="For">Whose post it is, where the card serves several transports; empty else.</param>
internal sealed record PostTurn(PostResponse Post, int WalkSeconds, ElevatorCapture? Elevator, DateTimeOffset? Go, bool IsLate, string Say, string For)
{
    public static PostTurn Of(PostResponse post, int walkSeconds, RoutePostsResponse posts, DateTimeOffset? go, DateTimeOffset madeAt) =>
        new(post, walkSeconds, post.Kind == PostKind.Elevator ? posts.Elevators.FirstOrDefault(car => car.LandingDoor == post.Passage) : null, go, post.From < madeAt, PackWords.Say(post, posts), "");
}
