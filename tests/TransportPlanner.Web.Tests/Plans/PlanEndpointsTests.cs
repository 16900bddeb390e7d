using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class PlanEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string FiveInputs = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne"],
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ] }
        """;

    [Fact]
    public async Task Five_inputs_make_a_whole_plan()
    {
        var (response, plan) = await Send(HttpMethod.Post, "plans", FiveInputs);

        Assert.Equal(HttpStatusCode.Created, response.StatusCode);
        Assert.Equal("\"1\"", response.Headers.ETag!.Tag);
        Assert.Equal($"/api/v1/plans/{plan["id"]}", $"{response.Headers.Location}");
        Assert.Matches("^[0-9a-f]{32}$", $"{plan["id"]}");
        Assert.Matches("^[a-z]+ [a-z]+$", $"{plan["callSign"]}");
        var ways = plan["routes"]!["routes"]!.AsArray().Select(route => $"{route!["id"]}").ToList();
        Assert.InRange(ways.Count, 2, 4);
        Assert.Equal(ways, plan["gasByRoute"]!.AsArray().Select(gas => $"{gas!["route"]}"));
        Assert.Contains(plan["kit"]!["items"]!.AsArray(), item => $"{item!["name"]}".Contains("Self-inflating bag", StringComparison.OrdinalIgnoreCase));
        Assert.Contains(plan["airing"]!.AsArray(), airing => $"{airing!["place"]}" == "D-2.14");
        Assert.DoesNotContain(plan["airing"]!.AsArray(), airing => $"{airing!["place"]}" == "N-4.03");
        Assert.Contains(plan["cautions"]!.AsArray(), caution => $"{caution}".Contains("patient end", StringComparison.Ordinal));
        Assert.Equal(ways, plan["posts"]!.AsArray().Select(posts => $"{posts!["route"]}"));
    }

    [Theory]
    [InlineData("invasiveVentilation", "\"flowLitresPerMinute\": 0.75, ", true)]
    [InlineData("invasiveVentilation", "", false)]
    [InlineData("cpap", "\"flowLitresPerMinute\": 0.75, ", false)]
    [InlineData("nonInvasiveVentilation", "\"flowLitresPerMinute\": 0.75, ", false)]
    public async Task A_minute_volume_is_taken_for_ventilation_by_tube_alone(string support, string flow, bool isTaken)
    {
        var (response, plan) = await Send(HttpMethod.Post, "plans", FiveInputs
            .Replace("invasiveVentilation", support, StringComparison.Ordinal)
            .Replace("\"cylinders\"", $"\"demand\": {{ {flow}\"oxygenFraction\": 0.4, \"flowIs\": \"minuteVolume\" }}, \"cylinders\"", StringComparison.Ordinal));

        Assert.Equal(isTaken ? HttpStatusCode.Created : HttpStatusCode.BadRequest, response.StatusCode);
        if (isTaken)
        {
            Assert.NotNull(plan["gasByRoute"]![0]!["supply"]!["adultFormula"]);
        }
        else
        {
            Assert.NotNull(plan["errors"]!["demand.flowIs"]);
        }
    }

    [Fact]
    public async Task Rules_are_judged_on_the_nearly_always_time()
    {
        var (_, plan) = await Send(HttpMethod.Post, "plans", FiveInputs);

        foreach (var (route, gas) in plan["routes"]!["routes"]!.AsArray().Zip(plan["gasByRoute"]!.AsArray()))
        {
            var minutes = Math.Ceiling((int)route!["nearlyAlwaysSeconds"]! / 6.0) / 10;
            Assert.Equal(minutes, (double)gas!["journeyMinutes"]!, 6);
            Assert.Equal(minutes + 30, (double)gas["supply"]!["rules"]![1]!["requiredMinutes"]!, 6);
        }
    }

    [Fact]
    public async Task The_gas_of_a_way_is_what_the_gas_operation_answers()
    {
        var (_, plan) = await Send(HttpMethod.Post, "plans", PlanExamples.Request);
        var gas = plan["gasByRoute"]![0]!;
        var (_, supply) = await Send(HttpMethod.Post, "gas-supply", $$"""
            { "journeyMinutes": {{gas["journeyMinutes"]}}, "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.30, "airSource": "compressor" },
              "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500, "residualPsi": 200 } ] }
            """);

        // The plan alone knows the legs, so its timeline has the stops and rides that a bare journey has not.
        Assert.Equal((decimal)supply["timeline"]!["journeyMinutes"]!, (decimal)gas["supply"]!["timeline"]!["journeyMinutes"]!);
        supply["timeline"] = gas["supply"]!["timeline"] = null;
        Assert.True(JsonNode.DeepEquals(supply, gas["supply"]), $"{supply}\n{gas["supply"]}");
    }

    [Fact]
    public async Task Without_a_cylinder_gas_is_unknown_and_the_least_gauge_is_given()
    {
        var (_, plan) = await Send(HttpMethod.Post, "plans", Change(request => request.Remove("cylinders")));

        var gas = plan["gasByRoute"]![0]!;
        Assert.Equal("unknown", $"{gas["answer"]}");
        Assert.Null(gas["supply"]);
        Assert.Contains(gas["leastGauges"]!.AsArray(), least => $"{least!["sizeId"]}" == "US-E");
    }

    [Fact]
    public async Task A_missing_flow_stands_at_the_worst_listed_and_says_so()
    {
        var (_, plan) = await Send(HttpMethod.Post, "plans", FiveInputs);

        Assert.Contains(plan["assumed"]!.AsArray(), assumed => $"{assumed}".Contains("highest listed", StringComparison.Ordinal));
        Assert.Contains(plan["assumed"]!.AsArray(), assumed => $"{assumed}" == "departAt: now");
        Assert.Contains(plan["assumed"]!.AsArray(), assumed => $"{assumed}".StartsWith("residual of the oxygen cylinder: 200 psi", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Weight_and_gestation_stand_in_a_row_of_their_own_and_not_in_the_plan()
    {
        var (_, plan) = await Send(HttpMethod.Post, "plans", Change(request => (request["weightGrams"], request["gestationWeeks"]) = (1853, 31)));

        using var scope = application.Services.CreateScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        var id = $"{plan["id"]}";
        var clinical = await context.ClinicalInputs.SingleAsync(c => c.PlanId == id);
        Assert.Equal((1853, 31), (clinical.WeightGrams, clinical.GestationWeeks));
        var snapshot = (await context.PlanVersions.SingleAsync(v => v.PlanId == id)).Snapshot;
        Assert.DoesNotMatch("1[ ,.]?853", snapshot);
        Assert.DoesNotMatch(@"\b31 weeks", snapshot);
        Assert.Contains("\"weightGrams\":null", snapshot, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_makes_the_next_version_and_the_older_one_stays()
    {
        var (first, plan) = await Send(HttpMethod.Post, "plans", FiveInputs);
        var (second, changed) = await Send(HttpMethod.Put, $"plans/{plan["id"]}", Change(request => request["to"] = "N-4.02"), ("If-Match", first.Headers.ETag!.Tag));

        Assert.Equal(HttpStatusCode.OK, second.StatusCode);
        Assert.Equal("\"2\"", second.Headers.ETag!.Tag);
        Assert.Equal((2, "N-4.02", $"{plan["callSign"]}"), ((int)changed["version"]!, $"{changed["to"]}", $"{changed["callSign"]}"));
        Assert.True(JsonNode.DeepEquals(plan, (await Send(HttpMethod.Get, $"plans/{plan["id"]}/versions/1")).Body));
        Assert.True(JsonNode.DeepEquals(changed, (await Send(HttpMethod.Get, $"plans/{plan["id"]}")).Body));
    }

    [Fact]
    public async Task A_change_of_a_stale_version_is_refused()
    {
        var (first, plan) = await Send(HttpMethod.Post, "plans", FiveInputs);
        await Send(HttpMethod.Put, $"plans/{plan["id"]}", FiveInputs, ("If-Match", first.Headers.ETag!.Tag));

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await Send(HttpMethod.Put, $"plans/{plan["id"]}", FiveInputs, ("If-Match", first.Headers.ETag!.Tag))).Response.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await Send(HttpMethod.Put, $"plans/{plan["id"]}", FiveInputs)).Response.StatusCode);
    }

    [Fact]
    public async Task The_same_key_makes_one_plan_and_another_body_is_refused()
    {
        var (_, once) = await Send(HttpMethod.Post, "plans", FiveInputs, ("Idempotency-Key", "call-17"));
        var (_, twice) = await Send(HttpMethod.Post, "plans", FiveInputs, ("Idempotency-Key", "call-17"));
        var (refused, problem) = await Send(HttpMethod.Post, "plans", Change(request => request["to"] = "N-4.01"), ("Idempotency-Key", "call-17"));

        Assert.True(JsonNode.DeepEquals(once, twice));
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "idempotency-key-reused"), (refused.StatusCode, $"{problem["code"]}"));
    }

    [Theory]
    [InlineData("from", "Z-9", 422, "unknown-place", "from")]
    [InlineData("to", "D-2.14", 422, "same-place", "to")]
    [InlineData("siteId", "elsewhere", 404, "not-found", null)]
    [InlineData("weightGrams", 2, 400, "invalid-request", "weightGrams")]
    public async Task Bad_input_names_the_field(string member, object value, int status, string code, string? field)
    {
        var (response, problem) = await Send(HttpMethod.Post, "plans", Change(request => request[member] = JsonValue.Create(value)));

        Assert.Equal((status, code), ((int)response.StatusCode, $"{problem["code"]}"));
        if (field is not null)
        {
            Assert.NotNull(problem["errors"]![field]);
        }
    }

    [Theory]
    [InlineData("""{ "gas": "oxygen", "sizeId": "E", "gaugePsi": 1500 }""", 422, "size-without-country", "cylinders[0].sizeId")]
    [InlineData("""{ "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 3200 }""", 400, "invalid-request", "cylinders[0].gaugePsi")]
    [InlineData("""{ "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 100, "gaugeBar": 100 }""", 400, "invalid-request", "cylinders[0].gaugePsi")]
    public async Task A_wrong_cylinder_names_its_field(string cylinder, int status, string code, string field)
    {
        var (response, problem) = await Send(HttpMethod.Post, "plans", Change(request => request["cylinders"] = new JsonArray(JsonNode.Parse(cylinder))));

        Assert.Equal((status, code), ((int)response.StatusCode, $"{problem["code"]}"));
        Assert.NotNull(problem["errors"]![field]);
    }

    [Fact]
    public async Task A_conveyance_wider_than_every_door_names_its_width_the_tightest_door_and_the_width_needed()
    {
        var (response, problem) = await Send(HttpMethod.Post, "plans", Change(request => request["conveyance"] = JsonNode.Parse(
            """{ "lengthMetres": 2.5, "widthMetres": 2.4, "heightMetres": 1.6, "massKilograms": 140 }""")));

        Assert.Equal((HttpStatusCode.UnprocessableEntity, "no-route"), (response.StatusCode, $"{problem["code"]}"));
        Assert.Equal(2.5, (double)problem["obstacle"]!["needed"]!, 6);
        var named = Assert.Single(problem["errors"]!.AsObject());
        Assert.Equal(("conveyance.widthMetres", $"{problem["detail"]}"), (named.Key, $"{named.Value![0]}"));
        Assert.Contains($"{problem["obstacle"]!["id"]} is ", $"{problem["detail"]}", StringComparison.Ordinal);
        Assert.EndsWith("5 cm of clearance on each side: 2.40 m + 2 × 0.05 m = 2.50 m.", $"{problem["detail"]}", StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lengthMetres", 5, "conveyance.lengthMetres")]
    [InlineData("heightMetres", 5, "conveyance.heightMetres")]
    public async Task A_conveyance_that_fits_nowhere_names_the_member_that_is_too_large(string member, double value, string path)
    {
        var conveyance = JsonNode.Parse("""{ "lengthMetres": 1.2, "widthMetres": 0.75, "heightMetres": 1.4, "massKilograms": 140 }""")!;
        conveyance[member] = value;
        var (response, problem) = await Send(HttpMethod.Post, "plans", Change(request => request["conveyance"] = conveyance));

        Assert.Equal((HttpStatusCode.UnprocessableEntity, path), (response.StatusCode, problem["errors"]!.AsObject().Single().Key));
    }

    [Fact]
    public async Task An_unknown_plan_is_not_found()
    {
        Assert.Equal(HttpStatusCode.NotFound, (await Send(HttpMethod.Get, "plans/none")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Send(HttpMethod.Get, "plans/none/versions/1")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Send(HttpMethod.Put, "plans/none", FiveInputs, ("If-Match", "\"1\""))).Response.StatusCode);
    }

    private static string Change(Action<JsonObject> change)
    {
        var request = JsonNode.Parse(FiveInputs)!.AsObject();
        change(request);
        return request.ToJsonString();
    }

    private async Task<(HttpResponseMessage Response, JsonNode Body)> Send(HttpMethod method, string address, string? json = null, params (string Name, string Value)[] headers)
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(method, $"/api/v1/{address}");
        request.Content = json is null ? null : new StringContent(json, Encoding.UTF8, "application/json");
        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        var response = await client.SendAsync(request);
        return (response, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }
}
