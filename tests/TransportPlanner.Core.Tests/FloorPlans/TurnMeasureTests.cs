using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using static TransportPlanner.Core.Tests.FloorPlans.FloorGraphBuilderTests;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class TurnMeasureTests
{
    [Fact]
    public void A_straight_way_has_no_turn() => Assert.Empty(Turns(Sketch.Parse("1 at 0: A 5 | Hall 30 | B 4"), "A/Hall", "Hall/B"));

    [Fact]
    public void The_corner_of_an_L_is_one_turn_between_arms_as_wide_as_the_corridor()
    {
        var turn = Assert.Single(Turns(Bent(10), "A/L", "L/B"));

        // Both lines lean atan(1/10) towards the corner, so the way bends by 90° less twice that.
        Assert.Equal(90 - 2 * Math.Atan(0.1) * 180 / Math.PI, turn.AngleDegrees, 6);
        Assert.Equal((2_000, 2_000), (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres));
    }

    [Fact]
    public void Arms_of_different_width_are_told_apart_and_swap_on_the_way_back()
    {
        var sketch = new Sketch().Area("L", PlaceKind.Corridor, (0, 0), (13, 0), (13, 10), (10, 10), (10, 1.8), (0, 1.8))
            .Room("A", -3, 0, 0, 1.8).Room("B", 10, 10, 13, 12).Door("A", "L").Door("L", "B");

        var there = Assert.Single(Turns(sketch, "A/L", "L/B"));
        var back = Assert.Single(Turns(sketch, "L/B", "A/L"));

        Assert.Equal((1_800, 3_000), (there.WidthBeforeMillimetres, there.WidthAfterMillimetres));
        Assert.Equal((3_000, 1_800), (back.WidthBeforeMillimetres, back.WidthAfterMillimetres));
        Assert.Equal(there.AngleDegrees, back.AngleDegrees, 9);
    }

    [Fact]
    public void A_short_L_is_a_turn_although_no_single_bend_is_over_45_degrees()
    {
        var turns = Turns(Bent(1.6), "A/L", "L/B");

        Assert.All(turns, turn => Assert.True(turn.AngleDegrees > 45, $"{turn}"));
        var corner = Assert.Single(turns, turn => Math.Round(turn.AngleDegrees, 6) == 90);
        Assert.Equal((2_000, 2_000), (corner.WidthBeforeMillimetres, corner.WidthAfterMillimetres));
    }

    [Fact]
    public void A_corridor_of_many_slight_bends_is_no_turn()
    {
        var turns = Turns(Arc(radius: 40, width: 2.4, steps: 12), "A/Hall", "Hall/B");

        Assert.Empty(turns);
    }

    [Fact]
    public void A_tight_curve_of_slight_bends_is_a_turn()
    {
        var turns = Turns(Arc(radius: 1.5, width: 1, steps: 8), "A/Hall", "Hall/B");

        Assert.NotEmpty(turns);
        Assert.All(turns, turn => Assert.True(turn.AngleDegrees > 45, $"{turn}"));
    }

    [Fact]
    public void Coming_out_of_a_side_door_one_turns_from_the_door_into_the_corridor()
    {
        var sketch = new Sketch().Room("Hall", 0, 0, 20, 2.4).Room("A", 4, -4, 8, 0).Room("B", 20, 0, 24, 2.4).Door("A", "Hall", 0.9).Door("Hall", "B");

        var turn = Assert.Single(Turns(sketch, "A/Hall", "Hall/B"));

        // From (6, 0), heading north, to (20, 1.2).
        Assert.Equal(90 - Math.Atan2(1.2, 14) * 180 / Math.PI, turn.AngleDegrees, 6);
        Assert.Equal((900, 2_400), (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres));
    }

    [Fact]
    public void Doors_side_by_side_are_two_turns_and_an_unknown_width_stays_unknown()
    {
        var sketch = new Sketch().Room("Hall", 0, 0, 20, 2.4).Room("A", 4, -4, 8, 0).Room("B", 10, -4, 14, 0).Door("A", "Hall", 0.9).Door("Hall", "B", null);

        var turns = Turns(sketch, "A/Hall", "Hall/B");

        Assert.Equal([new(90, 900, 2_400), new(90, 2_400, -1)], turns.Select(turn => turn with { AngleDegrees = Math.Round(turn.AngleDegrees, 6) }));
    }

    [Fact]
    public void Straight_across_a_corridor_from_door_to_door_is_no_turn()
    {
        var sketch = new Sketch().Room("Hall", 0, 0, 20, 2.4).Room("A", 4, -4, 8, 0).Room("B", 4.5, 2.4, 8.5, 6).Door("A", "Hall", 0.9).Door("Hall", "B");

        Assert.Empty(Turns(sketch, "A/Hall", "Hall/B"));
    }

    [Fact]
    public void Doors_in_neighbouring_walls_of_a_small_room_are_a_turn_at_each_door()
    {
        var sketch = new Sketch().Room("Ante", 0, 0, 2.4, 2.4).Room("A", -4, 0, 0, 2.4).Room("B", 0, 2.4, 2.4, 5).Door("A", "Ante", 1.2).Door("Ante", "B", 1.1);

        var turns = Turns(sketch, "A/Ante", "Ante/B");

        Assert.Equal([new(90, 1_200, 2_400), new(90, 2_400, 1_100)], turns.Select(turn => turn with { AngleDegrees = Math.Round(turn.AngleDegrees, 6) }));
    }

    [Fact]
    public void A_door_beside_the_end_of_a_narrow_room_is_measured_against_the_narrow_side()
    {
        var sketch = new Sketch().Room("Hall", 0, 0, 1.5, 8).Room("A", 0, -3, 1.5, 0).Room("B", 1.5, 0, 5, 1.2).Door("A", "Hall", 0.9).Door("Hall", "B", 0.8);

        var turns = Turns(sketch, "A/Hall", "Hall/B");

        Assert.Contains(turns, turn => (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres) == (1_500, 800));
    }

    private static ImmutableArray<Turn> Turns(Sketch sketch, string from, string to)
    {
        var graph = sketch.Graph;
        return graph.ArcTurns[Between(graph, from, to)];
    }

    /// <summary>A quarter circle of straight pieces around (0, 0), from a room in the east to one in the north.</summary>
    private static Sketch Arc(double radius, double width, int steps)
    {
        (double X, double Y) At(double r, int i) => (Math.Round(r * Math.Cos(i * Math.PI / 2 / steps), 3), Math.Round(r * Math.Sin(i * Math.PI / 2 / steps), 3));
        (double, double)[] ring = [.. Enumerable.Range(0, steps + 1).Select(i => At(radius + width, i)), .. Enumerable.Range(0, steps + 1).Reverse().Select(i => At(radius, i))];
        return new Sketch().Area("Hall", PlaceKind.Corridor, ring)
            .Room("A", radius, -3, radius + width, 0).Room("B", -3, radius, 0, radius + width).Door("A", "Hall").Door("Hall", "B");
    }
}
