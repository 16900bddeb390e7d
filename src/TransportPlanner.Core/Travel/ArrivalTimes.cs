using System.Collections.Immutable;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>When the team reaches a point of its way, in whole seconds after departure.</summary>
/// <param name="EarliestSeconds">Every part at its minimum, rounded down: nobody is there before.</param>
/// <param name="UsuallySeconds">Half of such journeys are there by then (P50), rounded up.</param>
/// <param name="NearlyAlwaysSeconds">Nine in ten are there by then (P90), rounded up; the rare stall is a branch of it.</param>
public readonly record struct Arrival(int EarliestSeconds, int UsuallySeconds, int NearlyAlwaysSeconds);

/// <summary>Arrivals at every point of one way: the distribution of <see cref="JourneyTime"/> for each partial journey.</summary>
public static class ArrivalTimes
{
    /// <summary>Arrival before the first part, then after each part: one more entry than there are parts.</summary>
    /// <param name="parts">Times of the crossings, in order.</param>
    /// <remarks>
    /// Equal to <see cref="JourneyTime.Of"/> on each first part of the list, computed along the way. While nine journeys in ten are without a
    /// stall, both percentiles lie within the longest journey without one, so the tail beyond it is left out: the percentiles are the same.
    /// </remarks>
    public static ImmutableArray<Arrival> Of(IReadOnlyList<TravelTime> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var noStall = parts.Aggregate(1.0, (none, part) => none * (1 - part.StallProbability));
        var longest = parts.Sum(part => Seconds(part.Walking) + Seconds(part.Door) + Seconds(part.Wait) + Seconds(part.Ride)) + 1;
        var kept = noStall > 0.9 ? longest : int.MaxValue;
        var arrivals = ImmutableArray.CreateBuilder<Arrival>(parts.Count + 1);
        arrivals.Add(default);
        var (chance, walking, minimum) = (new[] { 1.0 }, DurationEstimate.Zero, 0.0);
        foreach (var part in parts)
        {
            foreach (var independent in new[] { part.Door, part.Wait, part.Ride }.Where(time => time != DurationEstimate.Zero))
            {
                chance = Cut(JourneyTime.Convolve(chance, JourneyTime.Grid(independent)), kept);
            }

            if (part.StallProbability > 0)
            {
                chance = Cut(JourneyTime.Convolve(Cut(JourneyTime.Stall(part), kept), chance), kept);
            }

            (walking, minimum) = (walking + part.Walking, minimum + part.MinimumSeconds);
            var journey = new JourneyTime(JourneyTime.Convolve(chance, JourneyTime.Grid(walking)), minimum, 0);
            arrivals.Add(new((int)Math.Floor(minimum + 1e-9), journey.UsuallySeconds, journey.NearlyAlwaysSeconds));
        }

        return arrivals.MoveToImmutable();
    }

    private static int Seconds(DurationEstimate part) => (int)Math.Ceiling(part.MaximumSeconds) + 1;

    private static double[] Cut(double[] chance, int kept) => chance.Length <= kept ? chance : chance[..kept];
}
