using TransportPlanner.Core.FloorPlans;
using static TransportPlanner.Core.Tests.FloorPlans.FloorGraphBuilderTests;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class SmallSiteTests
{
    [Fact]
    public void The_file_stands_in_canonical_order() => Assert.Equal(SmallSite.Text, FloorPlanGeoJson.Write(SmallSite.Plan));

    [Fact]
    public void It_has_what_the_tests_are_told_it_has()
    {
        var plan = SmallSite.Plan;

        Assert.Equal((2, 19, 20, 2), (plan.Levels.Length, plan.Places.Length, plan.Passages.Length, plan.Elevators.Length));
        Assert.Contains("invented", plan.Notice!, StringComparison.Ordinal);
        Assert.Equal(700, plan.Passages.Single(p => p.Id == "102").ClearWidth.Value.Millimetres);
        Assert.False(plan.Passages.Single(p => p.Id == "202").ClearWidth.IsKnown);
        Assert.True(plan.Places.Single(p => p.Number == "I-2.01").Has(FacilityKind.Suction));
    }

    [Fact]
    public void The_check_finds_no_error_and_puts_the_unknown_width_in_words()
    {
        var findings = FloorPlanCheck.Run(SmallSite.Plan);

        Assert.DoesNotContain(findings, finding => finding.Severity == FindingSeverity.Error);
        var width = Assert.Single(findings, finding => finding.Path == "clearWidthMetres");
        Assert.Equal("passage 202", width.Subject);
        Assert.Contains("C-2.01", width.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_long_corridor_is_walked_around_its_inner_corner()
    {
        // Door 101 at (2.6, 5), inner corner (27.6, 7.4), opening 106 at (28.8, 20).
        var byHand = Math.Sqrt(25 * 25 + 2.4 * 2.4) + Math.Sqrt(1.2 * 1.2 + 12.6 * 12.6);

        Assert.Equal((int)Math.Round(byHand * 1_000), Length(SmallSite.Graph, "101", "106"));
        var turns = SmallSite.Graph.ArcTurns[Between(SmallSite.Graph, "101", "106")];
        Assert.Equal([(1_200, 2_400), (2_400, 2_400)], turns.Select(turn => (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres)));
    }
}
