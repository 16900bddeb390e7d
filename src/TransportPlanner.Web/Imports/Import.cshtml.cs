using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>One import: its progress, then what was found, what is proposed, how it differs, and the way to publish it.</summary>
internal sealed class ImportModel(PlannerContext context, FloorPlanStore store, ImportWorker worker, ImportDesk desk) : PageModel
{
    private const int ShownChanges = 200;

    public ImportReview Review { get; private set; } = null!;
    public BuildingImport Import => Review.Import;
    public string? Step => worker.StepOf(Import.Id);

    /// <summary>What was not taken, in words.</summary>
    public string? Problem { get; private set; }

    /// <summary>The role that decides, kept from one press to the next.</summary>
    [BindProperty(SupportsGet = true)]
    public string? By { get; set; }

    public IReadOnlyList<PlanChange> Changes => [.. Review.Changes.Take(ShownChanges)];

    /// <summary>Reasons that were given before, to be picked instead of typed again.</summary>
    public IEnumerable<string> Reasons => Review.Findings.Select(finding => finding.Decision?.Reason).OfType<string>().Distinct();

    public async Task<IActionResult> OnGetAsync(string id, CancellationToken cancellationToken)
    {
        if (await ImportReview.FindAsync(context, store, id, cancellationToken) is not { } review)
        {
            return NotFound();
        }

        Review = review;
        return Page();
    }

    public async Task<IActionResult> OnPostCancelAsync(string id, CancellationToken cancellationToken)
    {
        worker.Cancel(id);
        return await context.Imports.AnyAsync(i => i.Id == id, cancellationToken) ? Redirect($"/imports/{id}") : NotFound();
    }

    /// <summary>One warning: accepted with its reason, or taken back.</summary>
    public Task<IActionResult> OnPostFindingAsync(string id, string key, string? reason, long version, bool reopen, CancellationToken cancellationToken) =>
        TakeAsync(id, version, [new(key, reopen ? ImportAnswer.Open : ImportAnswer.Accepted, reason)], $"finding-{key}", cancellationToken);

    /// <summary>One step made by hand: taken back, or made again.</summary>
    public Task<IActionResult> OnPostStepAsync(string id, string key, long version, bool holds, CancellationToken cancellationToken) =>
        TakeAsync(id, version, [new(key, holds ? ImportAnswer.Confirmed : ImportAnswer.Open, null)], "steps", cancellationToken);

    /// <summary>The joins that somebody answered in the list; what was left alone stays.</summary>
    public async Task<IActionResult> OnPostJoinsAsync(string id, long version, string? reason, CancellationToken cancellationToken)
    {
        var form = await Request.ReadFormAsync(cancellationToken);
        Answered[] answers =
        [
            .. from field in form
               where field.Key.StartsWith("join:", StringComparison.Ordinal)
               let answer = Enum.TryParse<ImportAnswer>(field.Value, out var given) ? given : ImportAnswer.Open
               select new Answered(field.Key["join:".Length..], answer, reason),
        ];
        return await TakeAsync(id, version, answers, "joins", cancellationToken);
    }

    public async Task<IActionResult> OnPostPublishAsync(string id, long version, int comparedWith, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(id, cancellationToken) is NotFoundResult)
        {
            return NotFound();
        }

        Problem = Stale(version)
            ?? (Review.IsEmpty ? "Every step was taken back: there is nothing to publish." : null)
            ?? (comparedWith != (Review.InForce?.Version ?? 0) ? "Another plan came into force meanwhile: look at the differences below, then publish." : null)
            ?? (!Review.CanBePublished ? $"{Review.Errors} errors and {Review.Open} warnings that nobody accepted keep it from being published." : null)
            ?? (string.IsNullOrWhiteSpace(By) ? "Say who publishes: a role, never a name." : null);
        if (Problem is not null)
        {
            return Page();
        }

        try
        {
            await desk.PublishAsync(Review, By!.Trim(), cancellationToken);
            return Redirect($"/imports/{id}");
        }
        catch (DbUpdateException)
        {
            return await AgainAsync(id, "Somebody published or decided at the same moment. Nothing was changed: look again.", cancellationToken);
        }
    }

    private string? Stale(long version) =>
        version == Import.Version ? null : "Somebody decided something meanwhile, so this was not taken: look again below.";

    private async Task<IActionResult> TakeAsync(string id, long version, Answered[] answers, string at, CancellationToken cancellationToken)
    {
        if (await OnGetAsync(id, cancellationToken) is NotFoundResult)
        {
            return NotFound();
        }

        Problem = Stale(version)
            ?? (Import.State != ImportState.Draft ? $"This import is {ImportWords.Of(Import.State)}: nothing can be decided any more." : null)
            ?? (string.IsNullOrWhiteSpace(By) ? "Say first who decides: a role, never a name." : null);
        // A join whose answer is the one it has needs no entry.
        answers = [.. answers.Where(said => Review.Joins.FirstOrDefault(join => join.Join.Id == said.Key) is not { } join || join.Answer != said.Answer)];
        if (Problem is not null || answers.Length == 0)
        {
            return Page();
        }

        try
        {
            if (await desk.DecideAsync(Review, answers, By!.Trim(), cancellationToken) is { } wrong)
            {
                return await AgainAsync(id, wrong.Words, cancellationToken);
            }

            return Redirect($"/imports/{id}?by={Uri.EscapeDataString(By.Trim())}#{at}");
        }
        catch (DbUpdateException)
        {
            return await AgainAsync(id, "Somebody decided at the same moment, so this was not taken: look again.", cancellationToken);
        }
    }

    private async Task<IActionResult> AgainAsync(string id, string words, CancellationToken cancellationToken)
    {
        context.ChangeTracker.Clear();
        Problem = words;
        return await OnGetAsync(id, cancellationToken);
    }
}
