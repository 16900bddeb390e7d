using System.CommandLine;
using TransportPlanner.Web.Airing;

namespace TransportPlanner.Web.Commands;

/// <summary><c>airing</c>: when the air of one place has been renewed.</summary>
internal static class AiringCommand
{
    public static Command Create()
    {
        var command = new AskCommand(
            "airing", "Counts the minutes until the air of an empty place has been renewed, rounded up.", "airing --air-changes 12 --removal 99.9");
        var changes = command.Text("--air-changes", "Air changes per hour, 0.1 to 1000.", "number");
        var removal = command.Text("--removal", "Share to be removed in percent, 50 to 99.9999.", "percent");
        var mixing = command.Text("--mixing", "Mixing factor, 1 (perfect, the default) to 10 (poor).", "number");
        command.Answer<AiringResponse>(
            "/airing",
            (question, _, _, _) =>
            {
                question.Put("airChangesPerHour", changes, isNumber: true);
                question.Put("removalPercent", removal, isNumber: true);
                question.Put("mixingFactor", mixing, isNumber: true);
                return Task.CompletedTask;
            },
            (page, airing) =>
            {
                page.Line($"{airing.Minutes} min");
                page.Paragraph(airing.Working);
                page.Heading("This assumes");
                foreach (var assumption in airing.Assumptions)
                {
                    page.Item(assumption);
                }

                page.Line();
                page.Paragraph("A place is opened again by a person, never by a clock. Local policy decides.");
            });
        return command.Command;
    }
}
