using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Imports;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A place of the way, or the door behind it, with what the draft of the next version says and since when that is known.</summary>
/// <param name="Passage">Number of the door; null for the place itself.</param>
/// <param name="Place">Number of the place.</param>
/// <param name="Name">What it is, in words.</param>
/// <param name="Figure">The clear width of a door, or the air changes of a place, in words; null: unknown.</param>
/// <param name="Known">How and since when.</param>
/// <param name="Straight">How it is timed; null for a door, and where the way turns, climbs or is short.</param>
public sealed record WalkStep(string? Passage, string Place, string Name, string? Figure, string Known, StraightWalk? Straight = null);

/// <summary>
/// The doors and places of a way in the order in which one walks them, for a phone: clear widths are measured here and become corrections of the draft;
/// straight walks are timed and become the site's speed when a person confirms it.
/// </summary>
internal sealed class WalkModel(PlannerContext context, FloorPlanStore store, CorrectionDesk desk, TimeProvider time) : PageModel
{
    public const double MinCentimetres = 10;
    public const double MaxCentimetres = 5_000;

    public PlanResponse Plan { get; private set; } = null!;
    public RouteResponse Way { get; private set; } = null!;
    public FloorPlan FloorPlan { get; private set; } = null!;
    public IReadOnlyList<WalkStep> Steps { get; private set; } = [];
    public ImportReview? Draft { get; private set; }
    public string? Problem { get; private set; }
    public WalkSpeed Speed { get; private set; } = null!;

    /// <summary>Number of the crossing whose time was refused, and what was typed for it.</summary>
    public (int Crossing, string? Seconds)? Refused { get; private set; }

    /// <summary>The role that measures, kept from press to press.</summary>
    public string? By { get; private set; }

    public string Address => $"/plans/{Plan.Id}/walk?way={Way.Id}";

    public async Task<IActionResult> OnGetAsync(string id, string? way, string? by, CancellationToken cancellationToken)
    {
        if (await PlanStore.FindAsync(context, id, null, cancellationToken) is not { } plan || !store.TryFind(plan.SiteId, out var site))
        {
            return NotFound();
        }

        (Plan, Way, By) = (plan, await WayTaken.ReadAsync(context, plan, way, cancellationToken), by);
        Draft = await desk.FindAsync(plan.SiteId, cancellationToken);
        FloorPlan = Draft?.Plan ?? site.Plan;
        var local = TimeZoneInfo.ConvertTime(time.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(FloorPlan.TimeZone));
        Steps = [.. StepsOf(Way, FloorPlan, local)];
        Speed = await WalkSpeed.ReadAsync(context, plan.SiteId, DateOnly.FromDateTime(local.DateTime), cancellationToken);
        return Page();
    }

    /// <summary>The seconds of one straight walk.</summary>
    public async Task<IActionResult> OnPostTimeAsync(string id, string? way, int crossing, string? seconds, string? by, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(id, way, by?.Trim(), cancellationToken) is not PageResult)
        {
            return NotFound();
        }

        if (StraightWalk.Of(Way).FirstOrDefault(walk => walk.Crossing == crossing) is not { } straight)
        {
            Problem = "This way has no such walk: look at it again.";
            return Page();
        }

