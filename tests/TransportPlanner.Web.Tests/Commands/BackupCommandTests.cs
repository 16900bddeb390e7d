using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Commands;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Commands;

/// <summary>A copy of the database that can be gone back to.</summary>
public sealed class BackupCommandTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // The planner runs, and keeps its newest rows in the write-ahead log beside the file. Seen to fail: with the file copied as it lies;
    // with the weights left in; with weights deleted and not written over.
    [Fact]
    public async Task A_running_planner_is_copied_with_all_but_what_is_known_of_the_infant()
    {
        using var client = application.CreateClient();
        using var body = new StringContent(
            """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["contact"], "weightGrams": 1850, "gestationWeeks": 32 }""",
            System.Text.Encoding.UTF8, "application/json");
        (await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), body)).EnsureSuccessStatusCode();
        var id = await WithContextAsync(context => context.ClinicalInputs.Select(input => input.PlanId).SingleAsync());
        var file = Path.Combine(application.DataFolder, "copy.db");

        var (code, output, error) = await RunAsync("backup", "--data-folder", application.DataFolder, "--to", file);

        Assert.Equal((PlannerCommands.Done, ""), (code, error));
        Assert.Equal($"{file}: {new FileInfo(file).Length} bytes, checked.", output.Trim());
        Assert.Equal(1, await CountAsync(file, "plans"));
        Assert.Equal(1, await CountAsync(file, "plan_versions"));
        Assert.Equal(0, await CountAsync(file, "clinical_inputs"));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(file) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
        Assert.Equal(1, await WithContextAsync(context => context.ClinicalInputs.CountAsync()));

        // The bytes of the row are still in the planner's own files, and nowhere in the copy.
        Assert.Contains(Row(id, 1850), await HexAsync(Path.Combine(application.DataFolder, "planner.db-wal")), StringComparison.Ordinal);
        Assert.DoesNotContain(Row(id, 1850), await HexAsync(file), StringComparison.Ordinal);
        Assert.False(File.Exists(file + "-wal"));
    }

    [Fact]
    public async Task A_file_that_is_there_is_not_written_over()
    {
        using var client = application.CreateClient();
        var file = Path.Combine(application.DataFolder, "kept.db");
        await File.WriteAllTextAsync(file, "kept");

        var (code, _, error) = await RunAsync("backup", "--data-folder", application.DataFolder, "--to", file);

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Equal($"--to: {file} is there already. Choose another name, or move it away.", error.Trim());
        Assert.Equal("kept", await File.ReadAllTextAsync(file));
    }

    [Fact]
    public async Task What_cannot_be_copied_or_written_is_named_and_nothing_is_made()
    {
        using var client = application.CreateClient();
        using var folder = new AskCommandsTests.DataFolder();

        var nothing = await RunAsync("backup", "--data-folder", folder.Path, "--to", Path.Combine(folder.Path, "copy.db"));
        var nowhere = await RunAsync("backup", "--data-folder", application.DataFolder, "--to", Path.Combine(folder.Path, "below", "copy.db"));
        var server = await RunAsync("backup", "--connection", "Host=127.0.0.1;Port=1;Username=planner", "--data-folder", folder.Path, "--to", Path.Combine(folder.Path, "copy.db"));
        var target = await RunAsync("backup", "--data-folder", folder.Path);

        Assert.Equal(
            (PlannerCommands.BadInput, PlannerCommands.BadInput, PlannerCommands.BadInput, PlannerCommands.BadInput), (nothing.Code, nowhere.Code, server.Code, target.Code));
        Assert.Contains("--data-folder: there is no", nothing.Error, StringComparison.Ordinal);
        Assert.Contains("--to: there is no folder", nowhere.Error, StringComparison.Ordinal);
        Assert.Contains("pg_dump", server.Error, StringComparison.Ordinal);
        Assert.Contains("--to", target.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(folder.Path, "*.db"));
    }

    private static async Task<string> HexAsync(string file)
    {
        await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var bytes = new MemoryStream();
        await stream.CopyToAsync(bytes);
        return Convert.ToHexString(bytes.ToArray());
    }

    private static string Row(string planId, int weightGrams) => $"{Convert.ToHexString(System.Text.Encoding.ASCII.GetBytes(planId))}{weightGrams:X4}";

    private async Task<T> WithContextAsync<T>(Func<PlannerContext, Task<T>> ask)
    {
        await using var scope = application.Services.CreateAsyncScope();
        return await ask(scope.ServiceProvider.GetRequiredService<PlannerContext>());
    }

    private static async Task<long> CountAsync(string file, string table)
    {
        await using var connection = new SqliteConnection($"Data Source={file};Mode=ReadOnly;Pooling=False");
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = $"SELECT count(*) FROM {table}";
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private static async Task<(int Code, string Output, string Error)> RunAsync(params string[] args)
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        var code = await PlannerCommands.RunAsync(args, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
