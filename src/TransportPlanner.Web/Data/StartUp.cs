using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>
/// Before the first request: brings the embedded database up to date, publishes the demonstration site where there is no site, and
/// loads every plan in force. A server's database is migrated by the command <c>migrate</c>, since several planners may share it.
/// </summary>
internal sealed class StartUp(IServiceScopeFactory scopes, FloorPlanStore store, TimeProvider time) : IHostedService
{
    public const string DemonstrationSite = "demonstration";
    private const string Demonstration = "FloorPlans/demonstration.geojson";

    public async Task StartAsync(CancellationToken cancellationToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        if (context.Database.IsSqlite())
        {
            await context.Database.MigrateAsync(cancellationToken);
        }
        else if ((await context.Database.GetPendingMigrationsAsync(cancellationToken)).Any())
        {
            throw new InvalidOperationException("The database is not up to date: run the command migrate with the same connection string, then start again.");
        }

        if (!await context.Sites.AnyAsync(cancellationToken) && await ReadDemonstrationAsync(cancellationToken) is { } demonstration)
        {
            await Publication.PublishAsync(context, store, demonstration, null, time.GetUtcNow(), cancellationToken);
            return;
        }

        var current = from site in context.Sites
                      join plan in context.FloorPlans on new { SiteId = site.Id, Number = site.FloorPlanVersion } equals new { plan.SiteId, plan.Number }
                      select plan.GeoJson;
        foreach (var geoJson in await current.ToListAsync(cancellationToken))
        {
            store.Publish(new(Read(geoJson)));
        }
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    private static async Task<FloorPlan?> ReadDemonstrationAsync(CancellationToken cancellationToken)
    {
        await using var file = typeof(StartUp).Assembly.GetManifestResourceStream(Demonstration);
        if (file is null)
        {
            return null;
        }

        using var reader = new StreamReader(file);
        return Read(await reader.ReadToEndAsync(cancellationToken));
    }

    private static FloorPlan Read(string geoJson)
    {
        var reading = FloorPlanGeoJson.Read(geoJson);
        return reading.IsRead ? reading.Plan : throw new InvalidDataException($"A stored floor plan cannot be read: {reading.Findings[0]}");
    }
}
