using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Tests.Gas;

public sealed class GasEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Oxygen = """{ "gas": "oxygen", "litresPerPsi": 0.28, "gaugePsi": 1100, "residualPsi": 200 }""";
    private const string Demand = """ "flowLitresPerMinute": 10, "oxygenFraction": 0.30 """;

    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string json)
    {
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var response = await client.PostAsync("/api/v1/gas-supply", content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private Task<(HttpStatusCode Status, JsonNode Body)> Post(string demand, string cylinders, string more = "") =>
        Post($$"""{ {{more}} "demand": { {{demand}} }, "cylinders": [ {{cylinders}} ] }""");

    /// <summary>The answer that the contract prints, member for member, and the documented example as a whole.</summary>
    [Fact]
    public async Task The_documented_example_is_the_real_answer()
    {
        var (status, body) = await Post(GasExamples.Request);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(GasExamples.Response), body), body.ToJsonString());
        Assert.Equal(221.2m, (decimal)body["gases"]![0]!["exactMinutes"]!);
        Assert.Equal(184, (int)body["gases"]![0]!["minutesLow"]!);
        Assert.Equal("air", $"{body["limitingGas"]}");
        Assert.Equal(30, (int)body["minutes"]!);
        Assert.Equal(25, (int)body["oxygenAlone"]!["minutes"]!);
    }

    // 2 × 60 × (6 × 0.6 + 0.5) = 492 L: gas-demand-cases.csv DM-01 (published).
    [Fact]
    public async Task A_minute_volume_adds_the_rule_for_adults_and_its_caution()
    {
        const string Minute = """ "flowLitresPerMinute": 6, "flowIs": "minuteVolume", "oxygenFraction": 0.6, "driveGasLitresPerMinute": 0.5 """;

        var (_, body) = await Post(Minute, Oxygen, """ "journeyMinutes": 60, """);
        var (_, set) = await Post(Minute.Replace("minuteVolume", "setFlow", StringComparison.Ordinal), Oxygen, """ "journeyMinutes": 60, """);

        Assert.Equal((492m, 252m, false), ((decimal)body["adultFormula"]!["neededLitres"]!, (decimal)body["adultFormula"]!["thereLitres"]!, (bool)body["adultFormula"]!["met"]!));
        Assert.Contains(body["cautions"]!.AsArray(), text => $"{text}".StartsWith("The flow is a minute volume", StringComparison.Ordinal));
        Assert.Null(set["adultFormula"]);
        Assert.True(JsonNode.DeepEquals(set["gases"], body["gases"]));
    }

    [Fact]
    public async Task The_documented_size_is_a_row_of_the_library()
    {
        using var client = application.CreateClient();

        var sizes = JsonNode.Parse(await client.GetStringAsync("/api/v1/cylinder-sizes"))!.AsArray();

        Assert.Equal(37, sizes.Count);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(GasExamples.Sizes)![0], sizes.Single(size => $"{size!["sizeId"]}" == "UK-CD")));
    }

    [Fact]
    public async Task A_gauge_at_its_residual_is_a_good_answer_of_zero_minutes_with_a_caution()
    {
        var (status, body) = await Post(Demand, """{ "gas": "oxygen", "litresPerPsi": 0.28, "gaugePsi": 150, "residualPsi": 200 }""", """ "journeyMinutes": 9, """);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(0, (int)body["gases"]![0]!["minutes"]!);
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".Contains("150 psi is not above the residual of 200 psi"));
        Assert.All(body["rules"]!.AsArray(), rule => Assert.False((bool)rule!["met"]!));
    }

    [Fact]
    public async Task Without_a_journey_no_rule_is_judged_and_a_missing_residual_is_named_as_assumed()
    {
        var (_, body) = await Post(Demand, """{ "gas": "oxygen", "sizeId": "UK-CD", "gaugeKpa": 15000 }""");

        Assert.Empty(body["rules"]!.AsArray());
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".Contains("a residual of 14 bar is assumed"));
        Assert.Equal(20, (int)body["cylinderTemperatureCelsius"]!);
    }

    [Theory]
    [InlineData("compressor")]
    [InlineData("entrained")]
    public async Task Air_from_elsewhere_has_no_minutes(string source)
    {
        var (_, body) = await Post($"{Demand}, \"airSource\": \"{source}\"", Oxygen);

        Assert.Null(body["gases"]![1]!["minutes"]);
        Assert.Equal("oxygen", $"{body["limitingGas"]}");
    }

    [Theory]
    [InlineData("\"flowLitresPerMinute\": 0, \"oxygenFraction\": 0.3", "demand.flowLitresPerMinute", "0.01 to 30")]
    [InlineData("\"flowLitresPerMinute\": 31, \"oxygenFraction\": 0.3", "demand.flowLitresPerMinute", "0.01 to 30")]
    [InlineData("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 0.2", "demand.oxygenFraction", "0.21 to 1")]
    [InlineData("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 30", "demand.oxygenFraction", "30 percent is 0.30")]
    [InlineData("\"flowLitresPerMinute\": 10", "demand.oxygenFraction", "Required")]
    [InlineData("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 0.3, \"bleedLitresPerMinute\": -1", "demand.bleedLitresPerMinute", "0 to 30")]
    [InlineData("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 0.3, \"driveGas\": \"helium\"", "demand.driveGas", "one of oxygen, air")]
    [InlineData("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 0.3, \"flow\": 1", "demand.flow", "Unknown member")]
    public async Task A_bad_demand_is_refused_with_its_path_and_the_fix(string demand, string path, string fix) =>
        AssertRefused(await Post(demand, Oxygen), path, fix);

    [Theory]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": 3301", "cylinders[0].gaugePsi", "0 to 3300 psi")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugeBar\": 301", "cylinders[0].gaugeBar", "0 to 300 bar")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugeKpa\": 30001", "cylinders[0].gaugeKpa", "0 to 30000 kPa")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": -1", "cylinders[0].gaugePsi", "0 to 3300 psi")]
    [InlineData("\"litresPerPsi\": 0.28", "cylinders[0].gaugePsi", "exactly one unit")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": 1100, \"gaugeBar\": 76", "cylinders[0].gaugeBar", "exactly one unit")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": 1100, \"residualPsi\": 200, \"residualKpa\": 1400", "cylinders[0].residualKpa", "one unit")]
    [InlineData("\"litresPerPsi\": 0.28, \"waterCapacityLitres\": 2, \"gaugePsi\": 1100", "cylinders[0].waterCapacityLitres", "exactly one capacity")]
    [InlineData("\"gaugePsi\": 1100", "cylinders[0].sizeId", "exactly one capacity")]
    [InlineData("\"labelLitres\": 680, \"gaugeBar\": 80", "cylinders[0].labelPsi", "labelPsi or labelBar")]
    [InlineData("\"labelLitres\": 680, \"labelPsi\": 1987, \"labelBar\": 137, \"gaugeBar\": 80", "cylinders[0].labelBar", "exactly one unit")]
    [InlineData("\"litresPerPsi\": 0.28, \"labelBar\": 137, \"gaugeBar\": 80", "cylinders[0].labelBar", "without its litres")]
    [InlineData("\"labelLitres\": 680, \"labelBar\": 137, \"gaugeBar\": 151", "cylinders[0].gaugeBar", "110 percent")]
    [InlineData("\"sizeId\": \"UK-CD\", \"gaugeBar\": 254", "cylinders[0].gaugeBar", "110 percent")]
    [InlineData("\"litresPerPsi\": 0, \"gaugePsi\": 1100", "cylinders[0].litresPerPsi", "0.001 to 10")]
    [InlineData("\"sizeId\": \"US-E\", \"gaugePsi\": 2421", "cylinders[0].gaugePsi", "2421 psi is above 2420 psi, 110 percent of this cylinder's full pressure of 2200 psi; a warm cylinder")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": 1100, \"residualPsi\": -1", "cylinders[0].residualPsi", "0 to 3300 psi")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": 1100, \"residualBar\": -14", "cylinders[0].residualBar", "0 to 300 bar")]
    [InlineData("\"gaugePsi\": 1100", "cylinders[0].sizeId", "presets no oxygen cylinder")]
    [InlineData("\"litresPerPsi\": 0.28, \"gaugePsi\": \"1100\"", "cylinders[0].gaugePsi", "a number")]
    public async Task A_bad_cylinder_is_refused_with_its_path_and_the_fix(string cylinder, string path, string fix) =>
        AssertRefused(await Post(Demand, $$"""{ "gas": "oxygen", {{cylinder}} }"""), path, fix);

    [Theory]
    [InlineData("null", "cylinders", "null is not allowed")]
    [InlineData("{ \"gas\": \"helium\", \"litresPerPsi\": 0.28, \"gaugePsi\": 1100 }", "cylinders[0].gas", "one of oxygen, air")]
    public async Task What_is_no_cylinder_is_refused(string cylinder, string path, string fix) => AssertRefused(await Post(Demand, cylinder), path, fix);

    [Theory]
    [InlineData("\"journeyMinutes\": 0,", "journeyMinutes", "0.1 to 1440")]
    [InlineData("\"cylinderTemperatureCelsius\": 51,", "cylinderTemperatureCelsius", "-20 to 50")]
    public async Task A_bad_figure_of_the_request_is_refused(string member, string path, string fix) => AssertRefused(await Post(Demand, Oxygen, member), path, fix);

    /// <summary>Worked by hand in GasTimelineTests: 10 L/min of oxygen, 100 L and 150 L, the outlet reached at minute 5.</summary>
    [Fact]
    public async Task A_timeline_says_when_and_where_to_change_over()
    {
        const string Cylinders = """
            { "gas": "oxygen", "labelLitres": 100, "labelPsi": 1000, "gaugePsi": 1000, "residualPsi": 0 },
            { "gas": "oxygen", "labelLitres": 150, "labelPsi": 1000, "gaugePsi": 1000, "residualPsi": 0 }
            """;

        var (_, body) = await Post("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 1", Cylinders, $"\"timeline\": [ {Way} ],");

        var change = Assert.Single(body["timeline"]!["changeOvers"]!.AsArray())!;
        Assert.Equal(("oxygen", 1, 2, 5m, "alcove", "best"), ($"{change["gas"]}", (int)change["fromCylinder"]!, (int)change["toCylinder"]!, (decimal)change["atMinute"]!, $"{change["where"]}", $"{change["changeOver"]}"));
        Assert.Equal(15, (int)body["timeline"]!["stalls"]![0]!["minutes"]!);
        Assert.Equal(28m, (decimal)body["rules"]![0]!["requiredMinutes"]!);
    }

    private const string Way = """
        { "name": "corridor", "minutes": 5, "changeOver": "possible" }, { "name": "alcove", "minutes": 0, "changeOver": "best" },
        { "name": "elevator", "minutes": 3, "changeOver": "impossible", "elevator": true }, { "name": "corridor 4", "minutes": 6, "changeOver": "possible" }
        """;

    [Theory]
    [InlineData("""{ "name": "car", "minutes": 3, "changeOver": "best", "elevator": true }""", "timeline[0].changeOver", "never changed in an elevator")]
    [InlineData("""{ "name": "x", "minutes": -1, "changeOver": "best" }""", "timeline[0].minutes", "0 to 1440")]
    [InlineData("""{ "name": "", "minutes": 1, "changeOver": "best" }""", "timeline[0].name", "1 to 100 characters")]
    [InlineData("""{ "name": "x", "minutes": 1 }""", "timeline[0].changeOver", "Required")]
    [InlineData("""{ "name": "x", "minutes": 0, "changeOver": "best" }""", "timeline", "above 0")]
    [InlineData("null", "timeline", "null is not allowed")]
    public async Task A_bad_timeline_is_refused_with_its_path_and_the_fix(string stretch, string path, string fix) =>
        AssertRefused(await Post(Demand, Oxygen, $"\"timeline\": [ {stretch} ],"), path, fix);

    [Fact]
    public async Task A_journey_that_differs_from_its_timeline_is_refused() =>
        AssertRefused(await Post(Demand, Oxygen, $"\"journeyMinutes\": 13, \"timeline\": [ {Way} ],"), "journeyMinutes", "add up to 14 min, not to 13");

    [Fact]
    public async Task More_than_twelve_cylinders_are_refused() =>
        AssertRefused(await Post(Demand, string.Join(", ", Enumerable.Repeat(Oxygen, 13))), "cylinders", "at most 12");

    [Theory]
    [InlineData("E", "oxygen", "size-without-country", "UK-E 680 L")]
    [InlineData("US-E-AIR", "oxygen", "size-of-other-gas", "US-E-AIR is listed for air: contents of one gas are never used for another")]
    [InlineData("XY", "oxygen", "unknown-size", "'XY' is not in the cylinder library")]
    [InlineData("US-E", "air", "size-of-other-gas", "US-E is listed for oxygen")]
    [InlineData("AU-E", "oxygen", "size-without-pressure", "not published")]
    public async Task A_size_that_cannot_be_counted_is_422_with_its_code_and_what_to_give(string size, string gas, string code, string fix)
    {
        var (status, body) = await Post(Demand, $$"""{{Oxygen}}, { "gas": "{{gas}}", "sizeId": "{{size}}", "gaugeBar": 50 }""");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal(code, $"{body["code"]}");
        Assert.Contains(fix, $"{body["errors"]?["cylinders[1].sizeId"]?[0]}");
        Assert.Equal(code == "size-without-country", body["candidates"] is JsonArray { Count: > 1 });
    }

    // Source: input limit IL-10; full pressures are those at some 15 to 21 °C, so a warm cylinder may read above its full pressure.
    [Fact]
    public async Task A_warm_cylinder_may_read_a_little_above_its_full_pressure_and_says_that_it_reads_high()
    {
        var (status, body) = await Post(Demand, """{ "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 2420 }""", """ "cylinderTemperatureCelsius": 40, """);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".StartsWith("Above 30 °C a gauge reads high"));
    }

    [Fact]
    public async Task An_air_cylinder_that_nothing_draws_from_is_said_and_not_counted()
    {
        var (_, body) = await Post("\"flowLitresPerMinute\": 10, \"oxygenFraction\": 1", """{ "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 }""");

        Assert.Equal("oxygen", $"{body["limitingGas"]}");
        Assert.Equal(0, (int)body["minutes"]!);
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".StartsWith("An air cylinder is given and no air is drawn from it"));
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".StartsWith("The demand draws oxygen and no oxygen cylinder is given"));
    }

    [Fact]
    public async Task A_reading_in_bar_typed_as_psi_is_asked_about()
    {
        var (_, body) = await Post(Demand, """{ "gas": "oxygen", "sizeId": "UK-CD", "gaugePsi": 150 }""");

        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".Contains("Is it 150 psi, or 150 bar? Read the unit on the gauge."));
        // No unit makes 20 a reading that somebody would take along.
        (_, body) = await Post(Demand, """{ "gas": "oxygen", "sizeId": "UK-CD", "gaugePsi": 20 }""");
        Assert.Contains(body["cautions"]!.AsArray(), caution => $"{caution}".Contains("Its full pressure is known in bar: is psi the unit of the gauge?"));
    }

    // 103 psi of a full 2,200 is next to nothing, 103 bar are 1,494 psi; 250 bar would be 3,626 psi, above 110 % of 2,200, so that 250 psi are not asked about.
    // Seen to fail: with the question asked only where the listed pressure has another unit.
    [Theory]
    [InlineData(""" "sizeId": "US-E", "gaugePsi": 103 """, "Is it 103 psi, or 103 bar? Read the unit on the gauge.")]
    [InlineData(""" "sizeId": "US-E", "gaugeKpa": 1500 """, "Is it 1500 kPa, or 1500 psi? Read the unit on the gauge.")]
    [InlineData(""" "sizeId": "UK-CD", "gaugePsi": 210 """, "Is it 210 psi, or 210 bar? Read the unit on the gauge.")]
    [InlineData(""" "sizeId": "US-E", "gaugePsi": 250 """, null)]
    [InlineData(""" "sizeId": "US-E", "gaugePsi": 1500 """, null)]
    [InlineData(""" "sizeId": "US-E", "gaugeBar": 103 """, null)]
    public async Task A_reading_that_another_unit_explains_is_asked_about_with_both(string cylinder, string? question)
    {
        var (_, body) = await Post(Demand, $$"""{ "gas": "oxygen", {{cylinder}} }""");

        var asked = body["cautions"]!.AsArray().Where(caution => $"{caution}".Contains("Is it ", StringComparison.Ordinal)).ToList();
        Assert.Equal(question is null ? 0 : 1, asked.Count);
        Assert.All(asked, caution => Assert.Contains(question!, $"{caution}", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Every_bad_cylinder_is_named_at_once()
    {
        var (_, body) = await Post(Demand, """{ "gas": "oxygen", "gaugePsi": 1100 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 2200 }""");

        Assert.Equal(["cylinders[0].sizeId", "cylinders[1].gaugePsi"], body["errors"]!.AsObject().Select(error => error.Key));
    }

    [Fact]
    public async Task A_site_that_does_not_exist_is_404() =>
        Assert.Equal(HttpStatusCode.NotFound, (await Post(Demand, Oxygen, """ "siteId": "elsewhere", """)).Status);

    private static void AssertRefused((HttpStatusCode Status, JsonNode Body) answer, string path, string fix)
    {
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("invalid-request", $"{answer.Body["code"]}");
        Assert.Contains(fix, $"{answer.Body["errors"]?[path]?[0] ?? answer.Body.ToJsonString()}");
    }
}
