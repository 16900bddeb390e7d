using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>The set to print, with its contents page; one sheet of it; or the whole as one file that needs nothing else.</summary>
internal sealed class BinderSetModel(PlannerContext context, FloorPlanStore store, BinderDesk desk, TimeProvider time, IWebHostEnvironment host)
    : PageModel, IPrintedFile
{
    public Binder Made { get; private set; } = null!;
    public FloorPlan Site => Made.Plan;
    public IReadOnlyList<string> Stale { get; private set; } = [];

    /// <summary>The one sheet that is asked for, or null for all of them with the contents.</summary>
    public string? Only { get; private set; }
    public IEnumerable<StandingSheet> Sheets => Made.Sheets.Where(sheet => Only is null || sheet.Id == Only);
    public RoleTitles Titles { get; private set; } = null!;
    public string? Styles { get; private set; }
    public string FileCaution => PackTexts.BinderFileCaution;

    public async Task<IActionResult> OnGetAsync(string site, string? only, bool file, CancellationToken cancellationToken)
    {
        if (!store.TryFind(site, out var here) || desk.Of(site) is not { Made: { } made } state || (only is not null && made.Sheets.All(sheet => sheet.Id != only)))
        {
            return NotFound();
        }

        (Made, Only) = (made, only);
        Titles = new(await SiteSettings.ReadAsync(context, site, cancellationToken));
        Stale = await BinderEndpoints.StaleAsync(here, state, context, time.GetUtcNow(), cancellationToken);
        if (file)
        {
            Styles = await PrintedFile.StylesAsync(host, cancellationToken);
            Response.Headers.ContentDisposition = $"attachment; filename=\"downtime-binder-{site}-floor-plan-{made.Plan.Version}.html\"";
        }

        return Page();
    }
}
