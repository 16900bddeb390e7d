using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>What is held for one way, and who stands where.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="Posts">Held places, posts, doors to open, elevators to capture.</param>
/// <param name="Deployment">The fewest officers, or the best use of those who were given.</param>
public sealed record PostsOfRoute(string RouteId, RoutePosts Posts, Deployment Deployment)
{
    internal static PostsOfRoute For(FloorGraph graph, PlanRequest request, Route route)
    {
        var settings = request.Settings.Posts;
        var posts = RoutePosts.For(graph, request.Route, route, settings);
        var walks = FootWalks.For(graph, settings, request.Route.Travel);
        return new(route.Id, posts, Deployment.Of(posts.Posts, walks, settings, request.Officers));
    }
}
