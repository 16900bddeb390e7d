using System.Net;
using System.Text.Json.Nodes;
using TransportPlanner.Core.Tests;
using TransportPlanner.Web.Commands;

namespace TransportPlanner.Web.Tests.Http;

public sealed class OpenApiTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task The_document_is_served_as_OpenAPI_3_1()
    {
        using var client = application.CreateClient();

        var document = JsonNode.Parse(await client.GetStringAsync("/openapi/v1.json"))!;

        Assert.StartsWith("3.1.", $"{document["openapi"]}");
    }

    /// <summary>A renamed member is a red test. docs/api.md says how to accept a change that is meant.</summary>
    [Fact]
    public async Task The_document_is_the_committed_one()
    {
        var output = new StringWriter();

        Assert.Equal(PlannerCommands.Done, await PlannerCommands.RunAsync(["openapi"], output, TextWriter.Null));

        Golden.AssertEqual("openapi.json", output.ToString());
    }

    [Fact]
    public async Task Every_operation_has_a_name_a_summary_a_tag_and_an_example()
    {
        using var client = application.CreateClient();

        var document = JsonNode.Parse(await client.GetStringAsync("/openapi/v1.json"))!;
        var operations = document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Select(o => (Name: $"{o.Key} {p.Key}", Operation: o.Value!))).ToList();

        Assert.NotEmpty(operations);
        Assert.All(operations, o =>
        {
            Assert.NotNull(o.Operation["operationId"]);
            Assert.True(o.Operation["summary"] is not null, $"{o.Name} has no summary");
            Assert.NotNull(o.Operation["tags"]);
            foreach (var body in new[] { o.Operation["requestBody"]?["content"]?.AsObject(), o.Operation["responses"]?["200"]?["content"]?.AsObject() })
            {
                Assert.All(body ?? [], media => Assert.True(media.Value!["example"] is not null, $"{o.Name} has no example"));
            }
        });
    }

    [Fact]
    public async Task Every_member_of_a_request_has_a_description()
    {
        using var client = application.CreateClient();

        var schemas = JsonNode.Parse(await client.GetStringAsync("/openapi/v1.json"))!["components"]!["schemas"]!.AsObject();
        var silent = schemas.Where(s => s.Key.EndsWith("Request", StringComparison.Ordinal))
            .SelectMany(s => s.Value!["properties"]?.AsObject().Where(p => p.Value!["description"] is null && p.Value["$ref"] is null && p.Value["oneOf"] is null).Select(p => $"{s.Key}.{p.Key}") ?? []);

        Assert.Empty(silent);
    }

    [Fact]
    public async Task The_interactive_page_comes_from_the_application_and_may_reach_no_other_host()
    {
        using var client = application.CreateClient();

        var response = await client.GetAsync("/api-reference/");
        var html = await response.Content.ReadAsStringAsync();

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.DoesNotContain("src=\"http", html);
        Assert.DoesNotContain("href=\"http", html);
        Assert.Contains("connect-src 'self'", $"{response.Headers.GetValues("Content-Security-Policy").Single()}");
    }
}
