using System.Collections.Immutable;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>What can be said about gas on a way.</summary>
public enum GasAnswer
{
    /// <summary>The support draws no gas.</summary>
    NotDrawn,
    /// <summary>No cylinder and reading was given: nothing is known about the supply.</summary>
    Unknown,
    Computed,
}

/// <summary>The gas supply against one way, judged on its nearly-always time.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="JourneyMinutes">Nearly-always time, rounded up to a tenth of a minute.</param>
/// <param name="Answer">What can be said.</param>
/// <param name="Supply">Minutes, rules and workings; null unless computed.</param>
/// <param name="MinutesIfStuck">Whole minutes left on reaching the elevator of the way where least is left, if it then stalls, rounded down; null without an elevator or a supply.</param>
/// <param name="LeastGauges">Least reading of one cylinder per size that meets the site's strictest rule on this way.</param>
public sealed record GasOfRoute(
    string RouteId, decimal JourneyMinutes, GasAnswer Answer, GasSupply? Supply, long? MinutesIfStuck, ImmutableArray<LeastGauge> LeastGauges)
{
    internal static GasOfRoute For(Route route, PlanRequest request)
    {
        var seconds = route.Time.NearlyAlwaysSeconds;
        var journey = Math.Max(0.1m, decimal.Ceiling(seconds / 6m) / 10);
        if (request.Demand is not { } demand)
        {
            return new(route.Id, journey, GasAnswer.NotDrawn, null, null, []);
        }

        var strictest = request.Settings.SiteRules.MaxBy(rule => rule.RequiredMinutes(journey));
        ImmutableArray<LeastGauge> least = strictest is null
            ? []
            : [.. LeastGauge.ForAll(GasKind.Oxygen, demand, strictest, journey), .. LeastGauge.ForAll(GasKind.Air, demand, strictest, journey)];
        if (request.Cylinders.IsEmpty)
        {
            return new(route.Id, journey, GasAnswer.Unknown, null, null, least);
        }

        var supply = GasSupply.For(new()
        {
            Demand = demand,
            Cylinders = request.Cylinders,
            JourneyMinutes = journey,
            Timeline = JourneyOfRoute.Of(route, journey),
            Rules = request.Settings.Rules,
        });
        return new(route.Id, journey, GasAnswer.Computed, supply, supply.Timeline!.Stalls.Min(stall => stall.Minutes), least);
    }
}
