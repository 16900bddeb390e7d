using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>Takes down corrections that a person makes on a page. All of a site go into one draft until it is published.</summary>
internal sealed class CorrectionDesk(PlannerContext context, FloorPlanStore store, TimeProvider time)
{
    /// <summary>The draft that is open for a site, reviewed; null where there is none.</summary>
    public async Task<ImportReview?> FindAsync(string siteId, CancellationToken cancellationToken)
    {
        var id = await context.Imports.Where(i => i.SiteId == siteId && i.Format == ImportFormat.Corrections && i.State == ImportState.Draft)
            .OrderBy(i => i.CreatedAt).Select(i => i.Id).FirstOrDefaultAsync(cancellationToken);
        return id is null ? null : await ImportReview.FindAsync(context, store, id, cancellationToken);
    }

    /// <summary>Null where the step was noted, else in words why it does not fit; nothing is kept then.</summary>
    /// <param name="inForce">The plan in force.</param>
    /// <param name="open">What <see cref="FindAsync"/> gave.</param>
    /// <param name="step">What was corrected.</param>
    /// <param name="by">The role that says so.</param>
    /// <param name="reason">What else it says of it, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <exception cref="DbUpdateException">Somebody noted a step at the same moment; nothing is kept.</exception>
    public async Task<string?> NoteAsync(FloorPlan inForce, ImportReview? open, PlanCorrection step, string by, string? reason, CancellationToken cancellationToken)
    {
        var (_, findings) = PlanCorrections.Onto(open?.Plan ?? inForce, [("Not noted", step)]);
        if (findings.FirstOrDefault(finding => finding.Severity == FindingSeverity.Error) is { } error)
        {
            return error.Text;
        }

        var now = time.GetUtcNow();
        var draft = open?.Import;
        if (draft is null)
        {
            draft = new()
            {
                Id = RandomId.New(),
                SiteId = inForce.SiteId,
                SiteName = inForce.Name,
                TimeZone = inForce.TimeZone,
                Notice = inForce.Notice,
                FileName = "Corrections",
                Format = ImportFormat.Corrections,
                BroughtBy = by,
                CreatedAt = now,
                State = ImportState.Draft,
            };
            context.Add(draft);
        }
        else
        {
            context.Entry(draft).State = EntityState.Modified;
        }

        context.Add(new ImportDecision
        {
            ImportId = draft.Id,
            Number = await context.ImportDecisions.CountAsync(d => d.ImportId == draft.Id, cancellationToken) + 1,
            Key = $"{ImportReview.StepPrefix}{(open?.Steps.Count ?? 0) + 1}",
            About = JsonSerializer.Serialize(step),
            Answer = ImportAnswer.Confirmed,
            Reason = reason,
            DecidedBy = by,
            DecidedAt = now,
        });
        await context.SaveChangesAsync(cancellationToken);
        return null;
    }
}
