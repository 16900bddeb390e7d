using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Gas;

/// <summary>The gas alone, for somebody who stands with a cylinder. Posted, so that no clinical input stands in an address or a log.</summary>
internal sealed class GasModel(PlannerContext context, FloorPlanStore store, TimeProvider time, SiteDisplay show) : PageModel
{
    [BindProperty]
    public GasForm Form { get; set; } = new();

    /// <summary>What was refused, with the fix.</summary>
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    /// <summary>What is still to be given.</summary>
    public IReadOnlyList<EntryProblem> Missing { get; private set; } = [];
    /// <summary>Cylinders that were counted.</summary>
    public IReadOnlyList<CylinderRequest> Counted { get; private set; } = [];
    public GasSupplyResponse? Supply { get; private set; }

    /// <summary>What stands on the shelf for this demand and journey; null without a journey, or where nothing stands there.</summary>
    public SmallestSetResponse? FromShelf { get; private set; }

    /// <summary>When the answer was computed, in this machine's time with its offset.</summary>
    public string CountedAt => time.GetLocalNow().ToString("yyyy-MM-dd HH:mm '(UTC'zzz')'", CultureInfo.InvariantCulture);

    /// <summary>The site whose preset cylinders stand in; the hospital's own where nobody says.</summary>
    [BindProperty(SupportsGet = true, Name = "site")]
    public string? SiteId { get; set; }

    /// <summary>What stands in where no cylinder is chosen.</summary>
    public CylinderChoice Choice { get; private set; } = CylinderChoice.Library;

    public Task<IActionResult> OnGetAsync(CancellationToken cancellationToken)
    {
        Form.PressureUnit = show.PressureName;
        return ShowAsync(cancellationToken);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellationToken)
    {
        if (await ShowAsync(cancellationToken) is not PageResult page)
        {
            return NotFound();
        }

        var (refused, missing) = (new Entries(), new Entries());
        var request = GasFormReader.Read(Form, Choice, refused, missing);
        (Problems, Missing) = (refused.Problems, missing.Problems);
        if (request is not null)
        {
            Counted = request.Cylinders;
            Supply = GasSupplyResponse.From(GasSupply.For(request.ToRequest(
                [.. request.Cylinders.Select(cylinder => cylinder.Find(Choice)).Cast<CylinderAnswer.Found>().Select(found => found.Cylinder)])));
            if (request.JourneyMinutes is { } journey && (SiteId ?? store.Default?.Plan.SiteId) is { } site)
            {
                var shelf = await Shelf.ReadAsync(context, site, time.GetUtcNow(), cancellationToken);
                FromShelf = shelf.IsEmpty ? null : shelf.Smallest(request.Demand.ToDemand(), journey);
            }
        }

        return page;
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellationToken)
    {
        if (SiteId is not null && !store.TryFind(SiteId, out _))
        {
            return NotFound();
        }

        if ((SiteId ?? store.Default?.Plan.SiteId) is { } site)
        {
            Choice = await CylinderChoice.ReadAsync(context, site, cancellationToken);
        }

        return Page();
    }
}
