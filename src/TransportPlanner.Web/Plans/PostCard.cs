using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One officer's list, complete by itself.</summary>
public sealed record PostCard(RoutePostsResponse Posts, OfficerResponse Officer, DateTimeOffset Go, string TimeZone)
{
    public PostResponse Post(string id) => Posts.Posts.First(post => post.Id == id);
}
