using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Sites;

public sealed class ClosureEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Address = "/api/v1/sites/demonstration/closures";

    private static JsonObject Body(string targetId = "C1") => new()
    {
        ["target"] = "elevator",
        ["targetId"] = targetId,
        ["from"] = "2026-05-04T06:00:00+02:00",
        ["to"] = "2026-05-04T08:30:00+02:00",
        ["reason"] = "Yearly inspection",
        ["source"] = "Facilities",
    };

    [Fact]
    public async Task A_closure_is_added_listed_in_utc_and_removed_by_its_etag()
    {
        using var client = application.CreateClient();

        var added = await client.PostAsJsonAsync(Address, Body());
        var id = $"{(await added.Content.ReadFromJsonAsync<JsonNode>())!["id"]}";
        var listed = (await client.GetFromJsonAsync<JsonNode>(Address))!["closures"]!.AsArray().Single(c => $"{c!["id"]}" == id)!;

        Assert.Equal(HttpStatusCode.Created, added.StatusCode);
        Assert.Equal("\"1\"", $"{added.Headers.ETag}");
        Assert.Equal("2026-05-04T04:00:00+00:00", $"{listed["from"]}");
        Assert.Equal(428, await DeleteAsync(client, id, null));
        Assert.Equal(412, await DeleteAsync(client, id, "\"2\""));
        Assert.Equal(400, await DeleteAsync(client, id, "1"));
        Assert.Equal(204, await DeleteAsync(client, id, "\"1\""));
        Assert.Equal(404, await DeleteAsync(client, id, "\"1\""));
    }

    [Fact]
    public async Task A_closure_that_has_ended_is_not_listed()
    {
        using var client = application.CreateClient();
        var body = Body();
        (body["from"], body["to"]) = ("2026-05-03T06:00:00Z", "2026-05-04T02:09:00Z");

        var id = $"{(await (await client.PostAsJsonAsync(Address, body)).Content.ReadFromJsonAsync<JsonNode>())!["id"]}";

        Assert.DoesNotContain(id, await client.GetStringAsync(Address));
    }

    [Fact]
    public async Task The_same_key_and_body_add_one_closure_and_another_body_is_refused()
    {
        using var client = application.CreateClient();
        client.DefaultRequestHeaders.Add("Idempotency-Key", "inspection-17");

        var first = await client.PostAsJsonAsync(Address, Body("C2"));
        var again = await client.PostAsJsonAsync(Address, Body("C2"));
        var other = await client.PostAsJsonAsync(Address, Body());

        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        Assert.Equal(422, (int)other.StatusCode);
        Assert.Equal("idempotency-key-reused", $"{(await other.Content.ReadFromJsonAsync<JsonNode>())!["code"]}");
    }

    [Fact]
    public async Task An_unknown_target_is_impossible_and_an_end_before_the_begin_malformed()
    {
        using var client = application.CreateClient();
        var backwards = Body();
        backwards["to"] = "2026-05-04T05:00:00+02:00";

        var unknown = await (await client.PostAsJsonAsync(Address, Body("C99"))).Content.ReadFromJsonAsync<JsonNode>();
        var malformed = await (await client.PostAsJsonAsync(Address, backwards)).Content.ReadFromJsonAsync<JsonNode>();

        Assert.Equal("unknown-target", $"{unknown!["code"]}");
        Assert.Contains("C99", $"{unknown["errors"]!["targetId"]![0]}");
        Assert.Contains("2026-05-04T04:00:00", $"{malformed!["errors"]!["to"]![0]}");
    }

    [Theory]
    [InlineData("")]
    [InlineData("/closures")]
    [InlineData("/settings")]
    [InlineData("/floor-plan")]
    [InlineData("/floor-plan/versions")]
    [InlineData("/floor-plan/versions/1")]
    public async Task An_unknown_site_is_not_found(string address)
    {
        using var client = application.CreateClient();

        var response = await client.GetAsync($"/api/v1/sites/nowhere{address}");

        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Contains("nowhere", $"{(await response.Content.ReadFromJsonAsync<JsonNode>())!["detail"]}");
    }

    private static async Task<int> DeleteAsync(HttpClient client, string id, string? tag)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, $"{Address}/{id}");
        if (tag is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", tag);
        }

        return (int)(await client.SendAsync(request)).StatusCode;
    }
}
