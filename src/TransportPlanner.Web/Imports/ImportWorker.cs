using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text.Json;
using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>Reads uploaded files one after another, so that the memory that one of them may take is all that imports ever take.</summary>
internal sealed partial class ImportWorker(IServiceScopeFactory scopes, DataFolder folder, FloorPlanStore store, TimeProvider time, ILogger<ImportWorker> logger) : BackgroundService
{
    private readonly Channel<string> _queue = Channel.CreateUnbounded<string>();
    private readonly ConcurrentDictionary<string, Job> _jobs = new();

    private sealed record Job(CancellationTokenSource Stop)
    {
        public string Step { get; set; } = "waiting for the import before it";
    }

    public string FileOf(string id, bool outlines = false)
    {
        Directory.CreateDirectory(folder.Uploads);
        return Path.Combine(folder.Uploads, outlines ? $"{id}.outlines" : id);
    }

    public void Start(string id)
    {
        _jobs[id] = new(new());
        _queue.Writer.TryWrite(id);
    }

    /// <summary>False where it does not wait and does not read.</summary>
    public bool Cancel(string id)
    {
        if (!_jobs.TryGetValue(id, out var job))
        {
            return false;
        }

        job.Stop.Cancel();
        return true;
    }

    public string? StepOf(string id) => _jobs.GetValueOrDefault(id)?.Step;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await ForgetAsync(stoppingToken);
        await foreach (var id in _queue.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await ReadAsync(id, stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException || !stoppingToken.IsCancellationRequested)
            {
                LogFailure(logger, e, id);
            }
            finally
            {
                _jobs.TryRemove(id, out _);
                File.Delete(FileOf(id));
                File.Delete(FileOf(id, outlines: true));
            }
        }
    }

    /// <summary>What was being read when the planner stopped is not read again by itself: its file may be what stopped it.</summary>
    private async Task ForgetAsync(CancellationToken cancellationToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        await context.Imports.Where(i => i.State == ImportState.Reading)
            .ExecuteUpdateAsync(set => set.SetProperty(i => i.State, ImportState.Cancelled).SetProperty(i => i.Version, i => i.Version + 1), cancellationToken);
    }

    private async Task ReadAsync(string id, CancellationToken stoppingToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        var import = await context.Imports.SingleAsync(i => i.Id == id, stoppingToken);
        var job = _jobs[id];
        using var limit = new CancellationTokenSource(ImportFiles.TimeLimit, time);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(job.Stop.Token, limit.Token, stoppingToken);
        var findings = new List<Finding>();
        var outlines = FileOf(id, outlines: true);
        DraftPlan? draft = null;
        try
        {
            draft = await Task.Run(
                () => ImportFiles.Read(
                    import.Format, FileOf(id), File.Exists(outlines) ? outlines : null, new(import.SiteId, import.SiteName, import.TimeZone, import.Notice),
                    store.TryFind(import.SiteId, out var site) ? site.Plan : null, findings, new Steps(job), stop.Token),
                stop.Token);
            import.State = draft is null ? ImportState.Refused : ImportState.Draft;
        }
        catch (OperationCanceledException) when (!stoppingToken.IsCancellationRequested)
        {
            import.State = job.Stop.IsCancellationRequested ? ImportState.Cancelled : ImportState.Refused;
            if (import.State == ImportState.Refused)
            {
                findings.Add(WorkbookTables.Refused($"The file was not read within {ImportFiles.TimeLimit.TotalMinutes} minutes, which is the limit: leave out what describes no floor, space, door or coordinate, or split the site."));
            }
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            // A fault of the reader must not leave somebody waiting; the log has it.
            LogFailure(logger, e, id);
            import.State = ImportState.Refused;
            findings.Add(WorkbookTables.Refused($"The planner could not read this file ({e.GetType().Name}), which is a fault of its own: the log has it under the import {id}."));
        }

        import.Draft = draft is null ? null : FloorPlanGeoJson.Write(draft.Whole);
        import.Joins = JsonSerializer.Serialize(draft?.Joins ?? []);
        import.Findings = JsonSerializer.Serialize<IReadOnlyList<Finding>>(draft is null ? findings : draft.FileFindings);
        await context.SaveChangesAsync(CancellationToken.None);
    }

    private sealed class Steps(Job job) : IProgress<string>
    {
        public void Report(string value) => job.Step = value;
    }

    [LoggerMessage(LogLevel.Error, "Import {Id} failed")]
    private static partial void LogFailure(ILogger logger, Exception exception, string id);
}
