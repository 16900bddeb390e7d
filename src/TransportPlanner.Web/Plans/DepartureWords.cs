using System.Globalization;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>What waiting would change, in words for the sheet and the terminal.</summary>
internal static class DepartureWords
{
    /// <summary>Fewer people more or less than this are within what a mean of a quarter-hour says.</summary>
    private const double WorthSaying = 1;

    /// <summary>One sentence on leaving later, and one for each way that runs into a quarter-hour with other people in it. Empty in plans of earlier releases.</summary>
    public static IEnumerable<string> Of(RoutesResponse routes, string timeZone)
    {
        if (routes.Departures is [var now, .., var last])
        {
            var best = routes.Departures.FirstOrDefault(departure => departure.DepartAt == routes.BestDeparture);
            yield return best is null
                ? $"Leaving later, up to {Time(last.DepartAt)}: no quarter-hour leaves a tenth of the exposure out."
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"Leaving at {Time(best.DepartAt)} instead: the least exposed way then counts {best.ExposureCost:0.##} instead of {now.ExposureCost:0.##}, takes {PlanWords.Clock(best.Seconds!.Value)}{(PlanWords.Clock(best.Seconds.Value) == PlanWords.Clock(now.Seconds!.Value) ? " as now" : $" instead of {PlanWords.Clock(now.Seconds.Value)}")}, and meets about {PlanWords.Count(best.PeopleLikelyMet!.Value)} people instead of {PlanWords.Count(now.PeopleLikelyMet!.Value)}. Who must go now goes now.");
        }

        else if (routes.Departures.Count == 1)
        {
            yield return "Later departures were not compared: the time for the search was over.";
        }

        foreach (var way in routes.Routes)
        {
            if (way.NextQuarter is { } next && Math.Abs(next.PeopleLikelyMet - way.PeopleLikelyMet) >= WorthSaying)
            {
                yield return $"Way {way.Id} may still be under way at {Time(next.From)}: from then about {PlanWords.Count(next.PeopleLikelyMet)} people are in the same places instead of {PlanWords.Count(way.PeopleLikelyMet)}.";
            }
        }

        string Time(DateTimeOffset instant) => TimeOfDay.Of(instant, timeZone);
    }
}
