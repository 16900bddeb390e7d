using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class BinderTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    internal static readonly string Site = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "FloorPlans", "small-site.geojson"));

    // A plan that is made for the same hour without infant and cylinder is the check.
    [Fact]
    public async Task A_sheet_says_what_a_plan_for_the_same_hour_says()
    {
        using var client = application.CreateClient();

        var made = await MadeAsync(client, "demonstration", """{ "precautions": ["airborne", "contact"], "support": "cpap", "weekday": "friday", "dayTime": "13:15" }""");
        var sheets = made["set"]!["sheets"]!.AsArray();
        var sheet = sheets.Single(s => $"{s!["from"]}" == "D-2.14" && $"{s["to"]}" == "N-4.03" && $"{s["sheet"]}".EndsWith('D'))!;
        var plan = await PlanAsync(client, $$"""
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne", "contact"], "departAt": "{{sheet["departAt"]}}" }
            """);
        var way = plan["routes"]!["routes"]!.AsArray().Single(r => r!["reasons"]!.AsArray().Any(reason => $"{reason}" == "least-exposed"))!;

        Assert.Equal(80, sheets.Count);
        Assert.Equal((int)way["usualSeconds"]!, (int)sheet["usualSeconds"]!);
        Assert.Equal((int)way["nearlyAlwaysSeconds"]!, (int)sheet["nearlyAlwaysSeconds"]!);
        Assert.Equal((double?)way["worstPlanBSeconds"], (double?)sheet["worstPlanBSeconds"]);
        var least = plan["gasByRoute"]!.AsArray().Single(gas => $"{gas!["route"]}" == $"{way["id"]}")!["leastGauges"]!;
        Assert.NotEmpty(least.AsArray());
        Assert.True(JsonNode.DeepEquals(least, sheet["leastGauges"]), sheet["leastGauges"]!.ToJsonString());
    }

    [Fact]
    public async Task A_closure_and_a_newer_floor_plan_make_it_old_and_it_is_made_again_within_a_minute()
    {
        using var client = application.CreateClient();
        await PublishAsync(client, "small", JsonNode.Parse(Site)!, "If-None-Match", "*");
        var first = await MadeAsync(client, "small", "{}");
        var sheets = first["set"]!["sheets"]!.AsArray();

        // The door of the second delivery room is 0.70 m wide.
        Assert.Equal(["1D", "1N", "2D", "2N"], sheets.Select(sheet => $"{sheet!["sheet"]}"));
        Assert.All(sheets.Take(2), sheet => Assert.Null(sheet!["noWay"]));
        Assert.All(sheets.Skip(2), sheet => Assert.Contains("102", $"{sheet!["noWay"]}"));
        Assert.Empty(first["set"]!["stale"]!.AsArray());

        // Elevator B is too small for an incubator, so without A there is no way.
        await CloseElevatorAsync(client);
        Assert.Contains("closures", $"{(await ReadAsync(client, "small"))["set"]!["stale"]![0]}");
        var closed = await AgainAsync(client, "small", set => $"{set["sheets"]![0]!["noWay"]}".Length > 0);
        Assert.Contains("elevator A", closed["closures"]![0]!.ToString());

        await PublishAsync(client, "small", JsonNode.Parse(Site)!, "If-Match", "\"1\"");
        Assert.Contains("version 2", $"{(await ReadAsync(client, "small"))["set"]!["stale"]![0]}");
        await AgainAsync(client, "small", set => (int)set["floorPlanVersion"]! == 2);
    }

    [Fact]
    public async Task It_can_be_stopped_and_then_waits_for_a_person()
    {
        using var client = application.CreateClient();
        Assert.Equal(HttpStatusCode.Conflict, (await client.PostAsync(Address("demonstration/binder/cancel"), null)).StatusCode);

        var begun = await MakeAsync(client, "demonstration", "{}");
        var stopped = await client.PostAsync(Address("demonstration/binder/cancel"), null);

        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, stopped.StatusCode);
        Assert.Equal("stopped", $"{(await ReadAsync(client, "demonstration"))["progress"]}");
        application.Time.Advance(TimeSpan.FromMinutes(2));
        await Task.Delay(300, TestContext.Current.CancellationToken);
        Assert.Equal("stopped", $"{(await ReadAsync(client, "demonstration"))["progress"]}");
    }

    [Fact]
    public async Task A_restart_makes_every_binder_again_with_its_choices()
    {
        await using var restarted = new PlannerApplication();
        await File.WriteAllTextAsync(
            Path.Combine(restarted.DataFolder, "binders.json"), """{ "demonstration": { "DayTime": "14:45", "Precautions": [ 1 ] } }""", TestContext.Current.CancellationToken);
        using var client = restarted.CreateClient();

        var made = await WaitAsync(client, "demonstration", binder => $"{binder["progress"]}" == "made");

        Assert.Equal("14:45", $"{made["choices"]!["dayTime"]}");
        Assert.Equal(["droplet"], made["choices"]!["precautions"]!.AsArray().Select(precaution => $"{precaution}"));
    }

    [Fact]
    public async Task A_set_is_printed_in_the_units_and_the_word_of_the_site()
    {
        using var own = new PlannerApplication();
        using var client = own.CreateClient();
        (await Sites.DisplayedSite.SayAsync(client, ("pressureUnit", "kPa"), ("lengthUnit", "feet"), ("elevatorWord", "lift"))).EnsureSuccessStatusCode();
        await MadeAsync(client, "demonstration", "{}");

        var sheet = Sites.DisplayedSite.Words((await Sites.DisplayedSite.PageAsync(client, "/binder/demonstration/set?only=19D")).QuerySelector("section.standing")!);

        // 2,000 psi, say, are 13,790 kPa (NIST SP 811, appendix B): up to 13,800.
        var gauges = System.Text.RegularExpressions.Regex.Matches(sheet, @"US-\S+ (\d+) kPa \((\d+) psi\)");
        Assert.NotEmpty(gauges);
        Assert.All(gauges, gauge => Assert.Equal(
            Math.Ceiling(UnitsNet.Pressure.FromPoundsForcePerSquareInch(int.Parse(gauge.Groups[2].Value)).Kilopascals / 100) * 100, int.Parse(gauge.Groups[1].Value)));
        Assert.Matches(@" · \d+ ft · ", sheet);
        Assert.DoesNotMatch(@"\d m\b", sheet);
        Assert.Contains("lift", sheet, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("elevator", sheet, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("demonstration", """{ "precautions": [] }""", HttpStatusCode.BadRequest, "precautions")]
    [InlineData("demonstration", """{ "dayTime": "10:07" }""", HttpStatusCode.BadRequest, "dayTime")]
    [InlineData("demonstration", """{ "weekday": "someday" }""", HttpStatusCode.BadRequest, "weekday")]
    [InlineData("nowhere", "{}", HttpStatusCode.NotFound, null)]
    public async Task A_bad_request_names_its_field(string site, string body, HttpStatusCode status, string? field)
    {
        using var client = application.CreateClient();

        var response = await MakeAsync(client, site, body);

        Assert.Equal(status, response.StatusCode);
        Assert.True(field is null || JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!["errors"]![field] is not null);
    }

    private static Uri Address(string path) => new($"/api/v1/sites/{path}", UriKind.Relative);

    private static Task<HttpResponseMessage> MakeAsync(HttpClient client, string site, string body) =>
        client.PostAsync(Address($"{site}/binder"), new StringContent(body, Encoding.UTF8, "application/json"));

    private static async Task<JsonNode> ReadAsync(HttpClient client, string site) => JsonNode.Parse(await client.GetStringAsync(Address($"{site}/binder")))!;

    /// <summary>Begins one and waits for it.</summary>
    internal static async Task<JsonNode> MadeAsync(HttpClient client, string site, string body)
    {
        (await MakeAsync(client, site, body)).EnsureSuccessStatusCode();
        return await WaitAsync(client, site, binder => $"{binder["progress"]}" == "made");
    }

    private async Task<JsonNode> AgainAsync(HttpClient client, string site, Func<JsonNode, bool> isNew)
    {
        application.Time.Advance(TimeSpan.FromMinutes(1));
        return (await WaitAsync(client, site, binder => $"{binder["progress"]}" == "made" && isNew(binder["set"]!)))["set"]!;
    }

    private static async Task<JsonNode> WaitAsync(HttpClient client, string site, Func<JsonNode, bool> isReady)
    {
        for (var i = 0; i < 600; i++)
        {
            var binder = await ReadAsync(client, site);
            if (isReady(binder))
            {
                return binder;
            }

            await Task.Delay(100);
        }

        throw new TimeoutException($"The binder is not ready after a minute: {(await ReadAsync(client, site)).ToJsonString()[..200]}");
    }

    /// <summary>Elevator A of the small site, now.</summary>
    internal static async Task CloseElevatorAsync(HttpClient client) => (await client.PostAsJsonAsync("/api/v1/sites/small/closures", new
    {
        target = "elevator",
        targetId = "A",
        from = "2026-05-04T01:00:00Z",
        to = "2026-05-04T05:00:00Z",
        reason = "Yearly inspection",
        source = "Facilities",
    })).EnsureSuccessStatusCode();

    internal static async Task PublishAsync(HttpClient client, string site, JsonNode plan, string header, string value)
    {
        plan["siteId"] = site;
        using var request = new HttpRequestMessage(HttpMethod.Put, Address($"{site}/floor-plan"))
        {
            Content = new StringContent(plan.ToJsonString(), Encoding.UTF8, "application/geo+json"),
        };
        request.Headers.TryAddWithoutValidation(header, value);
        (await client.SendAsync(request)).EnsureSuccessStatusCode();
    }

    private static async Task<JsonNode> PlanAsync(HttpClient client, string body)
    {
        var response = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), new StringContent(body, Encoding.UTF8, "application/json"));
        response.EnsureSuccessStatusCode();
        return JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
    }
}
