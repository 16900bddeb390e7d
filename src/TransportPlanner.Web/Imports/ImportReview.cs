using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>A finding with its key and what a person said of it.</summary>
internal sealed record ReviewedFinding(string Key, Finding Finding, ImportDecision? Decision)
{
    public bool IsOpen => Finding.Severity == FindingSeverity.Error || Decision is null;
}

/// <summary>A proposed join and what a person said of it; <see cref="Carried"/>: it stands in the plan in force already.</summary>
internal sealed record ReviewedJoin(InferredJoin Join, ImportDecision? Decision, bool Carried)
{
    public ImportAnswer Answer => Decision?.Answer ?? (Carried ? ImportAnswer.Confirmed : ImportAnswer.Open);
}

/// <summary>A step made by hand; <see cref="TakenBack"/>: who took it back, null while it holds.</summary>
internal sealed record ReviewedStep(string Key, PlanCorrection Step, string By, DateTimeOffset At, ImportDecision? TakenBack);

/// <summary>An import as it stands now: the plan that would be published, against the plan in force.</summary>
internal sealed class ImportReview
{
    /// <summary>Keys of steps begin with this; neither keys of findings nor ids of joins do.</summary>
    internal const string StepPrefix = "correction ";

    private ImportReview(BuildingImport import) => Import = import;

    public BuildingImport Import { get; }

    /// <summary>What would be published; null where the file was not read.</summary>
    public FloorPlan? Plan { get; private init; }

    /// <summary>The plan in force that it was compared with.</summary>
    public FloorPlan? InForce { get; private init; }
    public IReadOnlyList<ReviewedFinding> Findings { get; private init; } = [];
    public IReadOnlyList<ReviewedJoin> Joins { get; private init; } = [];
    public IReadOnlyList<ReviewedStep> Steps { get; private init; } = [];
    public IReadOnlyList<PlanChange> Changes { get; private init; } = [];
    public int Errors => Findings.Count(finding => finding.Finding.Severity == FindingSeverity.Error);
    public int Open => Findings.Count(finding => finding.IsOpen) - Errors;
    public bool CanBePublished => Import.State == ImportState.Draft && Plan is not null && Errors + Open == 0 && !IsEmpty;

    /// <summary>Steps that all were taken back leave nothing to publish.</summary>
    public bool IsEmpty => Import.Format == ImportFormat.Corrections && Steps.All(step => step.TakenBack is not null);

    /// <summary>The same words have the same key; an acceptance does not outlive them.</summary>
    public static string KeyOf(Finding finding) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{finding.Path}|{finding.Subject}|{finding.Text}")))[..12];

