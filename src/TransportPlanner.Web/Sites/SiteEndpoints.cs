using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Sites;

/// <summary>The sites, what is closed in them, and what they say for themselves.</summary>
internal static class SiteEndpoints
{
    public static void MapSites(this IEndpointRouteBuilder api)
    {
        var sites = api.MapGroup("/sites").WithTags("Sites");
        sites.MapGet("", List).WithName("listSites")
            .WithSummary("The sites of this planner")
            .WithExample(null, SiteExamples.Sites);
        sites.MapGet("/{siteId}", Get).WithName("getSite")
            .WithSummary("One site with its levels")
            .ProducesProblem(404).WithExample(null, SiteExamples.Site);
        sites.MapClosures();
        sites.MapMapTasks();
        sites.MapSettings();
    }

    private static Ok<SitesResponse> List(FloorPlanStore store) => TypedResults.Ok(new SitesResponse([.. store.Sites.Select(s => SiteResponse.From(s.Plan))]));

    private static Results<Ok<SiteResponse>, ProblemHttpResult> Get(string siteId, FloorPlanStore store) =>
        store.TryFind(siteId, out var site) ? TypedResults.Ok(SiteResponse.From(site.Plan)) : Problems.NoSite(siteId);
}
