using System.Collections.Immutable;
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
    /// <summary>What is held, with cars given back no sooner than their air is renewed where the site airs.</summary>
    internal static RoutePosts Held(FloorGraph graph, PlanRequest request, Route route, ImmutableArray<AiringOfPlace> airing)
    {
        var posts = RoutePosts.For(graph, request.Route, route, request.Settings.Posts);
        return request.Route.Exposure.Closes(request.Route.Precautions) ? posts with { Elevators = [.. posts.Elevators.Select(Aired)] } : posts;

        ElevatorCapture Aired(ElevatorCapture car)
        {
            var number = graph.Plan.Elevators.Single(elevator => elevator.Id == car.Elevator).Car;
            var ridden = Enumerable.Range(0, route.Arcs.Length).Last(i => graph.ArcElevator[route.Arcs[i]] >= 0 && graph.Plan.Places[graph.ArcPlace[route.Arcs[i]]].Number == number);
            var left = posts.Departure.AddSeconds(route.Arrivals[ridden + 1].NearlyAlwaysSeconds);
            var time = airing.Single(place => place.Place == number);
            var (shut, open) = (left.AddMinutes((time.DoorsShut ?? time.Time).Minutes), left.AddMinutes(time.Time.Minutes));
            return shut <= car.GivenBack ? car : car with { GivenBack = shut, GivenBackDoorsOpen = open > car.GivenBack ? open : car.GivenBack };
        }
    }

    /// <param name="graph">Where officers walk.</param>
    /// <param name="request">Its officers.</param>
    /// <param name="posts">What is held.</param>
    /// <param name="later">By how much the go that every card counts from lies behind the departure. Officers who are called at an instant have as much longer to walk.</param>
    internal static PostsOfRoute For(FloorGraph graph, PlanRequest request, RoutePosts posts, TimeSpan later)
    {
        var settings = request.Settings.Posts;
        var walks = FootWalks.For(graph, settings, request.Route.Travel);
        var given = request.Officers is { } officers ? officers with { Called = officers.Called - later } : null;
        return new(posts.RouteId, posts, Deployment.Of(posts.Posts, walks, settings, given));
    }
}
