using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>For security, when more than one transport runs: how few officers man the posts of all of them, or what those there are do best.</summary>
internal sealed class OfficersModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public FloorPlan Site { get; private set; } = null!;
    public DateTimeOffset AsOf { get; private set; }
    public OfficersTogetherResponse Together { get; private set; } = null!;
    public IReadOnlyList<DeskTransport> Transports { get; private set; } = [];
    public RoleTitles Titles { get; private set; } = null!;
    private string? SecurityContact { get; set; }

    /// <summary>As typed, so that nothing is lost.</summary>
    public string? Count { get; private set; }

    /// <summary>As typed: numbers of places between commas.</summary>
    public string? Starts { get; private set; }

    /// <summary>What was not taken, by field; the lists then hold for as many officers as it takes.</summary>
    public (string Field, string Words)? Problem { get; private set; }

    public string Clock(DateTimeOffset instant) => PostsWords.Time(instant, Site.TimeZone);

    /// <summary>From then on the plan of one more of the transports no longer counts: deal out again. Null where none is in force.</summary>
    public DateTimeOffset? VoidAfter => Transports.Where(transport => !transport.IsVoid).Select(transport => (DateTimeOffset?)transport.Plan.VoidAfter).Min();

    public IEnumerable<PostCard> Cards => Together.Posts == 0 ? [] : Together.Officers.Select(officer => new PostCard
    {
        Number = officer.Number,
        Count = Together.Officers.Count,
        Start = officer.Start,
        Turns = [.. officer.Turns.Select(Turn)],
        CountsFrom = PackText.Html(PackTexts.OfficersCountsFrom),
        TimeZone = Site.TimeZone,
        Security = Titles.Security,
        Contact = SecurityContact,
    });

    public static string Why(LeftOutReason reason) => reason switch
    {
        LeftOutReason.OtherFloorPlan => PackTexts.OfficersOtherFloorPlan,
        LeftOutReason.NoPosts => PackTexts.OfficersNoPosts,
        _ => PackText.Of(PackTexts.OfficersTooManyPosts, OfficersTogether.MostPosts),
    };

    public static string Marks(TurnResponse turn) => string.Join(", ", turn.Of.Select(of => of.Mark));

    public async Task<IActionResult> OnGetAsync(string? site, string? count, string? starts, CancellationToken cancellationToken)
    {
        if ((site is null ? store.Default : store.TryFind(site, out var found) ? found : null) is not { } here)
        {
            return NotFound();
        }

        (Site, AsOf, Count, Starts) = (here.Plan, time.GetUtcNow(), count?.Trim(), starts?.Trim());
        var settings = await SiteSettings.ReadAsync(context, Site.SiteId, cancellationToken);
        (Titles, SecurityContact) = (new(settings), settings.Get(PackSettings.SecurityContact));
        Transports = await TransportBoard.ListAsync(context, here, AsOf, cancellationToken);
        Together = await OfficersTogether.DealAsync(context, here, Transports, Given(), AsOf, cancellationToken);
        return Page();
    }

    private PostTurn Turn(TurnResponse turn)
    {
        var of = turn.Of.Select(post => Transports.First(transport => transport.Plan.Id == post.PlanId)).Distinct().ToList();
        var whose = PackText.Of(PackTexts.OfficersFor, string.Join(", ", turn.Of.Select(post => $"{post.CallSign} ({post.Mark})")));
        // Where one of them captures the car or asks people to leave, the officer does it for all. A door that two transports need has no go of its own.
        var posts = of.Select(transport => transport.PostsAtGo!).OrderByDescending(own => turn.Post.Kind == PostKind.Elevator
            ? own.Elevators.Any(car => car.LandingDoor == turn.Post.Passage)
            : own.Held.Any(held => held.Place == turn.Post.Place && held.Cleared)).First();
        return PostTurn.Of(turn.Post, turn.WalkSeconds, posts, of.Count == 1 ? of[0].Go : null, AsOf) with { For = whose };
    }

    private OfficersGiven? Given()
    {
        string[] places = [.. (Starts ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];
        int? count = int.TryParse(Count, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
        (var given, Problem) = count is null && !string.IsNullOrEmpty(Count) ? (null, ("count", OfficersTogether.WholeNumber)) : OfficersTogether.Read(Site, count, places, AsOf);
        return given;
    }
}
