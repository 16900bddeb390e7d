using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Go on a phone: who speaks, what may have changed, two voices, and a stop for everybody.</summary>
internal sealed class GoModel(PlannerContext context, FloorPlanStore store, TimeProvider time) : PageModel
{
    public PlanResponse Plan { get; private set; } = null!;
    public GoResponse Go { get; private set; } = null!;
    public RoleTitles Titles { get; private set; } = null!;
    public string? Notice { get; private set; }

    /// <summary>Who speaks; null until somebody says so, and nothing can be said then.</summary>
    public PlanRole? Role { get; private set; }

    /// <summary>The way that the page is about: the one that is asked for, else the one that is spoken about, else the least exposed.</summary>
    public string Way { get; private set; } = "";

    /// <summary>Why a word was not taken.</summary>
    public string? Problem { get; private set; }

    /// <summary>What was typed, so that a refusal loses nothing.</summary>
    public IReadOnlyList<string> Typed { get; private set; } = [];

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
        return TakeAsync(
            id, way, role, tag,
            async (board, who, now) =>
            {
                if (support is null || flow is null || oxygenFraction is null || crew is null || onTheWay is null)
                {
                    return Http.Problems.Invalid("recheck", "Answer each line: as planned, or changed.");
                }

                var cylinders = board.Plan.Given.Cylinders;
                List<GaugeAgainRequest> gauges = [];
                foreach (var (cylinder, typed) in cylinders.Zip(gauge))
                {
                    if (!decimal.TryParse(typed, System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out var reading))
                    {
                        return Http.Problems.Invalid("gauges", "Read each gauge again and type its number.");
                    }

                    gauges.Add(cylinder switch
                    {
                        { GaugeBar: not null } => new() { GaugeBar = reading },
                        { GaugeKpa: not null } => new() { GaugeKpa = reading },
                        _ => new() { GaugePsi = reading },
                    });
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

        var refused = role is not { } who ? "Say first who speaks."
            : tag is not null && tag != board.Tag ? "Something was said or changed meanwhile: look at it as it stands now, then press again."
            : await take(board, who, now) is { } problem ? Words(problem)
            : null;
        if (refused is null)
        {
            return Redirect($"/plans/{board.Plan.Id}/go?way={way}&role={role}");
        }

        context.ChangeTracker.Clear();
        Problem = refused;
        return await ShowAsync(await GoBoard.OfAsync(context, board.Plan, now, cancellationToken), way, role, cancellationToken);
    }

    private static string Words(ProblemHttpResult problem) =>
        problem.ProblemDetails is HttpValidationProblemDetails { Errors: var errors } ? string.Join(" ", errors.Values.SelectMany(words => words)) : problem.ProblemDetails.Detail ?? "";

    private async Task<PageResult> ShowAsync(GoBoard board, string? way, PlanRole? role, CancellationToken cancellationToken)
    {
        (Plan, Go, Role) = (board.Plan, board.Answer(), role);
        Way = board.Way(way ?? "")?.Id ?? board.WayInMind;
        Titles = new(await SiteSettings.ReadAsync(context, Plan.SiteId, cancellationToken));
        Notice = store.TryFind(Plan.SiteId, out var site) ? site.Plan.Notice : null;
        return Page();
    }
}
