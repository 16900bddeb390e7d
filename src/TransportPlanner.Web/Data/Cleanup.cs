using Microsoft.EntityFrameworkCore;

namespace TransportPlanner.Web.Data;

/// <summary>Every ten minutes deletes clinical inputs and idempotency keys that are older than 24 hours.</summary>
internal sealed partial class Cleanup(IServiceScopeFactory scopes, TimeProvider time, ILogger<Cleanup> logger) : BackgroundService
{
    public static readonly TimeSpan ClinicalLifetime = TimeSpan.FromHours(24);
    public static readonly TimeSpan Interval = TimeSpan.FromMinutes(10);

    public static async Task RunAsync(PlannerContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var oldestInput = now - ClinicalLifetime;
        var oldestKey = now - IdempotencyKey.Lifetime;
        await context.ClinicalInputs.Where(c => c.EnteredAt <= oldestInput).ExecuteDeleteAsync(cancellationToken);
        await context.IdempotencyKeys.Where(k => k.CreatedAt <= oldestKey).ExecuteDeleteAsync(cancellationToken);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Interval, time);
        do
        {
            try
            {
                await using var scope = scopes.CreateAsyncScope();
                await RunAsync(scope.ServiceProvider.GetRequiredService<PlannerContext>(), time.GetUtcNow(), stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // A database that is away for a while must not end the service: the next round deletes what this one missed.
                LogFailure(logger, e, Interval);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    [LoggerMessage(LogLevel.Error, "Clinical inputs could not be deleted; trying again in {Interval}")]
    private static partial void LogFailure(ILogger logger, Exception exception, TimeSpan interval);
}