        Problem = await Speed.KeepAsync(straight, seconds, By, cancellationToken);
        Refused = Problem is null ? null : (crossing, seconds);
        return Problem is not null ? Page() : Redirect($"{Address}&by={Uri.EscapeDataString(By!)}#{Uri.EscapeDataString(straight.Place)}");
    }

    /// <summary>A time that was wrong goes; known by its place in the list and its words, so that another one there by then is left alone.</summary>
    public async Task<IActionResult> OnPostTakeAwayAsync(string id, string? way, int index, string words, string? by, CancellationToken cancellationToken) =>
        await OnGetAsync(id, way, by?.Trim(), cancellationToken) is PageResult ? await AfterAsync(Speed.TakeAwayAsync(index, words, By, cancellationToken)) : NotFound();

    /// <summary>The measured speed becomes the one that is planned with: a person says so, by role.</summary>
    public async Task<IActionResult> OnPostSpeedAsync(string id, string? way, string words, string? by, CancellationToken cancellationToken) =>
        await OnGetAsync(id, way, by?.Trim(), cancellationToken) is PageResult ? await AfterAsync(Speed.ConfirmAsync(words, By, cancellationToken)) : NotFound();

    private async Task<IActionResult> AfterAsync(Task<string?> change)
    {
        Problem = await change;
        return Problem is not null ? Page() : Redirect($"{Address}&by={Uri.EscapeDataString(By!)}#speed");
    }

    /// <summary>A width measured on the spot: a step of the draft of the next version, as a correction by hand is.</summary>
    public async Task<IActionResult> OnPostAsync(string id, string? way, string passage, string? centimetres, string? by, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(id, way, by?.Trim(), cancellationToken) is not PageResult || !store.TryFind(Plan.SiteId, out var site))
        {
            return NotFound();
        }

        var isFigure = double.TryParse(centimetres?.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var width);
        if (FloorPlan.Passages.FirstOrDefault(p => p.Id == passage) is not { } door)
        {
            Problem = $"The floor plan has no passage {passage}.";
        }
        else if (!isFigure || width is not (>= MinCentimetres and <= MaxCentimetres))
        {
            Problem = $"{passage}: give its clear width from 10 to 5,000 cm, leaf open.";
        }
        else if (!WalkSpeed.IsRole(By))
        {
            Problem = "Say who measures: a role of at most 80 characters, never a name.";
        }
        else
        {
            var today = TimeZoneInfo.ConvertTime(time.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(FloorPlan.TimeZone));
            IReadOnlyList<CorrectableProperty> properties = PlanCorrections.PropertiesOf(FloorPlan, PlanFeature.Passage, door.Id) ?? [];
            var before = properties.First(property => property.Name == "clearWidthMetres").Value;
            var step = new FactCorrection(
                PlanFeature.Passage, door.Id, "clearWidthMetres", (width / 100).ToString("0.###", CultureInfo.InvariantCulture), FormattableString.Invariant($"measured {today:yyyy-MM-dd}"), before);
            try
            {
                Problem = await desk.NoteAsync(site.Plan, Draft, step, By!, null, cancellationToken);
            }
            catch (DbUpdateException)
            {
                context.ChangeTracker.Clear();
                Problem = "Somebody corrected something at the same moment, so this was not taken: press again.";
            }
        }

        return Problem is not null ? Page() : Redirect($"{Address}&by={Uri.EscapeDataString(By!)}#{Uri.EscapeDataString(passage)}");
    }

    /// <summary>Address where anything else about it is corrected.</summary>
    public string Correct(WalkStep step) => CorrectionModel.AddressOf(Plan.SiteId, step.Passage is null ? PlanFeature.Place : PlanFeature.Passage, step.Passage ?? step.Place)
        + (By is null ? "" : $"?by={Uri.EscapeDataString(By)}");

    private static IEnumerable<WalkStep> StepsOf(RouteResponse way, FloorPlan plan, DateTimeOffset local)
    {
        var places = plan.Places.ToDictionary(place => place.Number);
        var passages = plan.Passages.ToDictionary(passage => passage.Id);
        string Known<T>(Fact<T> fact) where T : struct => fact.IsKnown ? $"{FloorPlanWords.Of(fact.Source)}, {FloorPlanWords.Aged(fact.AsOf, local)}" : "nobody has said";
        // A door joins two places: it stands once, behind the place from which one comes to it.
        HashSet<string> walked = [];
        var straight = StraightWalk.Of(way).ToDictionary(walk => walk.Place);
        foreach (var leg in way.Legs)
        {
            foreach (var place in leg.Places.Where(places.ContainsKey).Select(number => places[number]))
            {
                yield return new(null, place.Number, $"{place.Number} {place.Name}", place.AirChanges.IsKnown ? FloorPlanWords.Number(place.AirChanges.Value.PerHour, "0.##", "air changes per hour") : null, Known(place.AirChanges),
                    straight.GetValueOrDefault(place.Number));
                foreach (var door in leg.Doors.Where(door => passages.TryGetValue(door.Passage, out var found) && (found.From == place.Number || found.To == place.Number) && walked.Add(door.Passage)).Select(door => passages[door.Passage]))
                {
                    yield return new(door.Id, place.Number, $"{door.Id}, {FloorPlanWords.Of(door.Kind)}", door.ClearWidth.IsKnown ? $"{FloorPlanWords.Metres(door.ClearWidth.Value)} wide" : null, Known(door.ClearWidth));
                }
            }
        }
    }
}