    public static async Task<ImportReview?> FindAsync(PlannerContext context, FloorPlanStore store, string id, CancellationToken cancellationToken)
    {
        if (await context.Imports.SingleOrDefaultAsync(i => i.Id == id, cancellationToken) is not { } import)
        {
            return null;
        }

        var decisions = await context.ImportDecisions.AsNoTracking().Where(d => d.ImportId == id).OrderBy(d => d.Number).ToListAsync(cancellationToken);
        var said = decisions
            .GroupBy(d => d.Key).Select(same => same.Last()).Where(d => d.Answer != ImportAnswer.Open).ToDictionary(d => d.Key);
        var limit = (await SiteSettings.ReadAsync(context, import.SiteId, cancellationToken)).Get(UpkeepSettings.AirChangesStaleMonths);

        // Ages are those of the day on which the import was brought: else an accepted warning would change its words by itself.
        IEnumerable<Finding> Old(FloorPlan plan) => FactAge.OldAirChanges(plan, DateOnly.FromDateTime(import.CreatedAt.UtcDateTime), limit);
        if (import.Format == ImportFormat.Corrections)
        {
            return OfSteps(import, store.TryFind(import.SiteId, out var corrected) ? corrected.Plan : null, StepsOf(decisions), said, Old);
        }

        var fileFindings = import.Findings is null ? [] : JsonSerializer.Deserialize<ImmutableArray<Finding>>(import.Findings);
        if (import.Draft is null || !FloorPlanGeoJson.Read(import.Draft).IsRead)
        {
            return new(import) { Findings = [.. fileFindings.Select(finding => new ReviewedFinding(KeyOf(finding), finding, null))] };
        }

        var draft = new DraftPlan(FloorPlanGeoJson.Read(import.Draft).Plan!, JsonSerializer.Deserialize<ImmutableArray<InferredJoin>>(import.Joins!), fileFindings);
        var inForce = store.TryFind(import.SiteId, out var site) ? site.Plan : null;
        var drawn = inForce?.Passages.Select(passage => passage.Id).ToHashSet() ?? [];
        ReviewedJoin[] joins = [.. draft.Joins.Select(join => new ReviewedJoin(join, said.GetValueOrDefault(join.Id), drawn.Contains(join.Id)))];
        var plan = draft.With([.. joins.Where(join => join.Answer == ImportAnswer.Confirmed).Select(join => join.Join.Id)]);

        // Our own format says everything; a handover file does not know what people found out since.
        plan = inForce is null || import.Format is not (ImportFormat.Cobie or ImportFormat.Osm) ? plan : CarriedFacts.Onto(plan, inForce);
        var changes = inForce is null ? [] : PlanComparison.Compare(inForce, plan);
        var findings = draft.Review(plan, [.. joins.Where(join => join.Answer != ImportAnswer.Open).Select(join => join.Join.Id)],
            [.. PlanComparison.Findings(changes, inForce?.Version ?? 0), .. Outdated(import, plan, inForce), .. Old(plan)]);
        return new(import)
        {
            Plan = plan,
            InForce = inForce,
            Findings = Reviewed(findings, said),
            Joins = joins,
            Changes = changes,
        };
    }

    /// <summary>Steps in the order in which they were made.</summary>
    internal static IReadOnlyList<ReviewedStep> StepsOf(IEnumerable<ImportDecision> decisions) =>
    [
        .. from decision in decisions
           where decision.Key.StartsWith(StepPrefix, StringComparison.Ordinal)
           group decision by decision.Key into same
           orderby same.First().Number
           select new ReviewedStep(same.Key, JsonSerializer.Deserialize<PlanCorrection>(same.First().About)!, same.First().DecidedBy, same.First().DecidedAt,
               same.Last().Answer == ImportAnswer.Open ? same.Last() : null),
    ];

    /// <summary>The steps replayed on the plan in force. What is wrong with that plan already is not asked again.</summary>
    private static ImportReview OfSteps(
        BuildingImport import, FloorPlan? inForce, IReadOnlyList<ReviewedStep> steps, Dictionary<string, ImportDecision> said, Func<FloorPlan, IEnumerable<Finding>> old)
    {
        if (inForce is null || import.State != ImportState.Draft)
        {
            return new(import) { InForce = inForce, Steps = steps };
        }

        var (plan, findings) = PlanCorrections.Onto(inForce, steps.Where(step => step.TakenBack is null).Select(step => (step.Key, step.Step)));
        var changes = PlanComparison.Compare(inForce, plan);
        var review = new DraftPlan(plan, [], findings).Review(
            plan, [], [.. PlanComparison.Findings(changes, inForce.Version), .. old(plan).Except(old(inForce))], FloorPlanCheck.Run(inForce));
        return new(import) { Plan = plan, InForce = inForce, Findings = Reviewed(review, said), Steps = steps, Changes = changes };
    }

    private static ReviewedFinding[] Reviewed(IEnumerable<Finding> findings, Dictionary<string, ImportDecision> said) =>
        [.. findings.Select(finding => (Key: KeyOf(finding), finding)).Select(pair => new ReviewedFinding(pair.Key, pair.finding, said.GetValueOrDefault(pair.Key)))];

    /// <summary>Facts are read onto one version; on another they would take back what somebody published since.</summary>
    private static IEnumerable<Finding> Outdated(BuildingImport import, FloorPlan plan, FloorPlan? inForce)
    {
        if (import.Format == ImportFormat.Facts && plan.Version != inForce?.Version)
        {
            yield return WorkbookTables.Refused($"The facts were read onto version {plan.Version}, and version {inForce?.Version} is in force since: bring the table again.");
        }
    }
}
