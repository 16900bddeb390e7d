using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Gas;

/// <summary>What the shelf page asks, as typed.</summary>
public sealed class ShelfForm
{
    public string? Tag { get; set; }
    public GasKind Gas { get; set; }
    public string PressureUnit { get; set; } = "psi";
    public CylinderEntry Cylinder { get; set; } = new();

    /// <summary>Role, never a name.</summary>
    public string? Role { get; set; }
    public string? SecondRole { get; set; }
    public string? Gauge { get; set; }
    public bool CapOff { get; set; }
    public bool ValveOpen { get; set; }
    public bool FlowSet { get; set; }
    public bool FlowFelt { get; set; }
    public string? Flow { get; set; }
    public string? OxygenFraction { get; set; }
    public string? JourneyMinutes { get; set; }
}

/// <summary>The cylinders of a site, their readings with their age, the two-person check, and the smallest set for a journey.</summary>
internal sealed class ShelfModel(PlannerContext context, FloorPlanStore store, TimeProvider time, SiteDisplay show) : PageModel
{
    private string _site = "";

    [BindProperty]
    public ShelfForm Form { get; set; } = new();

    [BindProperty(SupportsGet = true, Name = "site")]
    public string? SiteId { get; set; }

    /// <summary>The cylinder that a form belongs to; empty for the others.</summary>
    [BindProperty]
    public string CylinderId { get; set; } = "";
    public string SiteName { get; private set; } = "";
    public string? Notice { get; private set; }
    public ShelfResponse Shelf { get; private set; } = null!;
    public CylinderChoice Choice { get; private set; } = CylinderChoice.Library;
    public SmallestSetResponse? Smallest { get; private set; }
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    /// <summary>An instant in the site's time.</summary>
    public string Local(DateTimeOffset instant)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(store.TryFind(_site, out var site) ? site.Plan.TimeZone : "UTC");
        return TimeZoneInfo.ConvertTime(instant, zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
    }

    public Task<IActionResult> OnGetAsync(CancellationToken cancellationToken)
    {
        Form.PressureUnit = show.PressureName;
        return ShowAsync(cancellationToken);
    }

    public async Task<IActionResult> OnPostAddAsync(CancellationToken cancellationToken)
    {
        var entries = new Entries();
        entries.Need("Tag", Form.Tag?.Trim().Length is > 0 and <= 30, "Tag: give what is written on the cylinder, 1 to 30 characters.");
        NeedRole(entries, "Role", Form.Role);
        var choice = await CylinderChoice.ReadAsync(context, Site(), cancellationToken);
        entries.Need("Cylinder.Gauge", !Form.Cylinder.IsEmpty, "Gauge: give the reading.");
        var cylinder = CylinderEntry.Read("Cylinder", GasWords.Of(Form.Gas), Form.Gas, Form.Cylinder, Form.PressureUnit, choice, entries, entries);
        if (entries.Problems.Count > 0 || cylinder is null)
        {
            return await ShowAsync(entries, cancellationToken);
        }

        var request = new ShelfCylinderRequest { SiteId = Site(), Tag = Form.Tag!, Cylinder = cylinder, ReadBy = Form.Role! };
        return await DoneAsync((await ShelfChanges.AddAsync(context, request, time.GetUtcNow(), cancellationToken)).Problem, "Tag", cancellationToken);
    }

    public async Task<IActionResult> OnPostReadAsync(CancellationToken cancellationToken)
    {
        if (await RowAsync(cancellationToken) is not { } row)
        {
            return NotFound();
        }

        var entries = new Entries();
        var (unit, most) = Form.PressureUnit switch { "psi" => ("psi", 3_300m), "bar" => ("bar", 300m), _ => ("kPa", 30_000m) };
        var gauge = entries.Number("Gauge", "Gauge", Form.Gauge, 0, most, unit);
        entries.Need("Gauge", gauge is not null || entries.Has("Gauge"), "Gauge: give the reading.");
        NeedRole(entries, "Role", Form.Role);
        if (entries.Problems.Count > 0)
        {
            return await ShowAsync(entries, cancellationToken);
        }

        var reading = new GaugeReadingRequest
        {
            GaugePsi = unit == "psi" ? gauge : null,
            GaugeBar = unit == "bar" ? gauge : null,
            GaugeKpa = unit == "kPa" ? gauge : null,
            ReadBy = Form.Role!,
        };
        return await DoneAsync(await ShelfChanges.ReadAsync(context, row, reading, time.GetUtcNow(), cancellationToken), "Gauge", cancellationToken);
    }

