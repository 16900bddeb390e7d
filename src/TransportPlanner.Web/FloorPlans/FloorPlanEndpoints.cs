using System.ComponentModel.DataAnnotations;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>Why a floor plan is not published.</summary>
internal enum FloorPlanProblem
{
    /// <summary>The file is well formed, but the plan contradicts itself; <c>findings</c> names each place and the fix.</summary>
    FloorPlanCheckFailed,
}

/// <summary>Floor plans as GeoJSON, both ways. A published version is never changed; a change is the next version.</summary>
internal static class FloorPlanEndpoints
{
    private const string GeoJson = "application/geo+json";

    /// <summary>The registered type of GML documents (OGC 09-047r3, from memory).</summary>
    private const string IndoorGmlType = "application/gml+xml";

    public static void MapFloorPlans(this IEndpointRouteBuilder api)
    {
        var plans = api.MapGroup("/sites/{siteId}/floor-plan").WithTags("Floor plans");
        plans.MapGet("", Get).WithName("getFloorPlan")
            .WithSummary("The floor plan in force, as GeoJSON in local metres")
            .Produces<JsonObject>(200, GeoJson).ProducesProblem(404).WithExample(null, FloorPlanExamples.Plan);
        plans.MapGet("/indoorgml", GetIndoorGml).WithName("getFloorPlanAsIndoorGml")
            .WithSummary("The floor plan in force as IndoorGML 1.1, in local metres")
            .WithDescription("A cell space and a state for each place, a boundary and a transition for each passage. Out only: an import takes the GeoJSON.")
            .Produces<string>(200, IndoorGmlType).ProducesProblem(404).WithExample(null, FloorPlanExamples.IndoorGml);
        plans.MapPut("", Publish).WithName("publishFloorPlan")
            .WithSummary("Publishes the next version")
            .WithDescription("A file that cannot be read is 400, a plan that contradicts itself 422; either way each finding names the feature, the property and the fix, and the plan in force stays. A new site is published with `If-None-Match: *`. `by` is the role that publishes it, never a name; it is kept with the version.")
            .Accepts<JsonObject>(GeoJson, "application/json")
            .ProducesProblem(412).ProducesProblem(422).ProducesProblem(428).WithExample(FloorPlanExamples.Plan, FloorPlanExamples.Published);
        plans.MapGet("/versions", List).WithName("listFloorPlanVersions")
            .WithSummary("Published versions, the newest first")
            .ProducesProblem(404).WithExample(null, FloorPlanExamples.Versions);
        plans.MapGet("/versions/{version:int}", GetVersion).WithName("getFloorPlanVersion")
            .WithSummary("A published version, as GeoJSON in local metres")
            .Produces<JsonObject>(200, GeoJson).ProducesProblem(404).WithExample(null, FloorPlanExamples.Plan);
        plans.MapGet("/versions/{version:int}/changes", Changes).WithName("listFloorPlanChanges")
            .WithSummary("What a version changed against an earlier one")
            .WithDescription("Against `since`, left out: the version before. Gone first, then renumbered, added, changed; each changed property with its figure and source before and after.")
            .ProducesProblem(404).WithExample(null, FloorPlanExamples.Changes);
    }

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> Get(
        string siteId, FloorPlanStore store, PlannerContext context, HttpResponse response, CancellationToken cancellationToken) =>
        store.TryFind(siteId, out var site)
            ? await GetVersion(siteId, site.Plan.Version, context, response, cancellationToken)
            : Problems.NoSite(siteId);

