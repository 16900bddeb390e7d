using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One officer's list, complete by itself.</summary>
/// <param name="Posts">All posts of the way, their times counted from the same go as the timeline.</param>
/// <param name="Officer">Whose card it is.</param>
/// <param name="Timeline">From which go the times count.</param>
internal sealed record PostCard(RoutePostsResponse Posts, OfficerResponse Officer, TimelineSheet Timeline)
{
    /// <summary>What the site calls security.</summary>
    public string Security { get; init; } = "security";

    /// <summary>Radio channel or number of security; null: a line to write it on.</summary>
    public string? Contact { get; init; }

    public PostResponse Post(string id) => Posts.Posts.First(post => post.Id == id);

    /// <summary>The officer should have stood there when the plan was made.</summary>
    public bool IsLate(PostResponse post) => post.From < Timeline.Plan.MadeAt;
}
