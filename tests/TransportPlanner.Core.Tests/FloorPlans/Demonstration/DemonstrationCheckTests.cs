using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>What the product itself says about the plan.</summary>
public sealed class DemonstrationCheckTests
{
    private static readonly FloorPlan Plan = DemonstrationHospital.Build();
    private static readonly FloorGraph Graph = FloorGraphBuilder.Build(Plan);

    /// <summary>Doors that nobody has measured, so that an unknown can be met in the examples. None lies on one of the four ways.</summary>
    private static readonly string[] Unmeasured =
    [
        "A-4.03 H-4.10", "A-4.04 H-4.10", "A-4.05 H-4.10", "HS-2.04 HS-2.05", "M-3.11 H-3.01", "N-4.24 H-4.04", "N-4.31 HC-4.01", "N-4.33 HC-4.01",
        "O-5.04 H-5.02", "O-5.07 H-5.01", "Q-1.01 H-1.01", "Q-1.10 H-1.01", "S-0.04 H-0.02", "S-0.22 H-0.10", "S-2.04 HS-2.02",
    ];

    [Fact]
    public void The_check_finds_no_error_and_no_warning_but_the_unmeasured_doors()
    {
        var ids = Plan.Passages.Where(p => Unmeasured.Contains($"{p.From} {p.To}")).Select(p => $"passage {p.Id}");

        var findings = FloorPlanCheck.Run(Plan);

        Assert.Equal(Unmeasured.Length, ids.Count());
        Assert.All(findings, finding => Assert.Equal((FindingSeverity.Warning, "clearWidthMetres"), (finding.Severity, finding.Path)));
        Assert.Equal(ids.Order(StringComparer.Ordinal), findings.Select(f => f.Subject).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_turn_has_measured_arms_unless_its_door_is_unmeasured()
    {
        var turns = Enumerable.Range(0, Graph.ArcCount).SelectMany(arc => Graph.ArcTurns[arc].Select(turn => (arc, turn))).ToList();

        Assert.True(turns.Count > 3_000, $"{turns.Count} turns");
        foreach (var (arc, turn) in turns.Where(t => t.turn.WidthBeforeMillimetres < 0 || t.turn.WidthAfterMillimetres < 0))
        {
            Assert.True(IsUnmeasured(Graph.ArcSource[arc]) || IsUnmeasured(Graph.ArcTarget[arc]), $"{Crossed(arc)}: {turn}");
        }
    }

    [Fact]
    public void A_corridor_that_bends_is_longer_than_the_straight_line()
    {
        var link = Enumerable.Range(0, Graph.ArcCount).Where(arc => Crossed(arc) == "HS-4.03");

        Assert.Contains(link, arc => Graph.ArcLength[arc] > 1_000 * Graph.ArcPath[arc][0].DistanceTo(Graph.ArcPath[arc][^1]) + 1_000);
    }

    /// <summary>
    /// The bends of the store passage are 1.1 m wide: 2√2 · 1.1 − 2 · 0.85 = 1.41 m is less than the incubator's 1.50 m
    /// (formulas.md, Corners, equal widths).
    /// </summary>
    [Fact]
    public void The_store_passage_turns_twice_in_too_little_room()
    {
        var through = Enumerable.Range(0, Graph.ArcCount)
            .Where(arc => Crossed(arc) == "HR-2.01" && Graph.IsTraversal(Graph.ArcSource[arc]) && Graph.IsTraversal(Graph.ArcTarget[arc]))
            .ToList();

        Assert.Equal(2, through.Count);
        Assert.All(through.SelectMany(arc => Graph.ArcTurns[arc]), turn => Assert.Equal((1_100, 1_100), (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres)));
        Assert.All(through, arc => Assert.Equal(2, Graph.ArcTurns[arc].Length));
        Assert.True(2 * Math.Sqrt(2) * 1.1 - 2 * .85 < 1.5);
    }

    private static string Crossed(int arc) => Graph.Plan.Places[Graph.ArcPlace[arc]].Number;

    private static bool IsUnmeasured(int vertex) =>
        Graph.IsTraversal(vertex) && !Graph.Plan.Passages[FloorGraph.PassageOf(vertex)].ClearWidth.IsKnown;
}
