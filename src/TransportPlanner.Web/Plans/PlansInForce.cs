using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>The transports of a site that are planned for a stretch of time, as their newest versions say.</summary>
internal static class PlansInForce
{
    /// <summary>
    /// The newest version of every plan that leaves before <paramref name="until"/> and may be used at <paramref name="from"/> or later, by departure,
    /// then by id. A plan is void half an hour after its departure; what it left to air outlasts it, so whoever asks for that asks from earlier on.
    /// </summary>
    /// <param name="context">The plans.</param>
    /// <param name="siteId">Of this site alone.</param>
    /// <param name="from">Plans that were void before are left out; a plan is still in force at its last instant.</param>
    /// <param name="until">Plans that leave at this instant or later are left out.</param>
    /// <param name="cancellationToken">The caller gives up.</param>
    public static async Task<IReadOnlyList<PlanResponse>> ListAsync(
        PlannerContext context, string siteId, DateTimeOffset from, DateTimeOffset until, CancellationToken cancellationToken)
    {
        // Npgsql takes instants in UTC only.
        var (first, end) = (from.ToUniversalTime(), until.ToUniversalTime());
        var snapshots = await (
            from plan in context.Plans.AsNoTracking()
            where plan.SiteId == siteId && plan.VoidAfter >= first && plan.DepartAt < end
            join version in context.PlanVersions.AsNoTracking() on new { PlanId = plan.Id, Number = plan.CurrentVersion } equals new { version.PlanId, version.Number }
            orderby plan.DepartAt, plan.Id
            select version.Snapshot).ToListAsync(cancellationToken);
        return [.. snapshots.Select(PlanStore.Read)];
    }

    /// <summary>The same plans by id, newest version and departure alone, without reading what they say; in no order.</summary>
    public static async Task<IReadOnlyList<PlanKey>> KeysAsync(
        PlannerContext context, string siteId, DateTimeOffset from, DateTimeOffset until, CancellationToken cancellationToken)
    {
        var (first, end) = (from.ToUniversalTime(), until.ToUniversalTime());
        return await context.Plans.AsNoTracking().Where(plan => plan.SiteId == siteId && plan.VoidAfter >= first && plan.DepartAt < end)
            .Select(plan => new PlanKey(plan.Id, plan.CurrentVersion, plan.DepartAt)).ToListAsync(cancellationToken);
    }

    /// <summary>What some of them say, in no order; one that was changed or deleted meanwhile is left out.</summary>
    public static async Task<IReadOnlyList<PlanResponse>> ReadAsync(PlannerContext context, IReadOnlyList<PlanKey> keys, CancellationToken cancellationToken)
    {
        var ids = keys.Select(key => key.Id).ToList();
        var snapshots = await (
            from plan in context.Plans.AsNoTracking()
            where ids.Contains(plan.Id)
            join version in context.PlanVersions.AsNoTracking() on new { PlanId = plan.Id, Number = plan.CurrentVersion } equals new { version.PlanId, version.Number }
            select version.Snapshot).ToListAsync(cancellationToken);
        return [.. snapshots.Select(PlanStore.Read)];
    }
}

/// <summary>A plan of which nothing else is read yet.</summary>
internal sealed record PlanKey(string Id, int Version, DateTimeOffset DepartAt);
