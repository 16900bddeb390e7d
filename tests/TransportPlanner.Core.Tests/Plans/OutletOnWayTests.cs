using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Plans;

public sealed class OutletOnWayTests
{
    private static readonly FloorGraph Graph = FloorGraphBuilder.Build(DemonstrationHospital.Build());

    private static List<OutletOnWay> Outlets(string? oxygenHose, string? airHose, Func<Facility, Facility?>? change = null)
    {
        var plan = Graph.Plan;
        var graph = change is null ? Graph : FloorGraphBuilder.Build(plan with
        {
            Places =
            [
                .. plan.Places.Select(place => place.Number == "D-2.14" ? place with { Facilities = [.. place.Facilities.Select(change).OfType<Facility>()] } : place),
            ],
        });
        var made = TransportPlan.Make(graph, new()
        {
            Route = new()
            {
                From = "D-2.14",
                To = "N-4.03",
                Precautions = PrecautionSet.Airborne,
                Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 5, 4, 1, 10, 0, TimeSpan.Zero), HeldElevators = true, WithHelper = true },
            },
            Support = RespiratorySupport.Cpap,
            Demand = SupportDemand.For(RespiratorySupport.Cpap),
            Settings = new() { OxygenHose = oxygenHose, AirHose = airHose },
        });
        return [.. Assert.IsType<PlanOutcome.Made>(made).Plan.GasByRoute[0].Outlets];
    }

    private static HoseFit AtStart(List<OutletOnWay> outlets, GasKind gas) => outlets.Single(outlet => outlet.Purpose == OutletPurpose.Origin && outlet.Gas == gas).Fit;

    [Fact]
    public void Start_bail_out_points_and_destination_are_asked_for_both_gases()
    {
        var outlets = Outlets("DIN 13260-2", null);

        Assert.Equal(("D-2.14", GasKind.Oxygen), (outlets[0].Place, outlets[0].Gas));
        Assert.Equal(("N-4.03", GasKind.Air), (outlets[^1].Place, outlets[^1].Gas));
        Assert.All(outlets.GroupBy(outlet => outlet.Place), place => Assert.Equal([GasKind.Oxygen, GasKind.Air], place.Select(outlet => outlet.Gas)));
        Assert.Contains(outlets, outlet => outlet.Purpose == OutletPurpose.BailOut);
    }

    [Fact]
    public void A_hose_of_the_wall_s_connector_fits_and_another_does_not()
    {
        var wall = Outlets(null, null)[0].Connectors.Single();

        Assert.Equal(HoseFit.Fits, AtStart(Outlets($" {wall.ToLowerInvariant()}", null), GasKind.Oxygen));
        Assert.Equal(HoseFit.DoesNotFit, AtStart(Outlets("another connector", null), GasKind.Oxygen));
    }

    [Fact]
    public void What_nobody_wrote_down_is_unknown_and_never_a_fit()
    {
        Assert.Equal(HoseFit.Unknown, AtStart(Outlets(null, null), GasKind.Oxygen));
        Assert.Equal(HoseFit.Unknown, AtStart(Outlets("DIN 13260-2", null, facility => facility with { Connector = null }), GasKind.Oxygen));
    }

    [Fact]
    public void A_place_without_an_outlet_says_so() =>
        Assert.Equal(HoseFit.NoOutlet, AtStart(Outlets("DIN 13260-2", null, facility => facility.Kind == FacilityKind.OxygenOutlet ? null : facility), GasKind.Oxygen));
}
