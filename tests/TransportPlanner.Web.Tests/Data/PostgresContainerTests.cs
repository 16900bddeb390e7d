using Npgsql;

namespace TransportPlanner.Web.Tests.Data;

[Trait("Needs", "PostgreSQL")]
public sealed class PostgresContainerTests(PostgresContainer postgres)
{
    [Fact]
    public async Task A_new_database_answers_with_a_supported_version()
    {
        await using var connection = new NpgsqlConnection(await postgres.NewDatabaseAsync());
        await connection.OpenAsync();

        // Npgsql 10 supports the PostgreSQL releases that are in support themselves; 14 is the oldest of them in 2026.
        Assert.True(connection.PostgreSqlVersion.Major >= 14, $"PostgreSQL {connection.PostgreSqlVersion}");
        Assert.StartsWith("PostgreSQL ", (string?)await Scalar(connection, "select version()"));
    }

    [Fact]
    public async Task Copies_of_a_template_are_filled_once_and_are_apart_from_each_other()
    {
        var fillings = 0;
        async Task Fill(string template)
        {
            Interlocked.Increment(ref fillings);
            await using var connection = new NpgsqlConnection(template);
            await connection.OpenAsync();
            await Scalar(connection, "create table marks (place text)");
        }

        await using var first = new NpgsqlConnection(await postgres.NewDatabaseAsync("marks", Fill));
        await using var second = new NpgsqlConnection(await postgres.NewDatabaseAsync("marks", Fill));
        await first.OpenAsync();
        await second.OpenAsync();
        await Scalar(first, "insert into marks values ('D-3')");

        Assert.Equal(1, fillings);
        Assert.Equal(1L, await Scalar(first, "select count(*) from marks"));
        Assert.Equal(0L, await Scalar(second, "select count(*) from marks"));
    }

    private static async Task<object?> Scalar(NpgsqlConnection connection, string sql)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync();
    }
}