    public async Task<IActionResult> OnPostCheckAsync(CancellationToken cancellationToken)
    {
        if (await RowAsync(cancellationToken) is not { } row)
        {
            return NotFound();
        }

        var entries = new Entries();
        NeedRole(entries, "Role", Form.Role);
        NeedRole(entries, "SecondRole", Form.SecondRole);
        if (entries.Problems.Count > 0)
        {
            return await ShowAsync(entries, cancellationToken);
        }

        var check = new FlowCheckRequest
        {
            FirstRole = Form.Role!,
            SecondRole = Form.SecondRole!,
            CapOff = Form.CapOff,
            ValveOpen = Form.ValveOpen,
            FlowSet = Form.FlowSet,
            FlowFeltAtPatientEnd = Form.FlowFelt,
        };
        await ShelfChanges.CheckAsync(context, row, check, time.GetUtcNow(), cancellationToken);
        return await DoneAsync(null, "Role", cancellationToken);
    }

    public async Task<IActionResult> OnPostRemoveAsync(CancellationToken cancellationToken)
    {
        if (await RowAsync(cancellationToken) is { } row)
        {
            await ShelfChanges.RemoveAsync(context, row, cancellationToken);
        }

        return await DoneAsync(null, "Tag", cancellationToken);
    }

    public async Task<IActionResult> OnPostSmallestAsync(CancellationToken cancellationToken)
    {
        var entries = new Entries();
        var flow = entries.Number("Flow", "Set flow", Form.Flow, (decimal)GasDemand.MinLitresPerMinute, (decimal)GasDemand.MaxLitresPerMinute, "L/min");
        var fraction = entries.Number("OxygenFraction", "Oxygen fraction (30 percent is 0.30)", Form.OxygenFraction, GasDemand.MinOxygenFraction, GasDemand.MaxOxygenFraction, "");
        var journey = entries.Number("JourneyMinutes", "Journey", Form.JourneyMinutes, 0.1m, GasRequest.MaxJourneyMinutes, "min");
        foreach (var (field, typed, name) in new[] { ("Flow", Form.Flow, "Set flow"), ("OxygenFraction", Form.OxygenFraction, "Oxygen fraction"), ("JourneyMinutes", Form.JourneyMinutes, "Journey") })
        {
            entries.Need(field, !string.IsNullOrWhiteSpace(typed), $"{name}: still to give.");
        }

        if (flow is { } litres && fraction is { } share && journey is { } minutes)
        {
            var shelf = await Gas.Shelf.ReadAsync(context, Site(), time.GetUtcNow(), cancellationToken);
            Smallest = shelf.Smallest(new GasDemandRequest { FlowLitresPerMinute = litres, OxygenFraction = share }.ToDemand(), minutes);
        }

        return await ShowAsync(entries, cancellationToken);
    }

    private static void NeedRole(Entries entries, string field, string? role) =>
        entries.Need(field, !string.IsNullOrWhiteSpace(role) && role.Length <= 80, "Role: give the role, at most 80 characters, never a name.");

    private string Site() => SiteId ?? store.Default?.Plan.SiteId ?? "";

    private Task<ShelfCylinder?> RowAsync(CancellationToken cancellationToken) =>
        context.Shelf.SingleOrDefaultAsync(c => c.Id == CylinderId && c.SiteId == Site(), cancellationToken);

    /// <summary>After a change the page is read anew, so that a reload changes nothing twice.</summary>
    private async Task<IActionResult> DoneAsync(ProblemHttpResult? problem, string field, CancellationToken cancellationToken)
    {
        if (problem is null)
        {
            return Redirect(SiteId is null ? "/shelf" : $"/shelf?site={Uri.EscapeDataString(SiteId)}");
        }

        var entries = new Entries();
        entries.Need(field, given: false, LibraryWords.Of(problem));
        return await ShowAsync(entries, cancellationToken);
    }

    private Task<IActionResult> ShowAsync(Entries entries, CancellationToken cancellationToken)
    {
        Problems = entries.Problems;
        return ShowAsync(cancellationToken);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellationToken)
    {
        if (!store.TryFind(Site(), out var site))
        {
            return NotFound();
        }

        (_site, SiteName, Notice) = (site.Plan.SiteId, site.Plan.Name, site.Plan.Notice);
        Choice = await CylinderChoice.ReadAsync(context, _site, cancellationToken);
        Shelf = (await Gas.Shelf.ReadAsync(context, _site, time.GetUtcNow(), cancellationToken)).Response();
        return Page();
    }
}
