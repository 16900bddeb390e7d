using System.CommandLine;

namespace TransportPlanner.Web.Commands;

/// <summary>The command line of the planner. Exit codes: 0 done, 1 the planner says no, 2 bad input, named on the error stream, 3 a fault of the planner itself.</summary>
internal static class PlannerCommands
{
    public const int Done = 0;
    public const int No = 1;
    public const int BadInput = 2;
    public const int Failed = 3;

    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter error)
    {
        var root = new RootCommand("Plans an intra-hospital transport of a newborn on breathing support under precautions. A planning aid: local policy and licensed practice decide.");
        ServeCommand.AddTo(root);
        root.Add(PlanCommand.Create());
        root.Add(GasCommand.Create());
        root.Add(AiringCommand.Create());
        root.Add(MigrateCommand.Create());
        root.Add(BackupCommand.Create());
        root.Add(OpenApiCommand.Create());

        var parsed = root.Parse(args);
        List<string> complaints =
        [
            .. parsed.Errors.Select(e => e.Message),
            .. parsed.UnmatchedTokens.Where(token => !(ServeCommand.Serves(parsed) && ServeCommand.IsHostSetting(token))).Select(token => $"{token}: not known here."),
        ];
        if (complaints.Count > 0)
        {
            foreach (var complaint in complaints.Distinct())
            {
                await error.WriteLineAsync(complaint);
            }

            await error.WriteLineAsync("Add --help to see what can be given.");
            return BadInput;
        }

        // The host has its own handling of Ctrl+C, and tools that build the host abort it by an exception.
        return await parsed.InvokeAsync(new() { Output = output, Error = error, EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
    }
}
