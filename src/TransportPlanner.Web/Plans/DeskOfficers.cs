using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One turn of an officer who serves several transports.</summary>
/// <param name="Marks">The posts as the desk marks them; several where one officer serves transports at the same door.</param>
/// <param name="Post">Where and when.</param>
/// <param name="WalkSeconds">The walk to it; 0 for a first post without a starting place.</param>
internal sealed record DeskDuty(IReadOnlyList<string> Marks, PostResponse Post, int WalkSeconds);

/// <summary>One officer's turns among all transports.</summary>
internal sealed record DeskOfficer(int Number, string? Start, IReadOnlyList<DeskDuty> Duties);

/// <summary>The officers for all transports of today together: one list of posts, manned by the fewest, or by the best use of those there are.</summary>
internal sealed record DeskOfficers
{
    /// <summary>Posts of more transports than this are left out, so that the answer comes at once: the transports that leave last.</summary>
    public const int MostPosts = 180;

    /// <summary>What each plan counts for itself, added up.</summary>
    public required int Apart { get; init; }

    /// <summary>The fewest that man every post of all of them. Exact.</summary>
    public required int Fewest { get; init; }

    public required int PostCount { get; init; }
    public required IReadOnlyList<DeskOfficer> Officers { get; init; }
    public required IReadOnlyList<DeskDuty> Unmanned { get; init; }

    /// <summary>People expected to come through the unmanned posts: a mean, not a prediction.</summary>
    public required double PeopleLikelyMet { get; init; }

    /// <summary>The same for the best use of 0, 1, 2 … officers; empty where starts were given.</summary>
    public required IReadOnlyList<double> PeopleLikelyMetByOfficers { get; init; }

    /// <summary>Call-signs of transports whose posts are not in it, each with the reason.</summary>
    public required IReadOnlyList<string> LeftOut { get; init; }

    public static async Task<DeskOfficers> OfAsync(
        PlannerContext context, FloorPlanSnapshot site, IReadOnlyList<DeskTransport> transports, OfficersGiven? given, CancellationToken cancellationToken)
    {
        var settings = PlanMaker.PostSettingsOf(await SiteSettings.ReadAsync(context, site.Plan.SiteId, cancellationToken));
        List<string> leftOut = [];
        List<(string Mark, Post Post)> posts = [];
        var apart = 0;
        foreach (var (index, transport) in transports.Index())
        {
            var why = transport.Plan.Routes.FloorPlanVersion != site.Plan.Version ? $"made on floor plan {transport.Plan.Routes.FloorPlanVersion}"
                : transport.PostsAtGo is not { } own ? "made before posts were planned"
                : posts.Count + own.Posts.Count > MostPosts ? $"more than {MostPosts} posts in all"
                : null;
            if (why is not null)
            {
                leftOut.Add($"{transport.Plan.CallSign}: {why}");
                continue;
            }

            apart += transport.Posts!.FewestOfficers;
            posts.AddRange(transport.PostsAtGo!.Posts.Select(post => (DeskModel.Mark(index + 1, post.Id), post.ToPost())));
        }

        var together = Post.Together(posts.Select(one => one.Post));
        var (first, last) = together.IsEmpty ? default : (together.Min(post => post.Window.From), together.Max(post => post.Window.To));
        var closures = together.IsEmpty ? [] : await context.Closures.AsNoTracking()
            .Where(closure => closure.SiteId == site.Plan.SiteId && closure.To > first && closure.From < last).ToListAsync(cancellationToken);
        var walks = FootWalks.Around(site.Graph, settings, closures.Select(closure => closure.ToClosure()));
        var deployment = Deployment.Of(together, walks, settings, given);
        var places = site.Plan.Places.ToDictionary(place => place.Number);
        DeskDuty Duty(Post post, int walk)
        {
            List<string> marks = [.. posts.Where(one => one.Post.Passage == post.Passage && one.Post.Place == post.Place && one.Post.Window.From >= post.Window.From && one.Post.Window.To <= post.Window.To).Select(one => one.Mark)];
            return new(marks, PostResponse.Of(post, marks[0], places), walk);
        }

        return new()
        {
            Apart = apart,
            Fewest = deployment.Fewest,
            PostCount = together.Length,
            Officers = [.. deployment.Officers.Select(officer => new DeskOfficer(officer.Number, officer.Start, [.. officer.Duties.Select(duty => Duty(duty.Post, duty.WalkSeconds))]))],
            Unmanned = [.. deployment.Unmanned.Select(post => Duty(post, 0))],
            PeopleLikelyMet = deployment.PeopleLikelyMet,
            PeopleLikelyMetByOfficers = deployment.PeopleLikelyMetByOfficers,
            LeftOut = leftOut,
        };
    }
}
