using CsCheck;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.Random;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Travel;

public sealed class JourneyTimeTests
{
    private static readonly Gen<DurationEstimate> Estimates =
        Gen.Select(Gen.Double[0, 30], Gen.Double[0, 20], Gen.Double[0, 40], (a, b, c) => new DurationEstimate(a, a + b, a + b + c));

    private static readonly Gen<TravelTime> Parts =
        Gen.Select(Estimates, Estimates, Estimates, Estimates, Gen.Double[0, 0.02], (walking, door, wait, ride, stall) =>
            new TravelTime(walking, door, wait, ride, stall, new(300, 600, 1_000)));

    private static readonly Gen<TravelTime[]> Journeys = Parts.Array[1, 6];

    [Fact]
    public void The_mean_is_the_sum_of_the_means_to_a_tenth_of_a_second() =>
        Journeys.Sample(parts => Assert.Equal(parts.Sum(part => part.ExpectedSeconds), JourneyTime.Of(parts).ExpectedSeconds, 0.1), iter: 200);

    [Fact]
    public void Nearly_always_is_no_less_than_usually_and_usually_no_less_than_the_minimum() =>
        Journeys.Sample(
            parts =>
            {
                var journey = JourneyTime.Of(parts);

                Assert.True(journey.NearlyAlwaysSeconds >= journey.UsuallySeconds);
                Assert.True(journey.UsuallySeconds >= journey.MinimumSeconds);
                Assert.True(journey.ChanceToExceed(TimeSpan.FromSeconds(journey.NearlyAlwaysSeconds)) <= 0.1 + 1e-9);
                Assert.Equal(1, journey.ChanceToExceed(TimeSpan.FromSeconds(-1)), 9);
            },
            iter: 200);

    // Sampling with a fixed start value: 200,000 draws put the standard error of a percentile of this journey below 0.3 s; 2 s are allowed.
    [Fact]
    public void Percentiles_agree_with_sampling()
    {
        TravelTime[] parts =
        [
            Walk(60, 70, 90), Walk(20, 22, 30), Door(3, 5, 9), Door(1, 2, 4), Wait(0, 20, 100),
            new(DurationEstimate.Zero, DurationEstimate.Zero, DurationEstimate.Zero, new(30, 34, 44), 0.05, new(600, 1_800, 3_000)),
        ];
        var random = new MersenneTwister(20_260_504);
        var draws = Enumerable.Range(0, 200_000).Select(_ =>
            Triangular.Sample(random, 80, 120, 92) + Triangular.Sample(random, 3, 9, 5) + Triangular.Sample(random, 1, 4, 2)
            + Triangular.Sample(random, 0, 100, 20) + Triangular.Sample(random, 30, 44, 34)
            + (random.NextDouble() < 0.05 ? Triangular.Sample(random, 600, 3_000, 1_800) : 0)).Order().ToArray();

        var journey = JourneyTime.Of(parts);

        foreach (var share in new[] { 0.05, 0.25, 0.5, 0.75, 0.9 })
        {
            Assert.Equal(draws[(int)(share * draws.Length)], journey.SecondsAt(share), 2.0);
        }

        Assert.Equal(draws.Count(draw => draw > 600) / (double)draws.Length, journey.ChanceToExceed(TimeSpan.FromMinutes(10)), 0.003);
        Assert.Equal(0.05, journey.StallProbability, 9);
    }

    // Second opinion: the convolution of two triangles by quadrature of MathNet.Numerics.
    [Fact]
    public void The_chance_to_exceed_agrees_with_quadrature()
    {
        var journey = JourneyTime.Of([Door(10, 25, 60), Door(5, 40, 50)]);

        for (var limit = 20; limit <= 105; limit += 5)
        {
            var exact = 1 - GaussLegendreRule.Integrate(
                x => Triangular.PDF(10, 60, 25, x) * Triangular.CDF(5, 50, 40, limit + 0.5 - x), 10, 60, 512);
            Assert.Equal(exact, journey.ChanceToExceed(TimeSpan.FromSeconds(limit)), 0.001);
        }
    }

    [Fact]
    public void Walking_shares_one_pace_and_so_spreads_wider_than_doors_do()
    {
        var walks = JourneyTime.Of([Walk(10, 20, 60), Walk(10, 20, 60), Walk(10, 20, 60), Walk(10, 20, 60)]);
        var doors = JourneyTime.Of([Door(10, 20, 60), Door(10, 20, 60), Door(10, 20, 60), Door(10, 20, 60)]);

        Assert.Equal(walks.ExpectedSeconds, doors.ExpectedSeconds, 6);
        Assert.True(walks.NearlyAlwaysSeconds > doors.NearlyAlwaysSeconds + 10);
        Assert.Equal((int)Math.Ceiling(Triangular.InvCDF(40, 240, 80, 0.9)), walks.NearlyAlwaysSeconds, 1.0);
    }

    [Fact]
    public void A_stall_makes_the_tail_and_hardly_moves_the_middle()
    {
        var ride = new TravelTime(DurationEstimate.Zero, DurationEstimate.Zero, DurationEstimate.Zero, new(30, 34, 44), 0, new(600, 1_800, 3_000));

        var (without, with) = (JourneyTime.Of([ride]), JourneyTime.Of([ride with { StallProbability = 0.001 }]));

        Assert.Equal(without.UsuallySeconds, with.UsuallySeconds);
        Assert.Equal(0, without.ChanceToExceed(TimeSpan.FromMinutes(5)));
        Assert.Equal(0.001, with.ChanceToExceed(TimeSpan.FromMinutes(5)), 6);
        Assert.Equal(without.ExpectedSeconds + 1.8, with.ExpectedSeconds, 3);
    }

    [Fact]
    public void A_journey_of_fixed_parts_takes_exactly_their_sum_rounded_up()
    {
        var journey = JourneyTime.Of([Walk(10.4, 10.4, 10.4), Door(5, 5, 5)]);

        Assert.Equal(16, journey.UsuallySeconds);
        Assert.Equal(16, journey.NearlyAlwaysSeconds);
        Assert.Equal(15.4, journey.ExpectedSeconds, 9);
    }

    [Fact]
    public void No_part_takes_no_time() => Assert.Equal(0, JourneyTime.Of([]).NearlyAlwaysSeconds);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void A_share_outside_zero_to_one_is_refused(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => JourneyTime.Of([Walk(1, 2, 3)]).SecondsAt(share));

    private static TravelTime Walk(double a, double b, double c) => default(TravelTime) with { Walking = new(a, b, c) };
    private static TravelTime Door(double a, double b, double c) => default(TravelTime) with { Door = new(a, b, c) };
    private static TravelTime Wait(double a, double b, double c) => default(TravelTime) with { Wait = new(a, b, c) };
}
