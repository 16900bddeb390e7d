using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>Five inputs; everything else is assumed and marked.</summary>
internal sealed class StartModel(PlannerContext context, FloorPlanStore store, TimeProvider time, SearchDeadline limit, SiteDisplay show) : PageModel
{
    private FloorPlanSnapshot _site = null!;

    [BindProperty]
    public PlanForm Form { get; set; } = new();

    /// <summary>Id of the plan that is changed; null for a new one.</summary>
    [BindProperty(SupportsGet = true, Name = "again")]
    public string? Again { get; set; }

    /// <summary>The site that is planned at; a hospital's own where nobody says.</summary>
    [BindProperty(SupportsGet = true, Name = "site")]
    public string? SiteId { get; set; }

    [BindProperty(Name = "againVersion")]
    public int AgainVersion { get; set; }
    public string? CallSign { get; private set; }
    public string? Notice => _site.Plan.Notice;
    public FloorPlan Site => _site.Plan;
    public IReadOnlyCollection<FloorPlan> Sites => [.. store.Sites.Select(site => site.Plan)];
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];
    public IReadOnlyList<Place> Places => [.. _site.Plan.Places.Where(p => p.Level is not null)];

    /// <summary>The cylinder that stands in where only a gauge is given.</summary>
    public CylinderChoice Choice { get; private set; } = CylinderChoice.Library;
    public const int MostBatteries = 12;

    /// <summary>What was typed, and at least four rows, one of them free while there is room.</summary>
    public IReadOnlyList<BatteryEntry> BatteryRows =>
        [.. Form.Batteries, .. Enumerable.Range(0, Math.Clamp(4 - Form.Batteries.Count, Form.Batteries.Count < MostBatteries ? 1 : 0, 4)).Select(_ => new BatteryEntry())];

    /// <summary>What was typed, and a free row or two while there is room.</summary>
    public IReadOnlyList<CylinderEntry> MoreCylinders =>
        [.. Form.More, .. Enumerable.Range(0, Math.Clamp(PlanCylinders.MostFurther - Form.More.Count, 0, Form.More.Count == 0 ? 2 : 1)).Select(_ => new CylinderEntry())];
    public bool ShowCylinders => Form.More.Any(entry => !entry.IsEmpty) || Form.Oxygen.HasOther || Form.Air.HasOther;
    public bool ShowDevice => Form.FlowIs != FlowKind.SetFlow || Form.AirSource != AirSource.Cylinder || !string.IsNullOrWhiteSpace(Form.DriveFlow) || !string.IsNullOrWhiteSpace(Form.Bleed);
    public bool ShowBatteries => Form.Batteries.Any(entry => !entry.IsEmpty);
    public string ExampleFrom => Example(PlaceKind.DeliveryRoom);
    public string ExampleTo => Example(PlaceKind.IsolationRoom);
    public bool ShowClinical => new[] { Form.Flow, Form.OxygenFraction, Form.WeightGrams, Form.GestationWeeks }.Any(v => !string.IsNullOrWhiteSpace(v));

    public bool ShowLogistics =>
        new[] { Form.DepartAt, Form.LengthMetres, Form.WidthMetres, Form.HeightMetres, Form.MassKilograms, Form.Crew, Form.Officers }.Any(v => !string.IsNullOrWhiteSpace(v))
        || !Form.HeldElevators || !Form.WithHelper || Form.AvoidUnknown || Problems.Any(problem => problem.Field is "LengthMetres" or "WidthMetres" or "HeightMetres" or "MassKilograms" or "Crew");

    /// <summary>What stands in for the incubator until somebody measures it.</summary>
    public string AssumedConveyance { get; private set; } = "";

    public string? IsWrong(string field) => Problems.Any(p => p.Field == field) ? "true" : null;

    /// <param name="departAt">Local time at the site that a link proposes for the next version; whoever presses decides.</param>
    /// <param name="cancellationToken">The caller gives up.</param>
    public async Task<IActionResult> OnGetAsync(string? departAt, CancellationToken cancellationToken)
    {
        Form.PressureUnit = show.PressureName;
        if (Again is not null)
        {
            if (await PlanStore.FindAsync(context, Again, null, cancellationToken) is not { } plan)
            {
                return NotFound();
            }

            (CallSign, AgainVersion, SiteId) = (plan.CallSign, plan.Version, plan.SiteId);
            var clinical = await context.ClinicalInputs.AsNoTracking().SingleOrDefaultAsync(c => c.PlanId == Again, cancellationToken);
            Form = PlanForm.Of(plan.Given, clinical?.WeightGrams, clinical?.GestationWeeks, plan.TimeZone);
            Form.DepartAt = departAt ?? Form.DepartAt;
        }

        return await ShowAsync(cancellationToken);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellationToken)
    {
        var stored = Again is null ? null : await context.Plans.SingleOrDefaultAsync(p => p.Id == Again, cancellationToken);
        if (Again is not null && stored is null)
        {
            return NotFound();
        }

        (CallSign, SiteId) = (stored?.CallSign, stored?.SiteId ?? SiteId);
        if (FindSite() is not { } site)
        {
            return NotFound();
        }

        var entries = new Entries();
        var before = Again is null ? null : (await PlanStore.FindAsync(context, Again, AgainVersion, cancellationToken))?.Given;
        var request = PlanFormReader.Read(Form, site.Plan, await CylinderChoice.ReadAsync(context, site.Plan.SiteId, cancellationToken), before, entries);
        entries.Need("From", stored is null || stored.CurrentVersion == AgainVersion, $"Somebody else changed this plan meanwhile: it is at version {stored?.CurrentVersion}. Open it again, then repeat the change.");
        Problems = entries.Problems;
        if (request is null || Problems.Count > 0)
        {
            return await ShowAsync(cancellationToken);
        }

        var now = time.GetUtcNow();
        var identity = stored is null
            ? (Data.RandomId.New(), await Plans.CallSign.NewAsync(context, site.Plan.SiteId, now, cancellationToken), 1)
            : (stored.Id, stored.CallSign, stored.CurrentVersion + 1);
        var answer = await PlanMaker.MakeAsync(context, site, request, identity, limit, now, cancellationToken);
        if (answer.Plan is not { } plan)
        {
            Problems = PlanFormReader.Problems(answer.Problem!.ProblemDetails, request);
            return await ShowAsync(cancellationToken);
        }

        if (stored is null)
        {
            await PlanStore.AddAsync(context, plan, request, null, now, cancellationToken);
        }
        else if (!await PlanStore.AddVersionAsync(context, stored, plan, request, now, cancellationToken))
        {
            Problems = [new("From", "Somebody else changed this plan meanwhile. Open it again, then repeat the change.")];
            return await ShowAsync(cancellationToken);
        }

        return Redirect($"/plans/{plan.Id}");
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellationToken)
    {
        if (FindSite() is not { } site)
        {
            return NotFound();
        }

        _site = site;
        var settings = await SiteSettings.ReadAsync(context, site.Plan.SiteId, cancellationToken);
        Choice = await CylinderChoice.ReadAsync(context, site.Plan.SiteId, cancellationToken);
        var incubator = Core.Travel.Conveyance.AssumedIncubator;
        AssumedConveyance = FormattableString.Invariant(
            $"{incubator.Length.Metres:0.00} × {incubator.Width.Metres:0.00} × {incubator.Height.Metres:0.00} m, {incubator.MassKilograms:0} kg · crew {settings.Get(SiteSettings.Crew)}");
        return Page();
    }

    private FloorPlanSnapshot? FindSite() => SiteId is null ? store.Default : store.TryFind(SiteId, out var site) ? site : null;

    private string Example(PlaceKind kind) => _site.Plan.Places.Where(p => p.Kind == kind).Select(p => p.Number).Order(StringComparer.Ordinal).FirstOrDefault() ?? "1.01";
}
