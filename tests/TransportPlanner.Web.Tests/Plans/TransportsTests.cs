using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class TransportsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // The clock stands at 02:10 UTC of 4 May 2026.
    [Fact]
    public async Task The_desk_lists_what_leaves_within_twelve_hours_by_departure_with_who_answered_and_whether_go_is_given()
    {
        using var client = application.CreateClient();
        var late = await PlanAsync(client, "2026-05-04T14:09:00Z");
        var soon = await PlanAsync(client, "2026-05-04T02:20:00Z");
        await PlanAsync(client, "2026-05-04T14:10:00Z");
        await PutAsync(client, $"plans/{soon}/calls/security", """{ "state": "acknowledged" }""", "*");

        var transports = JsonNode.Parse(await client.GetStringAsync(new Uri("/api/v1/transports?siteId=demonstration", UriKind.Relative)))!["transports"]!.AsArray();

        Assert.Equal([soon, late], transports.Select(transport => $"{transport!["planId"]}"));
        Assert.Equal(["security"], transports[0]!["acknowledged"]!.AsArray().Select(role => $"{role}"));
        Assert.Null(transports[0]!["goGivenAt"]);
        Assert.Equal(["recheck", "teamLead", "security"], transports[0]!["goMissing"]!.AsArray().Select(missing => $"{missing}"));
        Assert.NotEmpty(transports[0]!["posts"]!.AsArray());
        Assert.DoesNotContain("cpap", transports.ToJsonString());

        var page = await client.GetStringAsync(new Uri("/desk/demonstration", UriKind.Relative));
        Assert.Contains("2 transports are on the way or to leave within 12 hours", page);
        Assert.Contains("Go is not given", page);
        Assert.Contains("1 of 8", page);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(new Uri("/api/v1/transports?siteId=nowhere", UriKind.Relative))).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await client.GetAsync(new Uri("/api/v1/transports", UriKind.Relative))).StatusCode);
    }

    // 23:38 in Lisbon is 22:38 UTC; the transport leaves at 00:22 of the next day.
    [Fact]
    public async Task A_transport_that_leaves_after_midnight_stands_on_desk_and_officers_lists_before_it()
    {
        await using var own = new PlannerApplication();
        own.Time.SetUtcNow(new(2026, 5, 4, 22, 38, 0, TimeSpan.Zero));
        using var client = own.CreateClient();
        Assert.Contains("No transport is on the way or to leave within 12 hours", await client.GetStringAsync(new Uri("/desk", UriKind.Relative)), StringComparison.Ordinal);
        var id = await PlanAsync(client, "2026-05-04T23:22:00Z");

        var transports = await ListAsync(client);
        var desk = await client.GetStringAsync(new Uri("/desk", UriKind.Relative));
        var officers = await client.GetStringAsync(new Uri("/officers", UriKind.Relative));

        Assert.Equal([id], transports.Select(transport => $"{transport!["planId"]}"));
        Assert.Contains("One transport is on the way or to leave within 12 hours", desk, StringComparison.Ordinal);
        Assert.Contains("leaves <b>00:22:00</b>", desk, StringComparison.Ordinal);
        Assert.Contains("officers for all transports of the next 12 hours", officers, StringComparison.Ordinal);
        Assert.DoesNotContain("No post is to be manned", officers, StringComparison.Ordinal);
    }

    // It leaves at once, so that its cards count from the earliest go, and the plan is void soon after that go.
    [Fact]
    public async Task A_void_transport_stays_on_the_desk_until_its_last_post_is_released_and_it_has_nearly_always_arrived()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var id = await PlanAsync(client, "2026-05-04T02:10:00Z", "invasiveVentilation");
        var listed = (await ListAsync(client)).Single()!;
        var plan = JsonNode.Parse(await client.GetStringAsync(new Uri($"/api/v1/plans/{id}", UriKind.Relative)))!;
        bool IsOfWay(JsonNode? of) => $"{of!["route"]}" == $"{listed["way"]}";
        var later = plan["timeline"]!.AsArray().Single(of => IsOfWay(of) && $"{of!["tempo"]}" == "planned")!["fromNow"]!["go"]!.GetValue<DateTimeOffset>()
            - listed["departAt"]!.GetValue<DateTimeOffset>();
        var over = plan["posts"]!.AsArray().Single(IsOfWay)!["posts"]!.AsArray().Select(post => post!["to"]!.GetValue<DateTimeOffset>())
            .Append(listed["nearlyAlwaysThereAt"]!.GetValue<DateTimeOffset>()).Max() + later;
        Assert.True(over > listed["voidAfter"]!.GetValue<DateTimeOffset>());
        Assert.False((bool)listed["isVoid"]!);

        own.Time.SetUtcNow(over);
        Assert.True((bool)(await ListAsync(client)).Single()!["isVoid"]!);
        Assert.Contains("Void since 04:10:00.", await client.GetStringAsync(new Uri("/desk", UriKind.Relative)), StringComparison.Ordinal);
        var officers = await client.GetStringAsync(new Uri("/officers", UriKind.Relative));
        Assert.Contains("Void since 04:10:00: its team may still be on the way.", officers, StringComparison.Ordinal);
        Assert.DoesNotContain("No post is to be manned", officers, StringComparison.Ordinal);
        own.Time.Advance(TimeSpan.FromSeconds(1));
        Assert.Empty(await ListAsync(client));
    }

    private static async Task<JsonArray> ListAsync(HttpClient client) =>
        JsonNode.Parse(await client.GetStringAsync(new Uri("/api/v1/transports?siteId=demonstration", UriKind.Relative)))!["transports"]!.AsArray();

    private static async Task<string> PlanAsync(HttpClient client, string departAt, string support = "cpap")
    {
        using var content = new StringContent(
            $$"""{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "{{support}}", "precautions": ["airborne"], "departAt": "{{departAt}}" }""",
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
