using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Gas;

/// <summary>What the page of the cylinder library asks, as typed.</summary>
public sealed class SizeForm
{
    public string? Id { get; set; }
    public GasKind Gas { get; set; }

    /// <summary><c>psi</c> or <c>bar</c>, for the label and the test reading.</summary>
    public string PressureUnit { get; set; } = "psi";
    public string? LabelLitres { get; set; }
    public string? LabelPressure { get; set; }
    public string? WaterLitres { get; set; }
    public string? TestGauge { get; set; }
    public string? TestLitres { get; set; }
    public string? Source { get; set; }
    public string? Role { get; set; }
}

/// <summary>The cylinder library: what ships with the planner, and what the site adds by two separate entries.</summary>
internal sealed class CylindersModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    [BindProperty]
    public SizeForm Form { get; set; } = new();

    [BindProperty(SupportsGet = true, Name = "site")]
    public string? SiteId { get; set; }

    /// <summary>The size that is confirmed or withdrawn.</summary>
    [BindProperty]
    public string SizeId { get; set; } = "";
    public string SiteName { get; private set; } = "";
    public string? Notice { get; private set; }
    public IReadOnlyList<CylinderSizeResponse> Added { get; private set; } = [];
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    public Task<IActionResult> OnGetAsync(CancellationToken cancellationToken) => ShowAsync(cancellationToken);

    public async Task<IActionResult> OnPostEnterAsync(CancellationToken cancellationToken)
    {
        var entries = new Entries();
        var (litres, full, water) = Label(entries);
        var most = Form.PressureUnit == "psi" ? 3_300m : 300m;
        var gauge = Need(entries, "TestGauge", "Test reading", Form.TestGauge, 1, most, Form.PressureUnit);
        var there = Need(entries, "TestLitres", "Litres at the test reading", Form.TestLitres, 0.1m, CylinderCapacity.MaxLabelLitres, "L");
        entries.Need("Id", Form.Id?.Trim().Length is >= 2 and <= 32, "Name: give 2 to 32 characters, such as WARD-3L.");
        entries.Need("Source", Form.Source?.Trim().Length is >= 1 and <= 200, "Label: say where it was read.");
        if (litres is null || full is null || gauge is null || there is null || entries.Problems.Count > 0)
        {
            return await ShowAsync(entries, cancellationToken);
        }

        var request = new CylinderSizeRequest
        {
            SiteId = Site(),
            SizeId = Form.Id!,
            Gas = Form.Gas,
            LabelLitres = litres.Value,
            LabelPsi = Form.PressureUnit == "psi" ? full : null,
            LabelBar = Form.PressureUnit == "psi" ? null : full,
            WaterCapacityLitres = water,
            TestGauge = gauge.Value,
            TestLitres = there.Value,
            Source = Form.Source!,
            EnteredBy = Form.Role!,
        };
        return await DoneAsync(await SiteCylinders.AddAsync(context, request.ToRow(time.GetUtcNow()), cancellationToken), "Id", cancellationToken);
    }

    public async Task<IActionResult> OnPostConfirmAsync(CancellationToken cancellationToken)
    {
        if (await RowAsync(cancellationToken) is not { } row)
        {
            return NotFound();
        }

        var entries = new Entries();
        var (litres, full, water) = Label(entries);
        if (litres is null || full is null || entries.Problems.Count > 0)
        {
            return await ShowAsync(entries, cancellationToken);
        }

        var second = new CylinderSizeConfirmation
        {
            Gas = Form.Gas,
            LabelLitres = litres.Value,
            LabelPsi = Form.PressureUnit == "psi" ? full : null,
            LabelBar = Form.PressureUnit == "psi" ? null : full,
            WaterCapacityLitres = water,
            ConfirmedBy = Form.Role!,
        };
        return await DoneAsync(await SiteCylinders.ConfirmAsync(context, row, second, time.GetUtcNow(), cancellationToken), "Id", cancellationToken);
    }

    public async Task<IActionResult> OnPostWithdrawAsync(CancellationToken cancellationToken)
    {
        if (await RowAsync(cancellationToken) is { } row)
        {
            context.Remove(row);
            await context.SaveChangesAsync(cancellationToken);
        }

        return await DoneAsync(null, "Id", cancellationToken);
    }

    private static decimal? Need(Entries entries, string field, string name, string? typed, decimal least, decimal most, string unit)
    {
        entries.Need(field, !string.IsNullOrWhiteSpace(typed), $"{name}: still to give.");
        return entries.Number(field, name, typed, least, most, unit);
    }

    private (decimal? Litres, decimal? Full, decimal? Water) Label(Entries entries)
    {
        entries.Need("Role", Form.Role?.Trim().Length is >= 1 and <= 80, "Role: give the role, at most 80 characters, never a name.");
        return (
            Need(entries, "LabelLitres", "Litres on the label", Form.LabelLitres, 1, CylinderCapacity.MaxLabelLitres, "L"),
            Need(entries, "LabelPressure", "Pressure on the label", Form.LabelPressure, 1, Form.PressureUnit == "psi" ? 3_300m : 300m, Form.PressureUnit),
            entries.Number("WaterLitres", "Water capacity", Form.WaterLitres, 0.1m, CylinderCapacity.MaxWaterLitres, "L"));
    }

    private string Site() => SiteId ?? store.Default?.Plan.SiteId ?? "";

    private Task<AddedCylinderSize?> RowAsync(CancellationToken cancellationToken) =>
        context.CylinderSizes.SingleOrDefaultAsync(size => size.Id == SizeId && size.SiteId == Site(), cancellationToken);

    private async Task<IActionResult> DoneAsync(ProblemHttpResult? problem, string field, CancellationToken cancellationToken)
    {
        if (problem is null)
        {
            return Redirect(SiteId is null ? "/cylinders" : $"/cylinders?site={Uri.EscapeDataString(SiteId)}");
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

        (SiteName, Notice) = (site.Plan.Name, site.Plan.Notice);
        Added = [.. (await AddedCylinderSize.OfSiteAsync(context, site.Plan.SiteId, cancellationToken)).Select(CylinderSizeResponse.Listed)];
        return Page();
    }
}
