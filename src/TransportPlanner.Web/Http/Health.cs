using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace TransportPlanner.Web.Http;

/// <summary><c>/health/live</c>: the process answers. <c>/health/ready</c>: it can plan; else 503 and the check that fails.</summary>
internal static class Health
{
    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false, ResponseWriter = Write });
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { ResponseWriter = Write });
    }

    private static Task Write(HttpContext context, HealthReport report) => context.Response.WriteAsJsonAsync(new
    {
        status = report.Status == HealthStatus.Healthy ? "ready" : "not ready",
        checks = report.Entries.Select(e => new { name = e.Key, ready = e.Value.Status == HealthStatus.Healthy, detail = e.Value.Description }),
    });
}
