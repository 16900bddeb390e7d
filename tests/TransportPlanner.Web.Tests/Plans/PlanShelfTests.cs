using System.Text;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>What a plan takes from the site's shelf and from the sizes that the site added.</summary>
public sealed class PlanShelfTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Plan = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"],
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 1 } }
        """;

    [Fact]
    public async Task The_smallest_set_of_the_shelf_is_what_the_shelf_answers_for_the_same_journey()
    {
        var before = await Send("plans", Plan);
        Assert.All(before["gasByRoute"]!.AsArray(), gas => Assert.Null(gas!["smallestSet"]));
        foreach (var (tag, psi) in new[] { ("O-1", 400), ("O-2", 1900), ("O-3", 2000) })
        {
            await Send("shelf", $$"""{ "siteId": "demonstration", "tag": "{{tag}}", "cylinder": { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": {{psi}} }, "readBy": "Therapist" }""");
        }

        var plan = await Send("plans", Plan);

        foreach (var gas in plan["gasByRoute"]!.AsArray())
        {
            var set = gas!["smallestSet"]!;
            var journey = (decimal)gas["journeyMinutes"]!;
            // (1900 − 200) psi × 616 L ÷ 2200 psi = 476 L, 47 min at 10 L/min: enough for both rules, and the fuller one stays.
            Assert.True(journey + 30 <= 47);
            Assert.Equal(["O-2"], set["tags"]!.AsArray().Select(tag => $"{tag}"));
            var asked = await Send("shelf/smallest-set", $$"""{ "siteId": "demonstration", "journeyMinutes": {{journey}}, "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 1 } }""");
            Assert.True(JsonNode.DeepEquals(asked, set), $"{asked}\n{set}");
        }
    }

    [Fact]
    public async Task The_least_gauge_is_given_for_a_confirmed_size_of_the_site_and_for_no_other()
    {
        await Send("cylinder-sizes", Size("OWN-3L"));
        await Send("cylinder-sizes", Size("WAIT-3L"));
        await Send("cylinder-sizes/demonstration/OWN-3L/confirmation", """{ "gas": "oxygen", "labelLitres": 630, "labelBar": 200, "waterCapacityLitres": 3, "confirmedBy": "Respiratory care" }""");

        var plan = await Send("plans", Plan);

        foreach (var gas in plan["gasByRoute"]!.AsArray())
        {
            var sizes = gas!["leastGauges"]!.AsArray().ToDictionary(least => $"{least!["sizeId"]}", least => $"{least!["gauge"]}");
            Assert.DoesNotContain("WAIT-3L", sizes.Keys);
            // Journey + 30 min in whole minutes at 10 L/min, by 630 L at 200 bar above 14 bar, rounded up to 1 bar. Oxygen's real-gas figure is the larger here.
            var litres = Math.Ceiling((decimal)gas["journeyMinutes"]! + 30) * 10;
            Assert.Equal($"{Math.Ceiling(litres / (630m / 200) + 14)} bar", sizes["OWN-3L"]);
        }
    }

    private static string Size(string id) => $$"""
        { "siteId": "demonstration", "sizeId": "{{id}}", "gas": "oxygen", "labelLitres": 630, "labelBar": 200, "waterCapacityLitres": 3, "testGauge": 100,
          "testLitres": 315, "source": "label of an invented cylinder", "enteredBy": "Engineer" }
        """;

    private async Task<JsonNode> Send(string operation, string json)
    {
        using var client = application.CreateClient();
        using var body = new StringContent(json, Encoding.UTF8, "application/json");
        var response = await client.PostAsync(new Uri($"/api/v1/{operation}", UriKind.Relative), body);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.IsSuccessStatusCode, text);
        return JsonNode.Parse(text)!;
    }
}
