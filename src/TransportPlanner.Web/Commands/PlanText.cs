using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Commands;

/// <summary>A plan as plain text, in the order of the sheet and in its words.</summary>
internal static class PlanText
{
    public static void Print(TextPage page, PlanResponse plan)
    {
        var way = SheetModel.FirstRead(plan);
        string Time(DateTimeOffset instant) => FloorPlanWords.Local(instant, plan.TimeZone);
        page.Line($"{plan.CallSign.ToUpperInvariant()} · {plan.From} → {plan.To} · {PlanWords.Of(plan.Precautions)} · {KitWords.Of(plan.Support)}");
        page.Line($"leaves {Time(plan.Routes.DepartAt)} · void after {Time(plan.VoidAfter)}");
        page.Line($"plan {plan.Id}, version {plan.Version}, made {Time(plan.MadeAt)}");
        page.Paragraph("Planning aid. Local policy and licensed practice decide. Check the flow at the patient end. An incubator does not isolate.");

        page.Heading("Ways (figures with nobody held)");
        page.Table(
        [
            ["", .. plan.Routes.Routes.Select(r => r.Id == way.Id ? $"[{r.Id}]" : r.Id)],
            .. SheetModel.Measures.Where(m => m.Measure != SheetModel.Why)
                .Select(m => (IReadOnlyList<string>)[m.Measure, .. plan.Routes.Routes.Select(m.Figure)]),
        ]);
        foreach (var row in plan.Routes.Routes)
        {
            page.Item($"{string.Join(", ", row.Reasons.Select(PlanWords.Reason))}{(row.HasUnknown ? "; has unknown limits" : "")}", $"  {row.Id}  ");
        }

        Items(page, "Leaving later", DepartureWords.Of(plan.Routes, plan.TimeZone));
        Items(page, "Not chosen", plan.Routes.NotChosen.Select(other => other.Sentence));
        Items(page, $"Way {way.Id} leads through rooms, since nothing else leads there: ask the people in charge of them before you go", way.ThroughRooms);
        Items(page, $"Unknown on way {way.Id}: nobody measured these", way.Unknowns);
        Legs(page, way);
        PlanB(page, way);
        SupplyText.Gas(page, plan.GasByRoute.First(gas => gas.Route == way.Id));
        SupplyText.Batteries(page, new(plan.Batteries, plan.BatteriesByRoute.FirstOrDefault(batteries => batteries.Route == way.Id)));
        Kit(page, plan.Kit);

        page.Heading("Afterwards: minutes from leaving until the air is renewed");
        foreach (var airing in plan.Airing.Where(a => a.Routes.Contains(way.Id)))
        {
            var shut = airing.MinutesDoorsShut is { } minutes ? $" with doors open, {minutes} shut" : "";
            page.Item($"{airing.Place} {airing.Name}: {airing.Working}", $"{airing.Minutes + " min" + shut,8}  ", 2);
        }

        Items(page, "Measured at this site", plan.Measured.Select(measured => PlanWords.Assumed(measured, page.Show)));
        Items(page, "Assumed", plan.Assumed.Select(assumed => PlanWords.Assumed(assumed, page.Show)));
        Items(page, "Cautions", plan.Cautions);
    }

