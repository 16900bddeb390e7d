using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Data;

public sealed class SqlitePersistenceTests : PersistenceTests
{
    private readonly string _folder = Directory.CreateTempSubdirectory("planner-tests-").FullName;

    public override async ValueTask InitializeAsync()
    {
        await using var context = Open();
        await context.Database.MigrateAsync();
    }

    public override ValueTask DisposeAsync()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    [Theory]
    [InlineData("journal_mode", "wal")]
    [InlineData("busy_timeout", "5000")]
    [InlineData("foreign_keys", "1")]
    public async Task Readers_do_not_wait_and_writers_wait_in_turn(string pragma, string expected)
    {
        await using var context = Open();
        await context.Database.OpenConnectionAsync();
        await using var command = context.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"PRAGMA {pragma}";

        Assert.Equal(expected, $"{await command.ExecuteScalarAsync()}");
    }

    private protected override PlannerContext Open() =>
        new SqliteContext((DbContextOptions<SqliteContext>)SqliteContext.Use(new DbContextOptionsBuilder<SqliteContext>(), Path.Combine(_folder, "planner.db")).Options);
}
