using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A closure with the ways of one plan that it lies on.</summary>
public sealed record ClosedOnWay(Closure Closure, IReadOnlyList<TouchedWay> Ways);

/// <summary>What the warning of a page is about.</summary>
/// <param name="Plan">The version that is shown.</param>
/// <param name="Way">The way that is shown.</param>
/// <param name="Closed">Closures on any way of it.</param>
internal sealed record WaysClosed(PlanResponse Plan, RouteResponse Way, IReadOnlyList<ClosedOnWay> Closed);

/// <summary>Closures against the ways of plans that were made before them.</summary>
internal static class ClosedWays
{
    private static readonly TimeSpan Window = new TravelSettings().ClosureWindow;

    /// <inheritdoc cref="TouchedTransports"/>
    public static async Task<IReadOnlyList<TouchedTransport>> TouchedAsync(
        PlannerContext context, FloorPlan floorPlan, Closure closure, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var plans = await PlansInForce.ListAsync(context, floorPlan.SiteId, now, closure.To, cancellationToken);
        return
        [
            .. from plan in plans
               where IsClosedFor(plan, closure)
               let ways = plan.Routes.Routes.Select(way => Touched(plan, way, floorPlan, closure)).OfType<TouchedWay>().ToList()
               where ways.Count > 0
               select new TouchedTransport(plan.Id, plan.CallSign, plan.Version, plan.Routes.DepartAt, ways),
        ];
    }

    /// <summary>Every closure that lies on a way of the plan. The router led around those that it knew, so these came after the plan was made.</summary>
    public static async Task<IReadOnlyList<ClosedOnWay>> OnAsync(PlannerContext context, PlanResponse plan, FloorPlan floorPlan, CancellationToken cancellationToken)
    {
        var (from, to) = (plan.Routes.DepartAt.ToUniversalTime(), (plan.Routes.DepartAt + Window).ToUniversalTime());
        var closures = await context.Closures.AsNoTracking().Where(c => c.SiteId == plan.SiteId && c.To > from && c.From < to).OrderBy(c => c.From).ToListAsync(cancellationToken);
        return
        [
            .. from closure in closures.Select(c => c.ToClosure())
               let ways = plan.Routes.Routes.Select(way => Touched(plan, way, floorPlan, closure)).OfType<TouchedWay>().ToList()
               where ways.Count > 0
               select new ClosedOnWay(closure, ways),
        ];
    }

    /// <summary>Whether the router would lead no way of this departure through it.</summary>
    public static bool IsClosedFor(PlanResponse plan, Closure closure) => closure.Overlaps(plan.Routes.DepartAt, plan.Routes.DepartAt + Window);

    /// <summary>Where a way meets what is closed; null where it does not.</summary>
    public static TouchedWay? Touched(PlanResponse plan, RouteResponse way, FloorPlan floorPlan, Closure closure)
    {
        var opening = closure.Target == ClosureTarget.Passage ? floorPlan.Passages.FirstOrDefault(p => p.Id == closure.TargetId && !p.IsDoor) : null;
        var begins = 0.0;
        string? before = null;
        foreach (var (index, leg) in way.Legs.Index())
        {
            var steps = leg.Places.Prepend(before).ToList();
            var isMet = closure.Target switch
            {
                ClosureTarget.Place => leg.Places.Contains(closure.TargetId),
                ClosureTarget.Elevator => leg.Elevator?.Elevator == closure.TargetId,
                ClosureTarget.Passage when opening is null => leg.Doors.Any(door => door.Passage == closure.TargetId),

                // A plan keeps its doors and no openings: an opening is met where the way goes from one of its places to the other.
                ClosureTarget.Passage => steps.Zip(steps.Skip(1)).Any(step => step == (opening.From, opening.To) || step == (opening.To, opening.From)),
                _ => throw new ArgumentOutOfRangeException(nameof(closure), closure.Target, "Unknown target."),
            };
            if (isMet)
            {
                return new(way.Id, index + 1, plan.Routes.DepartAt.AddSeconds(Math.Round(begins)));
            }

            (begins, before) = (begins + leg.ExpectedSeconds, leg.Places.Count > 0 ? leg.Places[^1] : before);
        }

        return null;
    }
}
