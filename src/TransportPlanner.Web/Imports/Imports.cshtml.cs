using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>What is typed to bring a file.</summary>
public sealed class ImportForm
{
    public string? SiteId { get; set; }
    public string? SiteName { get; set; }
    public string? TimeZone { get; set; }
    public string? By { get; set; }
    public ImportFormat? Format { get; set; }
}

/// <summary>The imports of this planner, and a form to bring the next file.</summary>
[RequestSizeLimit(ImportFiles.MaxFileBytes + ImportFiles.MaxOutlineBytes + 65_536)]
[RequestFormLimits(MultipartBodyLengthLimit = ImportFiles.MaxFileBytes + ImportFiles.MaxOutlineBytes + 65_536)]
internal sealed class ImportsModel(PlannerContext context, FloorPlanStore store, ImportWorker worker, ImportDesk desk) : PageModel
{
    [BindProperty]
    public ImportForm Form { get; set; } = new();

    public IReadOnlyList<BuildingImport> Imports { get; private set; } = [];
    public IReadOnlyList<FloorPlan> Sites { get; private set; } = [];
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellationToken)
    {
        Imports = await ImportList.NewestAsync(context, cancellationToken);
        Sites = [.. store.Sites.Select(site => site.Plan)];
    }

    public async Task<IActionResult> OnPostAsync(IFormFile? file, IFormFile? outlines, CancellationToken cancellationToken)
    {
        var entries = new Entries();
        entries.Need("file", file is { Length: > 0 }, "Choose the file of the building.");
        entries.Need("file", file is null or { Length: <= ImportFiles.MaxFileBytes }, $"The file is larger than {ImportFiles.MaxFileBytes >> 20} MiB, which is the limit.");
        entries.Need("Format", Form.Format is not null, "Say what the file is.");
        var request = new ImportRequest
        {
            SiteId = Form.SiteId?.Trim() ?? "",
            SiteName = Typed(Form.SiteName),
            TimeZone = Typed(Form.TimeZone),
            FileName = Path.GetFileName(file?.FileName ?? "file"),
            Format = Form.Format ?? ImportFormat.Cobie,
            By = Typed(Form.By) ?? "",
        };
        var wrong = new List<ValidationResult>();
        Validator.TryValidateObject(request, new(request), wrong, validateAllProperties: true);
        foreach (var result in wrong)
        {
            entries.Need(result.MemberNames.FirstOrDefault() ?? "file", false, $"{Label(result.MemberNames.FirstOrDefault())}: {result.ErrorMessage}");
        }

        if (entries.Problems.Count > 0)
        {
            Problems = entries.Problems;
            await OnGetAsync(cancellationToken);
            return Page();
        }

        var import = await desk.BeginAsync(request, cancellationToken);
        if (outlines is { Length: > 0 })
        {
            await using var drawn = outlines.OpenReadStream();
            await desk.KeepAsync(import, drawn, outlines: true, cancellationToken);
        }

        await using var body = file!.OpenReadStream();
        await desk.KeepAsync(import, body, outlines: false, cancellationToken);
        await desk.StartAsync(import, cancellationToken);
        return Redirect($"/imports/{import.Id}");
    }

    public string? StepOf(BuildingImport import) => worker.StepOf(import.Id);

    public IEnumerable<string> Wrong(string field) => Problems.Where(problem => problem.Field == field).Select(problem => problem.Words);

    private static string? Typed(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static string Label(string? member) => member switch
    {
        nameof(ImportRequest.SiteId) => "Short name",
        nameof(ImportRequest.SiteName) => "Name",
        nameof(ImportRequest.TimeZone) => "Time zone",
        nameof(ImportRequest.By) => "Who brings it",
        _ => "File name",
    };
}
