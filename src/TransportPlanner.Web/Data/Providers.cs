using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace TransportPlanner.Web.Data;

/// <summary>One file in the data folder: the default.</summary>
internal sealed class SqliteContext(DbContextOptions<SqliteContext> options) : PlannerContext(options)
{
    public static DbContextOptionsBuilder Use(DbContextOptionsBuilder options, string file) =>
        options.UseSqlite($"Data Source={file}", sqlite => sqlite.MigrationsAssembly(typeof(Program).Assembly)).AddInterceptors(new Pragmas());

    // SQLite compares instants as text, and refuses to order them.
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<DateTimeOffset>().HaveConversion<UnixMilliseconds>();

    private sealed class UnixMilliseconds() : ValueConverter<DateTimeOffset, long>(
        instant => instant.ToUnixTimeMilliseconds(), milliseconds => DateTimeOffset.FromUnixTimeMilliseconds(milliseconds));

    /// <summary>Readers do not wait for the writer (WAL), and a second writer waits instead of failing.</summary>
    private sealed class Pragmas : DbConnectionInterceptor
    {
        private const string Sql = "PRAGMA journal_mode = WAL; PRAGMA busy_timeout = 5000; PRAGMA foreign_keys = ON;";

        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using var command = connection.CreateCommand();
            command.CommandText = Sql;
            command.ExecuteNonQuery();
        }

        public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            await using var command = connection.CreateCommand();
            command.CommandText = Sql;
            await command.ExecuteNonQueryAsync(cancellationToken);
        }
    }
}

/// <summary>A server of the hospital's own, named by the connection string <c>Planner</c>.</summary>
internal sealed class PostgreSqlContext(DbContextOptions<PostgreSqlContext> options) : PlannerContext(options)
{
    public static DbContextOptionsBuilder Use(DbContextOptionsBuilder options, string connectionString) =>
        options.UseNpgsql(connectionString, server => server.MigrationsAssembly(typeof(Program).Assembly));
}

/// <summary>For the migrations tool, which needs a context and no database.</summary>
internal sealed class DesignTimeContexts : IDesignTimeDbContextFactory<SqliteContext>, IDesignTimeDbContextFactory<PostgreSqlContext>
{
    SqliteContext IDesignTimeDbContextFactory<SqliteContext>.CreateDbContext(string[] args) =>
        new((DbContextOptions<SqliteContext>)SqliteContext.Use(new DbContextOptionsBuilder<SqliteContext>(), "design.db").Options);

    PostgreSqlContext IDesignTimeDbContextFactory<PostgreSqlContext>.CreateDbContext(string[] args) =>
        new((DbContextOptions<PostgreSqlContext>)PostgreSqlContext.Use(new DbContextOptionsBuilder<PostgreSqlContext>(), "Host=design").Options);
}
