using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Data;

[Trait("Needs", "PostgreSQL")]
public sealed class PostgreSqlPersistenceTests(PostgresContainer postgres) : PersistenceTests
{
    private string _database = "";

    public override async ValueTask InitializeAsync() => _database = await postgres.NewDatabaseAsync("persistence", async template =>
    {
        await using var context = On(template);
        await context.Database.MigrateAsync();
    });

    public override ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task The_application_runs_on_a_migrated_server_and_refuses_one_that_is_not()
    {
        await using var application = new PlannerApplication { ConnectionString = _database };
        await using var unprepared = new PlannerApplication { ConnectionString = await postgres.NewDatabaseAsync() };

        Assert.Contains("demonstration", await application.CreateClient().GetStringAsync("/api/v1/sites"));
        Assert.Contains("\"ready\"", await application.CreateClient().GetStringAsync("/health/ready"));
        Assert.Contains("migrate", Assert.Throws<InvalidOperationException>(() => unprepared.CreateClient()).Message);
    }

    private protected override PlannerContext Open() => On(_database);

    private static PostgreSqlContext On(string connectionString) =>
        new((DbContextOptions<PostgreSqlContext>)PostgreSqlContext.Use(new DbContextOptionsBuilder<PostgreSqlContext>(), connectionString).Options);
}
