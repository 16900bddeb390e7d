using System.Collections.Immutable;
using TransportPlanner.Core.Batteries;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>Whether the batteries meet a rule.</summary>
public enum BatteryAnswer
{
    Met,
    Short,
    /// <summary>The batteries that are known would do, and of at least one nothing is known.</summary>
    Unknown,
}

/// <summary>One reserve rule, the same as for gas, against the battery that is empty first.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="RequiredMinutes">What the rule asks for.</param>
/// <param name="AvailableMinutes">Of the weakest battery that is known, rounded down; null: none is known.</param>
/// <param name="Answer">Exactly enough is enough.</param>
/// <param name="Working">Both numbers.</param>
public sealed record BatteryRuleVerdict(ReserveRule Rule, decimal RequiredMinutes, long? AvailableMinutes, BatteryAnswer Answer, string Working);

/// <summary>Every rule for one time of the way.</summary>
/// <param name="Time">Which time.</param>
/// <param name="JourneyMinutes">That time, rounded up to a tenth of a minute.</param>
/// <param name="Rules">In the order of the settings.</param>
public sealed record BatteryVerdict(JourneyTimeKind Time, decimal JourneyMinutes, ImmutableArray<BatteryRuleVerdict> Rules);

/// <summary>What the weakest known battery has left when a leg begins.</summary>
/// <param name="Leg">Its place in the way, from 0.</param>
/// <param name="AtMinute">Minutes after leaving, of the nearly-always time.</param>
/// <param name="MinutesLeft">Rounded down, never below 0; null: no battery is known.</param>
public sealed record BatteryAtLeg(int Leg, decimal AtMinute, long? MinutesLeft);

/// <summary>The batteries against one way. Every device is taken to run on its battery from leaving to arrival.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="FirstToDie">Place in the request, from 0, of the weakest battery that is known; null: none is.</param>
/// <param name="Unknown">Places in the request, from 0, of those of which too little is known; they may well be the first to die.</param>
/// <param name="Verdicts">For the usual and the nearly-always time, and the worst arrival by plan B where that is known; empty where no battery was given.</param>
/// <param name="Legs">One for each leg; empty where no battery was given.</param>
/// <param name="MinutesIfStuck">Left in the weakest known battery on reaching the last elevator of the way, if it then stalls, rounded down; null without an elevator or a known battery.</param>
/// <param name="PlugInPoints">Where the floor plan has sockets.</param>
public sealed record BatteriesOfRoute(
    string RouteId, int? FirstToDie, ImmutableArray<int> Unknown, ImmutableArray<BatteryVerdict> Verdicts, ImmutableArray<BatteryAtLeg> Legs, long? MinutesIfStuck,
    ImmutableArray<PlugInPoint> PlugInPoints)
{
    /// <summary>To be shown with the minutes. Common practice but for the first, which is what the computation leaves out.</summary>
    public static ImmutableArray<string> Cautions { get; } =
    [
        "Planning aid: the display of the device decides. Rated minutes are those of a new battery at its maker's load; alarms, pumps and heating shorten them.",
        "Warm the incubator on the mains before leaving: heating draws most. Nothing is counted for a socket on the way.",
    ];

    /// <param name="route">The way.</param>
    /// <param name="batteries">In the order of the request.</param>
    /// <param name="rules">Judged side by side.</param>
    /// <param name="worstPlanB">Latest arrival when one element of the way fails; null: not known, and then not judged.</param>
    /// <param name="plugIns">Where the floor plan has sockets.</param>
    internal static BatteriesOfRoute For(
        Route route, ImmutableArray<BatteryTime> batteries, ImmutableArray<ReserveRule> rules, TimeSpan? worstPlanB, ImmutableArray<PlugInPoint> plugIns)
    {
        if (batteries.IsEmpty)
            return new(route.Id, null, [], [], [], null, plugIns);
        ImmutableArray<int> unknown = [.. batteries.Index().Where(pair => pair.Item.ExactMinutes is null).Select(pair => pair.Index)];
        int? first = unknown.Length == batteries.Length ? null : batteries.Index().Where(pair => pair.Item.ExactMinutes is not null).MinBy(pair => pair.Item.ExactMinutes).Index;
        var exact = first is { } weakest ? batteries[weakest].ExactMinutes : null;
        var journey = GasOfRoute.Minutes(route.Time.NearlyAlwaysSeconds);
        ImmutableArray<BatteryAtLeg> legs =
        [
            .. JourneyOfRoute.Begins(route, journey).Select((at, leg) => new BatteryAtLeg(leg, at, exact is { } minutes ? (long)Math.Max(0, decimal.Floor(minutes - at)) : null)),
        ];
        BatteryVerdict Judge(JourneyTimeKind kind, decimal minutes) =>
            new(kind, minutes, [.. rules.Select(rule => Verdict(rule, minutes, exact is { } known ? (long)decimal.Floor(known) : null, unknown.Length))]);
        return new(
            route.Id, first, unknown,
            [
                Judge(JourneyTimeKind.Usually, GasOfRoute.Minutes(route.Time.UsuallySeconds)),
                Judge(JourneyTimeKind.NearlyAlways, journey),
                .. worstPlanB is { } worst ? new[] { Judge(JourneyTimeKind.PlanBWorst, GasOfRoute.Minutes(worst.TotalSeconds)) } : [],
            ],
            legs, legs.Where(leg => route.Legs[leg.Leg].Ride is not null).Min(leg => leg.MinutesLeft), plugIns);
    }

    private static BatteryRuleVerdict Verdict(ReserveRule rule, decimal journeyMinutes, long? available, int unknown)
    {
        var required = rule.RequiredMinutes(journeyMinutes);
        var answer = available < required ? BatteryAnswer.Short : available is null || unknown > 0 ? BatteryAnswer.Unknown : BatteryAnswer.Met;
        var known = available is { } minutes
            ? $"the weakest that is known has {GasText.Number(minutes)} min {(minutes < required ? "<" : "≥")} {GasText.Number(required)} min"
            : "no battery is known";
        return new(rule, required, available, answer, $"{rule.WorkingOf(journeyMinutes)}; {known}{(unknown > 0 ? $"; unknown: {unknown}" : "")}");
    }
}
