using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using TransportPlanner.Web.Exposure;

namespace TransportPlanner.Web.Tests.Exposure;

public sealed partial class ExposureEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task The_documented_example_is_the_real_answer_to_the_last_digit()
    {
        var (status, body) = await Post(ExposureEndpoints.ExampleRequest);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(ExposureEndpoints.ExampleResponse), body), body.ToJsonString());
    }

    [Fact]
    public async Task Holding_during_leaves_only_what_remains_after_the_hold()
    {
        var (_, free) = await Post(ExposureEndpoints.ExampleRequest);
        var (_, held) = await Post(ExposureEndpoints.ExampleRequest.Replace("false", "true", StringComparison.Ordinal).Replace("\"holdMinutes\": 0", "\"holdMinutes\": 24", StringComparison.Ordinal));

        // 24 min at 2.5 per hour is one time constant: e⁻¹ is left.
        Assert.Equal(Number(free, "doseAfterPerQuantum") / Math.E, Number(held, "doseAfterPerQuantum"), 1e-8);
        Assert.Equal(6 * Number(held, "doseAfterPerQuantum"), Number(held, "totalPersonDose"), 1e-7);
        Assert.Equal(Number(free, "allTimePersonMinutes"), Number(held, "allTimePersonMinutes"));
        Assert.Contains("(0 + ", $"{held["working"]}");
    }

    [Theory]
    [InlineData(120, 2.5, 40, 6, 0, 30)]
    [InlineData(17, 15.35, 60, 1.5, 5, 1)]
    [InlineData(2_400, 0.24, 600, 40, 0, 600)]
    public async Task The_working_gives_its_own_result_when_recomputed(double volume, double loss, double dwell, double bystanders, double hold, double stay)
    {
        var (_, body) = await Post(string.Create(
            CultureInfo.InvariantCulture,
            $$"""{ "volumeCubicMetres": {{volume}}, "lossRatePerHour": {{loss}}, "dwellSeconds": {{dwell}}, "bystanders": {{bystanders}}, "holdMinutes": {{hold}}, "stayMinutes": {{stay}} }"""));

        var of = Numbers().Matches(Regex.Replace($"{body["working"]}", "m³|h²", "")).Select(m => double.Parse(m.Value, CultureInfo.InvariantCulture)).ToArray();

        Assert.Equal(of[5], of[0] * of[1] * of[2] * (of[3] + of[4]), of[5] * 1e-3);
        Assert.Equal(of[11], of[6] * of[7] * of[8] / (of[9] * of[10]), of[11] * 1e-3);
        Assert.Equal(of[5], Number(body, "withinStayPersonMinutes"), of[5] * 1e-3);
        Assert.Equal(of[11], Number(body, "allTimePersonMinutes"), of[11] * 1e-3);
    }

    [Theory]
    [InlineData("volumeCubicMetres", "0", "1 to 100,000 m³")]
    [InlineData("volumeCubicMetres", "\"120\"", "a number")]
    [InlineData("lossRatePerHour", "0", "0.01 to 1,000 per hour")]
    [InlineData("dwellSeconds", "-1", "0 to 86,400 s")]
    [InlineData("bystanders", "10001", "0 to 10,000")]
    [InlineData("heldDuring", "1", "true or false")]
    [InlineData("holdMinutes", "-5", "0 to 10,080 min")]
    [InlineData("stayMinutes", "1e9", "0 to 10,080 min")]
    [InlineData("stayMinutes", "null", "a number")]
    [InlineData("volumeCubicFeet", "4000", "Unknown member")]
    public async Task A_bad_figure_is_refused_with_its_path_and_the_fix(string member, string value, string fix)
    {
        var request = JsonNode.Parse(ExposureEndpoints.ExampleRequest)!;
        request[member] = JsonNode.Parse(value);

        var (status, body) = await Post(request.ToJsonString());

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(fix, $"{body["errors"]?[member]?[0] ?? body.ToJsonString()}");
    }

    private static double Number(JsonNode body, string member) => body[member]!.GetValue<double>();

    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string json)
    {
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        var response = await client.PostAsync("/api/v1/exposure", content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    [GeneratedRegex(@"\d+(\.\d+)?(e-?\d+)?")]
    private static partial Regex Numbers();
}
