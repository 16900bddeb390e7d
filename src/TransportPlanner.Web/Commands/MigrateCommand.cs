using System.CommandLine;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Commands;

/// <summary><c>migrate</c>: brings the database up to date, before planners that share it are started.</summary>
internal static class MigrateCommand
{
    public static Command Create()
    {
        var storage = new StorageOptions();
        var command = new Command("migrate", "Brings the database up to date.");
        storage.AddTo(command);
        command.SetAction(async (parsed, cancellationToken) =>
        {
            var given = storage.Of(parsed);
            try
            {
                await using var app = Program.Build([.. given.ToSettings()]);
                await using var scope = app.Services.CreateAsyncScope();
                var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
                var pending = (await context.Database.GetPendingMigrationsAsync(cancellationToken)).ToList();
                await context.Database.MigrateAsync(cancellationToken);
                await parsed.InvocationConfiguration.Output.WriteLineAsync(
                    pending.Count == 0 ? "The database is up to date." : $"Applied: {string.Join(", ", pending)}. The database is up to date.");
                return PlannerCommands.Done;
            }
            catch (Exception e) when (given.Complaint(e) is { } complaint)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync(complaint);
                return PlannerCommands.BadInput;
            }
        });
        return command;
    }
}
