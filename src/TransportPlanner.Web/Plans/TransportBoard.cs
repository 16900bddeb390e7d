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

    /// <summary>The plan must not be used any more; its team may still be on the way.</summary>
    public required bool IsVoid { get; init; }

    /// <summary>That go.</summary>
    public DateTimeOffset Go => Plan.Routes.DepartAt + Later;

    /// <summary>The posts as the cards have them, counted from that go.</summary>
    public RoutePostsResponse? PostsAtGo => Posts?.MovedBy(Later);

    /// <summary>
    /// By then every post is released and the team has nearly always arrived, counted from the go of the cards, or from the go that was given where that
    /// came later.
    /// </summary>
    public DateTimeOffset OverAt =>
        (Posts?.Posts.Select(post => post.To) ?? []).Append(NearlyAlwaysThereAt).Max() + ((Said.GivenAt is { } given && given > Go ? given : Go) - Plan.Routes.DepartAt);

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
        IsVoid = IsVoid,
        Acknowledged = [.. Calls.Calls.Where(call => call.State == CallState.Acknowledged).Select(call => call.Role)],
        NotAcknowledged = [.. Calls.Calls.Where(call => call.State != CallState.Acknowledged).Select(call => call.Role)],
        GoGivenAt = Said.GivenAt,
        GoMissing = Said.Missing,
        TakenBack = Said.TakenBack,
        Posts = [.. Posts?.Posts.Select(post => new TransportPostResponse(post.Id, post.Place, post.Passage, post.From, post.To)) ?? []],
    };
}

/// <summary>What is on the way at a site or leaves soon, for the duty desk and for the officers.</summary>
internal static class TransportBoard
{
    /// <summary>Long enough for a shift to see what it will meet, whatever the day on the calendar.</summary>
    public const int HoursAhead = 12;

    /// <summary>A plan that was void before is not looked at any more: no way of a building takes as long, not even from the earliest go.</summary>
    private static readonly TimeSpan LongestAfterVoid = TimeSpan.FromHours(6);

    /// <summary>
    /// Every plan that is in force and leaves within <see cref="HoursAhead"/>, by departure. One that is void stays, marked, until it is over: void says that
    /// nobody may leave by it, not that nobody is on the way.
    /// </summary>
    public static async Task<IReadOnlyList<DeskTransport>> ListAsync(
        PlannerContext context, FloorPlanSnapshot site, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var plans = await PlansInForce.ListAsync(context, site.Plan.SiteId, now - LongestAfterVoid, now.AddHours(HoursAhead), cancellationToken);
        List<DeskTransport> transports = [];
        foreach (var plan in plans)
        {
            var go = (await GoBoard.OfAsync(context, plan, now, cancellationToken)).Answer();
            var calls = await CallSheet.OfAsync(context, site, plan, cancellationToken);
            var way = WayTaken.Of(plan, go.WayTaken);
            var timeline = new TimelineSheet(plan, way, TimelineSheet.TempoOf(plan), calls.Titles, new Dictionary<string, string>());
            transports.Add(new(plan, way, go, calls.Answer()) { Later = timeline.Later, IsVoid = now > plan.VoidAfter });
        }

        return [.. transports.Where(transport => !transport.IsVoid || now <= transport.OverAt)];
    }
}
