using CsCheck;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Travel;

public sealed class ArrivalTimesTests
{
    private static readonly Gen<DurationEstimate> Times =
        Gen.Select(Gen.Double[0, 20], Gen.Double[0, 20], Gen.Double[0, 20]).Select((a, b, c) => new DurationEstimate(a, a + b, a + b + c));

    private static readonly Gen<TravelTime> Walks = Gen.Select(Times, Times).Select((walking, door) => new TravelTime(walking, door, default, default, 0, default));

    private static readonly Gen<TravelTime> Rides = Gen.Select(Times, Times, Gen.Int[0, 3].Select(i => new[] { 0, 0.001, 0.02, 0.3 }[i]))
        .Select((wait, ride, stall) => new TravelTime(default, default, wait, ride, stall, new(20, 60, 200)));

    // The distribution of the whole journey is checked by quadrature and sampling in JourneyTimeTests; a partial journey is a journey.
    // Seen to fail: with the tail cut at half the longest journey, the later percentiles came out at the cut.
    [Fact]
    public void Each_arrival_is_the_time_of_the_partial_journey() =>
        Gen.Frequency((4, Walks), (1, Rides)).Array[0, 12].Sample(
            parts =>
            {
                var arrivals = ArrivalTimes.Of(parts);

                Assert.Equal(parts.Length + 1, arrivals.Length);
                Assert.Equal(default, arrivals[0]);
                Assert.All(arrivals.Index().Skip(1), arrival =>
                {
                    var journey = JourneyTime.Of(parts.Take(arrival.Index));
                    Assert.Equal((int)Math.Floor(journey.MinimumSeconds + 1e-9), arrival.Item.EarliestSeconds);
                    Assert.Equal((journey.UsuallySeconds, journey.NearlyAlwaysSeconds), (arrival.Item.UsuallySeconds, arrival.Item.NearlyAlwaysSeconds));
                });
            },
            iter: 300, seed: "0000KzXyq6c8");
}
