using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Plans;

/// <summary>Two published rules: PR-103 keeps the whole set on (Liew et al. 2020), PR-032 and PR-102 take gown and gloves off before leaving (CDC 2007 and 2020, quoted).</summary>
public sealed class WearByLegTests
{
    private const string WithAnterooms = "1 at 0: Delivery 5 | Ante1 3 | Hall 30 | Ante2 3 | Nursery 6";

    [Fact]
    public void The_whole_set_is_kept_on_from_origin_to_destination()
    {
        var (wear, legs) = For(WithAnterooms, WearOnWay.KeptOn);

        Assert.Equal(
            [
                new(-1, -1, WearState.WholeSet, WearState.HelperSet, null),
                new(0, legs - 1, WearState.WholeSet, WearState.HelperSet, null),
                new(legs, legs, WearState.WholeSet, WearState.HelperSet, WearState.WholeSet),
            ],
            wear.Stretches);
        Assert.Equal(("Ante1", null, "Ante2"), (wear.DonningPlace, wear.ChangePlace, wear.DoffingPlace));
    }

    // Seen to fail: with the fresh set put on a leg too late, in the nursery.
    [Fact]
    public void Gown_and_gloves_are_off_on_every_leg_until_the_anteroom_of_the_destination()
    {
        var (wear, legs) = For(WithAnterooms, WearOnWay.ChangedAtTheEnds);
        var route = RouteOf(WithAnterooms);
        var anteroom = route.Legs.ToList().FindIndex(leg => leg.Places.Contains("Ante2"));

        Assert.Equal("Ante2", wear.ChangePlace);
        Assert.Equal((-1, WearState.WholeSet), (wear.Stretches[0].FirstLeg, wear.Stretches[0].CareGivers));
        Assert.Equal((0, anteroom, WearState.FaceOnly), (wear.Stretches[1].FirstLeg, wear.Stretches[1].LastLeg, wear.Stretches[1].CareGivers));
        Assert.All(wear.Stretches.Skip(2), stretch => Assert.Equal(WearState.WholeSet, stretch.CareGivers));
        Assert.Equal(legs, wear.Stretches[^1].LastLeg);
        Assert.All(wear.Stretches, stretch => Assert.Equal(WearState.HelperSet, stretch.Helper));
    }

    [Fact]
    public void Without_an_anteroom_the_places_are_unknown_and_nobody_invents_one()
    {
        var (wear, legs) = For("1 at 0: Delivery 5 | Hall 30 | Nursery 6", WearOnWay.ChangedAtTheEnds);

        Assert.Equal((null, null, null), (wear.DonningPlace, wear.ChangePlace, wear.DoffingPlace));
        Assert.Equal(WearState.FaceOnly, wear.Stretches[1].CareGivers);
        Assert.Equal((legs, WearState.WholeSet), (wear.Stretches[^1].LastLeg, wear.Stretches[^1].CareGivers));
    }

    [Fact]
    public void Every_leg_stands_in_one_stretch_and_without_precautions_nothing_is_said()
    {
        foreach (var rule in Enum.GetValues<WearOnWay>())
        {
            var (wear, legs) = For(WithAnterooms, rule);
            Assert.Equal(Enumerable.Range(-1, legs + 2), wear.Stretches.SelectMany(stretch => Enumerable.Range(stretch.FirstLeg, stretch.LastLeg - stretch.FirstLeg + 1)));
        }

        Assert.Empty(For(WithAnterooms, WearOnWay.KeptOn, PrecautionSet.None).Wear.Stretches);
        Assert.All(For(WithAnterooms, WearOnWay.KeptOn, helper: false).Wear.Stretches, stretch => Assert.Null(stretch.Helper));
    }

    private static (WearByLeg Wear, int Legs) For(string sketch, WearOnWay rule, PrecautionSet precautions = PrecautionSet.Airborne, bool helper = true)
    {
        var query = Query(precautions, helper);
        var route = RouteOf(sketch);
        return (WearByLeg.For(Sketch.Parse(sketch).Plan, route, query, rule), route.Legs.Length);
    }

    private static Route RouteOf(string sketch) => Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(Sketch.Parse(sketch).Graph, Query(PrecautionSet.Airborne, true))).Set.Routes[0];

    private static RouteQuery Query(PrecautionSet precautions, bool helper) => new()
    {
        From = "Delivery",
        To = "Nursery",
        Precautions = precautions,
        Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 5, 4, 1, 10, 0, TimeSpan.Zero), HeldElevators = true, WithHelper = helper },
    };
}
