using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class FloorGraphBuilderTests
{
    private const string TwoStoreys = """
        1 at 0: Delivery 5 | Hall 30 |0.8| Landing1 4
        2 at 4: Landing2 4 |?| Nursery 6
        elevator E: Landing1 Landing2
        stairs S: Hall Nursery
        """;

    [Fact]
    public void Crossing_a_straight_place_is_as_long_as_the_place()
    {
        var graph = Sketch.Parse(TwoStoreys).Graph;

        Assert.Equal(30_000, Length(graph, "Delivery/Hall", "Hall/Landing1"));
        Assert.Equal(30_000, Length(graph, "Hall/Landing1", "Delivery/Hall"));
        Assert.Equal(2_500, graph.ArcLength[Arc(graph, graph.DepartureVertex(graph.PlaceIndex["Delivery"]), Into(graph, "Delivery/Hall", "Hall"))]);
        Assert.Equal(3_000, graph.ArcLength[Arc(graph, Into(graph, "Landing2/Nursery", "Nursery"), graph.ArrivalVertex(graph.PlaceIndex["Nursery"]))]);
    }

    [Fact]
    public void A_ride_joins_the_landing_doors_of_a_car_and_rises_as_far_as_its_levels_differ()
    {
        var graph = Sketch.Parse(TwoStoreys).Graph;
        var up = Arc(graph, Into(graph, "E@1", "CarE"), Into(graph, "E@2", "Landing2"));

        Assert.Equal(0, graph.ArcElevator[up]);
        Assert.Equal(4, graph.ArcRiseMetres[up]);
        Assert.Equal(0, graph.ArcLength[up]);
        Assert.Equal("CarE", graph.Plan.Places[graph.ArcPlace[up]].Number);
        Assert.Equal(2, graph.ArcPath[up].Length);
        Assert.Equal(2, graph.ArcElevator.Count(elevator => elevator == 0));
    }

    [Fact]
    public void A_stair_flight_is_a_passage_whose_own_length_stands_beside_the_arcs()
    {
        var graph = Sketch.Parse(TwoStoreys).Graph;

        Assert.Equal(8_000, graph.FlightLength[graph.PassageIndex["S"]]);
        Assert.Equal(0, graph.FlightLength[graph.PassageIndex["Delivery/Hall"]]);

        // From the middle of the hall's west wall (5, 2) to the flight at (20, 4).
        Assert.Equal((int)Math.Round(Math.Sqrt(15 * 15 + 2 * 2) * 1_000), Length(graph, "Delivery/Hall", "S"));
    }

    [Fact]
    public void An_unknown_flight_is_taken_as_twice_its_rise()
    {
        var graph = Sketch.Parse(TwoStoreys).WithPassage("S", flight => flight with { FlightLength = default }).Graph;

        Assert.Equal(8_000, graph.FlightLength[graph.PassageIndex["S"]]);
        Assert.False(graph.Plan.Passages[graph.PassageIndex["S"]].FlightLength.IsKnown);
    }

    [Fact]
    public void The_arrays_keep_what_the_graph_promises()
    {
        var graph = Sketch.Parse(TwoStoreys).Graph;

        Assert.Equal(graph.VertexCount + 1, graph.FirstArc.Length);
        Assert.Equal(graph.ArcCount, graph.FirstArc[^1]);
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            var (source, target) = (graph.ArcSource[arc], graph.ArcTarget[arc]);
            Assert.InRange(arc, graph.FirstArc[source], graph.FirstArc[source + 1] - 1);
            if (graph.IsTraversal(source))
            {
                Assert.Equal(graph.ArcPlace[arc], graph.PlaceEntered(source));
            }

            if (graph.IsTraversal(source) && graph.IsTraversal(target))
            {
                Assert.NotEqual(FloorGraph.PassageOf(source), FloorGraph.PassageOf(target));
            }

            Assert.False(graph.ArcTarget[arc] >= 2 * graph.PassageCount && graph.ArcTarget[arc] % 2 == 0, "a departure has no arc in");
            Assert.False(graph.ArcSource[arc] >= 2 * graph.PassageCount && graph.ArcSource[arc] % 2 == 1, "an arrival has no arc out");
        }
    }

    [Fact]
    public void A_one_way_passage_has_no_arc_into_or_out_of_the_forbidden_direction()
    {
        var graph = Sketch.Parse(TwoStoreys).WithPassage("Delivery/Hall", door => door with { Direction = PassageDirection.Forward }).Graph;
        var forbidden = Into(graph, "Delivery/Hall", "Delivery");

        Assert.DoesNotContain(forbidden, graph.ArcTarget);
        Assert.DoesNotContain(forbidden, graph.ArcSource);
        Assert.Contains(Into(graph, "Delivery/Hall", "Hall"), graph.ArcTarget);
    }

    [Fact]
    public void A_standing_point_is_where_the_plan_says_or_else_inside_the_outline()
    {
        var given = Sketch.Parse(TwoStoreys).With("Delivery", place => place with { StandingPoint = new(1, 2) }).Graph;
        var bent = new Sketch().Area("L", PlaceKind.Corridor, (0, 0), (10, 0), (10, 10), (9, 10), (9, 1), (0, 1))
            .Room("A", -3, 0, 0, 1).Door("A", "L").Graph;

        Assert.Equal(4_000, given.ArcLength[Arc(given, given.DepartureVertex(given.PlaceIndex["Delivery"]), Into(given, "Delivery/Hall", "Hall"))]);
        var path = bent.ArcPath[Arc(bent, bent.DepartureVertex(bent.PlaceIndex["L"]), Into(bent, "A/L", "A"))];
        Assert.True(path[0].X > 9 || path[0].Y < 1, $"{path[0]} lies outside the L");
    }

    [Fact]
    public void Around_the_corner_of_an_L_the_way_is_two_straight_lines()
    {
        var graph = Bent(10).Graph;

        // Doors at (0, 1) and (11, 12), inner corner at (10, 2): by hand √(10² + 1²) twice.
        Assert.Equal((int)Math.Round(2 * Math.Sqrt(101) * 1_000), Length(graph, "A/L", "L/B"));
        Assert.Equal([new(0, 1), new(10, 2), new(11, 12)], graph.ArcPath[Arc(graph, Into(graph, "A/L", "L"), Into(graph, "L/B", "B"))]);
    }

    [Fact]
    public void An_alcove_beside_the_way_changes_nothing_and_a_pillar_is_walked_around()
    {
        var alcove = new Sketch().Area("Hall", PlaceKind.Corridor, (0, 0), (4, 0), (4, -1), (6, -1), (6, 0), (10, 0), (10, 2), (0, 2))
            .Room("A", -2, 0, 0, 2).Room("B", 10, 0, 12, 2).Door("A", "Hall").Door("Hall", "B").Graph;
        var pillar = new Sketch().Area("Hall", PlaceKind.Corridor, (0, 0), (4, 0), (4, 1.5), (6, 1.5), (6, 0), (10, 0), (10, 2), (0, 2))
            .Room("A", -2, 0, 0, 2).Room("B", 10, 0, 12, 2).Door("A", "Hall").Door("Hall", "B").Graph;

        Assert.Equal(10_000, Length(alcove, "A/Hall", "Hall/B"));
        Assert.Equal((int)Math.Round((2 * Math.Sqrt(4 * 4 + 0.5 * 0.5) + 2) * 1_000), Length(pillar, "A/Hall", "Hall/B"));
    }

    [Fact]
    public void A_door_a_wall_thickness_away_counts_the_step_through_the_wall()
    {
        var graph = new Sketch().Room("A", 0, 0, 4, 4).Room("Hall", 4.2, 0, 14.2, 4).Room("B", 14.2, 0, 18, 4)
            .Door("A", "Hall", at: new PlanSegment(new(4.1, 1), new(4.1, 3))).Door("Hall", "B").Graph;

        Assert.Equal(10_100, Length(graph, "A/Hall", "Hall/B"));
    }

    [Fact]
    public void Broken_structure_is_refused_with_the_number()
    {
        var plan = Sketch.Parse(TwoStoreys).WithPassage("Delivery/Hall", door => door with { To = "Nowhere" }).Plan;

        var refusal = Assert.Throws<ArgumentException>(() => FloorGraphBuilder.Build(plan));

        Assert.Contains("Nowhere", refusal.Message, StringComparison.Ordinal);
    }

    internal static Sketch Bent(double arm) => new Sketch()
        .Area("L", PlaceKind.Corridor, (0, 0), (arm + 2, 0), (arm + 2, arm + 2), (arm, arm + 2), (arm, 2), (0, 2))
        .Room("A", -3, 0, 0, 2).Room("B", arm, arm + 2, arm + 2, arm + 5).Door("A", "L", 1.2).Door("L", "B", 1.1);

    internal static int Length(FloorGraph graph, string from, string to) => graph.ArcLength[Between(graph, from, to)];

    internal static int Between(FloorGraph graph, string from, string to) => Enumerable.Range(0, graph.ArcCount).Single(arc =>
        graph.IsTraversal(graph.ArcSource[arc]) && graph.IsTraversal(graph.ArcTarget[arc])
        && FloorGraph.PassageOf(graph.ArcSource[arc]) == graph.PassageIndex[from] && FloorGraph.PassageOf(graph.ArcTarget[arc]) == graph.PassageIndex[to]);

    internal static int Into(FloorGraph graph, string passage, string place) =>
        2 * graph.PassageIndex[passage] + (graph.Plan.Passages[graph.PassageIndex[passage]].To == place ? 0 : 1);

    internal static int Arc(FloorGraph graph, int source, int target) =>
        Enumerable.Range(graph.FirstArc[source], graph.FirstArc[source + 1] - graph.FirstArc[source]).Single(arc => graph.ArcTarget[arc] == target);
}
