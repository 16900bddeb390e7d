using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One officer's list, complete by itself.</summary>
public sealed record PostCard(RoutePostsResponse Posts, OfficerResponse Officer, DateTimeOffset Go, string TimeZone)
{
    /// <summary>What the site calls security.</summary>
    public string Security { get; init; } = "security";

    /// <summary>Radio channel or number of security; null: a line to write it on.</summary>
    public string? Contact { get; init; }

    public PostResponse Post(string id) => Posts.Posts.First(post => post.Id == id);
}
