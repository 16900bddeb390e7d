using System.Collections.Concurrent;
using DotNet.Testcontainers.Builders;
using Npgsql;
using Testcontainers.PostgreSql;
using TransportPlanner.Web.Tests.Data;

[assembly: AssemblyFixture(typeof(PostgresContainer))]

namespace TransportPlanner.Web.Tests.Data;

/// <summary>
/// One PostgreSQL server for the whole assembly, started when the first test asks for a database: the server that
/// <c>PLANNER_POSTGRES</c> names by a connection string, else a container of the image that <c>PLANNER_POSTGRES_IMAGE</c>
/// names, else of the official image. Without a container engine the asking test is skipped and says so; where
/// <c>PLANNER_TESTS_REQUIRE_ALL</c> is set, as tests/run.sh does, it fails.
/// </summary>
public sealed class PostgresContainer : IAsyncDisposable
{
    /// <summary>Label of the containers made here; its value is the process that made them.</summary>
    public const string OwnerLabel = "transport-planner.tests.owner";

    private const string OfficialImage = "postgres:17";

    private readonly Lazy<Task<string?>> _server;
    private readonly ConcurrentDictionary<string, Lazy<Task>> _templates = new();
    private readonly ConcurrentBag<string> _databases = [];
    private PostgreSqlContainer? _container;

    public PostgresContainer() => _server = new(StartAsync);

    /// <summary>Connection string of a new, empty database.</summary>
    public Task<string> NewDatabaseAsync() => CreateAsync($"planner_{Guid.NewGuid():N}", "template0");

    /// <summary>
    /// Connection string of a new copy of the database <paramref name="template"/>, which <paramref name="prepare"/> fills,
    /// given its connection string, when the name is asked for the first time.
    /// </summary>
    public async Task<string> NewDatabaseAsync(string template, Func<string, Task> prepare)
    {
        var source = $"planner_{template}_{Environment.ProcessId}";
        await _templates.GetOrAdd(template, _ => new(async () => await prepare(await CreateAsync(source, "template0")))).Value;
        return await CreateAsync($"planner_{Guid.NewGuid():N}", source);
    }

    public async ValueTask DisposeAsync()
    {
        if (_container is not null)
        {
            await _container.DisposeAsync();
        }
        else
        {
            foreach (var database in _databases)
            {
                await ExecuteAsync((await _server.Value)!, $"DROP DATABASE IF EXISTS {database} WITH (FORCE)");
            }
        }
    }

    private async Task<string> CreateAsync(string database, string template)
    {
        var server = await _server.Value;
        Assert.SkipWhen(server is null, "skipped: no PostgreSQL, because neither PLANNER_POSTGRES names a server nor a container engine answers");
        await ExecuteAsync(server, $"CREATE DATABASE {database} TEMPLATE {template}");
        _databases.Add(database);

        // A pooled connection would stay open, and an open database cannot serve as a template.
        return new NpgsqlConnectionStringBuilder(server) { Database = database, Pooling = false }.ConnectionString;
    }

    private async Task<string?> StartAsync()
    {
        if (Environment.GetEnvironmentVariable("PLANNER_POSTGRES") is { Length: > 0 } given)
        {
            return given;
        }

        var image = Environment.GetEnvironmentVariable("PLANNER_POSTGRES_IMAGE") is { Length: > 0 } named ? named : OfficialImage;
        try
        {
            _container = new PostgreSqlBuilder(image)
                .WithLabel(OwnerLabel, $"{Environment.ProcessId}")
                .WithCreateParameterModifier(parameters =>
                {
                    foreach (var binding in parameters.HostConfig!.PortBindings!.Values.SelectMany(bindings => bindings))
                    {
                        binding.HostIP = "127.0.0.1";
                    }
                })
                .Build();
        }
        catch (DockerUnavailableException) when (!TestRun.RequiresEverything)
        {
            return null;
        }

        await _container.StartAsync();
        return _container.GetConnectionString();
    }

    private static async Task ExecuteAsync(string server, string sql)
    {
        await using var connection = new NpgsqlConnection(server);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}
