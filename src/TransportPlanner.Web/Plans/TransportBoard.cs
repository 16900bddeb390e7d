using TransportPlanner.Web.Data;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>One transport with everything that was said about it.</summary>
internal sealed record DeskTransport(PlanResponse Plan, RouteResponse Way, GoResponse Said, CallsResponse Calls)
{
    public RoutePostsResponse? Posts => Plan.Posts.FirstOrDefault(posts => posts.Route == Way.Id);

    /// <summary>By how much the go of calls and cards lies behind the planned departure.</summary>
    public required TimeSpan Later { get; init; }

    /// <summary>That go.</summary>
    public DateTimeOffset Go => Plan.Routes.DepartAt + Later;

    /// <summary>The posts as the cards have them, counted from that go.</summary>
    public RoutePostsResponse? PostsAtGo => Posts?.MovedBy(Later);
    public DateTimeOffset UsuallyThereAt => Plan.Routes.DepartAt.AddSeconds(Way.UsualSeconds);
    public DateTimeOffset NearlyAlwaysThereAt => Plan.Routes.DepartAt.AddSeconds(Way.NearlyAlwaysSeconds);

    public TransportResponse Answer() => new()
    {
        PlanId = Plan.Id,
        CallSign = Plan.CallSign,
        Version = Plan.Version,
        From = Plan.From,
        To = Plan.To,
        Precautions = Plan.Precautions,
        Way = Way.Id,
        DepartAt = Plan.Routes.DepartAt,
        UsuallyThereAt = UsuallyThereAt,
        NearlyAlwaysThereAt = NearlyAlwaysThereAt,
        VoidAfter = Plan.VoidAfter,
        Acknowledged = [.. Calls.Calls.Where(call => call.State == CallState.Acknowledged).Select(call => call.Role)],
        NotAcknowledged = [.. Calls.Calls.Where(call => call.State != CallState.Acknowledged).Select(call => call.Role)],
        GoGivenAt = Said.GivenAt,
        GoMissing = Said.Missing,
        TakenBack = Said.TakenBack,
        Posts = [.. Posts?.Posts.Select(post => new TransportPostResponse(post.Id, post.Place, post.Passage, post.From, post.To)) ?? []],
    };
}

/// <summary>What is in force at a site today, for the duty desk.</summary>
internal static class TransportBoard
{
    /// <summary>Every plan that is not void yet and leaves before the end of the site's day, by departure.</summary>
    public static async Task<IReadOnlyList<DeskTransport>> TodayAsync(
        PlannerContext context, FloorPlanSnapshot site, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(site.Plan.TimeZone);
        var tomorrow = TimeZoneInfo.ConvertTime(now, zone).Date.AddDays(1);
        while (zone.IsInvalidTime(tomorrow))
        {
            tomorrow = tomorrow.AddMinutes(15);
        }

        var plans = await PlansInForce.ListAsync(
            context, site.Plan.SiteId, now, new DateTimeOffset(tomorrow, zone.GetUtcOffset(tomorrow)), cancellationToken);
        List<DeskTransport> transports = [];
        foreach (var plan in plans)
        {
            var go = (await GoBoard.OfAsync(context, plan, now, cancellationToken)).Answer();
            var calls = await CallSheet.OfAsync(context, site, plan, cancellationToken);
            var way = WayTaken.Of(plan, go.WayTaken);
            var timeline = new TimelineSheet(plan, way, TimelineSheet.TempoOf(plan), calls.Titles, new Dictionary<string, string>());
            transports.Add(new(plan, way, go, calls.Answer()) { Later = timeline.Later });
        }

        return transports;
    }
}
