using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.WebUtilities;
using TransportPlanner.Core.FloorPlans;
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
    Route,
    PlanB,
    FloorPlans,
    Gas,
    Kit,
    Wear,

    /// <summary>The whole for the duty desk, then a card for each officer.</summary>
    Posts,
    Afterwards,

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

    /// <summary>What is held on the way; null in a version that was made before posts were planned.</summary>
    public RoutePostsResponse? Posts => Plan.Posts.FirstOrDefault(posts => posts.Route == Way.Id);
    public IEnumerable<PostCard> PostCards =>
        Posts is { } posts ? posts.Officers.Select(officer => new PostCard(posts, officer, Plan.Routes.DepartAt, Plan.TimeZone)) : [];
    public string? Notice { get; private set; }
    public bool IsVoid { get; private set; }
    public IReadOnlyList<LevelDrawing> Drawings { get; private set; } = [];

    /// <summary>The one part that is asked for, or null for all of them.</summary>
    public SheetPart? Only { get; private set; }

    private int? Version { get; set; }

    public string ExposureLabel =>
        Plan.Precautions.Contains(Precaution.Airborne) ? "shared air and close by, person-minutes"
        : Plan.Precautions.Contains(Precaution.Droplet) ? "close by, person-minutes"
        : "touch points on the way";

    /// <summary>Ways are planned to expose the fewest people; a person picks another by its letter.</summary>
    public static RouteResponse FirstRead(PlanResponse plan) =>
        plan.Routes.Routes.FirstOrDefault(r => r.Reasons.Contains("least-exposed")) ?? plan.Routes.Routes[0];

    public bool Shows(SheetPart part) => Only is null || Only == part;

    /// <summary>This sheet with another part or another way; an older version stays that version.</summary>
    public string Address(SheetPart? part, string? way = null) =>
        QueryHelpers.AddQueryString($"/plans/{Plan.Id}", new Dictionary<string, string?>
        {
            ["way"] = way ?? Way.Id,
            ["version"] = Version?.ToString(CultureInfo.InvariantCulture),
            ["only"] = part?.ToString(),
        }.Where(parameter => parameter.Value is not null));

    public async Task<IActionResult> OnGetAsync(string id, string? way, int? version, SheetPart? only, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, version, cancellationToken) is not { } plan)
        {
            return NotFound();
        }

        Plan = plan;
        Version = version;
        Only = only;
        Way = plan.Routes.Routes.FirstOrDefault(r => r.Id == way) ?? FirstRead(plan);
        IsVoid = time.GetUtcNow() > plan.VoidAfter;
        if (store.TryFind(plan.SiteId, out var site))
        {
            Notice = site.Plan.Notice;
            Drawings = site.Plan.Version == plan.Routes.FloorPlanVersion ? Draw(site.Plan) : [];
        }

        return Page();
    }

    private List<LevelDrawing> Draw(FloorPlan floorPlan)
    {
        var crossed = Way.Legs.SelectMany(leg => leg.Places).ToHashSet();
        var instant = TimeZoneInfo.ConvertTime(Plan.Routes.DepartAt, TimeZoneInfo.FindSystemTimeZoneById(floorPlan.TimeZone));
        var marks = floorPlan.Places
            .Where(p => crossed.Contains(p.Number) && p.Number != Plan.From && p.Number != Plan.To && p.Occupancy is not null)
            .Select(p => (p.Number, People: p.Occupancy!.At(instant.DayOfWeek, TimeOnly.FromTimeSpan(instant.TimeOfDay))))
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
