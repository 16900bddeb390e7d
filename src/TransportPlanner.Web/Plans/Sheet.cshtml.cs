using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.WebUtilities;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>What one person takes along: each part prints on a page of its own.</summary>
public enum SheetPart
{
    Ways,

    /// <summary>Two transports at once; nothing where the way comes upon none.</summary>
    Overlaps,
    Route,
    PlanB,
    FloorPlans,
    Gas,
    Batteries,

    /// <summary>Counted back from go, and on from it.</summary>
    Timeline,

    /// <summary>Whom to call, and what to say.</summary>
    Calls,
    Kit,
    Wear,

    /// <summary>The whole for the duty desk, then a card for each officer.</summary>
    Posts,
    Afterwards,

    /// <summary>How time, people and shared air come about, place by place.</summary>
    Working,

    /// <summary>What is assumed, what the rules say beside their lists, and the cautions.</summary>
    Basis,
}

/// <summary>The plan as a sheet: the same column that the printer gives.</summary>
internal sealed class SheetModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public const string Why = "why it is here";

    /// <summary>Rows of the table of ways: one measure each, so that the ways stand side by side on a phone and on paper.</summary>
    public static IReadOnlyList<(string Measure, Func<RouteResponse, string> Figure)> Measures { get; } =
    [
        ("usually, min:s", r => PlanWords.Clock(r.UsualSeconds)),
        ("nearly always, min:s", r => PlanWords.Clock(r.NearlyAlwaysSeconds)),
        ("people likely met", r => PlanWords.Count(r.PeopleLikelyMet)),
        ("shared air, min", r => PlanWords.Count(r.Exposure.SharedAirMinutes)),
        ("close by, min", r => PlanWords.Count(r.Exposure.CloseByMinutes)),
        ("touches", r => PlanWords.Count(r.Exposure.Touches)),
        ("doors", r => PlanWords.Count(PlanWords.Doors(r))),
        ("elevators", r => PlanWords.Count(r.Elevators.Count)),
        ("handling", r => PlanWords.Count(r.Handling)),
        ("cold, min", r => PlanWords.Count(r.ColdMinutes)),
        (Why, r => string.Join(", ", r.Reasons.Select(PlanWords.Reason)) + (r.HasUnknown ? "; has unknown limits" : "")),
    ];

    public PlanResponse Plan { get; private set; } = null!;
    public RouteResponse Way { get; private set; } = null!;

    /// <summary>The way that calls, desk and officers' lists speak of.</summary>
    public RouteResponse Taken { get; private set; } = null!;

    /// <summary>What is held on the way, moved with go; null in a version that was made before posts were planned.</summary>
    public RoutePostsResponse? Posts => Timeline.Posts;
    public IEnumerable<PostCard> PostCards =>
        Posts is { } posts ? PostCard.Of(posts, Timeline, Timeline.Titles, null) : [];
    public BatterySheet Batteries => new(Plan.Batteries, Plan.BatteriesByRoute.FirstOrDefault(batteries => batteries.Route == Way.Id));

    /// <summary>Where the way shown comes upon other transports; null where it does not.</summary>
    public RouteOverlapsResponse? Overlaps => Plan.Overlaps.FirstOrDefault(overlaps => overlaps.Route == Way.Id);
    public string? Notice { get; private set; }
    public bool IsVoid { get; private set; }

    /// <summary>What replaced this version; null where it is the newest.</summary>
    public NewerVersion? Newer { get; private set; }
    public IReadOnlyList<LevelDrawing> Drawings { get; private set; } = [];

    /// <summary>What was taken out of use on the ways of this plan since it was made.</summary>
    public IReadOnlyList<ClosedOnWay> Closed { get; private set; } = [];

    /// <summary>A letter that was asked for and is no way of this version.</summary>
    public string? UnknownWay { get; private set; }

    /// <summary>The one part that is asked for, or null for all of them.</summary>
    public SheetPart? Only { get; private set; }

    /// <summary>How old the facts are on which the way rests; null where a newer floor plan is in force.</summary>
    public WayAges? Ages { get; private set; }

    /// <summary>Flags of the places by number; empty where a newer floor plan is in force.</summary>
    public IReadOnlyDictionary<string, PlaceFlags> Flags { get; private set; } = new Dictionary<string, PlaceFlags>();

    /// <summary>At the tempo that was asked for, else urgent where the team leaves now.</summary>
    public TimelineSheet Timeline { get; private set; } = null!;

    /// <summary>What was asked for instead of a sheet; null where it is one, or none was.</summary>
    public string? UnknownSheet { get; private set; }

    private int? Version { get; set; }
    private Tempo? GivenTempo { get; set; }

    public string ExposureLabel =>
        Plan.Precautions.Contains(Precaution.Airborne) ? "shared air and close by, person-minutes"
        : Plan.Precautions.Contains(Precaution.Droplet) ? "close by, person-minutes"
        : "touch points on the way";

    /// <summary>Ways are planned to expose the fewest people; a person picks another by its letter.</summary>
    public static RouteResponse FirstRead(PlanResponse plan) =>
        plan.Routes.Routes.FirstOrDefault(r => r.Reasons.Contains("least-exposed")) ?? plan.Routes.Routes[0];

    public bool Shows(SheetPart part) => Only is null || Only == part;

    /// <summary>This sheet with another part or another way; an older version stays that version.</summary>
    public string Address(SheetPart? part, string? way = null, Tempo? tempo = null) =>
        QueryHelpers.AddQueryString($"/plans/{Plan.Id}", new Dictionary<string, string?>
        {
            ["way"] = way ?? Way.Id,
            ["version"] = Version?.ToString(CultureInfo.InvariantCulture),
            ["only"] = part?.ToString(),
            ["tempo"] = (tempo ?? GivenTempo)?.ToString(),
        }.Where(parameter => parameter.Value is not null));

    /// <summary>The cards of this version and way, one for each person.</summary>
    public string PackAddress => QueryHelpers.AddQueryString($"/plans/{Plan.Id}/pack", new Dictionary<string, string?>
    {
        ["way"] = Way.Id,
        ["version"] = Version?.ToString(CultureInfo.InvariantCulture),
        ["tempo"] = GivenTempo?.ToString(),
    }.Where(parameter => parameter.Value is not null));

    public async Task<IActionResult> OnGetAsync(string id, string? way, int? version, SheetPart? only, Tempo? tempo, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, version, cancellationToken) is not { } plan)
        {
            return NotFound();
        }

        Plan = await PlanOverlaps.AddAsync(context, store, plan, cancellationToken);
        Version = version;
        (Only, UnknownSheet) = (only, PlanWords.NotRead(this, "only"));
        GivenTempo = tempo;
        var taken = await WayTaken.ReadAsync(context, plan, null, cancellationToken);
        Way = plan.Routes.Routes.FirstOrDefault(r => r.Id == way) ?? taken;
        // Of an older version nobody speaks any more.
        Taken = version is null ? taken : Way;
        UnknownWay = way is not null && Way.Id != way ? way : null;
        IsVoid = time.GetUtcNow() > plan.VoidAfter;
        Newer = await NewerVersion.OfAsync(context, plan, cancellationToken);
        if (store.TryFind(plan.SiteId, out var site))
        {
            Notice = site.Plan.Notice;
            Drawings = site.Plan.Version == plan.Routes.FloorPlanVersion ? Draw(site.Plan) : [];
            Flags = site.Plan.Version == plan.Routes.FloorPlanVersion ? site.Plan.Places.ToDictionary(place => place.Number, place => place.Flags) : Flags;
            Ages = site.Plan.Version == plan.Routes.FloorPlanVersion
                ? WayAges.Of(plan, Way, site.Plan, await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken), time.GetUtcNow()) : null;
            Closed = await ClosedWays.OnAsync(context, plan, site.Plan, cancellationToken);
        }

        var titles = new RoleTitles(await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken));
        Timeline = new(plan, Way, tempo ?? TimelineSheet.TempoOf(plan), titles, PlaceNames.Of(plan, site));

        return Page();
    }

    private List<LevelDrawing> Draw(FloorPlan floorPlan)
    {
        var crossed = Way.Legs.SelectMany(leg => leg.Places).ToHashSet();
        var instant = TimeZoneInfo.ConvertTime(Plan.Routes.DepartAt, TimeZoneInfo.FindSystemTimeZoneById(floorPlan.TimeZone));
        var people = Way.Crossings.GroupBy(crossing => crossing.Place).ToDictionary(same => same.Key, same => same.First().People);
        var marks = floorPlan.Places
            .Where(p => crossed.Contains(p.Number) && p.Number != Plan.From && p.Number != Plan.To && p.Occupancy is not null)
            .Select(p => (p.Number, People: people.TryGetValue(p.Number, out var met) ? met : p.Occupancy!.At(instant.DayOfWeek, TimeOnly.FromTimeSpan(instant.TimeOfDay))))
            .Where(p => p.People >= 0.05)
            .ToDictionary(p => p.Number, p => PlanWords.Count(Math.Round(p.People, 1)));
        return
        [
            .. Way.Paths.GroupBy(p => p.Level).Select(paths => new LevelDrawing(floorPlan, paths.Key)
            {
                Way = [.. paths.Select(p => p.Points)],
                Marks = marks,
                Picked = new HashSet<string> { Plan.From, Plan.To },
                Description = $"Floor plan of level {paths.Key} with way {Way.Id} drawn; the same way is written leg by leg above.",
            }),
        ];
    }
}
