using System.CommandLine;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Commands;

/// <summary><c>migrate</c>: brings the database up to date, before planners that share it are started.</summary>
internal static class MigrateCommand
{
    public static Command Create()
    {
        var server = new Option<string?>("--connection")
        {
            Description = $"PostgreSQL connection string; default the setting ConnectionStrings:{Database.ConnectionName}, and without it the SQLite file of the data folder.",
            HelpName = "string",
        };
        var folder = new Option<string?>("--data-folder") { Description = "Folder of the SQLite file; default the user's own data folder.", HelpName = "path" };
        var command = new Command("migrate", "Brings the database up to date.") { server, folder };
        command.SetAction(async (parsed, cancellationToken) =>
        {
            List<string> args = [];
            Add($"--ConnectionStrings:{Database.ConnectionName}", parsed.GetValue(server));
            Add($"--{DataFolder.Setting}", parsed.GetValue(folder));
            await using var app = Program.Build([.. args]);
            await using var scope = app.Services.CreateAsyncScope();
            var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
            try
            {
                var pending = (await context.Database.GetPendingMigrationsAsync(cancellationToken)).ToList();
                await context.Database.MigrateAsync(cancellationToken);
                await parsed.InvocationConfiguration.Output.WriteLineAsync(
                    pending.Count == 0 ? "The database is up to date." : $"Applied: {string.Join(", ", pending)}. The database is up to date.");
                return PlannerCommands.Done;
            }
            catch (Exception e) when (e is DbException or ArgumentException)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync($"--connection: the database does not answer: {e.Message}");
                return PlannerCommands.BadInput;
            }

            void Add(string name, string? value)
            {
                if (value is not null)
                {
                    args.Add($"{name}={value}");
                }
            }
        });
        return command;
    }
}
