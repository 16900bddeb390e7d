using System.Net;
using System.Text.Json.Nodes;

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
