using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Imports;

/// <summary>What is typed to correct one place, passage or elevator.</summary>
public sealed class CorrectionForm
{
    public string? Property { get; set; }
    public string? Value { get; set; }

    /// <summary>What stood there when the page was made.</summary>
    public string? Before { get; set; }
    public FactSource? Source { get; set; }
    public DateOnly? Date { get; set; }
    public PassageKind? Kind { get; set; }
    public string? To { get; set; }
    public string? Width { get; set; }
    public string? Along { get; set; }
    public string? Landing { get; set; }
    public string? By { get; set; }
}

/// <summary>Corrects one place, passage, elevator or group on the draft of the next version.</summary>
internal sealed class CorrectionModel(FloorPlanStore store, CorrectionDesk desk, PlannerContext context) : PageModel
{
    /// <summary>Roles that are offered; any other may be typed. A name is never kept.</summary>
    public static IReadOnlyList<string> Roles { get; } = ["Facilities", "Infection prevention", "Charge nurse", "Security", "Environmental services"];

    /// <summary>What may be drawn between two places of a level.</summary>
    public static IReadOnlyList<PassageKind> Kinds { get; } = [PassageKind.Opening, PassageKind.HingedDoor, PassageKind.DoubleDoor, PassageKind.SlidingDoor, PassageKind.AutomaticDoor];

    [BindProperty]
    public CorrectionForm Form { get; set; } = new();

    /// <summary>The property that is being corrected.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Property { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? By { get; set; }

    public FloorPlan InForce { get; private set; } = null!;

    /// <summary>The draft of the next version, or the plan in force while nobody corrected anything.</summary>
    public FloorPlan Plan { get; private set; } = null!;
    public ImportReview? Draft { get; private set; }
    public PlanFeature Feature { get; private set; }
    public string Number { get; private set; } = "";
    public IReadOnlyList<CorrectableProperty> Properties { get; private set; } = [];
    public CorrectableProperty? Picked => Properties.FirstOrDefault(property => property.Name == Property);
    public Elevator? Elevator => Feature == PlanFeature.Elevator ? Plan.Elevators.First(elevator => elevator.Id == Number) : null;
    public Place? Place => Feature == PlanFeature.Place ? Plan.Places.First(place => place.Number == Number) : null;
    public Passage? Passage => Feature == PlanFeature.Passage ? Plan.Passages.First(passage => passage.Id == Number) : null;
    public string? Problem { get; private set; }

    /// <summary>Places of the same level, which a door may lead to.</summary>
    public IEnumerable<Place> Neighbours => Plan.Places.Where(place => place.Level is not null && place.Level == Place?.Level && place.Number != Number);

    /// <summary>Places where the elevator does not stop yet.</summary>
    public IEnumerable<Place> Landings => Plan.Places.Where(place => place.Level is not null && place.Kind is PlaceKind.ElevatorLanding or PlaceKind.Lobby or PlaceKind.Corridor
        && Elevator!.Stops.All(stop => stop.Landing != place.Number));

    /// <summary>The words that a property takes, where they are few; null: it is typed.</summary>
    public IReadOnlyList<string>? Choices => Picked?.Expected switch
    {
        "true or false" => ["true", "false"],
        { } words when words.StartsWith("one of ", StringComparison.Ordinal) => words["one of ".Length..].Split(", "),
        _ => null,
    };

    public static string AddressOf(string site, PlanFeature feature, string number) =>
        $"/corrections/{Uri.EscapeDataString(site)}/{feature.ToString().ToLowerInvariant()}/{Uri.EscapeDataString(number)}";

    public string Address => AddressOf(InForce.SiteId, Feature, Number);

    public async Task<IActionResult> OnGetAsync(string site, PlanFeature feature, string number, CancellationToken cancellationToken)
    {
        if (!store.TryFind(site, out var snapshot))
        {
            return NotFound();
        }

        Draft = await desk.FindAsync(site, cancellationToken);
        (InForce, Feature, Plan) = (snapshot.Plan, feature, Draft?.Plan ?? snapshot.Plan);
        Number = number = PathNumber.Of(number, Known(Plan, feature))!;
        Properties = PlanCorrections.PropertiesOf(Plan, feature, number) ?? [];
        return Properties.Count == 0 ? NotFound() : Page();
    }

