using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Plans;

public sealed record SizeOption(string Id, string Words);

public sealed class StartModel : PageModel
{
    [BindProperty]
    public PlanForm Form { get; set; } = new();
    public string SiteId { get; } = "demonstration";
    public string? Notice { get; } = "Invented building, invented data: for demonstration only.";
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];
    public IReadOnlyList<Place> Places { get; } = [];
    public IReadOnlyList<SizeOption> OxygenSizes { get; } = [new("US-E", "E, United States, 616 L at 2200 psi")];
    public IReadOnlyList<SizeOption> AirSizes { get; } = [new("US-E-AIR", "E air, United States, 625 L at 1900 psi")];
    public string ExampleFrom => "D-2.14";
    public string ExampleTo => "N-4.03";
    public string AssumedConveyance => "1.50 × 0.75 m, 140 kg · crew 4";
    public bool ShowClinical => false;
    public bool ShowLogistics => false;
    public string? IsWrong(string field) => Problems.Any(p => p.Field == field) ? "true" : null;
    public void OnGet() { }
    public void OnPost() => Problems = [new("From", "Give the place to leave from, by number or name."), new("OxygenGauge", "Give the reading as a number from 0 to 3300 psi; got abc.")];
}
