using System.CommandLine;
using System.Text.Json.Nodes;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Commands;

/// <summary><c>plan</c>: the whole plan in the terminal from five inputs. It is kept like one made on the page, so that its id can be looked up.</summary>
internal static class PlanCommand
{
    public static Command Create()
    {
        var command = new AskCommand(
            "plan", "Makes the whole plan from five inputs, keeps it, and prints it in the order of the sheet.",
            "plan --from D-2.14 --to N-4.03 --support cpap --precautions airborne,contact --oxygen \"US-E 1500 psi\"");
        var site = command.Text("--site", "Slug of the site; default the hospital's own, else the demonstration.", "slug");
        var from = command.Text("--from", "Place where the journey starts, by number or name.", "place");
        var to = command.Text("--to", "Place where it ends, by number or name.", "place");
        var support = command.Text(
            "--support", "selfVentilating, lowFlowCannula, highFlowCannula, cpap, nonInvasiveVentilation, bagMaskVentilation or invasiveVentilation.", "support");
        var precautions = command.Text("--precautions", "airborne, droplet, contact, as infection prevention set them; several with commas.", "list");
        var oxygen = command.Several("--oxygen", $"Oxygen cylinder; may be repeated; without one gas is unknown. {CylinderText.Form}");
        var air = command.Several("--air", "Air cylinder, in the same form; may be repeated.");
        var batteries = command.Several("--battery", $"Device on battery; may be repeated; without one the batteries are unknown. {BatteryText.Form}", "battery");
        var depart = command.Text("--depart", "When the team leaves, with its offset, such as 2026-05-04T02:10:00+02:00; default now.", "instant");
        (string Path, Option<string?> Option)[] numbers =
        [
            ("demand.flowLitresPerMinute", command.Text("--flow", "Set flow in L/min; without it the highest listed flow of the support counts.", "L/min")),
            ("demand.oxygenFraction", command.Text("--oxygen-fraction", "Oxygen fraction, 0.21 to 1; without it each gas counts at its worst.", "fraction")),
            ("weightGrams", command.Text("--weight", "Weight in grams; without it the kit spans the bands. Dropped after 24 hours.", "g")),
            ("gestationWeeks", command.Text("--gestation", "Completed weeks; without it the kit spans the bands. Dropped after 24 hours.", "weeks")),
        ];
        (string Path, Option<string?> Option, double? Assumed)[] sizes =
        [
            ("conveyance.lengthMetres", command.Text("--length", "Length of the incubator with everything on it, m.", "m"), Conveyance.AssumedIncubator.Length.Metres),
            ("conveyance.widthMetres", command.Text("--width", "Its width, m.", "m"), Conveyance.AssumedIncubator.Width.Metres),
            ("conveyance.heightMetres", command.Text("--height", "Its height, m.", "m"), Conveyance.AssumedIncubator.Height.Metres),
            ("conveyance.massKilograms", command.Text("--mass", "Its mass, kg.", "kg"), Conveyance.AssumedIncubator.MassKilograms),
            ("conveyance.crew", command.Text("--crew", "People beside it; default the site's crew.", "people"), null),
        ];
        var notHeld = command.Flag("--elevators-not-held", "Nobody keeps an elevator for the team.");
        var noHelper = command.Flag("--no-helper", "No clean helper goes ahead.");
        var avoid = command.Flag("--avoid-unknown", "Leave out ways with a limit that nobody measured.");
        command.Answer<PlanResponse>(
            "/plans",
            async (question, parsed, planner, cancellationToken) =>
            {
                if (question.PutSite(site, planner) is not { } chosen)
                {
                    return;
                }

                PutPlace("from", from);
                PutPlace("to", to);
                question.Put("support", support);
                if (parsed.GetValue(precautions) is { } list)
                {
                    question.Set("precautions", new JsonArray([.. list.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(p => JsonValue.Create(p))]));
                }

                question.Put("precautions", new Option<string?>(precautions.Name));
                question.Put("departAt", depart);
                foreach (var (path, option) in numbers)
                {
                    question.Put(path, option, isNumber: true);
                }

                // Whoever changes one figure of the incubator keeps the assumed ones for the rest.
                var isMeasured = sizes.Any(size => parsed.GetValue(size.Option) is not null);
                foreach (var (path, option, assumed) in sizes)
                {
                    question.Put(path, option, isNumber: true);
                    if (isMeasured && assumed is { } figure && parsed.GetValue(option) is null)
                    {
                        question.Set(path, figure);
                    }
                }

                Switch("heldElevators", notHeld, to: false);
                Switch("withHelper", noHelper, to: false);
                Switch("avoidUnknown", avoid, to: true);
                await question.PutCylindersAsync(planner, cancellationToken, ("oxygen", oxygen), ("air", air));
                question.PutBatteries(batteries);

                void PutPlace(string path, Option<string?> option)
                {
                    if (parsed.GetValue(option) is not { } typed)
                    {
                        question.Refusals.Add($"{option.Name}: give a place by number or name.");
                        return;
                    }

                    var found = PlaceFinder.Find(chosen.Plan, typed);
                    if (found.Count == 1)
                    {
                        question.Set(path, found[0].Number, option.Name);
                        return;
                    }

                    question.Refusals.Add(found.Count == 0
                        ? $"{option.Name}: no place is called \"{typed}\". Give its number, or a word of its name."
                        : $"{option.Name}: \"{typed}\" could be {string.Join(", ", found.Select(p => $"{p.Number} {p.Name}"))}. Give the number.");
                }

                void Switch(string path, Option<bool> option, bool to)
                {
                    if (parsed.GetValue(option))
                    {
                        question.Set(path, to, option.Name);
                    }
                }
            },
            PlanText.Print);
        return command.Command;
    }
}
