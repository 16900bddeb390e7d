using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>Makes a checked plan the next version of its site: stored first, then swapped in.</summary>
internal static class Publication
{
    /// <exception cref="DbUpdateException">Somebody else published meanwhile; nothing is changed.</exception>
    public static async Task<FloorPlanVersion> PublishAsync(
        PlannerContext context, FloorPlanStore store, FloorPlan draft, string? by, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var site = await context.Sites.SingleOrDefaultAsync(s => s.Id == draft.SiteId, cancellationToken);
        var plan = draft with { Version = (site?.FloorPlanVersion ?? 0) + 1 };
        var snapshot = new FloorPlanSnapshot(plan);
        var version = new FloorPlanVersion
        {
            SiteId = plan.SiteId,
            Number = plan.Version,
            GeoJson = FloorPlanGeoJson.Write(plan),
            PublishedAt = now,
            PublishedBy = by,
            Notice = plan.Notice,
        };
        if (site is null)
        {
            context.Add(new Site { Id = plan.SiteId, Name = plan.Name, TimeZone = plan.TimeZone, Notice = plan.Notice, FloorPlanVersion = plan.Version });
        }
        else
        {
            (site.Name, site.TimeZone, site.Notice, site.FloorPlanVersion) = (plan.Name, plan.TimeZone, plan.Notice, plan.Version);
        }

        context.Add(version);
        await context.SaveChangesAsync(cancellationToken);
        store.Publish(snapshot);
        return version;
    }
}
