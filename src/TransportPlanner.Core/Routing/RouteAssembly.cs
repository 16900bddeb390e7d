using System.Collections.Immutable;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Everything that is said of one shown way, from its arcs.</summary>
internal sealed class RouteAssembly(PricedGraph priced, int target)
{
    private readonly Fallbacks _fallbacks = new(priced, target);
    private readonly LegAssembly _legs = new(priced);

    public Route Assemble(string id, ImmutableArray<RouteReason> reasons, ParetoMember member)
    {
        var arcs = member.Arcs;
        var times = arcs.Select(priced.Travel.TimeOf).ToImmutableArray();
        var journey = JourneyTime.Of(times);
        var arrivals = ArrivalTimes.Of(times);
        var legs = _legs.Legs(arcs.AsSpan(), arrivals);
        var places = priced.Floor.Plan.Places;
        var crossed = arcs.Skip(1).SkipLast(1).Select(arc => priced.Floor.ArcPlace[arc]);
        return new()
        {
            Id = id,
            Reasons = reasons,
            Time = journey,
            ExpectedSeconds = member.Costs[0] / 10.0,
            Metres = arcs.Sum(arc => (long)priced.Floor.ArcLength[arc]) / 1000.0,
            Exposure = legs.Aggregate(default(ExposureFigures), (sum, leg) => sum + leg.Exposure),
            ExposureIfPostsHold = legs.Aggregate(default(ExposureFigures), (sum, leg) => sum + leg.ExposureIfPostsHold),
            PeopleLikelyMet = priced.PeopleLikelyMet(arcs),
            Handling = member.Costs[2],
            ColdMinutes = arcs.Zip(times, (arc, time) => places[priced.Floor.ArcPlace[arc]].Flags.HasFlag(PlaceFlags.Cold) ? time.DwellSeconds / 60 : 0).Sum(),
            Thresholds = arcs.Count(priced.HasJoltingThreshold),
            Legs = legs,
            Paths = LegAssembly.Paths(priced.Floor, arcs.AsSpan()),
            ThroughRooms = priced.Rooms.Of(arcs),
            Unknowns = [.. arcs.SelectMany(arc => priced.Travel.UnknownOf(arc)).Distinct()],
            Assumed = [.. arcs.SelectMany(arc => priced.Travel.AssumedOf(arc)).Concat(crossed.SelectMany(AssumedOf)).Distinct()],
            PlanB = _fallbacks.Of(arcs, [.. legs.SelectMany((leg, position) => Enumerable.Repeat(position, leg.Places.Length))]),
            Crossings = [.. arcs.Select((arc, i) => Crossing.Of(priced, arc, arrivals[i], arrivals[i + 1]))],
            Arcs = arcs,
            Times = times,
            Arrivals = arrivals,
        };
    }

    private IEnumerable<string> AssumedOf(int place) =>
        priced.Exposure.Places[place].Assumed.Select(figure => $"place {priced.Floor.Plan.Places[place].Number}: {figure}");
}
