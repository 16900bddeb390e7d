using CsCheck;
using MathNet.Numerics.Distributions;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class ShortfallTests
{
    // 100 L at 10 L/min: 10 min as typed, (100 − 7.5) ÷ 11 = 8.409 min at the low end, 11.591 as far above.
    private static readonly GasSupply Ten = GasSupply.For(new() { Demand = Gases.Demand(10, 1), Cylinders = [Gases.Holding(GasKind.Oxygen, 100)] });

    /// <summary>The oracle is sampling with MathNet.Numerics: 400,000 journeys and supplies; four standard errors are 0.0032 at most.</summary>
    [Fact]
    public void The_sum_agrees_with_sampling()
    {
        const int Draws = 400_000;
        var random = new MathNet.Numerics.Random.MersenneTwister(20260504);
        var (walk, stall, supply) = (new Triangular(300, 600, 420, random), new Triangular(240, 720, 400, random), new Triangular(92.5 / 11, 20 - 92.5 / 11, 10, random));
        var outlasted = Enumerable.Range(0, Draws).Count(_ => walk.Sample() + (random.NextDouble() < 0.05 ? stall.Sample() : 0) > supply.Sample() * 60);
        var chances = Grid(new Triangular(300, 600, 420), 1400);
        var stalled = Grid(new Triangular(240, 720, 400), 1400);
        var journey = new double[2800];
        for (var a = 0; a < chances.Length; a++)
        {
            journey[a] += 0.95 * chances[a];
            for (var b = 0; b < stalled.Length; b++)
                journey[a + b] += 0.05 * chances[a] * stalled[b];
        }

        var shortfall = Shortfall.Of(Ten, journey)[0];

        Assert.Equal((double)outlasted / Draws, shortfall.Chance, 0.0032);
        Assert.InRange(shortfall.Chance, 0.02, 0.2);
        Assert.Equal((8.409m, 10m, 11.59m), (shortfall.LeastMinutes, shortfall.LikelyMinutes, shortfall.MostMinutes));
    }

    [Fact]
    public void The_triangle_is_that_of_a_statistics_library() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[0.1, 50], Gen.Double[0, 200]).Sample((least, half, minutes) =>
            Assert.Equal(new Triangular(least, least + 2 * half, least + half).CumulativeDistribution(minutes), Shortfall.ShareBelow(minutes, least, least + half), 1e-9));

    [Theory]
    [InlineData(0, "fewer than 1 in 10,000 journeys like this")]
    [InlineData(0.00009, "fewer than 1 in 10,000 journeys like this")]
    [InlineData(0.0003, "about 3 in 10,000 journeys like this")]
    [InlineData(0.0027, "about 3 in 1,000 journeys like this")]
    [InlineData(0.01, "about 1 in 100 journeys like this")]
    [InlineData(0.161, "about 17 in 100 journeys like this")]
    [InlineData(1, "about 100 in 100 journeys like this")]
    public void A_chance_is_said_in_counted_journeys_rounded_up(double chance, string words) =>
        Assert.Equal(words, new Shortfall("", chance, 0, 0, 0).Frequency);

    [Fact]
    public void A_supply_of_nothing_is_always_outlasted_and_a_long_one_never()
    {
        Assert.Equal(1, Shortfall.Of(GasSupply.For(new() { Demand = Gases.Demand(10, 1), Cylinders = [] }), At(60))[0].Chance);
        Assert.Equal(0, Shortfall.Of(Ten, At(60))[0].Chance);
        Assert.Equal(0.5, Shortfall.Of(Ten, At(600))[0].Chance, 6);
    }

    [Fact]
    public void Both_the_supply_as_set_and_oxygen_alone_are_given()
    {
        var supply = GasSupply.For(new()
        {
            Demand = Gases.Demand(10, 0.605m),
            Cylinders = [Gases.Holding(GasKind.Oxygen, 100), Gases.Holding(GasKind.Air, 90)],
        });

        // Of air 90 L at 5 L/min 18 min; of oxygen alone 10.
        Assert.Equal([("the supply as set", 18m), ("oxygen alone at fraction 1.0", 10m)], Shortfall.Of(supply, At(60)).Select(s => (s.Supply, s.LikelyMinutes)));
    }

    [Fact]
    public void Chances_that_are_no_distribution_are_refused()
    {
        Assert.Throws<ArgumentException>(() => Shortfall.Of(Ten, [0.4, 0.4]));
        Assert.Throws<ArgumentException>(() => Shortfall.Of(Ten, [1.5, -0.5]));
    }

    [Fact]
    public void One_more_cylinder_like_the_last_is_judged_again()
    {
        var more = OneMoreCylinder.For(new() { Demand = Gases.Demand(10, 1), Cylinders = [Gases.Holding(GasKind.Oxygen, 50), Gases.Holding(GasKind.Oxygen, 200)], JourneyMinutes = 15 });

        var one = Assert.Single(more);
        Assert.Equal((GasKind.Oxygen, 2, 45L, 45L), (one.Gas, one.Like, one.Minutes, one.OxygenAloneMinutes));
        Assert.Equal([true, true], one.Rules.Select(rule => rule.Met));
    }

    private static double[] At(int second) => [.. Enumerable.Range(0, second + 1).Select(s => s == second ? 1.0 : 0)];

    /// <summary>Mass of each whole second, taken around it.</summary>
    private static double[] Grid(Triangular time, int seconds) =>
        [.. Enumerable.Range(0, seconds).Select(s => time.CumulativeDistribution(s + 0.5) - time.CumulativeDistribution(s - 0.5))];
}
