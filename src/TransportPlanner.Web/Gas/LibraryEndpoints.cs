using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>The cylinder library: what ships with the planner, and what a site adds to it.</summary>
internal static class LibraryEndpoints
{
    public static void MapCylinderLibrary(this IEndpointRouteBuilder api)
    {
        var sizes = api.MapGroup("/cylinder-sizes").WithTags("Gas");
        sizes.MapGet("", List)
            .WithName("listCylinderSizes")
            .WithSummary("The cylinder library")
            .WithDescription(
                "Published sizes by country and gas, each with its source; with siteId also those that the site added, without figures while they wait for their second entry. One letter means different cylinders in "
                + "different countries, up to a factor of eight, so a request names the country or, better, gives what the label says.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .WithExample(null, GasExamples.Sizes);
        sizes.MapPost("", Add)
            .WithName("addCylinderSize")
            .WithSummary("Enter a size of the site's own, once")
            .WithDescription(
                "From the label of the cylinder. It is used once a second role has confirmed it. The test reading is recomputed; where its litres are more than "
                + "10 % away the entry is refused with the working.")
            .ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status409Conflict).ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .WithExample(GasExamples.NewSize, GasExamples.EnteredSize);
        sizes.MapPost("/{siteId}/{sizeId}/confirmation", Confirm)
            .WithName("confirmCylinderSize")
            .WithSummary("Confirm a size by a second, separate entry")
            .WithDescription("Another role reads the label again. The figures must be the same; the answer does not show the first ones where they differ.")
            .ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status409Conflict).ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .WithExample(GasExamples.SizeConfirmation, GasExamples.ConfirmedSize);
        sizes.MapDelete("/{siteId}/{sizeId}", Withdraw)
            .WithName("withdrawCylinderSize")
            .WithSummary("Withdraw a size that the site added")
            .WithDescription("Plans that were counted from it stay as they are. A cylinder of the shelf that names it can no longer be counted.")
            .ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status412PreconditionFailed).ProducesProblem(StatusCodes.Status428PreconditionRequired)
            .WithExample(null, null);
    }

    private static async Task<Results<Ok<IEnumerable<CylinderSizeResponse>>, ProblemHttpResult>> List(
        string? siteId, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken)
    {
        if (siteId is not null && !store.TryFind(siteId, out _))
        {
            return Problems.NoSite(siteId);
        }

        var added = siteId is null ? [] : await AddedCylinderSize.OfSiteAsync(context, siteId, cancellationToken);
        return TypedResults.Ok(CylinderLibrary.Sizes.Select(CylinderSizeResponse.From).Concat(added.Select(CylinderSizeResponse.Listed)));
    }

    private static async Task<Results<Created<CylinderSizeResponse>, ProblemHttpResult>> Add(
        CylinderSizeRequest request, FloorPlanStore store, PlannerContext context, TimeProvider time, HttpResponse response, CancellationToken cancellationToken)
    {
        if (!store.TryFind(request.SiteId, out _))
        {
            return Problems.NoSite(request.SiteId);
        }

        var row = request.ToRow(time.GetUtcNow());
        if (await SiteCylinders.AddAsync(context, row, cancellationToken) is { } problem)
        {
            return problem;
        }

        response.SetEntityTag(row.Version);
        return TypedResults.Created($"{OpenApi.BasePath}/cylinder-sizes?siteId={row.SiteId}", CylinderSizeResponse.From(row));
    }

    private static async Task<Results<Ok<CylinderSizeResponse>, ProblemHttpResult>> Confirm(
        string siteId, string sizeId, CylinderSizeConfirmation request, PlannerContext context, TimeProvider time, HttpResponse response, CancellationToken cancellationToken)
    {
        if (await context.CylinderSizes.SingleOrDefaultAsync(size => size.SiteId == siteId && size.Id == sizeId, cancellationToken) is not { } row)
        {
            return NoSize(siteId, sizeId);
        }

        if (await SiteCylinders.ConfirmAsync(context, row, request, time.GetUtcNow(), cancellationToken) is { } problem)
        {
            return problem;
        }

        response.SetEntityTag(row.Version);
        return TypedResults.Ok(CylinderSizeResponse.From(row));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Withdraw(
        string siteId, string sizeId, PlannerContext context, HttpRequest request, CancellationToken cancellationToken)
    {
        if (await context.CylinderSizes.SingleOrDefaultAsync(size => size.SiteId == siteId && size.Id == sizeId, cancellationToken) is not { } row)
        {
            return NoSize(siteId, sizeId);
        }

        if (request.RefuseUnlessCurrent(row.Version) is { } refusal)
        {
            return refusal;
        }

        context.Remove(row);
        await context.SaveChangesAsync(cancellationToken);
        return TypedResults.NoContent();
    }

    private static ProblemHttpResult NoSize(string siteId, string sizeId) => Problems.NotFound($"Site {siteId} added no size {sizeId}.");
}
