using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>Deals out the posts of all transports of the next hours in one list: to the fewest officers, or to the best use of those there are.</summary>
internal static class OfficersTogether
{
    /// <summary>Posts of more transports than this are left out, so that the answer comes at once: the transports that leave last.</summary>
    public const int MostPosts = 180;

    /// <summary>The officers there are, or what is wrong with them by field.</summary>
    /// <param name="plan">The floor plan whose places they may start from.</param>
    /// <param name="count">How many; null: as few as it takes.</param>
    /// <param name="starts">Numbers of the places where they are, at most as many.</param>
    /// <param name="now">When those begin to walk.</param>
    public static (OfficersGiven? Given, (string Field, string Words)? Problem) Read(FloorPlan plan, int? count, IReadOnlyList<string> starts, DateTimeOffset now)
    {
        if (count is not { } number)
        {
            return (null, starts.Count > 0 ? ("count", "Say how many officers there are, then where they start.") : null);
        }

        return number is < 0 or > OfficersGiven.MaxCount ? (null, ("count", WholeNumber))
            : starts.FirstOrDefault(place => !plan.Places.Any(known => known.Number == place)) is { } unknown
                ? (null, ("starts", $"{unknown} is no place of {plan.Name}. Give numbers of places, with a comma between them."))
            : starts.Count > number ? (null, ("starts", $"{starts.Count} starting places are more than {PostsWords.Officers(number)}. Give no more places than officers."))
            : (new() { Count = number, Starts = [.. starts], Called = now }, null);
    }

    public static string WholeNumber => $"Give a whole number of officers, 0 to {OfficersGiven.MaxCount}.";

    public static async Task<OfficersTogetherResponse> DealAsync(
        PlannerContext context, FloorPlanSnapshot site, IReadOnlyList<DeskTransport> transports, OfficersGiven? given, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var settings = PlanMaker.PostSettingsOf(await SiteSettings.ReadAsync(context, site.Plan.SiteId, cancellationToken));
        List<LeftOutResponse> leftOut = [];
        List<(TransportPost Of, Post Post)> posts = [];
        var apart = 0;
        foreach (var (index, transport) in transports.Index())
        {
            LeftOutReason? why = transport.Plan.Routes.FloorPlanVersion != site.Plan.Version ? LeftOutReason.OtherFloorPlan
                : transport.PostsAtGo is not { } own ? LeftOutReason.NoPosts
                : posts.Count + own.Posts.Count > MostPosts ? LeftOutReason.TooManyPosts
                : null;
            if (why is { } reason)
            {
                leftOut.Add(new(transport.Plan.Id, transport.Plan.CallSign, reason));
                continue;
            }

            apart += transport.Posts!.FewestOfficers;
            posts.AddRange(transport.PostsAtGo!.Posts.Select(post => (new TransportPost(transport.Plan.Id, transport.Plan.CallSign, post.Id, DeskModel.Mark(index + 1, post.Id)), post.ToPost())));
        }

        var served = Post.Together(posts.Select(one => one.Post));
        ImmutableArray<Post> together = [.. served.Select(one => one.Post)];
        var (first, last) = together.IsEmpty ? default : (together.Min(post => post.Window.From), together.Max(post => post.Window.To));
        var closures = together.IsEmpty ? [] : await context.Closures.AsNoTracking()
            .Where(closure => closure.SiteId == site.Plan.SiteId && closure.To > first && closure.From < last).ToListAsync(cancellationToken);
        var walks = FootWalks.Around(site.Graph, settings, closures.Select(closure => closure.ToClosure()));
        var deployment = Deployment.Of(together, walks, settings, given);
        var places = site.Plan.Places.ToDictionary(place => place.Number);
        TurnResponse Turn(Post post, int walk)
        {
            TransportPost[] of = [.. served.First(one => ReferenceEquals(one.Post, post)).Of.Order().Select(position => posts[position].Of)];
            return new(of, PostResponse.Of(post, of[0].Mark, places), walk);
        }

        return new()
        {
            SiteId = site.Plan.SiteId,
            AsOf = now,
            Transports = transports.Count,
            Posts = together.Length,
            FewestOfficers = deployment.Fewest,
            FewestApart = apart,
            Officers =
            [
                .. deployment.Officers.Select(officer => new OfficerTogetherResponse(officer.Number, officer.Start, [.. officer.Duties.Select(duty => Turn(duty.Post, duty.WalkSeconds))])),
            ],
            Unmanned = [.. deployment.Unmanned.Select(post => Turn(post, 0))],
            PeopleLikelyMet = deployment.PeopleLikelyMet,
            PeopleLikelyMetByOfficers = deployment.PeopleLikelyMetByOfficers,
            LeftOut = leftOut,
        };
    }
}
