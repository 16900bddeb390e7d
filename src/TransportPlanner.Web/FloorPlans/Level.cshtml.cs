using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>A closure as the page tells it: what is closed, why, until when, and which planned transports it touches.</summary>
public sealed record ClosureWords(ClosureTarget Target, string TargetId, string Words, bool InForce, IReadOnlyList<TouchedTransport> Touches);

/// <summary>One level of a site as a drawing and as a table of the same facts, and one place of it.</summary>
internal sealed class LevelModel(FloorPlanStore store, PlannerContext context, TouchedTransports touched, TimeProvider time) : PageModel
{
    private DateTimeOffset _now;

    /// <summary>What was typed to find a place.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    public FloorPlan Plan { get; private set; } = null!;
    public IReadOnlyCollection<FloorPlan> Sites => [.. store.Sites.Select(site => site.Plan)];
    public Level Level { get; private set; } = null!;

    /// <summary>The place that was picked, or null.</summary>
    public Place? Place { get; private set; }

    /// <summary>The elevator whose car was picked, or null.</summary>
    public Elevator? Elevator { get; private set; }

    /// <summary>Places that the typed text could mean, where it is not exactly one.</summary>
    public IReadOnlyList<Place>? Candidates { get; private set; }
    public LevelDrawing Drawing { get; private set; } = null!;

    /// <summary>Closures that touch this level and have not ended, the earliest first.</summary>
    public IReadOnlyList<ClosureWords> Closures { get; private set; } = [];

    /// <summary>Now, in the site's time.</summary>
    public DateTimeOffset LocalNow { get; private set; }

    public IReadOnlyList<Place> Places => [.. Plan.Places.Where(place => place.Level == Level.Id).OrderBy(place => place.Number, StringComparer.Ordinal)];
    public IReadOnlyList<Elevator> Elevators => [.. Plan.Elevators.Where(elevator => elevator.Stops.Any(stop => stop.Level == Level.Id))];

    public async Task<IActionResult> OnGetAsync(string? site, string? level, string? place, CancellationToken cancellationToken)
    {
        FloorPlanSnapshot? snapshot;
        if (site is null ? (snapshot = store.Default) is null : !store.TryFind(site, out snapshot))
        {
            return NotFound();
        }

        Plan = snapshot.Plan;
        (level, place) = (PathNumber.Of(level, Plan.Levels.Select(l => l.Id)), PathNumber.Of(place, Plan.Places.Select(p => p.Number)));
        if (level is null)
        {
            return Redirect(Address(FirstLevel(Plan)));
        }

        if (Plan.Levels.FirstOrDefault(l => l.Id == level) is not { } shown)
        {
            return NotFound();
        }

        Level = shown;
        if (!string.IsNullOrWhiteSpace(Find))
        {
            Candidates = PlaceFinder.Find(Plan, Find);
            if (Candidates is [var found])
            {
                return Redirect(Address(found.Level ?? Level.Id, found.Number));
            }
        }

        if (place is not null)
        {
            Place = Plan.Places.FirstOrDefault(p => p.Number == place && (p.Level is null || p.Level == Level.Id));
            if (Place is null)
            {
                return NotFound();
            }

            Elevator = Plan.Elevators.FirstOrDefault(elevator => elevator.Car == Place.Number);
        }

        _now = time.GetUtcNow();
        LocalNow = TimeZoneInfo.ConvertTime(_now, TimeZoneInfo.FindSystemTimeZoneById(Plan.TimeZone));
        var open = await context.Closures.AsNoTracking().Where(c => c.SiteId == Plan.SiteId && c.To > _now).OrderBy(c => c.From).ToListAsync(cancellationToken);
        var touching = Draw([.. open.Select(c => c.ToClosure())]);
        var closures = new List<ClosureWords>();
        foreach (var closure in touching)
        {
            closures.Add(new(closure.Target, closure.TargetId, Words(closure), closure.From <= _now, await touched(context, Plan, closure, _now, cancellationToken)));
        }

        Closures = closures;
        return Page();
    }

