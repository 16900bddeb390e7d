using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A door, place or elevator of a way, as the team meets them.</summary>
public sealed record MetOnWay(ClosureTarget Target, string Id, string Words)
{
    public string Key => $"{Target}:{Id}";
}

/// <summary>From a plan's sheet: what on its way did not fit the floor plan. In three presses it becomes a map task.</summary>
internal sealed class ReportModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    /// <summary>What a team meets most often; other words may be typed.</summary>
    public static IReadOnlyList<string> Texts { get; } = ["did not open", "was blocked", "too narrow", "needed a key or badge", "is not there", "did not come"];

    public static IReadOnlyList<string> Roles { get; } = ["Transport nurse", "Respiratory therapist", "Clean helper", "Security", "Receiving nurse"];

    public PlanResponse Plan { get; private set; } = null!;
    public RouteResponse Way { get; private set; } = null!;
    public IReadOnlyList<MetOnWay> Met { get; private set; } = [];
    public string? Problem { get; private set; }
    public string? Notice { get; private set; }
    public MapTask? Kept { get; private set; }

    public async Task<IActionResult> OnGetAsync(string id, string? way, string? kept, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, null, cancellationToken) is not { } plan || !store.TryFind(plan.SiteId, out var site))
        {
            return NotFound();
        }

        (Plan, Way, Notice) = (plan, await WayTaken.ReadAsync(context, plan, way, cancellationToken), site.Plan.Notice);
        Met = [.. OnWay(Way, site.Plan).Where(met => Has(site.Plan, met)).DistinctBy(met => met.Key)];
        Kept = kept is null ? null : await context.MapTasks.FindAsync([kept], cancellationToken) is { } task && task.SiteId == plan.SiteId ? task : null;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string id, string? way, string? what, string? text, string? other, string? role, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(id, way, null, cancellationToken) is not PageResult || !store.TryFind(Plan.SiteId, out var site))
        {
            return NotFound();
        }

        var said = string.IsNullOrWhiteSpace(other) ? text : other.Trim();
        if (Met.FirstOrDefault(met => met.Key == what) is not { } chosen || said is not { Length: > 0 and <= 200 } || said.Any(char.IsControl) || role is null || !Roles.Contains(role))
        {
            Problem = "Choose what it was about and what happened, in at most 200 characters.";
            return Page();
        }

        var task = new MapTask
        {
            Id = RandomId.New(),
            SiteId = Plan.SiteId,
            Target = chosen.Target,
            TargetId = chosen.Id,
            Text = said,
            ReportedBy = role,
            ReportedAt = time.GetUtcNow(),
            FloorPlanVersion = site.Plan.Version,
        };
        context.Add(task);
        await context.SaveChangesAsync(cancellationToken);
        return Redirect($"/plans/{Plan.Id}/report?way={Way.Id}&kept={task.Id}");
    }

    /// <summary>Places, doors and elevators in the order in which the team meets them.</summary>
    private static IEnumerable<MetOnWay> OnWay(RouteResponse way, FloorPlan plan)
    {
        var names = plan.Places.ToDictionary(place => place.Number, place => place.Name);
        foreach (var leg in way.Legs)
        {
            if (leg.Elevator is { } ride)
            {
                yield return new(ClosureTarget.Elevator, ride.Elevator, ride.Name);
                continue;
            }

            foreach (var place in leg.Places)
            {
                yield return new(ClosureTarget.Place, place, $"{place} {names.GetValueOrDefault(place)}");
                foreach (var door in leg.Doors.Where(door => plan.Passages.Any(p => p.Id == door.Passage && (p.From == place || p.To == place))))
                {
                    yield return new(ClosureTarget.Passage, door.Passage, $"{PlanWords.Of(door)}");
                }
            }
        }
    }

    private static bool Has(FloorPlan plan, MetOnWay met) => met.Target switch
    {
        ClosureTarget.Place => plan.Places.Any(p => p.Number == met.Id),
        ClosureTarget.Passage => plan.Passages.Any(p => p.Id == met.Id),
        _ => plan.Elevators.Any(e => e.Id == met.Id),
    };
}
