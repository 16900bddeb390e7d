using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>An invented annex and what a later file makes of it.</summary>
public sealed class PlanComparisonTests
{
    private static readonly DateOnly Earlier = new(2025, 3, 1);
    private static readonly DateOnly Later = new(2026, 2, 1);

    [Fact]
    public void Equal_plans_have_no_difference_however_they_are_ordered()
    {
        var plan = Plan(Room("A", 0), Room("B", 5));

        Assert.Empty(PlanComparison.Compare(plan, plan with { Places = [.. plan.Places.Reverse()] }));
    }

    [Fact]
    public void A_place_is_gone_added_renumbered_or_changed()
    {
        var changes = PlanComparison.Compare(
            Plan(Room("A", 0), Room("B", 5), Room("C", 10), Room("D", 15)),
            Plan(Room("A", 0) with { Name = "Store", Height = Fact.Measured(Distance.FromMetres(2.5), Later) }, Room("B2", 5), Room("D", 15), Room("E", 40)));

        Assert.Equal(
            [
                new(PlanChangeKind.Gone, "place", "C", null, null, null),
                new(PlanChangeKind.Renumbered, "place", "B2", "number", "B", "B2"),
                new(PlanChangeKind.Added, "place", "E", null, null, null),
                new(PlanChangeKind.Changed, "place", "A", "name", "Room", "Store"),
                new(PlanChangeKind.Changed, "place", "A", "heightMetres", null, "2.5 (measured 2026-02-01)"),
            ],
            changes.ToArray());
        Assert.Equal(["gone"], PlanComparison.Findings(changes, 1).Select(finding => finding.Path));
    }

    [Fact]
    public void A_known_fact_that_becomes_unknown_is_a_finding_with_its_figure()
    {
        var changes = PlanComparison.Compare(Plan(Room("A", 0) with { AirChanges = Fact.Measured(AirChangeRate.FromPerHour(12), Earlier) }), Plan(Room("A", 0)));

        var finding = Assert.Single(PlanComparison.Findings(changes, 3));
        Assert.Equal(("lost", FindingSeverity.Warning), (finding.Path, finding.Severity));
        Assert.Contains("airChangesPerHour of place A is 12 (measured 2025-03-01) in version 3", finding.Text);
    }

    public static TheoryData<Fact<Distance>, Fact<Distance>, double?> Facts => new()
    {
        { default, Width(1.1, FactSource.Assumed, null), 1.1 },
        { Width(0.9, FactSource.Assumed, null), default, 0.9 },
        { Width(0.9, FactSource.Drawing, Later), Width(1.1, FactSource.Measured, Earlier), 1.1 },
        { Width(0.9, FactSource.Measured, Earlier), Width(1.1, FactSource.Drawing, Later), 0.9 },
        { Width(0.9, FactSource.Drawing, Later), Width(1.1, FactSource.Drawing, Earlier), 0.9 },
        { Width(0.9, FactSource.Drawing, Earlier), Width(1.1, FactSource.Drawing, Later), 1.1 },
        { Width(0.9, FactSource.Assumed, null), Width(1.1, FactSource.Assumed, null), 1.1 },
        { default, default, null },
    };

    /// <summary>Design of this project: a better source wins, then the later day, then what is in force.</summary>
    [Theory]
    [MemberData(nameof(Facts))]
    public void Of_two_figures_the_better_known_one_is_kept(Fact<Distance> draft, Fact<Distance> known, double? kept)
    {
        var plan = CarriedFacts.Onto(Plan(Room("A", 0) with { Height = draft }), Plan(Room("A", 0) with { Height = known }));

        Assert.Equal(kept, plan.Places[0].Height.OrNull?.Metres);
    }

    [Fact]
    public void What_a_handover_file_cannot_know_stays_also_with_a_renumbered_place()
    {
        var known = Room("B", 5) with { Kind = PlaceKind.IsolationRoom, CorridorClass = CorridorClass.Clean, Occupancy = QuarterHourProfile.Constant(2), Flags = PlaceFlags.Cold };

        var place = CarriedFacts.Onto(Plan(Room("A", 0), Room("B2", 5)), Plan(Room("A", 0), known)).Places[1];

        Assert.Equal(known with { Number = "B2", Outline = place.Outline }, place);
    }

    private static Fact<Distance> Width(double metres, FactSource source, DateOnly? asOf) => new(Distance.FromMetres(metres), source, asOf);

    private static Place Room(string number, double x) =>
        new() { Number = number, Name = "Room", Kind = PlaceKind.Room, Level = "1", Outline = Outline.Rectangle(x, 0, x + 4, 4) };

    private static FloorPlan Plan(params Place[] places) =>
        new() { SiteId = "annex", Name = "Annex", TimeZone = "Etc/UTC", Levels = [new("1", "One", 0)], Places = [.. places], Passages = [] };
}
