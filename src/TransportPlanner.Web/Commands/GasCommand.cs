using System.CommandLine;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Commands;

/// <summary><c>gas</c>: how long the gas lasts, for a therapist who has no route. Too little gas is an answer.</summary>
internal static class GasCommand
{
    public static Command Create()
    {
        var command = new AskCommand(
            "gas", "Counts the minutes of oxygen and air, rounded down, with the arithmetic. Too little gas is an answer, not an error.",
            "gas --flow 10 --oxygen-fraction 0.30 --oxygen \"US-E 1500 psi\" --air \"US-E-AIR 1800 psi\" --journey 9");
        var site = command.Text("--site", "Slug of the site whose own sizes, preset cylinders and shelf count; default the hospital's own, else the demonstration.", "slug");
        var flow = command.Text("--flow", "Set flow in L/min, 0.01 to 30.", "L/min");
        var flowIs = command.Text("--flow-is", "What the flow is: setFlow (the default) or minuteVolume, of a ventilator that gives gas breath by breath.", "kind");
        var fraction = command.Text("--oxygen-fraction", "Oxygen fraction, 0.21 to 1, not percent.", "fraction");
        var oxygen = command.Several("--oxygen", $"Oxygen cylinder; may be repeated. {CylinderText.Form}");
        var air = command.Several("--air", "Air cylinder, in the same form; may be repeated.");
        var journey = command.Text("--journey", "Minutes of the journey, 0.1 to 1440; without it no rule is judged.", "minutes");
        var source = command.Text("--air-source", "Where the air comes from: cylinder (the default), compressor or entrained.", "source");
        var drive = command.Text("--drive", "Gas that drives the device and does not reach the infant, L/min.", "L/min");
        var driveGas = command.Text("--drive-gas", "What drives the device: oxygen (the default) or air.", "gas");
        var bleed = command.Text("--bleed", "Gas that the blender lets go, L/min.", "L/min");
        var celsius = command.Text("--cylinder-celsius", "Temperature of the cylinders in °C; 20 is assumed.", "°C");
        command.Answer<GasSupplyResponse>(
            "/gas-supply",
            async (question, _, planner, cancellationToken) =>
            {
                if (question.PutSite(site, planner) is null)
                {
                    return;
                }

                question.Put("demand.flowLitresPerMinute", flow, isNumber: true);
                question.Put("demand.flowIs", flowIs);
                question.Put("demand.oxygenFraction", fraction, isNumber: true);
                question.Put("demand.airSource", source);
                question.Put("demand.driveGasLitresPerMinute", drive, isNumber: true);
                question.Put("demand.driveGas", driveGas);
                question.Put("demand.bleedLitresPerMinute", bleed, isNumber: true);
                question.Put("journeyMinutes", journey, isNumber: true);
                question.Put("cylinderTemperatureCelsius", celsius, isNumber: true);
                await question.PutCylindersAsync(planner, cancellationToken, ("oxygen", oxygen), ("air", air));
            },
            Print);
        return command.Command;
    }

    public static void Print(TextPage page, GasSupplyResponse supply)
    {
        page.Paragraph(GasWords.Limiting(supply));
        foreach (var gas in supply.Gases)
        {
            page.Line();
            page.Line($"  {GasWords.Of(gas.Gas)}, {GasWords.Number(gas.FlowLitresPerMinute)} L/min: {(GasWords.InAll(supply, gas) is { } minutes ? $"{minutes} min" : "no cylinder is drawn")}{(GasWords.AloneFrom(supply, gas) is { } alone ? $", {alone}" : "")}"
                + (gas.MinutesLow is { } low ? $", at least {GasWords.AfterAir(supply, gas)?.MinutesLow ?? low} min with gauge and flowmeter error" : ""));
            if (gas.Minutes is not null)
            {
                page.Paragraph(gas.FlowWorking, 4);
            }

            page.Paragraph(gas.Working, 4);
            if (GasWords.AfterAir(supply, gas) is { AirMinutes: > 0 } after)
            {
                page.Paragraph(after.Working, 4);
            }
        }

        page.Line();
        page.Line($"  oxygen alone at fraction 1.0, {GasWords.Number(supply.OxygenAlone.FlowLitresPerMinute)} L/min: {supply.OxygenAlone.Minutes} min");
        page.Paragraph(supply.OxygenAlone.Working, 4);
        page.Line();
        if (supply.Rules.Count == 0)
        {
            page.Line("  No reserve rule is judged: the minutes of the journey are not given.");
        }

        foreach (var rule in supply.Rules)
        {
            page.Line($"  {GasWords.Rule(rule.Rule)}: {GasWords.Verdict(rule)}");
            page.Paragraph($"{rule.Working}. Source: {rule.Source}.", 4);
        }

        if (supply.Timeline is { } timeline)
        {
            Print(page, timeline);
        }

        page.Heading("Cautions");
        foreach (var caution in supply.Cautions)
        {
            page.Item(caution);
        }
    }

    private static void Print(TextPage page, GasTimelineResponse timeline)
    {
        page.Heading("Change over");
        if (timeline.ChangeOvers.Count == 0)
        {
            page.Paragraph(GasWords.NoChangeOver(timeline));
        }
        else
        {
            page.Paragraph("Two people; flow felt at the patient end; the old cylinder shut and tagged. Never in an elevator or a doorway.");
        }

        foreach (var change in timeline.ChangeOvers)
        {
            page.Item($"{GasWords.ChangeOver(change)} {GasWords.Sentence(change.Working)}");
        }

        foreach (var gas in timeline.Gases.Where(gas => !gas.LastsTheJourney))
        {
            page.Item($"{GasWords.Capital(gas.Gas)} MAY END BEFORE ARRIVAL, at minute {GasWords.Number(gas.EndsAtMinuteLow ?? 0)} of {GasWords.Number(timeline.JourneyMinutes)}.");
        }

        foreach (var sentence in timeline.Events.Concat(timeline.Stalls.Select(stall => $"{GasWords.Stall(stall)} {GasWords.Sentence(stall.Working)}")))
        {
            page.Item(sentence);
        }
    }
}
