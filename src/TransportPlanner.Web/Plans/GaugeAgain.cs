using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>The cylinders of a plan with their gauges read again, against what the plan said of the way.</summary>
/// <param name="IsChanged">A rule that the plan says is met no longer is.</param>
/// <param name="Words">Readings, minutes and rules in a sentence.</param>
/// <param name="Problem">Why the readings cannot be taken; else null.</param>
internal sealed record GaugeAgain(bool IsChanged, string Words, ProblemHttpResult? Problem)
{
    /// <summary>Begins the sentence about a cylinder that is empty or short by itself.</summary>
    public const string Connected = "The connected cylinder";

    public static async Task<GaugeAgain> ReadAsync(
        PlannerContext context, PlanResponse plan, RouteGasResponse gas, IReadOnlyList<GaugeAgainRequest> gauges, CancellationToken cancellationToken)
    {
        var cylinders = plan.Given.Cylinders;
        if (gauges.Count != cylinders.Count)
        {
            return Refused(Problems.Invalid("gauges", cylinders.Count == 0
                ? "This plan has no cylinder: leave the list empty, or make the next version with the cylinders."
                : $"Give a reading for each of the plan's {cylinders.Count} cylinders, in their order."));
        }

        if (gas.Supply is not { } before || PlanMaker.DemandOf(plan.Given) is not { } demand)
        {
            return new(false, gas.Answer == GasAnswer.NotDrawn ? "No gas is drawn." : "Gas unknown: the plan has no cylinder.", null);
        }

        var again = cylinders.Zip(gauges, (cylinder, gauge) => cylinder with { GaugePsi = gauge.GaugePsi, GaugeBar = gauge.GaugeBar, GaugeKpa = gauge.GaugeKpa }).ToList();
        var choice = await CylinderChoice.ReadAsync(context, plan.SiteId, cancellationToken);
        if (CylinderProblems.Find(again, "gauges", choice, out var found) is { } problem)
        {
            return Refused(problem);
        }

        var supply = GasSupplyResponse.From(GasSupply.For(new() { Demand = demand, Cylinders = found, JourneyMinutes = gas.JourneyMinutes }));
        var worse = supply.Rules.Where(rule => !rule.Met && before.Rules.Any(said => said.Rule == rule.Rule && said.Met)).ToList();
        var rules = string.Join(", ", supply.Rules.Select(rule => $"{GasWords.Rule(rule.Rule)} {GasWords.Verdict(rule)}"));
        var connected = ConnectedAlone(demand, found, before, gas.JourneyMinutes).ToList();
        var read = $"Read {string.Join(", ", found.Select(cylinder => $"{cylinder.Gauge}"))}: {GasWords.All(supply)}; oxygen alone {supply.OxygenAlone.Minutes} min; {rules}.";
        return new(worse.Count > 0 || connected.Exists(one => one.IsEmpty), string.Join(" ", connected.Select(one => one.Words).Prepend(read)), null);
    }

    /// <summary>The cylinder of each gas that the plan leaves with, where it alone is empty or short: a full one beside it gives nothing until somebody opens it.</summary>
    private static IEnumerable<(bool IsEmpty, string Words)> ConnectedAlone(
        GasDemand demand, IReadOnlyList<Cylinder> found, GasSupplyResponse before, decimal journeyMinutes)
    {
        foreach (var gas in Enum.GetValues<GasKind>())
        {
            var first = before.Timeline?.Gases.FirstOrDefault(contents => contents.Gas == gas)?.Cylinders is [var use, ..] ? use.Cylinder : 0;
            if (first < 1 || first > found.Count || found.Count(cylinder => cylinder.Gas == gas) < 2)
            {
                continue;
            }

            var (cylinder, name) = (found[first - 1], $"{Connected}, {GasWords.Of(gas)} {first}, reads {found[first - 1].Gauge}");
            var alone = GasSupply.For(new() { Demand = demand, Cylinders = [cylinder], JourneyMinutes = journeyMinutes });
            var minutes = Math.Min(alone.Gases.First(one => one.Gas == gas).Minutes ?? long.MaxValue, gas == GasKind.Oxygen ? alone.OxygenAlone.Minutes : long.MaxValue);
            if (minutes == 0)
            {
                yield return (true, $"{name} and gives no minute above its residual of {cylinder.Residual}: connect another before leaving.");
            }
            else if (minutes < alone.Rules.Max(rule => rule.RequiredMinutes))
            {
                yield return (false, $"{name}: alone it gives {minutes} min, less than the {GasWords.Number(alone.Rules.Max(rule => rule.RequiredMinutes))} min of the rules; the rest comes after a change-over.");
            }
        }
    }

    private static GaugeAgain Refused(ProblemHttpResult problem) => new(false, "", problem);
}