    private static IEnumerable<string> Known(FloorPlan plan, PlanFeature feature) => feature switch
    {
        PlanFeature.Place => plan.Places.Select(place => place.Number),
        PlanFeature.Passage => plan.Passages.Select(passage => passage.Id),
        PlanFeature.Elevator => plan.Elevators.Select(elevator => elevator.Id),
        _ => plan.ElevatorGroups.Select(group => group.Id),
    };

    public Task<IActionResult> OnPostFactAsync(string site, PlanFeature feature, string number, CancellationToken cancellationToken)
    {
        Property = Form.Property;
        return NoteAsync(site, feature, number, entries =>
        {
            var value = Form.Value?.Trim() ?? "";
            return new FactCorrection(feature, Number, Form.Property ?? "", value, Picked is { IsFact: true } picked && value.Length > 0 ? Known(entries, picked.IsDated) : null, string.IsNullOrEmpty(Form.Before) ? null : Form.Before);
        }, cancellationToken);
    }

    public Task<IActionResult> OnPostDrawAsync(string site, PlanFeature feature, string number, CancellationToken cancellationToken) =>
        NoteAsync(site, feature, number, entries =>
        {
            var width = (double?)entries.Number("Width", "Clear width", Form.Width, 0.1m, 50, "m");
            var along = (double?)entries.Number("Along", "Distance", Form.Along, 0, 1_000, "m");
            entries.Need("Kind", Form.Kind is { } kind && Kinds.Contains(kind), "Say what it is: an opening or which door.");

            // The list offers "C-2.03 Corridor"; a number stands before the first space unless it is the whole.
            var to = Form.To?.Trim() ?? "";
            to = Plan.Places.FirstOrDefault(place => place.Number == to || $"{place.Number} {place.Name}" == to)?.Number ?? to;
            return new DrawnPassage(PlanCorrections.NumberOf(Plan, Number, to), Form.Kind ?? default, Number, to, width, along, width is null ? null : Known(entries, true));
        }, cancellationToken);

    public Task<IActionResult> OnPostStopAsync(string site, PlanFeature feature, string number, bool stops, CancellationToken cancellationToken) =>
        NoteAsync(site, feature, number, _ => stops ? new AddedStop(Number, Form.Landing ?? "") : new RemovedStop(Number, Form.Landing ?? ""), cancellationToken);

    public Task<IActionResult> OnPostRemoveAsync(string site, PlanFeature feature, string number, CancellationToken cancellationToken) =>
        NoteAsync(site, feature, number, _ => new RemovedPassage(Number), cancellationToken);

    private string? Known(Entries entries, bool dated)
    {
        entries.Need("Source", Form.Source is not null, "Say how it is known: measured, from a drawing, or assumed.");
        entries.Need("Date", !dated || Form.Date is not null || Form.Source == FactSource.Assumed, "Give the day of the measurement or of the drawing.");
        return Form.Source?.ToString().ToLowerInvariant() + (dated && Form.Date is { } day ? FormattableString.Invariant($" {day:yyyy-MM-dd}") : "");
    }

    private async Task<IActionResult> NoteAsync(string site, PlanFeature feature, string number, Func<Entries, PlanCorrection> made, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(site, feature, number, cancellationToken) is not PageResult)
        {
            return NotFound();
        }

        By = Form.By?.Trim();
        var entries = new Entries();
        var step = made(entries);
        entries.Need("By", By is { Length: > 0 and <= 80 } && !By.Any(char.IsControl), "Say who corrects it: a role of at most 80 characters, never a name.");
        Problem = entries.Problems.Count > 0 ? string.Join(" ", entries.Problems.Select(problem => problem.Words)) : null;
        try
        {
            Problem ??= await desk.NoteAsync(InForce, Draft, step, By!, null, cancellationToken);
        }
        catch (DbUpdateException)
        {
            context.ChangeTracker.Clear();
            Problem = "Somebody corrected something at the same moment, so this was not taken: press again.";
        }

        return Problem is not null ? Page()
            : step is RemovedPassage ? Redirect($"/imports/{(await desk.FindAsync(site, cancellationToken))!.Import.Id}?by={Uri.EscapeDataString(By!)}#steps")
            : Redirect($"{Address}?by={Uri.EscapeDataString(By!)}#draft");
    }
}
