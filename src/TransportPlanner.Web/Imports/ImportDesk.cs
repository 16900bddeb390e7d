using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>What one person said of one thing, before it is taken.</summary>
internal sealed record Answered(string Key, ImportAnswer Answer, string? Reason);

/// <summary>What a person does with an import; endpoints and pages call the same.</summary>
internal sealed class ImportDesk(PlannerContext context, FloorPlanStore store, ImportWorker worker, TimeProvider time)
{
    public async Task<BuildingImport> BeginAsync(ImportRequest request, CancellationToken cancellationToken)
    {
        var site = store.TryFind(request.SiteId, out var known) ? known.Plan : null;
        var import = new BuildingImport
        {
            Id = RandomId.New(),
            SiteId = request.SiteId,
            SiteName = request.SiteName ?? site?.Name ?? request.SiteId,
            TimeZone = request.TimeZone ?? site?.TimeZone ?? "Etc/UTC",
            Notice = request.Notice ?? site?.Notice,
            FileName = request.FileName,
            Format = request.Format,
            BroughtBy = request.By,
            CreatedAt = time.GetUtcNow(),
            State = ImportState.Waiting,
        };
        context.Add(import);
        await context.SaveChangesAsync(cancellationToken);
        return import;
    }

    /// <summary>Keeps an upload until it is read. False where it is larger than the limit; nothing is kept then.</summary>
    public async Task<bool> KeepAsync(BuildingImport import, Stream body, bool outlines, CancellationToken cancellationToken)
    {
        var (path, limit) = (worker.FileOf(import.Id, outlines), outlines ? ImportFiles.MaxOutlineBytes : ImportFiles.MaxFileBytes);
        var buffer = new byte[81_920];
        var total = 0L;
        await using (var file = File.Create(path))
        {
            int read;
            while ((read = await body.ReadAsync(buffer, cancellationToken)) > 0 && (total += read) <= limit)
            {
                await file.WriteAsync(buffer.AsMemory(0, read), cancellationToken);
            }
        }

        if (total > limit)
        {
            File.Delete(path);
        }

        return total <= limit;
    }

    public async Task StartAsync(BuildingImport import, CancellationToken cancellationToken)
    {
        import.State = ImportState.Reading;
        await context.SaveChangesAsync(cancellationToken);
        worker.Start(import.Id);
    }

    /// <summary>Null where all answers were taken, else the first that was not, with the reason in words.</summary>
    public async Task<(int Index, string Words)?> DecideAsync(ImportReview review, IReadOnlyList<Answered> answers, string by, CancellationToken cancellationToken)
    {
        var number = await context.ImportDecisions.CountAsync(d => d.ImportId == review.Import.Id, cancellationToken);
        for (var i = 0; i < answers.Count; i++)
        {
            var said = answers[i];
            var join = review.Joins.FirstOrDefault(j => j.Join.Id == said.Key);
            var finding = review.Findings.FirstOrDefault(f => f.Key == said.Key);
            var step = review.Steps.FirstOrDefault(s => s.Key == said.Key);
            if (Refusal(said, join, finding, step) is { } words)
            {
                return (i, words);
            }

            context.Add(new ImportDecision
            {
                ImportId = review.Import.Id,
                Number = ++number,
                Key = said.Key,
                About = join?.Join.Why ?? finding?.Finding.Text ?? System.Text.Json.JsonSerializer.Serialize(step!.Step),
                Answer = said.Answer,
                Reason = string.IsNullOrWhiteSpace(said.Reason) ? null : said.Reason.Trim(),
                DecidedBy = by,
                DecidedAt = time.GetUtcNow(),
            });
        }

        // The import itself counts as changed, so that of two people who decide at once the second is told.
        context.Entry(review.Import).State = EntityState.Modified;
        await context.SaveChangesAsync(cancellationToken);
        return null;
    }

    private static string? Refusal(Answered said, ReviewedJoin? join, ReviewedFinding? finding, ReviewedStep? step) => step is not null
        ? said.Answer is ImportAnswer.Open or ImportAnswer.Confirmed ? null : "A step holds or is taken back: give confirmed or open."
        : Refusal(said, join, finding);

    private static string? Refusal(Answered said, ReviewedJoin? join, ReviewedFinding? finding) => (join, finding, said.Answer) switch
    {
        (null, null, _) => $"There is no open finding and no join {said.Key}: the draft may have changed; read it again.",
        (not null, _, ImportAnswer.Accepted) => "A join is confirmed or has no way: give confirmed, noWay or open.",
        (null, { Finding.Severity: FindingSeverity.Error }, ImportAnswer.Accepted) => "An error cannot be accepted: mend it in the file and upload that.",
        (null, _, ImportAnswer.Confirmed or ImportAnswer.NoWay) => "A finding is accepted, with a reason, or left open.",
        (null, _, ImportAnswer.Accepted) when string.IsNullOrWhiteSpace(said.Reason) => "Say why it is accepted: the reason is kept.",
        _ => null,
    };

    /// <summary>
    /// Publishes what was reviewed; map tasks about what was corrected by hand are done with it. The plan in force stays as it was where anything fails.
    /// </summary>
    public async Task<FloorPlanVersion> PublishAsync(ImportReview review, string by, CancellationToken cancellationToken)
    {
        var now = time.GetUtcNow();
        var import = review.Import;
        (import.State, import.PublishedAt, import.PublishedBy, import.PublishedVersion) = (ImportState.Published, now, by, (review.InForce?.Version ?? 0) + 1);
        var corrected = review.Steps.Where(step => step.TakenBack is null).Select(step => step.Step.About).ToHashSet();
        foreach (var task in await MapTask.OpenAsync(context, import.SiteId, cancellationToken))
        {
            if (corrected.Contains((task.Target, task.TargetId)))
            {
                task.Do(by, $"corrected in version {import.PublishedVersion}", now);
            }
        }

        return await Publication.PublishAsync(context, store, review.Plan!, by, now, cancellationToken);
    }
}
