using TransportPlanner.Core.Batteries;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Plans;

public sealed class BatteriesOfRouteTests
{
    private static readonly FloorGraph Graph = FloorGraphBuilder.Build(DemonstrationHospital.Build());

    [Fact]
    public void The_weakest_battery_is_judged_by_the_rules_of_gas_on_the_usual_the_nearly_always_and_the_plan_B_time()
    {
        var plan = Make(Full(BatteryDevice.Ventilator, 60), Full(BatteryDevice.InfusionPump, 25), Full(BatteryDevice.Monitor, 90));
        var (route, gas, power) = (plan.Routes.Routes[0], plan.GasByRoute[0], plan.BatteriesByRoute[0]);

        Assert.Equal(1, power.FirstToDie);
        Assert.Equal([JourneyTimeKind.Usually, JourneyTimeKind.NearlyAlways, JourneyTimeKind.PlanBWorst], power.Verdicts.Select(verdict => verdict.Time));
        Assert.Equal(gas.JourneyMinutes, power.Verdicts[1].JourneyMinutes);
        Assert.Equal(decimal.Ceiling((decimal)route.WorstPlanBSeconds!.Value / 6m) / 10, power.Verdicts[2].JourneyMinutes);
        Assert.All(power.Verdicts, verdict => Assert.All(verdict.Rules, rule =>
        {
            // 25 min × 0.8 = 20 min; both rules of RR-02 and RR-03 recomputed.
            Assert.Equal(rule.Rule.Id == "twice-the-journey" ? 2 * verdict.JourneyMinutes : verdict.JourneyMinutes + 30, rule.RequiredMinutes);
            Assert.Equal((20L, 20 >= rule.RequiredMinutes ? BatteryAnswer.Met : BatteryAnswer.Short), (rule.AvailableMinutes, rule.Answer));
        }));
        Assert.Contains(power.Verdicts.SelectMany(verdict => verdict.Rules), rule => rule.Answer == BatteryAnswer.Short);
    }

    [Fact]
    public void A_device_of_which_too_little_is_known_leaves_the_verdict_unknown_and_never_met()
    {
        var power = Make(Full(BatteryDevice.Monitor, 600), new Battery { Device = BatteryDevice.Ventilator, RatedMinutes = 30 }).BatteriesByRoute[0];

        Assert.Equal([1], power.Unknown);
        Assert.Equal(0, power.FirstToDie);
        Assert.All(power.Verdicts.SelectMany(verdict => verdict.Rules), rule => Assert.Equal((BatteryAnswer.Unknown, 480L), (rule.Answer, rule.AvailableMinutes)));

        // What is known and too short stays short, whatever the unknown one has.
        var weak = Make(Full(BatteryDevice.Monitor, 1), new Battery { Device = BatteryDevice.Ventilator }).BatteriesByRoute[0];
        Assert.All(weak.Verdicts.SelectMany(verdict => verdict.Rules), rule => Assert.Equal(BatteryAnswer.Short, rule.Answer));

        var nothing = Make(new Battery { Device = BatteryDevice.Ventilator }).BatteriesByRoute[0];
        Assert.Equal((null, null), (nothing.FirstToDie, nothing.MinutesIfStuck));
        Assert.All(nothing.Verdicts.SelectMany(verdict => verdict.Rules), rule => Assert.Equal((BatteryAnswer.Unknown, null), (rule.Answer, rule.AvailableMinutes)));
        Assert.All(nothing.Legs, leg => Assert.Null(leg.MinutesLeft));
    }

