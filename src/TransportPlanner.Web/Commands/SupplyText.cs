using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Commands;

/// <summary>What a plan says about gas and batteries, as plain text.</summary>
internal static class SupplyText
{
    public static void Gas(TextPage page, RouteGasResponse gas)
    {
        page.Heading($"Gas on way {gas.Route}, nearly always {gas.JourneyMinutes} min");
        if (gas.Answer == GasAnswer.NotDrawn)
        {
            page.Line("This support draws none.");
        }
        else if (gas.Supply is { } supply)
        {
            GasCommand.Print(page, supply);
            if (gas.MinutesIfStuck is { } stuck)
            {
                page.Item($"If an elevator stalls: {stuck} min are left on reaching the one where least is left, rounded down.");
            }

            Verdicts(page, gas);
        }
        else
        {
            page.Line("Gas unknown: no cylinder and gauge were given.");
        }

        Shelf(page, gas.SmallestSet);
        PlanText.Items(page, "Does the hose fit that wall", PlanWords.Hoses(gas.Outlets));
        if (gas.Supply is null && gas.LeastGauges.Count > 0)
        {
            foreach (var group in gas.LeastGauges.GroupBy(least => (least.Gas, least.Working)))
            {
                page.Paragraph($"Least gauge of one {GasWords.Of(group.Key.Gas)} cylinder that meets the strictest rule of the site: {group.Key.Working}");
                page.Table([.. group.Select(least => (IReadOnlyList<string>)[least.SizeId, least.Gauge is { } gauge ? page.Show.LeastGauge(gauge) : "not even full"])]);
            }
        }
    }

    private static void Shelf(TextPage page, SmallestSetResponse? set)
    {
        if (set is null)
        {
            return;
        }

        page.Heading("Fewest cylinders of the shelf that meet the site's rules");
        page.Paragraph(set.Supply is { } supply
            ? $"Take {GasWords.List(set.Tags)}. {GasWords.Limiting(supply)} Oxygen alone: {supply.OxygenAlone.Minutes} min."
            : $"THE SHELF HAS TOO LITTLE {GasWords.Of(set.ShortOf ?? default).ToUpperInvariant()}: {GasWords.Number(set.ThereLitres ?? 0)} of {GasWords.Number(set.NeededLitres ?? 0)} L. {set.Working}");
        foreach (var left in set.LeftOut)
        {
            page.Item($"Not counted: {left.Tag}, {left.Why}.");
        }
    }

    private static void Verdicts(TextPage page, RouteGasResponse gas)
    {
        page.Heading("Rules for each time of the way");
        foreach (var verdict in gas.Verdicts)
        {
            page.Item($"{PlanWords.Of(verdict.Time)}, {GasWords.Number(verdict.JourneyMinutes)} min: "
                + string.Join("; ", verdict.Rules.Select(rule => $"{GasWords.Rule(rule.Rule)} needs {GasWords.Number(rule.RequiredMinutes)} min, {GasWords.Verdict(rule)}")));
        }

        if (gas.Verdicts.All(verdict => verdict.Time != JourneyTimeKind.PlanBWorst))
        {
            page.Item("Plan B, worst arrival: unknown, not judged.");
        }

        foreach (var shortfall in gas.Shortfalls)
        {
            page.Item($"The journey outlasts {shortfall.Supply} in {shortfall.Frequency} (band {GasWords.Number(shortfall.LeastMinutes)} to {GasWords.Number(shortfall.MostMinutes)} min, a triangle, assumed).");
        }

        foreach (var one in gas.OneMore)
        {
            page.Item($"One more {GasWords.Of(one.Gas)} cylinder like {one.LikeCylinder}: {PlanWords.Of(one)}");
        }
    }

    public static void Batteries(TextPage page, BatterySheet batteries)
    {
        if (batteries.OfWay is not { } way)
        {
            return;
        }

        page.Heading($"Batteries on way {way.Route}");
        if (batteries.First is { } first)
        {
            var stuck = way.MinutesIfStuck is { } minutes ? $" If an elevator stalls, {minutes} min are left in it." : "";
            page.Paragraph($"First to die{(way.Unknown.Count > 0 ? " of those that are known" : "")}: {BatteryWords.Of(first)}, {first.Minutes} min.{stuck}");
        }
        else if (batteries.Batteries.Count == 0)
        {
            page.Line("Batteries unknown: no device was given.");
        }

        foreach (var battery in batteries.Batteries)
        {
            page.Item($"{BatteryWords.Of(battery)}: {(battery.Minutes is { } minutes ? $"{minutes} min; {battery.Working}" : $"UNKNOWN; still to give: {string.Join(", ", battery.Missing)}")}");
        }

        foreach (var verdict in way.Verdicts)
        {
            page.Item($"{PlanWords.Of(verdict.Time)}, {GasWords.Number(verdict.JourneyMinutes)} min: "
                + string.Join("; ", verdict.Rules.Select(rule => $"{GasWords.Rule(rule.Rule)} needs {GasWords.Number(rule.RequiredMinutes)} min, {PlanWords.Verdict(rule)}")));
        }

        if (batteries.First is not null)
        {
            page.Item($"Left in it when each leg begins: {string.Join("; ", way.Legs.Select(leg => $"{leg.Leg}. {leg.Where}: {leg.MinutesLeft} min"))}");
        }

        PlanText.Items(page, "Where to plug in", PlanWords.PlugIns(way.PlugInPoints).Concat(way.Cautions));
    }
}