    /// <summary>Doors of the picked place, which may be out of use by themselves.</summary>
    public IReadOnlyList<Passage> Doors => [.. Plan.Passages.Where(passage => passage.From == Place?.Number || passage.To == Place?.Number)];

    /// <summary>Doors of the picked place that are out of use now.</summary>
    public IEnumerable<ClosureWords> ClosedDoors => Closures.Where(c => c is { Target: ClosureTarget.Passage, InForce: true } && Doors.Any(door => door.Id == c.TargetId));

    /// <summary>The room on the other side of one of its doors.</summary>
    public string Behind(Passage door) => door.From == Place!.Number ? door.To : door.From;

    /// <summary>How long a place or a car is out of use when somebody presses the button on the spot, in hours.</summary>
    public static IReadOnlyList<int> ClosureHours { get; } = [1, 4, 12, 24];

    /// <summary>Roles that may say so on the spot; a name is never kept.</summary>
    public static IReadOnlyList<string> ClosureRoles { get; } = ["Charge nurse", "Facilities", "Environmental services", "Security", "Infection prevention"];

    public static IReadOnlyList<string> ClosureReasons { get; } = ["Cleaning", "Repair", "Blocked", "Does not work"];

    /// <summary>Takes the picked place, the elevator whose car it is, or one of its doors out of use from now on; it ends by itself.</summary>
    public async Task<IActionResult> OnPostCloseAsync(
        string site, string level, string place, int hours, string reason, string role, string? door, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, level, place, cancellationToken) is not PageResult || Place is null)
        {
            return NotFound();
        }

        if ((door is not null && Doors.All(d => d.Id != door)) || !ClosureHours.Contains(hours) || !ClosureReasons.Contains(reason) || !ClosureRoles.Contains(role))
        {
            return BadRequest();
        }

        context.Add(new SiteClosure
        {
            Id = RandomId.New(),
            SiteId = Plan.SiteId,
            Target = door is not null ? ClosureTarget.Passage : Elevator is null ? ClosureTarget.Place : ClosureTarget.Elevator,
            TargetId = door ?? Elevator?.Id ?? Place.Number,
            From = _now,
            To = _now.AddHours(hours),
            Reason = reason,
            Source = role,
        });
        await context.SaveChangesAsync(cancellationToken);
        return Redirect($"{Address(Level.Id, Place.Number)}#place");
    }

    /// <summary>Ends what is in force for the picked place, for the elevator whose car it is, or for one of its doors; a closure that begins later stays.</summary>
    public async Task<IActionResult> OnPostReopenAsync(string site, string level, string place, string? door, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, level, place, cancellationToken) is not PageResult || Place is null)
        {
            return NotFound();
        }

        var (now, car, number) = (_now, door is null ? Elevator?.Id : null, door is null ? Place.Number : null);
        context.RemoveRange(await context.Closures
            .Where(c => c.SiteId == Plan.SiteId && c.From <= now && c.To > now
                && ((c.Target == ClosureTarget.Place && c.TargetId == number) || (c.Target == ClosureTarget.Elevator && c.TargetId == car)
                    || (c.Target == ClosureTarget.Passage && c.TargetId == door)))
            .ToListAsync(cancellationToken));
        await context.SaveChangesAsync(cancellationToken);
        return Redirect(Address(Level.Id, Place.Number));
    }

    public string Address(string level, string? place = null) =>
        $"/floor-plan/{Uri.EscapeDataString(Plan.SiteId)}/{Uri.EscapeDataString(level)}" + (place is null ? "" : $"/{Uri.EscapeDataString(place)}");

    /// <summary>Address of the page where a place, passage or elevator is corrected.</summary>
    public string Correct(string feature, string number) => $"/corrections/{Uri.EscapeDataString(Plan.SiteId)}/{feature}/{Uri.EscapeDataString(number)}";

    /// <summary>Facts of the picked place, and of the elevator whose car it is.</summary>
    public IEnumerable<FactRow> Facts() =>
        PlaceFacts.Of(Place!, Plan, LocalNow).Concat(Elevator is null ? [] : PlaceFacts.Of(Elevator, Plan, LocalNow));

    /// <summary>Ways out of the picked place, with the place that each leads to.</summary>
    public IEnumerable<(Passage Passage, Place To)> Passages() =>
        from passage in Plan.Passages
        where passage.From == Place!.Number || passage.To == Place.Number
        let other = passage.From == Place!.Number ? passage.To : passage.From
        select (passage, Plan.Places.First(p => p.Number == other));

    /// <summary>Mean people of today's 24 hours; empty where unknown.</summary>
    public IEnumerable<(int Hour, double People)> Hours() => Place!.Occupancy is not { } profile
        ? []
        : Enumerable.Range(0, 24).Select(hour => (hour, Enumerable.Range(0, 4).Average(quarter => profile.At(LocalNow.DayOfWeek, new(hour, quarter * 15)))));

    public string PeopleNow(Place place) =>
        place.Occupancy is { } profile ? FloorPlanWords.People(profile.At(LocalNow.DayOfWeek, TimeOnly.FromDateTime(LocalNow.DateTime))) : "unknown";

    /// <summary>Where journeys begin: the lowest level with a delivery room, else the lowest of all.</summary>
    private static string FirstLevel(FloorPlan plan)
    {
        var levels = plan.Levels.OrderBy(level => level.ElevationMetres).ToList();
        return (levels.Find(level => plan.Places.Any(p => p.Level == level.Id && p.Kind == PlaceKind.DeliveryRoom)) ?? levels[0]).Id;
    }

    /// <summary>Draws the level and gives the closures that touch it, in their order.</summary>
    private List<Closure> Draw(IReadOnlyList<Closure> open)
    {
        var here = Places.Select(place => place.Number).ToHashSet();
        var passages = Plan.Passages.Where(passage => here.Contains(passage.From) || here.Contains(passage.To)).Select(passage => passage.Id).ToHashSet();
        var cars = Elevators.ToDictionary(elevator => elevator.Id, elevator => elevator.Car);
        var touching = open.Where(closure => closure.Target switch
        {
            ClosureTarget.Place => here.Contains(closure.TargetId) || cars.ContainsValue(closure.TargetId),
            ClosureTarget.Passage => passages.Contains(closure.TargetId),
            ClosureTarget.Elevator => cars.ContainsKey(closure.TargetId),
            _ => throw new ArgumentOutOfRangeException(nameof(open), closure.Target, "No words for this target."),
        }).ToList();
        var inForce = touching.Where(closure => closure.From <= _now).ToList();
        Drawing = new(Plan, Level.Id)
        {
            Description = $"{Level.Name}: {here.Count} places as links, north at the top. The table below has the same places.",
            Picked = Place is null ? new HashSet<string>() : new HashSet<string> { Place.Number },
            Address = number => Address(Level.Id, number),
            Closed = inForce.Where(c => c.Target != ClosureTarget.Passage)
                .GroupBy(c => c.Target == ClosureTarget.Elevator ? cars[c.TargetId] : c.TargetId).ToDictionary(group => group.Key, group => Words(group.First())),
            ClosedPassages = inForce.Where(c => c.Target == ClosureTarget.Passage).Select(c => c.TargetId).ToHashSet(),
        };
        return touching;
    }

    private string Words(Closure closure) =>
        $"{closure.Reason}, {(closure.From <= _now ? "" : $"from {FloorPlanWords.Local(closure.From, Plan.TimeZone)} ")}until {FloorPlanWords.Local(closure.To, Plan.TimeZone)}; said by {closure.Source}";
}