    private static Results<ContentHttpResult, ProblemHttpResult> GetIndoorGml(string siteId, FloorPlanStore store, HttpResponse response)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        response.SetEntityTag(site.Plan.Version);
        response.Headers.ContentDisposition = $"attachment; filename={siteId}-version-{site.Plan.Version}.gml";
        return TypedResults.Content(IndoorGml.Write(site.Graph), IndoorGmlType);
    }

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> GetVersion(
        string siteId, int version, PlannerContext context, HttpResponse response, CancellationToken cancellationToken)
    {
        var plan = await context.FloorPlans.AsNoTracking().SingleOrDefaultAsync(p => p.SiteId == siteId && p.Number == version, cancellationToken);
        if (plan is null)
        {
            return Problems.NotFound($"Site {siteId} has no floor plan version {version}. GET /api/v1/sites/{siteId}/floor-plan/versions lists them.");
        }

        response.SetEntityTag(plan.Number);
        return TypedResults.Content(plan.GeoJson, GeoJson);
    }

    private static async Task<Results<Ok<FloorPlanVersionsResponse>, ProblemHttpResult>> List(
        string siteId, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken) =>
        store.TryFind(siteId, out _)
            ? TypedResults.Ok(new FloorPlanVersionsResponse(
                await context.FloorPlans.Where(p => p.SiteId == siteId).OrderByDescending(p => p.Number)
                    .Select(p => new FloorPlanVersionResponse(p.Number, p.PublishedAt, p.Notice)).ToListAsync(cancellationToken)))
            : Problems.NoSite(siteId);

    private static async Task<Results<Ok<FloorPlanChangesResponse>, ProblemHttpResult>> Changes(
        string siteId, int version, int? since, PlannerContext context, CancellationToken cancellationToken)
    {
        var (before, after) = (since ?? version - 1, version);
        var plans = await PlanVersions.FindAsync(context, siteId, [before, after], cancellationToken);
        return plans.TryGetValue(before, out var earlier) && plans.TryGetValue(after, out var later)
            ? TypedResults.Ok(new FloorPlanChangesResponse(before, after, PlanComparison.Compare(earlier, later)))
            : Problems.NotFound($"Site {siteId} has no floor plan version {(plans.ContainsKey(after) ? before : after)}. GET /api/v1/sites/{siteId}/floor-plan/versions lists them.");
    }

    private static async Task<Results<Ok<PublishedResponse>, Created<PublishedResponse>, ProblemHttpResult>> Publish(
        string siteId, [Length(1, 80, ErrorMessage = "Give the role that publishes it, 1 to 80 characters.")] string? by, HttpRequest request, FloorPlanStore store, PlannerContext context, TimeProvider time, CancellationToken cancellationToken)
    {
        using var reader = new StreamReader(request.Body);
        var reading = FloorPlanGeoJson.Read(await reader.ReadToEndAsync(cancellationToken));
        if (!reading.IsRead)
        {
            return Problems.Invalid(ByPath(reading.Findings));
        }

        var plan = reading.Plan;
        if (plan.SiteId != siteId)
        {
            return Problems.Invalid("siteId", $"The file is of site {plan.SiteId}, the address of site {siteId}: give the same in both.");
        }

        var exists = store.TryFind(siteId, out var current);
        if (!(exists is false && request.Headers.IfNoneMatch == "*") && request.RefuseUnlessCurrent(current?.Plan.Version ?? 0) is { } refusal)
        {
            return refusal;
        }

        var findings = FloorPlanCheck.Run(plan);
        if (findings.Any(f => f.Severity == FindingSeverity.Error))
        {
            return Problems.Impossible(
                FloorPlanProblem.FloorPlanCheckFailed, "The plan contradicts itself; see findings. The plan in force is unchanged.",
                ("findings", findings.Where(f => f.Severity == FindingSeverity.Error).Select(FindingResponse.From)));
        }

        try
        {
            var version = await Publication.PublishAsync(context, store, plan, by, time.GetUtcNow(), cancellationToken);
            var limit = (await SiteSettings.ReadAsync(context, siteId, cancellationToken)).Get(UpkeepSettings.AirChangesStaleMonths);
            var published = Response(version, plan, [.. findings, .. FactAge.OldAirChanges(plan, DateOnly.FromDateTime(time.GetUtcNow().UtcDateTime), limit)]);
            request.HttpContext.Response.SetEntityTag(version.Number);
            return exists ? TypedResults.Ok(published) : TypedResults.Created($"{OpenApi.BasePath}/sites/{siteId}/floor-plan", published);
        }
        catch (DbUpdateException) when (store.TryFind(siteId, out var newer) && newer != current)
        {
            return Problems.Stale(newer.Plan.Version);
        }
    }

    private static Dictionary<string, string[]> ByPath(IEnumerable<Finding> findings) =>
        findings.GroupBy(f => f.Path, f => $"{f.Subject}: {f.Text}").ToDictionary(g => g.Key, g => g.ToArray());

    private static PublishedResponse Response(FloorPlanVersion version, FloorPlan plan, IEnumerable<Finding> findings) => new()
    {
        SiteId = version.SiteId,
        Version = version.Number,
        PublishedAt = version.PublishedAt,
        Places = plan.Places.Length,
        Passages = plan.Passages.Length,
        Elevators = plan.Elevators.Length,
        Warnings = [.. findings.Where(f => f.Severity == FindingSeverity.Warning).Select(FindingResponse.From)],
    };
}
