using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.TestHost;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Tests.Http;

/// <summary>Reads bad bodies with the application's own JSON and problem settings, on one endpoint of the test's own.</summary>
public sealed class JsonErrorsTests : IAsyncLifetime
{
    private WebApplication _app = null!;

    public enum Colour
    {
        DeepRed,
        Blue,
    }

    public sealed record Inner
    {
        public required double FlowLitresPerMinute { get; init; }
        public Colour? Colour { get; init; }
        public string Name { get; init; } = "";
    }

    public sealed record Body
    {
        public required int Count { get; init; }
        public Inner? Inner { get; init; }
        public DateTimeOffset? At { get; init; }
        public IReadOnlyList<Inner> Items { get; init; } = [];
    }

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseTestServer();
        StrictJson.AddStrictJson(builder.Services);
        ProblemHandling.AddProblems(builder.Services);
        _app = builder.Build();
        _app.UseProblems();
        _app.MapPost("/probe", (Body body) => TypedResults.Ok(body));
        _app.MapGet("/probe/{number:int}", (int number, int size) => TypedResults.Ok(number + size));
        _app.MapGet("/stale", () => Problems.Stale(7));
        _app.MapGet("/impossible", () => Problems.ImpossibleField(Colour.DeepRed, "inner.colour", "Choose blue."));
        _app.MapGet("/fault", void () => throw new InvalidOperationException("a secret"));
        await _app.StartAsync();
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [Theory]
    [InlineData("""{ "count": "3" }""", "count", "whole number")]
    [InlineData("""{ "count": 3.5 }""", "count", "whole number")]
    [InlineData("""{ "count": null }""", "count", "whole number")]
    [InlineData("""{ }""", "count", "Required")]
    [InlineData("""{ "Count": 3 }""", "Count", "Unknown member")]
    [InlineData("""{ "count": 3, "count": 4 }""", "count", "twice")]
    [InlineData("""{ "count": 3, "extra": 1 }""", "extra", "Unknown member")]
    [InlineData("""{ "count": 3, "inner": { "flowLitresPerMinute": true } }""", "inner.flowLitresPerMinute", "a number")]
    [InlineData("""{ "count": 3, "inner": { } }""", "inner.flowLitresPerMinute", "Required")]
    [InlineData("""{ "count": 3, "inner": { "flowLitresPerMinute": 1, "extra": {} } }""", "inner.extra", "Unknown member")]
    [InlineData("""{ "count": 3, "inner": { "flowLitresPerMinute": 1, "colour": "green" } }""", "inner.colour", "one of")]
    [InlineData("""{ "count": 3, "inner": { "flowLitresPerMinute": 1, "colour": 1 } }""", "inner.colour", "one of")]
    [InlineData("""{ "count": 3, "inner": { "flowLitresPerMinute": 1, "name": null } }""", "inner.name", "null")]
    [InlineData("""{ "count": 3, "items": [ { "flowLitresPerMinute": 1 }, { "flowLitresPerMinute": "1" } ] }""", "items[1].flowLitresPerMinute", "a number")]
    [InlineData("""{ "count": 3, "items": 1 }""", "items", "a list")]
    [InlineData("""{ "count": 3, "at": "2026-05-04T02:10:00" }""", "at", "offset")]
    [InlineData("""{ "count": 3, "at": "yesterday" }""", "at", "offset")]
    [InlineData("""{ "count": 3, """, "$", "Not valid JSON")]
    [InlineData("", "$", "JSON body")]
    [InlineData("null", "$", "JSON body")]
    [InlineData("[]", "$", "an object")]
    public async Task A_bad_body_is_refused_with_the_path_of_the_field_and_the_fix(string body, string path, string fix)
    {
        var response = await _app.GetTestClient().PostAsync("/probe", new StringContent(body, Encoding.UTF8, "application/json"));
        var problem = await ProblemOf(response);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains(fix, $"{problem["errors"]?[path]?[0] ?? problem.ToJsonString()}");
        Assert.Equal("invalid-request", $"{problem["code"]}");
        Assert.DoesNotContain("System.", problem.ToJsonString());
        Assert.DoesNotContain("TransportPlanner", problem.ToJsonString());
    }

    [Fact]
    public async Task An_instant_with_an_offset_is_kept_as_utc()
    {
        var response = await _app.GetTestClient().PostAsync(
            "/probe", new StringContent("""{ "count": 3, "at": "2026-05-04T02:10:00+02:00" }""", Encoding.UTF8, "application/json"));

        Assert.Equal("2026-05-04T00:10:00+00:00", $"{(await response.Content.ReadFromJsonAsync<JsonNode>())!["at"]}");
    }

    [Theory]
    [InlineData("/probe/1", 400, "invalid-request")]
    [InlineData("/nowhere", 404, "not-found")]
    [InlineData("/probe", 405, "method-not-allowed")]
    [InlineData("/stale", 412, "stale")]
    [InlineData("/impossible", 422, "deep-red")]
    [InlineData("/fault", 500, "fault")]
    public async Task Every_failure_is_a_problem_with_a_stable_code_and_a_trace_id(string address, int status, string code)
    {
        var response = await _app.GetTestClient().GetAsync(address);
        var problem = await ProblemOf(response);

        Assert.Equal(status, (int)response.StatusCode);
        Assert.Equal(code, $"{problem["code"]}");
        Assert.Equal($"urn:transport-planner:problem:{code}", $"{problem["type"]}");
        Assert.Matches("^[0-9a-f]{32}$", $"{problem["traceId"]}");
        Assert.DoesNotContain("secret", problem.ToJsonString());
    }

    [Fact]
    public async Task Text_in_place_of_json_is_an_unsupported_media_type()
    {
        var response = await _app.GetTestClient().PostAsync("/probe", new StringContent("count=3", Encoding.UTF8, "text/plain"));

        Assert.Equal(HttpStatusCode.UnsupportedMediaType, response.StatusCode);
        Assert.Equal("unsupported-media-type", $"{(await ProblemOf(response))["code"]}");
    }

    private static async Task<JsonNode> ProblemOf(HttpResponseMessage response)
    {
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        return JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
    }
}
