using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Plans;

/// <summary>Go on a phone: who speaks, what may have changed, two voices, and a stop for everybody.</summary>
internal sealed partial class GoModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public PlanResponse Plan { get; private set; } = null!;
    public GoResponse Go { get; private set; } = null!;
    public RoleTitles Titles { get; private set; } = null!;
    public string? Notice { get; private set; }

    /// <summary>Who speaks; null until somebody says so, and nothing can be said then.</summary>
    public PlanRole? Role { get; private set; }

    /// <summary>The way that the page is about: the one that is asked for, else the one that is spoken about, else the least exposed.</summary>
    public string Way { get; private set; } = "";

    /// <summary>Why a word was not taken; each with the id of its field, which is empty where no single field is wrong.</summary>
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    /// <summary>What was typed, so that a refusal loses nothing.</summary>
    public IReadOnlyList<string> Typed { get; private set; } = [];

    /// <summary>What was answered, by the name of the line.</summary>
    public IReadOnlyDictionary<string, AgainstPlan?> Answered { get; private set; } = new Dictionary<string, AgainstPlan?>();

    public static string Gauge(int index) => $"gauge-{index}";

    /// <summary>A cylinder by the number of its strip, so that two of one size are told apart.</summary>
    public static string Cylinder(PlanResponse plan, int index) =>
        $"Cylinder {index + 1}, {GasWords.Of(plan.Given.Cylinders[index].Gas)} {GasStrip.SizeOf(plan.Given.Cylinders[index])}";

    public string? IsWrong(int index) => Problems.Any(problem => problem.Field == Gauge(index)) ? "true" : null;

    public string Address(PlanRole? role, string? way = null) => $"/plans/{Plan.Id}/go?way={way ?? Way}{(role is { } who ? $"&role={who}" : "")}";

    public async Task<IActionResult> OnGetAsync(string id, string? way, PlanRole? role, CancellationToken cancellationToken) =>
        await GoBoard.FindAsync(context, id, time.GetUtcNow(), cancellationToken) is { } board ? await ShowAsync(board, way, role, cancellationToken) : NotFound();

    public Task<IActionResult> OnPostVoiceAsync(string id, string? way, PlanRole? role, string tag, CancellationToken cancellationToken) =>
        TakeAsync(id, way, role, tag, (board, who, now) => GoEndpoints.SayAsync(board, new() { Role = who, Way = way ?? "" }, now, cancellationToken), cancellationToken);

    public Task<IActionResult> OnPostWayAsync(string id, string? way, PlanRole? role, string tag, CancellationToken cancellationToken) =>
        TakeAsync(id, way, role, tag, (board, who, now) => GoEndpoints.ChooseAsync(board, new() { Role = who, Way = way ?? "" }, now, cancellationToken), cancellationToken);

    public Task<IActionResult> OnPostRecheckAsync(
        string id, string? way, PlanRole? role, string tag, AgainstPlan? support, AgainstPlan? flow, AgainstPlan? oxygenFraction, AgainstPlan? crew, AgainstPlan? onTheWay,
        string[] gauge, CancellationToken cancellationToken)
    {
        Typed = gauge;
        Answered = new Dictionary<string, AgainstPlan?>
        {
            [nameof(support)] = support,
            [nameof(flow)] = flow,
            [nameof(oxygenFraction)] = oxygenFraction,
            [nameof(crew)] = crew,
            [nameof(onTheWay)] = onTheWay,
        };
        return TakeAsync(
            id, way, role, tag,
            async (board, who, now) =>
            {
                if (support is null || flow is null || oxygenFraction is null || crew is null || onTheWay is null)
                {
                    return Http.Problems.Invalid("recheck", "Answer each line: as planned, or changed.");
                }

                var (gauges, wrong) = Read(board.Plan.Given.Cylinders, gauge);
                if (wrong.Count > 0)
                {
                    return Http.Problems.Invalid(wrong);
                }

                return await GoEndpoints.RecheckAsync(
                    board, context,
                    new()
                    {
                        Role = who,
                        Way = way ?? "",
                        Support = support.Value,
                        Flow = flow.Value,
                        OxygenFraction = oxygenFraction.Value,
                        Crew = crew.Value,
                        OnTheWay = onTheWay.Value,
                        Gauges = gauges,
                    },
                    now, cancellationToken);
            },
            cancellationToken);
    }

    /// <summary>The readings that were typed, in the ranges that the API takes; what is wrong by the path that the API gives it.</summary>
    private static (List<GaugeAgainRequest> Gauges, Dictionary<string, string[]> Wrong) Read(IReadOnlyList<CylinderRequest> cylinders, string[] typed)
    {
        List<GaugeAgainRequest> gauges = [];
        Dictionary<string, string[]> wrong = [];
        foreach (var (i, (cylinder, text)) in cylinders.Zip(typed).Index())
        {
            var isNumber = decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var reading);
            gauges.Add(cylinder switch
            {
                { GaugeBar: not null } => new() { GaugeBar = reading },
                { GaugeKpa: not null } => new() { GaugeKpa = reading },
                _ => new() { GaugePsi = reading },
            });
            List<ValidationResult> refused = [];
            if (!isNumber)
            {
                wrong[$"gauges[{i}]"] = ["Read the gauge again and type its number."];
            }
            else if (!Validator.TryValidateObject(gauges[i], new(gauges[i]), refused, validateAllProperties: true))
            {
                wrong[$"gauges[{i}]"] = [.. refused.Select(one => one.ErrorMessage ?? "")];
            }
        }

        return (gauges, wrong);
    }

    public Task<IActionResult> OnPostStopAsync(string id, string? way, PlanRole? role, CancellationToken cancellationToken) =>
        TakeAsync(
            id, way, role, null,
            async (board, who, now) => await GoEndpoints.StopAsync(board, context, new() { Role = who }, now, cancellationToken) ? null : Http.Problems.Stale(),
            cancellationToken);

    private async Task<IActionResult> TakeAsync(
        string id, string? way, PlanRole? role, string? tag, Func<GoBoard, PlanRole, DateTimeOffset, Task<ProblemHttpResult?>> take, CancellationToken cancellationToken)
    {
        var now = time.GetUtcNow();
        if (await GoBoard.FindAsync(context, id, now, cancellationToken) is not { } board)
        {
            return NotFound();
        }

        List<EntryProblem> refused = role is not { } who ? [new("", "Say first who speaks.")]
            : tag is not null && tag != board.Tag ? [new("", "Something was said or changed meanwhile: look at it as it stands now, then press again.")]
            : await take(board, who, now) is { } problem ? Words(problem, board.Plan)
            : [];
        if (refused.Count == 0)
        {
            return Redirect($"/plans/{board.Plan.Id}/go?way={way}&role={role}");
        }

        context.ChangeTracker.Clear();
        Problems = refused;
        return await ShowAsync(await GoBoard.OfAsync(context, board.Plan, now, cancellationToken), way, role, cancellationToken);
    }

    /// <summary>A gauge by its field and its cylinder; everything else in its own words.</summary>
    private static List<EntryProblem> Words(ProblemHttpResult problem, PlanResponse plan) => problem.ProblemDetails is not HttpValidationProblemDetails { Errors: var errors }
        ? [new("", problem.ProblemDetails.Detail ?? "")]
        :
        [
            .. from error in errors
               let gauge = GaugePath().Match(error.Key)
               let index = gauge.Success ? int.Parse(gauge.Groups[1].Value, CultureInfo.InvariantCulture) : -1
               from words in error.Value
               select gauge.Success ? new EntryProblem(Gauge(index), $"{Cylinder(plan, index)}: {words}") : new EntryProblem("", words),
        ];

    [GeneratedRegex(@"^gauges\[(\d+)\]")]
    private static partial Regex GaugePath();

    private async Task<PageResult> ShowAsync(GoBoard board, string? way, PlanRole? role, CancellationToken cancellationToken)
    {
        (Plan, Go, Role) = (board.Plan, board.Answer(), role);
        Way = board.Way(way ?? "")?.Id ?? board.WayInMind;
        Titles = new(await SiteSettings.ReadAsync(context, Plan.SiteId, cancellationToken));
        Notice = store.TryFind(Plan.SiteId, out var site) ? site.Plan.Notice : null;
        return Page();
    }
}
