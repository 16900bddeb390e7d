using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>The officers for all transports of the next 12 hours together: one list of posts, manned by the fewest, or by the best use of those there are.</summary>
public sealed record OfficersTogetherResponse
{
    /// <summary>Id of the site.</summary>
    public required string SiteId { get; init; }

    /// <summary>The instant of the answer; officers with a starting place begin to walk then.</summary>
    public required DateTimeOffset AsOf { get; init; }

    /// <summary>Transports that are on the way or leave within 12 hours, also those that are left out.</summary>
    public required int Transports { get; init; }

    /// <summary>Posts in all; a door that two transports need in windows that touch is one.</summary>
    public required int Posts { get; init; }

    /// <summary>The fewest officers that man every post of all of them. Exact.</summary>
    public required int FewestOfficers { get; init; }

    /// <summary>What each transport asks for by itself, added up.</summary>
    public required int FewestApart { get; init; }

    /// <summary>One list for each officer: as many as were given, else the fewest.</summary>
    public required IReadOnlyList<OfficerTogetherResponse> Officers { get; init; }

    /// <summary>Posts that nobody mans.</summary>
    public required IReadOnlyList<TurnResponse> Unmanned { get; init; }

    /// <summary>People expected to come through the unmanned posts: a mean, not a prediction.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The same for the best use of 0, 1, 2 … officers; empty where starts were given.</summary>
    public required IReadOnlyList<double> PeopleLikelyMetByOfficers { get; init; }

    /// <summary>Transports whose posts are not in it.</summary>
    public required IReadOnlyList<LeftOutResponse> LeftOut { get; init; }
}

/// <summary>One officer's turns among all transports.</summary>
/// <param name="Number">From 1; not the number in the pack of one transport.</param>
/// <param name="Start">Number of the place where the officer is; null where nobody said.</param>
/// <param name="Turns">In order of time; empty where no post is left, or none is reached in time.</param>
public sealed record OfficerTogetherResponse(int Number, string? Start, IReadOnlyList<TurnResponse> Turns);

/// <summary>One turn of an officer who serves several transports.</summary>
/// <param name="Of">Whose posts it mans; several where one officer serves transports at the same door.</param>
/// <param name="Post">Where and when, counted from the same go as the cards; its id is the first mark.</param>
/// <param name="WalkSeconds">The walk to it; 0 for a first post without a starting place.</param>
public sealed record TurnResponse(IReadOnlyList<TransportPost> Of, PostResponse Post, int WalkSeconds);

/// <summary>One post of one transport.</summary>
/// <param name="PlanId">Id of the plan.</param>
/// <param name="CallSign">Of the transport.</param>
/// <param name="Post">Id of the post in that plan.</param>
/// <param name="Mark">As the duty desk writes it: number of the transport, a point, number of the post.</param>
public sealed record TransportPost(string PlanId, string CallSign, string Post, string Mark);

/// <summary>A transport whose posts are not dealt out.</summary>
/// <param name="PlanId">Id of the plan.</param>
/// <param name="CallSign">Of the transport.</param>
/// <param name="Why">The reason.</param>
public sealed record LeftOutResponse(string PlanId, string CallSign, LeftOutReason Why);

/// <summary>Why the posts of a transport are not dealt out.</summary>
public enum LeftOutReason
{
    /// <summary>It was made on another version of the floor plan.</summary>
    OtherFloorPlan,
    /// <summary>It was made before posts were planned.</summary>
    NoPosts,
    /// <summary>With it there would be more than 180 posts.</summary>
    TooManyPosts,
}
