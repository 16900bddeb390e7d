using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Plans;

/// <summary>Where a journey that is planned ahead begins and ends.</summary>
/// <param name="From">Number of a delivery or operating room.</param>
/// <param name="To">Number of an isolation room.</param>
public readonly record struct StandingPair(string From, string To);

/// <summary>What a plan for any infant rests on: made ahead, for the day on which the planner does not answer.</summary>
public static class StandingPlans
{
    /// <summary>Every delivery and operating room with every isolation room, both in the order of their numbers; empty where the floor plan has none of either.</summary>
    public static ImmutableArray<StandingPair> PairsOf(FloorPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return
        [
            .. from origin in Numbers(plan, PlaceKind.DeliveryRoom, PlaceKind.OperatingRoom)
               from destination in Numbers(plan, PlaceKind.IsolationRoom)
               select new StandingPair(origin, destination),
        ];
    }

    /// <summary>
    /// The support whose highest listed flow is the highest of all, with oxygen and air each at their worst: a cylinder that lasts for it lasts
    /// for every listed support at its listed flow. Drive gas and bleed, which no list of flows gives, are not in it.
    /// </summary>
    public static (RespiratorySupport Support, GasDemand Demand) WorstCase { get; } = Enum.GetValues<RespiratorySupport>()
        .Select(support => (Support: support, Demand: SupportDemand.For(support)))
        .Where(listed => listed.Demand is not null)
        .Select(listed => (listed.Support, Demand: listed.Demand!))
        .MaxBy(listed => listed.Demand.Flow);

    /// <summary>The first instant from <paramref name="now"/> on at which clocks on the wall show that day and time.</summary>
    /// <param name="timeZone">IANA name.</param>
    /// <param name="day">Day of the week.</param>
    /// <param name="time">Local time. One that the clocks skip on the nearest such day is looked for a week later; one that they show twice is taken the first time.</param>
    /// <param name="now">Any offset.</param>
    /// <returns>UTC.</returns>
    /// <exception cref="TimeZoneNotFoundException">The name is not in the time zone database.</exception>
    public static DateTimeOffset Next(string timeZone, DayOfWeek day, TimeOnly time, DateTimeOffset now)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        for (var date = today.AddDays(((int)day - (int)today.DayOfWeek + 7) % 7); ; date = date.AddDays(7))
        {
            var local = date.ToDateTime(time);
            if (zone.IsInvalidTime(local))
                continue;
            var offset = zone.IsAmbiguousTime(local) ? zone.GetAmbiguousTimeOffsets(local).Max() : zone.GetUtcOffset(local);
            var instant = new DateTimeOffset(local, offset).ToUniversalTime();
            if (instant >= now)
                return instant;
        }
    }

    /// <summary>
    /// What is shut now counts as shut at the hour that is planned, however long it lasts: paper made during a closure must lead round it.
    /// What begins later is left out; the binder is made again then.
    /// </summary>
    /// <param name="closures">All that the site knows.</param>
    /// <param name="now">When the binder is made.</param>
    /// <param name="departure">The hour that is planned.</param>
    public static ImmutableArray<Closure> ShutThroughout(IEnumerable<Closure> closures, DateTimeOffset now, DateTimeOffset departure) =>
    [
        .. closures.Where(closure => closure.From <= now && closure.To > now)
            .Select(closure => closure with { From = departure.AddDays(-1), To = departure.AddDays(1) }),
    ];

    private static IEnumerable<string> Numbers(FloorPlan plan, params PlaceKind[] kinds) =>
        plan.Places.Where(place => kinds.Contains(place.Kind)).Select(place => place.Number).Order(StringComparer.Ordinal);
}
