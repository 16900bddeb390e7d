using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>One published version with who published it; null where nobody said, and at the first start.</summary>
public sealed record VersionRow(int Number, DateTimeOffset PublishedAt, string? By, string? ImportId, string? File);

/// <summary>Published versions of a site.</summary>
internal static class PlanVersions
{
    /// <summary>The newest first.</summary>
    public static async Task<IReadOnlyList<VersionRow>> ListAsync(PlannerContext context, string siteId, CancellationToken cancellationToken)
    {
        var versions = await context.FloorPlans.Where(p => p.SiteId == siteId).OrderByDescending(p => p.Number)
            .Select(p => new { p.Number, p.PublishedAt, p.PublishedBy }).ToListAsync(cancellationToken);
        var imports = (await context.Imports.Where(i => i.SiteId == siteId && i.PublishedVersion != null)
            .Select(i => new { i.Id, Number = i.PublishedVersion!.Value, i.PublishedBy, i.FileName }).ToListAsync(cancellationToken)).ToLookup(i => i.Number);
        return [.. versions.Select(v => imports[v.Number].FirstOrDefault() is { } import
            ? new VersionRow(v.Number, v.PublishedAt, import.PublishedBy, import.Id, import.FileName)
            : new VersionRow(v.Number, v.PublishedAt, v.PublishedBy, null, null))];
    }

    /// <summary>The plans of these numbers, as far as they exist.</summary>
    public static async Task<IReadOnlyDictionary<int, FloorPlan>> FindAsync(
        PlannerContext context, string siteId, IReadOnlyList<int> numbers, CancellationToken cancellationToken)
    {
        var rows = await context.FloorPlans.AsNoTracking().Where(p => p.SiteId == siteId && numbers.Contains(p.Number)).ToListAsync(cancellationToken);
        return rows.ToDictionary(row => row.Number, row => FloorPlanGeoJson.Read(row.GeoJson).Plan!);
    }
}
