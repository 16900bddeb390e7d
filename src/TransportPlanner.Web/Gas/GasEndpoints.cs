using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>How long the gas lasts, the cylinder sizes it may be counted from, and what stands on the shelf.</summary>
internal static class GasEndpoints
{
    public static RouteGroupBuilder MapGas(this RouteGroupBuilder api)
    {
        api.MapPost("/gas-supply", Post)
            .WithName("computeGasSupply")
            .WithTags("Gas")
            .WithSummary("How long will the gas last")
            .WithDescription(
                "Minutes of oxygen and air with the arithmetic, rounded down. Per cylinder the smaller of the trade figure and the real-gas figure is taken. "
                + "With a journey the answer has a timeline: contents of every cylinder, when and where to change over, what is left on reaching an elevator. "
                + "minutesLow takes the permissible errors of gauge and flowmeter at once. Rules are judged on the lesser of the supply and oxygen alone. Too "
                + "little gas, and a gauge at or below its residual, are answers with figures. A full cylinder that is shut gives nothing: check the flow at the "
                + "patient end.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .WithExample(GasExamples.Request, GasExamples.Response);
        api.MapCylinderLibrary();
        api.MapShelf();
        return api;
    }

    private static async Task<Results<Ok<GasSupplyResponse>, ProblemHttpResult>> Post(
        GasSupplyRequest request, FloorPlanStore store, PlannerContext context, CancellationToken cancellationToken)
    {
        if (request.SiteId is { } siteId && !store.TryFind(siteId, out _))
        {
            return Problems.NoSite(siteId);
        }

        var choice = request.SiteId is { } site ? await CylinderChoice.ReadAsync(context, site, cancellationToken) : CylinderChoice.Library;
        return CylinderProblems.Find(request.Cylinders, "cylinders", choice, out var cylinders) is { } problem
            ? problem
            : TypedResults.Ok(GasSupplyResponse.From(GasSupply.For(request.ToRequest(cylinders))));
    }
}
