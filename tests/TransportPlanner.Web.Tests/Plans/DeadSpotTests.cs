using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Where nobody can call is said on the leg, on the sheet and on the strip that is printed.</summary>
public sealed class DeadSpotTests
{
    [Fact]
    public async Task A_dead_spot_on_the_way_is_named_on_its_leg_of_the_sheet_and_of_the_strip()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var plan = JsonNode.Parse(await client.GetStringAsync("/api/v1/sites/demonstration/floor-plan"))!;
        foreach (var feature in plan["features"]!.AsArray().Where(f => $"{f!["properties"]!["feature"]}" == "place" && $"{f["properties"]!["level"]}" == "2"))
        {
            feature!["properties"]!["flags"] = new JsonArray("noRadio", "noWifi");
        }

        using var put = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/floor-plan") { Content = new StringContent(plan.ToJsonString(), Encoding.UTF8, "application/geo+json") };
        put.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        (await client.SendAsync(put)).EnsureSuccessStatusCode();
        var made = (await (await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "airborne" } }))
            .Content.ReadFromJsonAsync<JsonNode>())!;
        var way = made["routes"]!["routes"]![0]!;
        var first = $"{way["legs"]![0]!["places"]![0]}";
        var sentence = $"no radio in {first}; no Wi-Fi in {first}";

        var sheet = await client.GetStringAsync($"/plans/{made["id"]}?way={way["id"]}&only=Route");
        var strip = await client.GetStringAsync($"/plans/{made["id"]}/pack?way={way["id"]}");

        Assert.Contains(sentence, sheet, StringComparison.Ordinal);
        Assert.Contains(sentence, strip, StringComparison.Ordinal);

        // On level 4 everything can be heard.
        Assert.DoesNotContain($"no radio in {made["to"]}", sheet, StringComparison.Ordinal);
    }
}
