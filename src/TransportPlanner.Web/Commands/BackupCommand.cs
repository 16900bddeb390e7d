using System.CommandLine;
using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Commands;

/// <summary><c>backup</c>: a whole copy of the embedded database, also while planners use it. A server's database has its own tools.</summary>
internal static class BackupCommand
{
    public static Command Create()
    {
        var storage = new StorageOptions();
        var to = new Option<FileInfo>("--to") { Description = "File to write; one that is there already is never written over.", HelpName = "path", Required = true };
        var command = new Command("backup", "Copies the SQLite database into one file, without weights and gestations, and checks the copy. Example: backup --to planner-monday.db");
        storage.AddTo(command);
        command.Add(to);
        command.SetAction(async (parsed, cancellationToken) =>
        {
            var (given, file) = (storage.Of(parsed), parsed.GetRequiredValue(to).FullName);
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            try
            {
                await using var app = Program.Build([.. given.ToSettings()]);
                await using var scope = app.Services.CreateAsyncScope();
                var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
                if (Refusal(context, app.Services.GetRequiredService<DataFolder>(), file) is { } refusal)
                {
                    await error.WriteLineAsync(refusal);
                    return PlannerCommands.BadInput;
                }

                var found = await CopyAsync(context, file, cancellationToken);
                if (found != "ok")
                {
                    await error.WriteLineAsync($"--to: the copy in {file} is damaged and is no backup: {found}");
                    return PlannerCommands.Failed;
                }

                await output.WriteLineAsync($"{file}: {new FileInfo(file).Length} bytes, checked.");
                return PlannerCommands.Done;
            }
            catch (Exception e) when (given.Complaint(e) is { } complaint)
            {
                await error.WriteLineAsync(complaint);
                return PlannerCommands.BadInput;
            }
        });
        return command;
    }

    private static string? Refusal(PlannerContext context, DataFolder folder, string file) => context.Database.IsSqlite()
        ? !File.Exists(folder.Database) ? $"--data-folder: there is no {folder.Database} to copy."
            : !Directory.Exists(Path.GetDirectoryName(file)) ? $"--to: there is no folder {Path.GetDirectoryName(file)}. Make it first."
            : Path.Exists(file) ? $"--to: {file} is there already. Choose another name, or move it away."
            : null
        : "--connection: a PostgreSQL database is copied with its own tools, for example pg_dump --format=custom.";

    /// <summary>What SQLite says about the finished copy: ok, or what is damaged.</summary>
    private static async Task<string> CopyAsync(PlannerContext context, string file, CancellationToken cancellationToken)
    {
        // Only this user may read it; SQLite fills an empty file.
        var access = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            access.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        await new FileStream(file, access).DisposeAsync();

        // One reading transaction: what others write meanwhile is in the copy whole or not at all.
        await context.Database.ExecuteSqlAsync($"VACUUM INTO {file}", cancellationToken);
        await using var copy = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        await copy.OpenAsync(cancellationToken);

        // Weights and gestations are promised to be gone after a day, and a backup is kept for longer: they are written over with zeros.
        await ReadAsync(copy, "PRAGMA secure_delete = ON; DELETE FROM clinical_inputs;", cancellationToken);
        return await ReadAsync(copy, "PRAGMA integrity_check", cancellationToken);
    }

    private static async Task<string> ReadAsync(DbConnection connection, string sql, CancellationToken cancellationToken)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        return $"{await command.ExecuteScalarAsync(cancellationToken)}";
    }
}
