using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Makes the standing plans of a site. Stores nothing.</summary>
internal static class BinderMaker
{
    /// <param name="context">Settings, closures and sizes of the site; read once, before the work begins.</param>
    /// <param name="site">The floor plan that the whole set is made for.</param>
    /// <param name="choices">Precautions, support, hours.</param>
    /// <param name="now">The instant of the making.</param>
    /// <param name="progress">Told how many sheets are done, of how many.</param>
    /// <param name="cancellationToken">Somebody stops it: throws.</param>
    public static async Task<Binder> MakeAsync(
        PlannerContext context, FloorPlanSnapshot site, BinderRequest choices, DateTimeOffset now, Action<int, int> progress, CancellationToken cancellationToken)
    {
        var began = Stopwatch.GetTimestamp();
        var plan = site.Plan;
        var basis = await BinderBasis.ReadAsync(context, plan, now, cancellationToken);
        var settings = await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken);
        var sizes = (await CylinderChoice.ReadAsync(context, plan.SiteId, cancellationToken)).Added;
        var known = (await context.Closures.AsNoTracking().Where(closure => closure.SiteId == plan.SiteId && closure.To > now).ToListAsync(cancellationToken))
            .ConvertAll(closure => closure.ToClosure());
        var (support, demand) = choices.Support is { } chosen ? (chosen, SupportDemand.For(chosen)) : StandingPlans.WorstCase;
        List<(bool IsNight, SiteRouteQuery Query)> hours = [];
        foreach (var (isNight, time) in new[] { (false, choices.DayTime), (true, choices.NightTime) })
        {
            var at = StandingPlans.Next(plan.TimeZone, choices.Weekday, TimeOnly.ParseExact(time, BinderRequest.TimeFormat, null), now);
            var query = await SiteRouteQuery.ReadAsync(
                context, new() { SiteId = plan.SiteId, From = "", To = "", DepartAt = at, Precautions = choices.Precautions }, now, cancellationToken);
            hours.Add((isNight, query with
            {
                Query = query.Query with { Travel = query.Query.Travel with { Closures = StandingPlans.ShutThroughout(known, now, at) } },
            }));
        }

        var pairs = StandingPlans.PairsOf(plan);
        List<StandingSheet> sheets = [];
        progress(0, pairs.Length * hours.Count);
        foreach (var (number, pair) in pairs.Index())
        {
            foreach (var (isNight, query) in hours)
            {
                cancellationToken.ThrowIfCancellationRequested();
                var outcome = TransportPlan.Make(
                    site.Graph,
                    new()
                    {
                        Route = query.Query with { From = pair.From, To = pair.To },
                        Support = support,
                        Demand = demand,
                        Settings = PlanMaker.SettingsOf(settings) with { AddedSizes = [.. sizes] },
                    },
                    cancellationToken);
                sheets.Add(Sheet(site, new(number + 1, isNight, pair, query.Query.Travel.Departure), outcome));
                progress(sheets.Count, pairs.Length * hours.Count);
            }
        }

        return new()
        {
            Plan = plan,
            Choices = choices,
            Basis = basis,
            Shut = [.. known.Where(closure => closure.Overlaps(now, now.AddTicks(1)))],
            MadeAt = now,
            Seconds = Stopwatch.GetElapsedTime(began).TotalSeconds,
            Demand = demand,
            Assumed = hours[0].Query.Assumed,
            Sheets = sheets,
            Names = plan.Places.ToDictionary(place => place.Number, place => place.Name),
        };
    }

    private static StandingSheet Sheet(FloorPlanSnapshot site, StandingSheet sheet, PlanOutcome outcome)
    {
        if (outcome is not PlanOutcome.Made { Plan: var plan })
        {
            return sheet with { NoWay = ((PlanOutcome.NoRoute)outcome).None.Statement };
        }

        var routes = plan.Routes.Routes;
        var way = routes.FirstOrDefault(route => route.Reasons.Contains(RouteReason.LeastExposed)) ?? routes[0];
        var posts = plan.PostsByRoute.Single(of => of.RouteId == way.Id);
        return sheet with
        {
            Way = Slim(way) with { Id = sheet.Id },
            Gas = RouteGasResponse.From(plan.GasByRoute.Single(of => of.RouteId == way.Id)),
            Posts = RoutePostsResponse.From(site.Plan, posts.Posts, posts.Deployment),
            Quicker = routes[0].Id == way.Id ? null : Slim(routes[0]),
        };
    }

    /// <summary>Without what no sheet prints: a set of hundreds stays small in memory.</summary>
    private static RouteResponse Slim(Core.Routing.Route route) => RouteResponse.From(route) with { Crossings = [], Paths = [] };
}
