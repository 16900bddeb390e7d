using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;

namespace TransportPlanner.Web.Plans;

/// <summary>The newest version of a plan, where an older one is looked at: paper of that one must say so by itself.</summary>
/// <param name="Number">From 2.</param>
/// <param name="MadeAt">UTC.</param>
internal sealed record NewerVersion(int Number, DateTimeOffset MadeAt)
{
    /// <summary>Null where this is the newest.</summary>
    public static async Task<NewerVersion?> OfAsync(PlannerContext context, PlanResponse plan, CancellationToken cancellationToken) =>
        await context.PlanVersions.AsNoTracking().Where(version => version.PlanId == plan.Id && version.Number > plan.Version)
            .OrderByDescending(version => version.Number).Select(version => new NewerVersion(version.Number, version.CreatedAt)).FirstOrDefaultAsync(cancellationToken);

    /// <summary>When it was made: day and time at the site.</summary>
    public string At(PlanResponse plan) => FloorPlanWords.LocalDay(MadeAt, plan.TimeZone);
}
