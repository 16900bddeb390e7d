using System.Net;
using System.Net.Sockets;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Commands;

namespace TransportPlanner.Web.Tests.Commands;

public sealed class PlannerCommandsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("planner-tests-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("serv")]
    [InlineData("--prot=5000")]
    [InlineData("--urls", "http://0.0.0.0:5210")]
    [InlineData("--urls", "5210")]
    [InlineData("serve", "--urls", "http://192.0.2.1:80")]
    [InlineData("openapi", "--output", "/nowhere/at/all.json")]
    [InlineData("openapi", "--format", "yaml")]
    public async Task Bad_input_ends_with_2_and_names_what_was_given(params string[] args)
    {
        var (code, _, error) = await RunAsync(args);

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains(args[^1].Split('=')[0], error);
    }

    [Fact]
    public async Task A_port_in_use_is_said_in_one_sentence()
    {
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var address = $"http://127.0.0.1:{((IPEndPoint)other.LocalEndpoint).Port}";

        var (code, _, error) = await RunAsync("--urls", address, "--data-folder", _folder);

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains($"{address} is in use", error);
        Assert.Single(error.Trim().Split('\n'));
    }

    [Fact]
    public async Task The_document_is_written_without_a_server()
    {
        var (code, output, _) = await RunAsync("openapi");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.StartsWith("3.1.", $"{JsonNode.Parse(output)!["openapi"]}");
    }

    [Fact]
    public async Task Migrate_brings_a_new_database_up_to_date_and_says_so()
    {
        var first = await RunAsync("migrate", "--data-folder", _folder);
        var second = await RunAsync("migrate", "--data-folder", _folder);

        Assert.Equal((PlannerCommands.Done, ""), (first.Code, first.Error));
        Assert.Contains("_First", first.Output);
        Assert.Equal("The database is up to date.", second.Output.Trim());
    }

    [Fact]
    public async Task Migrate_names_a_server_that_does_not_answer()
    {
        var (code, _, error) = await RunAsync("migrate", "--connection", "Host=127.0.0.1;Port=1;Username=planner;Timeout=2");

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains("--connection", error);
    }

    [Fact]
    public async Task Help_lists_the_commands()
    {
        var (code, output, _) = await RunAsync("--help");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.All(new[] { "serve", "plan", "gas", "airing", "migrate", "backup", "openapi" }, command => Assert.Contains(command, output));
    }

    private static async Task<(int Code, string Output, string Error)> RunAsync(params string[] args)
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        var code = await PlannerCommands.RunAsync(args, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
