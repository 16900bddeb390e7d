using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Which way of a version is taken: the one that the last word about that version named, else the one that is read first.</summary>
/// <remarks>Calls, cards, desk and officers all ask here, so that nobody is told of another way than the one the team walks.</remarks>
internal static class WayTaken
{
    public static RouteResponse Of(PlanResponse plan, string? named) =>
        plan.Routes.Routes.FirstOrDefault(route => route.Id == named) ?? SheetModel.FirstRead(plan);

    /// <summary>Null where nobody has named a way of this version.</summary>
    public static Task<string?> NamedAsync(PlannerContext context, PlanResponse plan, CancellationToken cancellationToken) =>
        context.GoWords.AsNoTracking().Where(word => word.PlanId == plan.Id && word.PlanVersion == plan.Version)
            .OrderByDescending(word => word.Number).Select(word => word.Way).FirstOrDefaultAsync(cancellationToken);

    /// <param name="context">Where the words are kept.</param>
    /// <param name="plan">The version.</param>
    /// <param name="asked">The id of a way that the reader asked for: it comes first where the version has it.</param>
    /// <param name="cancellationToken">Ends the reading.</param>
    public static async Task<RouteResponse> ReadAsync(PlannerContext context, PlanResponse plan, string? asked, CancellationToken cancellationToken) =>
        plan.Routes.Routes.FirstOrDefault(route => route.Id == asked) ?? Of(plan, await NamedAsync(context, plan, cancellationToken));
}
