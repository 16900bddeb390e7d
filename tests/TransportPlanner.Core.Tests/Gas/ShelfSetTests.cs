using CsCheck;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class ShelfSetTests
{
    private static ShelfSet Smallest(decimal flow, decimal? fraction, decimal journey, params Cylinder[] shelf) => ShelfSet.Smallest(new()
    {
        Demand = Gases.Demand(flow, fraction),
        JourneyMinutes = journey,
        Cylinders = shelf,
    });

    private static Cylinder Oxygen(decimal litres) => Gases.Holding(GasKind.Oxygen, litres);
    private static Cylinder Air(decimal litres) => Gases.Holding(GasKind.Air, litres);

    // Journey 9 min, stricter rule 39 min: at 10 L/min of oxygen 390 L.
    [Fact]
    public void One_cylinder_that_is_enough_is_taken_and_of_those_the_emptiest()
    {
        var found = Assert.IsType<ShelfSet.Found>(Smallest(10, 1, 9, Oxygen(600), Oxygen(389), Oxygen(390), Oxygen(500)));

        Assert.Equal([2], found.Places);
        Assert.Equal(39, found.Supply.Minutes);
        Assert.All(found.Supply.Rules, rule => Assert.True(rule.Met));
    }

    [Fact]
    public void Two_are_taken_where_one_is_not_enough_and_the_full_one_stays_where_it_can()
    {
        var found = Assert.IsType<ShelfSet.Found>(Smallest(10, 1, 9, Oxygen(380), Oxygen(210), Oxygen(100), Oxygen(190)));

        Assert.Equal([1, 3], found.Places);
    }

    [Fact]
    public void Both_gases_are_found_and_oxygen_must_last_alone()
    {
        // At fraction 0.605 both flows are 5 L/min: air needs 195 L, oxygen alone at 10 L/min 390 L.
        var found = Assert.IsType<ShelfSet.Found>(Smallest(10, 0.605m, 9, Air(195), Oxygen(195), Oxygen(390), Air(400)));

        Assert.Equal([0, 2], found.Places);
    }

    [Fact]
    public void Too_little_names_the_gas_and_both_figures_with_the_working()
    {
        var no = Assert.IsType<ShelfSet.TooLittle>(Smallest(10, 1, 9, Oxygen(200), Oxygen(100), Air(1000)));

        Assert.Equal((GasKind.Oxygen, 390m, 300m), (no.Gas, no.NeededLitres, no.ThereLitres));
        Assert.Equal(2, WorkingReader.Recompute(no.Working));
    }

    [Fact]
    public void An_empty_shelf_is_an_answer() => Assert.Equal(0, Assert.IsType<ShelfSet.TooLittle>(Smallest(10, 1, 9)).ThereLitres);

    [Fact]
    public void Air_from_a_compressor_needs_no_cylinder()
    {
        var found = Assert.IsType<ShelfSet.Found>(ShelfSet.Smallest(new()
        {
            Demand = Gases.Demand(10, 0.3m) with { AirSource = AirSource.Compressor },
            JourneyMinutes = 9,
            Cylinders = [Oxygen(400)],
        }));

        Assert.Equal([0], found.Places);
    }

    [Fact]
    public void A_journey_is_needed() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ShelfSet.Smallest(new() { Demand = Gases.Demand(10, 1), Cylinders = [] }));

    // Brute force over all subsets, judged by the supply itself.
    [Fact]
    public void No_smaller_set_meets_the_rules() =>
        Gen.Select(Gen.Int[1, 400].Array[0, 7], Gen.Int[1, 20], Gen.Int[1, 40]).Sample(
            (litres, flow, journey) =>
            {
                var shelf = litres.Select(l => Oxygen(l)).ToArray();
                var subsets = Enumerable.Range(0, 1 << shelf.Length).Select(bits => Enumerable.Range(0, shelf.Length).Where(i => (bits >> i & 1) == 1).ToList());
                var enough = subsets.Where(set => GasSupply.For(new() { Demand = Gases.Demand(flow, 1), JourneyMinutes = journey, Cylinders = [.. set.Select(i => shelf[i])] })
                    .Rules.All(rule => rule.Met)).ToList();

                switch (Smallest(flow, 1, journey, shelf))
                {
                    case ShelfSet.Found found:
                        var best = enough.Min(set => (set.Count, set.Sum(i => litres[i])));
                        Assert.Equal(best, (found.Places.Count, found.Places.Sum(i => litres[i])));
                        break;
                    default:
                        Assert.Empty(enough);
                        break;
                }
            },
            iter: 200, threads: 1);
}