    [Fact]
    public void Minutes_left_at_each_leg_and_in_the_elevator_are_what_remains_after_the_legs_before()
    {
        var plan = Make(Full(BatteryDevice.Monitor, 50));

        Assert.All(plan.Routes.Routes.Zip(plan.BatteriesByRoute, plan.GasByRoute), of =>
        {
            var (route, power, gas) = of;
            var total = route.Legs.Sum(leg => leg.ExpectedSeconds);
            Assert.Equal(route.Legs.Length, power.Legs.Length);
            Assert.Equal((0, 0m, 40L), (power.Legs[0].Leg, power.Legs[0].AtMinute, power.Legs[0].MinutesLeft));
            foreach (var leg in power.Legs)
            {
                var at = (double)gas.JourneyMinutes * route.Legs.Take(leg.Leg).Sum(before => before.ExpectedSeconds) / total;
                Assert.Equal(at, (double)leg.AtMinute, 0.006);
                Assert.Equal((long)Math.Floor(40 - leg.AtMinute), leg.MinutesLeft);
            }

            Assert.Equal(power.Legs.Where(leg => route.Legs[leg.Leg].Ride is not null).Min(leg => leg.MinutesLeft), power.MinutesIfStuck);
            Assert.All(gas.Supply!.Timeline!.Stalls.Zip(power.Legs.Where(leg => route.Legs[leg.Leg].Ride is not null)), pair => Assert.Equal(pair.First.AtMinute, pair.Second.AtMinute));
        });
        Assert.Contains(plan.BatteriesByRoute, power => power.MinutesIfStuck is not null);
        Assert.All(Make(Full(BatteryDevice.Monitor, 2)).BatteriesByRoute, power => Assert.Equal(0, power.Legs[^1].MinutesLeft));
    }

    [Fact]
    public void Sockets_are_told_at_the_start_on_the_way_at_bail_out_points_and_at_the_destination()
    {
        var plan = Make();

        Assert.All(plan.Routes.Routes.Zip(plan.BatteriesByRoute), pair =>
        {
            var (route, points) = (pair.First, pair.Second.PlugInPoints);
            Assert.Equal((PlugInPurpose.Origin, "D-2.14", true), (points[0].Purpose, points[0].Place, points[0].HasSocket));
            Assert.Equal(["CEE 7/3"], points[0].Connectors);
            Assert.Equal((PlugInPurpose.Destination, "N-4.03"), (points[^1].Purpose, points[^1].Place));
            Assert.Equal(points.Length, points.Select(point => point.Place).Distinct().Count());
            Assert.All(route.Legs.Select(leg => leg.BailOut?.Place).OfType<string>(), place => Assert.Contains(points, point => point.Place == place));
            Assert.All(points, point => Assert.Equal(Graph.Plan.Places[Graph.PlaceIndex[point.Place]].Has(FacilityKind.Power), point.HasSocket));
            var crossed = route.Legs.SelectMany(leg => leg.Places).Where(place => Graph.Plan.Places[Graph.PlaceIndex[place]].Has(FacilityKind.Power));
            Assert.All(crossed, place => Assert.Contains(points, point => point.Place == place));
        });
    }

    [Fact]
    public void Without_a_battery_nothing_is_judged_and_the_sockets_are_still_told()
    {
        var plan = Make();

        Assert.Empty(plan.Batteries);
        Assert.All(plan.BatteriesByRoute, power =>
        {
            Assert.Empty(power.Verdicts);
            Assert.Empty(power.Legs);
            Assert.NotEmpty(power.PlugInPoints);
        });
    }

    private static Battery Full(BatteryDevice device, int rated) => new() { Device = device, RatedMinutes = rated, ChargePercent = 100, AgeMonths = 0 };

    private static TransportPlan Make(params Battery[] batteries) => Assert.IsType<PlanOutcome.Made>(TransportPlan.Make(Graph, new()
    {
        Route = new()
        {
            From = "D-2.14",
            To = "N-4.03",
            Precautions = PrecautionSet.Airborne,
            Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = new(2026, 5, 4, 1, 10, 0, TimeSpan.Zero), HeldElevators = true, WithHelper = true },
        },
        Support = RespiratorySupport.InvasiveVentilation,
        Demand = Core.Gas.SupportDemand.For(RespiratorySupport.InvasiveVentilation),
        Cylinders = [new(Core.Gas.GasKind.Oxygen, Core.Gas.CylinderCapacity.FromLitresPerPsi(0.28m), Core.Gas.PressureReading.FromPsi(1500))],
        Batteries = [.. batteries],
    })).Plan;
}
