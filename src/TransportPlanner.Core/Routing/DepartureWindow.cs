using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>What a departure in one quarter-hour would give. The figures of the least exposed way are null where no way is open then.</summary>
public sealed record Departure
{
    /// <summary>The departure asked for, or the start of a later quarter-hour.</summary>
    public required DateTimeOffset DepartAt { get; init; }

    /// <summary>Expected seconds of the quickest way.</summary>
    public required double? QuickestSeconds { get; init; }

    /// <summary>What the precautions in force count, of the least exposed way: person-minutes, or touch points for contact alone.</summary>
    public required double? ExposureCost { get; init; }

    /// <summary>Expected seconds of the least exposed way; of several the quickest.</summary>
    public required double? Seconds { get; init; }
    public required double? PeopleLikelyMet { get; init; }

    internal static Departure None(DateTimeOffset departAt) =>
        new() { DepartAt = departAt, QuickestSeconds = null, ExposureCost = null, Seconds = null, PeopleLikelyMet = null };
}

/// <summary>The same way in the quarter-hour into which its nearly-always time runs.</summary>
/// <param name="From">Start of that quarter-hour.</param>
/// <param name="PeopleLikelyMet">Sum of the mean occupancy of the places crossed, as it is then.</param>
public sealed record NextQuarter(DateTimeOffset From, double PeopleLikelyMet);

/// <summary>Compares leaving now with leaving in the quarter-hours that follow: one exact search for each, since costs are those of a quarter-hour.</summary>
internal static class DepartureWindow
{
    /// <summary>A later departure is worth naming only if it leaves a tenth of the exposure out: what people do varies more than that. The project's own figure.</summary>
    public const double WorthNaming = 0.9;

    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);

    /// <summary>Start of the planning quarter-hour after an instant. Offsets of all time zones in use are whole quarter-hours.</summary>
    public static DateTimeOffset Next(DateTimeOffset instant) => new(instant.Ticks - instant.Ticks % Quarter.Ticks + Quarter.Ticks, instant.Offset);

    /// <summary>The departure itself and every later quarter-hour that begins within the window.</summary>
    /// <param name="graph">Array form of the published plan.</param>
    /// <param name="query">With the departure and the window.</param>
    /// <param name="now">Exact set of the departure itself.</param>
    /// <param name="priced">Prices of the departure itself.</param>
    /// <param name="origin">Vertex.</param>
    /// <param name="target">Vertex.</param>
    /// <param name="cancellation">The caller gives up: the search throws.</param>
    /// <param name="deadline">Time is over: what is not exact by then is left out, with every later quarter-hour.</param>
    public static ImmutableArray<Departure> Of(
        FloorGraph graph, RouteQuery query, ParetoSet now, PricedGraph priced, int origin, int target, CancellationToken cancellation, CancellationToken deadline)
    {
        var departures = ImmutableArray.CreateBuilder<Departure>();
        departures.Add(One(priced, now));
        var first = query.Travel.Departure;
        for (var at = Next(first); at <= first + query.DepartureWindow; at += Quarter)
        {
            var later = new PricedGraph(graph, query with { Travel = query.Travel with { Departure = at } });
            var set = ParetoSearch.Find(later.Costs, origin, target, later.Allowed, cancellation, deadline);
            if (!set.IsComplete)
            {
                break;
            }

            departures.Add(One(later, set));
        }

        return departures.ToImmutable();
    }

    /// <summary>The departure with the least exposure, the earliest of several; null where none is a tenth better than the first.</summary>
    public static Departure? Best(ImmutableArray<Departure> departures)
    {
        var best = departures.Where(departure => departure.ExposureCost is not null).MinBy(departure => departure.ExposureCost);
        return best is not null && departures is [var first, ..] && first != best && (first.ExposureCost is not { } now || best.ExposureCost <= WorthNaming * now) ? best : null;
    }

    private static Departure One(PricedGraph priced, ParetoSet set)
    {
        var departAt = priced.Query.Travel.Departure;
        if (set.Members.IsEmpty)
        {
            return Departure.None(departAt);
        }

        var least = set.Members.MinBy(member => (member.Costs[1], member.Costs[0]))!;
        return new()
        {
            DepartAt = departAt,
            QuickestSeconds = set.Members[0].Costs[0] / 10.0,
            ExposureCost = least.Costs[1] / 1e6,
            Seconds = least.Costs[0] / 10.0,
            PeopleLikelyMet = priced.PeopleLikelyMet(least.Arcs),
        };
    }
}
