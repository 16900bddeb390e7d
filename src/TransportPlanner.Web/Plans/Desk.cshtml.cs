using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;

namespace TransportPlanner.Web.Plans;

/// <summary>One screen for the duty desk: every transport of the next hours, where it goes, who stands where, who has answered, and whether go is given.</summary>
internal sealed class DeskModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public FloorPlan Site { get; private set; } = null!;
    public DateTimeOffset AsOf { get; private set; }
    public IReadOnlyList<DeskTransport> Transports { get; private set; } = [];
    /// <summary>Where two of them come upon each other, by the ways that are shown.</summary>
    public IReadOnlyList<DeskOverlap> Overlaps { get; private set; } = [];

    /// <summary>Posts of all transports in one list.</summary>
    public IReadOnlyList<DeskPost> Posts { get; private set; } = [];

    /// <summary>The list is read by officer; else by time.</summary>
    public bool IsByOfficer { get; private set; }
    public string Address => $"/desk/{Site.SiteId}{(IsByOfficer ? "?by=officer" : "")}";
    public RoleTitles Titles { get; private set; } = null!;

    /// <summary>Levels that a way crosses, each drawn once with all ways and posts of them.</summary>
    public IReadOnlyList<LevelDrawing> Drawings { get; private set; } = [];

    public string Clock(DateTimeOffset instant) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(Site.TimeZone)).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    public async Task<IActionResult> OnGetAsync(string? site, string? by, CancellationToken cancellationToken)
    {
        if ((site is null ? store.Default : store.TryFind(site, out var found) ? found : null) is not { } here)
        {
            return NotFound();
        }

        (Site, AsOf) = (here.Plan, time.GetUtcNow());
        Titles = new(await SiteSettings.ReadAsync(context, Site.SiteId, cancellationToken));
        Transports = await TransportBoard.ListAsync(context, here, AsOf, cancellationToken);
        Overlaps = await DeskOverlap.OfAsync(context, store, Transports, cancellationToken);
        (IsByOfficer, Posts) = (by == "officer", DeskPost.Of(Transports, by == "officer"));
        Drawings = [.. Draw()];
        return Page();
    }

    /// <summary>As drawn beside the way: the number of the transport, a point, the number of the post.</summary>
    public static string Mark(int transport, string post) => $"{transport}.{post[1..]}";

    private IEnumerable<LevelDrawing> Draw()
    {
        // A plan that was made on another floor plan is not drawn on this one.
        var drawn = Transports.Index().Where(one => one.Item.Plan.Routes.FloorPlanVersion == Site.Version).ToList();
        var marks = drawn
            .SelectMany(one => one.Item.Posts?.Posts.Select(post => (post.Place, Mark: Mark(one.Index + 1, post.Id))) ?? [])
            .GroupBy(mark => mark.Place)
            .ToDictionary(place => place.Key, place => place.First().Mark + (place.Count() > 1 ? "+" : ""));
        return
            from path in drawn.SelectMany(one => one.Item.Way.Paths)
            group path by path.Level into level
            orderby level.Key
            select new LevelDrawing(Site, level.Key)
            {
                Way = [.. level.Select(path => path.Points)],
                Marks = marks,
                Picked = drawn.SelectMany(one => new[] { one.Item.Plan.From, one.Item.Plan.To }).ToHashSet(),
                Description = $"Floor plan of level {level.Key} with the ways and posts of all transports; the same stands in the tables above.",
            };
    }
}
