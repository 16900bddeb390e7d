using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Airing;

namespace TransportPlanner.Web.Tests.Airing;

public sealed class AiringEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string json)
    {
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var response = await client.PostAsync("/api/v1/airing", content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    [Fact]
    public async Task The_documented_example_is_the_real_answer()
    {
        var (status, body) = await Post(AiringEndpoints.ExampleRequest);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(AiringEndpoints.ExampleResponse), body), body.ToJsonString());
    }

    // air-clearance-cases.csv AK-03: 2 air changes, 99 percent, mixing factor 10: 1381.55 min (derived).
    [Fact]
    public async Task A_mixing_factor_multiplies_the_time()
    {
        var (_, body) = await Post("""{ "airChangesPerHour": 2, "removalPercent": 99, "mixingFactor": 10 }""");

        Assert.Equal(1382, (int)body["minutes"]!);
    }

    [Theory]
    [InlineData("""{ "airChangesPerHour": 0, "removalPercent": 99.9 }""", "airChangesPerHour", "fixed time decides")]
    [InlineData("""{ "removalPercent": 99.9 }""", "airChangesPerHour", "Required")]
    [InlineData("""{ "airChangesPerHour": 12, "removalPercent": 0.999 }""", "removalPercent", "99.9, not 0.999")]
    [InlineData("""{ "airChangesPerHour": 12, "removalPercent": 100 }""", "removalPercent", "50 to 99.9999")]
    [InlineData("""{ "airChangesPerHour": 12, "removalPercent": 99.9, "mixingFactor": 0.5 }""", "mixingFactor", "1 (perfect) to 10")]
    [InlineData("""{ "airChangesPerHour": 12, "removalPercent": 99.9, "room": 1 }""", "room", "Unknown member")]
    public async Task A_bad_figure_is_refused_with_its_path_and_the_fix(string json, string path, string fix)
    {
        var (status, body) = await Post(json);

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(fix, $"{body["errors"]?[path]?[0] ?? body.ToJsonString()}");
    }
}