    private static void Legs(TextPage page, RouteResponse way)
    {
        page.Heading($"Way {way.Id}, leg by leg: usually {PlanWords.Clock(way.UsualSeconds)}, nearly always {PlanWords.Clock(way.NearlyAlwaysSeconds)} min:s");
        foreach (var (leg, number) in way.Legs.Select((leg, index) => (leg, index + 1)))
        {
            var place = leg.Elevator is { } ride ? $"{ride.Name}, level {ride.FromLevel} → {ride.ToLevel}, {(ride.IsHeld ? "held" : "not held")}"
                : leg.FromPlace == leg.ToPlace ? leg.FromPlace : $"{leg.FromPlace} → {leg.ToPlace}";
            var length = leg.Elevator is null ? $", {page.Show.Length(leg.Metres)}" : "";
            page.Item($"{place} ({PlanWords.Of(leg.Kind)}{length}), {PlanWords.Clock(leg.ExpectedSeconds)}", $"{number,2}. ");
            if (leg.Doors.Count > 0)
            {
                page.Paragraph(string.Join(" · ", leg.Doors.Select(PlanWords.Of)), 4);
            }

            page.Paragraph(LegWords.WaysOut(leg, page.Show), 4);
            if (LegWords.FireAlarm(leg, page.Show) is { Length: > 0 } alarm)
            {
                page.Paragraph(alarm, 4);
            }
        }
    }

    private static void PlanB(TextPage page, RouteResponse way)
    {
        page.Heading($"Plan B on way {way.Id}: each element failed in turn, found out on arrival there");
        foreach (var fallback in way.PlanB)
        {
            page.Item(
                fallback.ArrivalSeconds is { } arrival
                    ? $"{PlanWords.Failed(fallback)} (at {fallback.DiscoveredAt}, {PlanWords.Clock(fallback.DiscoveredSeconds)}): {PlanWords.WayOn(fallback)}; arrives {PlanWords.Clock(arrival)}"
                    : $"{PlanWords.Failed(fallback)} (at {fallback.DiscoveredAt}): NO OTHER WAY, {PlanWords.Stop(fallback)}");
        }
    }

    private static void Kit(TextPage page, KitResponse kit)
    {
        foreach (var phase in kit.Items.GroupBy(item => item.Phase))
        {
            page.Heading($"Kit: {KitWords.Of(phase.Key)}");
            foreach (var carrier in phase.GroupBy(item => item.CarriedBy))
            {
                page.Line($"  {KitWords.Of(carrier.Key)}:");
                Carried(page, carrier);
            }
        }

        Items(page, "Beside the list", [.. kit.Spans, .. kit.Refused.Select(r => r.Reason), .. kit.Cautions.Select(c => $"{c.Text} {c.Source}")]);
        Items(page, "Who wears what", kit.Wear.Roles.Select(role =>
            $"{KitWords.Of(role.Role)}: {role.Pieces}{(role.Size is null ? "" : $", {role.Size}")}{(role.NeedsConfirmation ? " CONFIRM" : "")}"));
        Items(page, "Protective wear, on", kit.Wear.Changes.Concat(kit.WearOn.Select(Step)), "");
        Items(page, "Protective wear, off", [$"{KitWords.Of(kit.Wear.Watcher)}: {kit.Wear.WatcherTask}", .. kit.WearOff.Select(Step)], "");

        static string Step(WearStepResponse step) =>
            $"{step.Order}. {step.Action}{(step.Place is null ? "" : ", " + step.Place)}{(step.HandHygieneSeconds is { } seconds ? $", {seconds} s" : "")}{(step.Note is null ? "" : ": " + step.Note)}";
    }

    private static void Carried(TextPage page, IEnumerable<KitItemResponse> items)
    {
        foreach (var item in items)
        {
            var size = (item.Size is null ? "" : $", {item.Size}") + (item.SpareSize is null ? "" : $"; spare {item.SpareSize}");
            page.Item($"{item.Name}{size} {KitWords.Quantity(item)}{(item.NeedsConfirmation ? " CONFIRM" : "")}", item.TwoPeople ? "[ ][ ] " : "[ ] ");
            foreach (var ask in item.Asks)
            {
                page.Paragraph($"{ask.Text} {ask.Source}", 6);
            }
        }
    }

    internal static void Items(TextPage page, string heading, IEnumerable<string> sentences, string mark = "- ")
    {
        var all = sentences.ToList();
        if (all.Count == 0)
        {
            return;
        }

        page.Heading(heading);
        foreach (var sentence in all)
        {
            page.Item(sentence, mark);
        }
    }
}
