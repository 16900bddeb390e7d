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

/// <summary>The gas supply against one way, judged on its times.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="JourneyMinutes">Nearly-always time, rounded up to a tenth of a minute.</param>
/// <param name="Answer">What can be said.</param>
/// <param name="Supply">Minutes, rules and workings; null unless computed.</param>
/// <param name="MinutesIfStuck">Whole minutes left on reaching the elevator of the way where least is left, if it then stalls, rounded down; null without an elevator or a supply.</param>
/// <param name="LeastGauges">Least reading of one cylinder per size that meets the site's strictest rule on this way.</param>
public sealed record GasOfRoute(
    string RouteId, decimal JourneyMinutes, GasAnswer Answer, GasSupply? Supply, long? MinutesIfStuck, ImmutableArray<LeastGauge> LeastGauges)
{
    /// <summary>Every rule for the usual time, the nearly-always time, and the worst arrival by plan B where that is known; empty without a supply.</summary>
    public ImmutableArray<GasVerdict> Verdicts { get; init; } = [];

    /// <summary>Chance that the journey outlasts the supply as set, and oxygen alone; empty without a supply.</summary>
    public ImmutableArray<Shortfall> Shortfalls { get; init; } = [];

    /// <summary>What one more cylinder of either gas would change; empty without a supply.</summary>
    public ImmutableArray<OneMoreCylinder> OneMore { get; init; } = [];

    /// <summary>Wall outlets at the origin, the bail-out points and the destination, against the hoses that are carried.</summary>
    public ImmutableArray<OutletOnWay> Outlets { get; init; } = [];

    /// <param name="route">The way.</param>
    /// <param name="request">Demand, cylinders and rules.</param>
    /// <param name="worstPlanB">Latest arrival, counted from leaving, when one element of the way fails; null: not known, and then not judged.</param>
    internal static GasOfRoute For(Route route, PlanRequest request, TimeSpan? worstPlanB = null)
    {
        var journey = Minutes(route.Time.NearlyAlwaysSeconds);
        if (request.Demand is not { } demand)
        {
            return new(route.Id, journey, GasAnswer.NotDrawn, null, null, []);
        }

        var strictest = request.Settings.SiteRules.MaxBy(rule => rule.RequiredMinutes(journey));
        ImmutableArray<LeastGauge> least = strictest is null
            ? []
            : [.. new[] { GasKind.Oxygen, GasKind.Air }.SelectMany(gas => LeastGauge.ForAll(
                gas, demand, strictest, journey, sizes: request.Settings.AddedSizes.Concat(CylinderLibrary.Sizes)))];
        if (request.Cylinders.IsEmpty)
        {
            return new(route.Id, journey, GasAnswer.Unknown, null, null, least);
        }

        var gas = new GasRequest
        {
            Demand = demand,
            Cylinders = request.Cylinders,
            JourneyMinutes = journey,
            Timeline = JourneyOfRoute.Of(route, journey),
            Rules = request.Settings.Rules,
        };
        var supply = GasSupply.For(gas);
        GasVerdict Judge(JourneyTimeKind kind, decimal minutes) => new(kind, minutes, [.. request.Settings.Rules.Select(rule => supply.Judge(rule, minutes))]);
        return new(route.Id, journey, GasAnswer.Computed, supply, supply.Timeline!.Stalls.Min(stall => stall.Minutes), least)
        {
            Verdicts =
            [
                Judge(JourneyTimeKind.Usually, Minutes(route.Time.UsuallySeconds)),
                Judge(JourneyTimeKind.NearlyAlways, journey),
                .. worstPlanB is { } worst ? new[] { Judge(JourneyTimeKind.PlanBWorst, Minutes(worst.TotalSeconds)) } : [],
            ],
            Shortfalls = [.. Shortfall.Of(supply, route.Time.ChanceBySecond)],
            OneMore = [.. OneMoreCylinder.For(gas)],
        };
    }

    /// <summary>Rounded up to a tenth of a minute.</summary>
    internal static decimal Minutes(double seconds) => Math.Max(0.1m, decimal.Ceiling((decimal)seconds / 6m) / 10);
}
