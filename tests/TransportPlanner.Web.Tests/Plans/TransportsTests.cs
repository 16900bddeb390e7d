using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class TransportsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // The clock stands at 02:10 UTC of 4 May 2026.
    [Fact]
    public async Task The_desk_lists_what_is_in_force_today_by_departure_with_who_answered_and_whether_go_is_given()
    {
        using var client = application.CreateClient();
        var late = await PlanAsync(client, "2026-05-04T15:00:00Z");
        var soon = await PlanAsync(client, "2026-05-04T02:20:00Z");
        await PlanAsync(client, "2026-05-04T01:05:00Z");
        await PlanAsync(client, "2026-05-05T12:00:00Z");
        await PutAsync(client, $"plans/{soon}/calls/security", """{ "state": "acknowledged" }""", "*");

        var transports = JsonNode.Parse(await client.GetStringAsync(new Uri("/api/v1/transports?siteId=demonstration", UriKind.Relative)))!["transports"]!.AsArray();

        Assert.Equal([soon, late], transports.Select(transport => $"{transport!["planId"]}"));
        Assert.Equal(["security"], transports[0]!["acknowledged"]!.AsArray().Select(role => $"{role}"));
        Assert.Null(transports[0]!["goGivenAt"]);
        Assert.Equal(["recheck", "teamLead", "security"], transports[0]!["goMissing"]!.AsArray().Select(missing => $"{missing}"));
        Assert.NotEmpty(transports[0]!["posts"]!.AsArray());
        Assert.DoesNotContain("cpap", transports.ToJsonString());

        var page = await client.GetStringAsync(new Uri("/desk/demonstration", UriKind.Relative));
        Assert.Contains("2 transports are in force today", page);
        Assert.Contains("Go is not given", page);
        Assert.Contains("1 of 8", page);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(new Uri("/api/v1/transports?siteId=nowhere", UriKind.Relative))).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await client.GetAsync(new Uri("/api/v1/transports", UriKind.Relative))).StatusCode);
    }

    private static async Task<string> PlanAsync(HttpClient client, string departAt)
    {
        using var content = new StringContent(
            $$"""{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "departAt": "{{departAt}}" }""",
            Encoding.UTF8, "application/json");
        var response = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        response.EnsureSuccessStatusCode();
        return $"{JsonNode.Parse(await response.Content.ReadAsStringAsync())!["id"]}";
    }

    private static async Task PutAsync(HttpClient client, string path, string body, string tag)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, $"/api/v1/{path}") { Content = new StringContent(body, Encoding.UTF8, "application/json") };
        request.Headers.TryAddWithoutValidation("If-Match", tag);
        (await client.SendAsync(request)).EnsureSuccessStatusCode();
    }
}
