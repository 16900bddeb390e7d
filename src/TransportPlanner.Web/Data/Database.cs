using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace TransportPlanner.Web.Data;

/// <summary>Which database the planner uses: PostgreSQL where the connection string <c>Planner</c> is given, else SQLite in the data folder.</summary>
internal static class Database
{
    public const string ConnectionName = "Planner";

    public static void AddDatabase(this WebApplicationBuilder builder, DataFolder folder)
    {
        var services = builder.Services;
        if (builder.Configuration.GetConnectionString(ConnectionName) is { Length: > 0 } server)
        {
            services.AddDbContext<PlannerContext, PostgreSqlContext>(options => PostgreSqlContext.Use(options, server));
        }
        else
        {
            services.AddDbContext<PlannerContext, SqliteContext>(options => SqliteContext.Use(options, folder.Database));
        }

        services.AddSingleton<FloorPlanStore>();
        services.AddHostedService<StartUp>();
        services.AddHostedService<Cleanup>();
        services.AddHealthChecks().AddCheck<Migrated>("database").AddCheck<FloorPlansLoaded>("floor plans");
    }

    private sealed class Migrated(PlannerContext context) : IHealthCheck
    {
        public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext _, CancellationToken cancellationToken = default)
        {
            if (!await context.Database.CanConnectAsync(cancellationToken))
            {
                return HealthCheckResult.Unhealthy("The database does not answer.");
            }

            var pending = (await context.Database.GetPendingMigrationsAsync(cancellationToken)).Count();
            return pending == 0 ? HealthCheckResult.Healthy() : HealthCheckResult.Unhealthy($"{pending} migrations are pending: run the command migrate.");
        }
    }

    private sealed class FloorPlansLoaded(FloorPlanStore store) : IHealthCheck
    {
        public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext _, CancellationToken cancellationToken = default) =>
            Task.FromResult(store.Sites.Count > 0 ? HealthCheckResult.Healthy() : HealthCheckResult.Unhealthy("No floor plan is published."));
    }
}
