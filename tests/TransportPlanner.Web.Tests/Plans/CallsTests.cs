using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class CallsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Called = """{ "state": "called" }""";
    private const string Acknowledged = """{ "state": "acknowledged" }""";

    private static string Plan(string departAt = "2026-05-04T02:10:00Z") => $$"""
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne", "contact"],
          "weightGrams": 1850, "gestationWeeks": 32, "departAt": "{{departAt}}" }
        """;

    [Fact]
    public async Task Each_role_is_called_and_acknowledges_with_a_time()
    {
        var id = await NewAsync();
        var list = await ListAsync(id);
        Assert.Equal(
            ["teamLead", "respiratoryTherapist", "transportNurse", "cleanHelper", "security", "receivingNurse", "doffingWatcher", "environmentalServices"],
            list["calls"]!.AsArray().Select(call => $"{call!["role"]}"));

        var (response, called) = await PutAsync(id, "security", Called);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal($"{called["eTag"]}", response.Headers.ETag!.Tag);
        Assert.Equal("called", $"{called["state"]}");
        application.Time.Advance(TimeSpan.FromMinutes(1));
        var (_, answered) = await PutAsync(id, "security", Acknowledged);
        Assert.Equal("acknowledged", $"{answered["state"]}");
        Assert.Equal($"{called["calledAt"]}", $"{answered["calledAt"]}");
        Assert.NotEqual($"{answered["calledAt"]}", $"{answered["acknowledgedAt"]}");

        // Who answers was called.
        var (_, both) = await PutAsync(id, "cleanHelper", Acknowledged);
        Assert.Equal($"{both["calledAt"]}", $"{both["acknowledgedAt"]}");
        Assert.Equal(2, (int)(await ListAsync(id))["acknowledged"]!);
        var (_, anew) = await PutAsync(id, "security", """{ "state": "open" }""");
        Assert.Null(anew["calledAt"]);
    }

    // Planned tempo: 56:15 from call to go. At 03:12 local go at 03:10 is past, the huddle too; the helper answered before it.
    [Fact]
    public async Task A_time_that_passed_before_anybody_answered_is_marked_late_and_the_earliest_go_is_one_press_away()
    {
        await using var own = new PlannerApplication();
        var calls = new CallsTests(own);
        using var client = own.CreateClient();
        var id = $"{(await calls.SendAsync(HttpMethod.Post, "plans", Plan("2026-05-04T03:10:00Z"))).Body["id"]}";
        await calls.PutAsync(id, "cleanHelper", Acknowledged);
        Assert.DoesNotContain("Late as of", await client.GetStringAsync($"/plans/{id}/calls"), StringComparison.Ordinal);
        var before = await calls.ListAsync(id);
        own.Time.Advance(TimeSpan.FromMinutes(40));

        var page = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await client.GetStringAsync($"/plans/{id}/calls"));

        // The huddle was to begin at 03:23:45 and is read as 03:23; go and the receiver's time are not past yet.
        var late = page.QuerySelectorAll("li:has(.short-of)");
        Assert.Equal(["TeamLead", "RespiratoryTherapist", "TransportNurse"], late.Select(item => item.Id));
        Assert.All(late, item => Assert.Equal("Late as of 03:50: 03:23 past.", item.QuerySelector(".short-of")!.TextContent));
        Assert.Equal(before["calls"]!.ToJsonString(), (await calls.ListAsync(id))["calls"]!.ToJsonString());
        // 03:50:00 + 56:15, on the next full minute.
        var press = page.QuerySelector("main .attend a")!;
        Assert.Equal("Make the next version for 04:47", press.TextContent);
        Assert.Equal($"/?again={id}&departAt=2026-05-04T04:47", System.Net.WebUtility.UrlDecode(press.GetAttribute("href")!));

        // Said after its time, so it stays marked.
        await calls.PutAsync(id, "teamLead", Acknowledged);
        Assert.Contains("Late as of", new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await client.GetStringAsync($"/plans/{id}/calls")).QuerySelector("#TeamLead")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_version_that_changes_the_message_opens_the_call_again()
    {
        var id = await NewAsync();
        await PutAsync(id, "receivingNurse", Acknowledged);

        await SendAsync(HttpMethod.Put, $"plans/{id}", Plan(), "*");
        Assert.Equal("acknowledged", $"{Call(await ListAsync(id), "receivingNurse")["state"]}");

        await SendAsync(HttpMethod.Put, $"plans/{id}", Plan("2026-05-04T05:40:00Z"), "*");
        var later = Call(await ListAsync(id), "receivingNurse");
        Assert.Equal("open", $"{later["state"]}");
        Assert.Equal(1, (int)later["outOfDateSince"]!);
    }

    // The way that somebody names is the way of the calls, of the pack that is opened without a way, of the duty desk and of the posts of the officers' lists.
    [Fact]
    public async Task A_way_that_is_named_is_the_way_of_calls_desk_pack_and_sheet_and_opens_the_calls_that_it_changes()
    {
        var (_, plan) = await SendAsync(HttpMethod.Post, "plans", Plan());
        var id = $"{plan["id"]}";
        var first = $"{(await ListAsync(id))["way"]}";
        var other = plan["routes"]!["routes"]!.AsArray().Select(way => $"{way!["id"]}").First(way => way != first);
        await PutAsync(id, "security", Acknowledged);
        await PutAsync(id, "cleanHelper", Acknowledged);

        var named = await ChooseAsync(id, other);

        Assert.Equal(other, $"{named["wayTaken"]}");
        Assert.True((bool)named["isWayChosen"]!);
        var list = await ListAsync(id);
        Assert.Equal(other, $"{list["way"]}");
        var security = Call(list, "security");
        Assert.Contains($"way {other},", $"{security["message"]}", StringComparison.Ordinal);
        Assert.Equal("open", $"{security["state"]}");
        Assert.Equal(first, $"{security["outOfDateWay"]}");
        // Where to huddle and when does not hang on the way.
        Assert.Equal("acknowledged", $"{Call(list, "cleanHelper")["state"]}");
        var (_, desk) = await SendAsync(HttpMethod.Get, "transports?siteId=demonstration", null);
        Assert.Equal(other, $"{desk["transports"]!.AsArray().Single(transport => $"{transport!["planId"]}" == id)!["way"]}");
        Assert.Contains($"way {other}", await TextAsync($"/plans/{id}/pack?only=Strip", ".strip, .page"), StringComparison.OrdinalIgnoreCase);
        Assert.StartsWith($"Way {other}:", await TextAsync($"/plans/{id}", "h2.headline"), StringComparison.Ordinal);
        Assert.Contains($"speak of way {other}.", await TextAsync($"/plans/{id}/pack?way={first}", ".attend"), StringComparison.Ordinal);
        using (var client = application.CreateClient())
        {
            Assert.DoesNotContain("Not the way that is taken", await client.GetStringAsync(new Uri($"/plans/{id}/pack?way={first}&version=1", UriKind.Relative)), StringComparison.Ordinal);
        }

        // Back again: what was said then holds again, word by word.
        await ChooseAsync(id, first);
        Assert.Equal("acknowledged", $"{Call(await ListAsync(id), "security")["state"]}");
    }

    [Fact]
    public async Task Go_for_another_way_makes_the_calls_speak_of_it_and_a_newer_version_begins_anew()
    {
        var (_, plan) = await SendAsync(HttpMethod.Post, "plans", Plan());
        var id = $"{plan["id"]}";
        var first = $"{(await ListAsync(id))["way"]}";
        var other = plan["routes"]!["routes"]!.AsArray().Select(way => $"{way!["id"]}").First(way => way != first);

        await SendAsync(
            HttpMethod.Post, $"plans/{id}/go/recheck",
            $$"""{ "role": "teamLead", "way": "{{other}}", "support": "same", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same", "gauges": [] }""", "*");

        Assert.Equal(other, $"{(await ListAsync(id))["way"]}");
        await SendAsync(HttpMethod.Put, $"plans/{id}", Plan(), "*");
        Assert.Equal(first, $"{(await ListAsync(id))["way"]}");
        Assert.False((bool)(await SendAsync(HttpMethod.Get, $"plans/{id}/go", null)).Body["isWayChosen"]!);
    }

    [Fact]
    public async Task A_way_that_the_version_lacks_and_an_old_tag_are_refused_and_the_same_way_twice_is_one_word()
    {
        var id = await NewAsync();
        var tag = $"{(await ChooseAsync(id, "A"))["eTag"]}";
        Assert.Equal(tag, $"{(await ChooseAsync(id, "A"))["eTag"]}");

        var (bad, problem) = await SendAsync(HttpMethod.Post, $"plans/{id}/go/way", """{ "role": "teamLead", "way": "Z" }""", tag);
        Assert.Equal(HttpStatusCode.BadRequest, bad.StatusCode);
        Assert.NotNull(problem["errors"]!["way"]);
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await SendAsync(HttpMethod.Post, $"plans/{id}/go/way", """{ "role": "teamLead", "way": "A" }""")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SendAsync(HttpMethod.Post, $"plans/{id}/go/way", """{ "role": "teamLead", "way": "A" }""", "\"1.0\"")).Response.StatusCode);
    }

    [Fact]
    public async Task A_message_has_call_sign_category_place_and_time_and_nothing_of_the_infant()
    {
        var (_, plan) = await SendAsync(HttpMethod.Post, "plans", Plan());
        var list = await ListAsync($"{plan["id"]}");

        Assert.All(list["calls"]!.AsArray(), call =>
        {
            var message = $"{call!["message"]}";
            Assert.Contains($"{plan["callSign"]}", message, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("contact", message);
            Assert.Contains("airborne", message);
            Assert.Matches(@"D-2\.14|N-4\.03", message);
            Assert.Matches(@"\b0[0-9]:[0-9]{2}\b", message);
            Assert.DoesNotMatch(@"(?i)ventilat|infant|newborn|baby|gram|week|1850|\b32\b|flow|fraction|\bsafe|cleared", message);
        });
        using var scope = application.Services.CreateScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        Assert.Equal(
            ["AcknowledgedAt", "CalledAt", "PlanId", "PlanVersion", "Role", "Version", "Way"],
            context.Model.FindEntityType(typeof(CallEntry))!.GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    // Seen to fail: without the names of the floor plan, which left a room that is not aired by its number alone.
    [Fact]
    public async Task A_message_reads_as_the_pack_prints_it()
    {
        var (_, plan) = await SendAsync(HttpMethod.Post, "plans", Plan());
        using var client = application.CreateClient();
        using var browsing = AngleSharp.BrowsingContext.New(AngleSharp.Configuration.Default);
        var html = await client.GetStringAsync(new Uri($"/plans/{plan["id"]}/pack?only=Calls", UriKind.Relative));
        var pack = await AngleSharp.BrowsingContextExtensions.OpenAsync(browsing, request => request.Content(html));

        var list = await ListAsync($"{plan["id"]}");

        Assert.Equal(
            pack.QuerySelectorAll(".calls .say").Select(say => say.TextContent),
            list["calls"]!.AsArray().Select(call => $"“{call!["message"]}”"));
    }

    [Fact]
    public async Task A_bad_entry_names_its_field_and_a_stale_one_is_refused()
    {
        var id = await NewAsync();
        var tag = $"{Call(await ListAsync(id), "security")["eTag"]}";

        var (bad, problem) = await PutAsync(id, "security", """{ "state": "shouted" }""");
        Assert.Equal(HttpStatusCode.BadRequest, bad.StatusCode);
        Assert.NotNull(problem["errors"]!["state"]);
        await PutAsync(id, "security", Called);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SendAsync(HttpMethod.Put, $"plans/{id}/calls/security", Acknowledged, tag)).Response.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await SendAsync(HttpMethod.Put, $"plans/{id}/calls/security", Acknowledged)).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await SendAsync(HttpMethod.Put, $"plans/{id}/calls/porter", Acknowledged, "*")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await SendAsync(HttpMethod.Get, "plans/none/calls", null)).Response.StatusCode);
    }

    private static JsonNode Call(JsonNode list, string role) => list["calls"]!.AsArray().Single(call => $"{call!["role"]}" == role)!;

    private async Task<JsonNode> ChooseAsync(string id, string way)
    {
        var go = (await SendAsync(HttpMethod.Get, $"plans/{id}/go", null)).Body;
        var (response, body) = await SendAsync(HttpMethod.Post, $"plans/{id}/go/way", $$"""{ "role": "teamLead", "way": "{{way}}" }""", $"{go["eTag"]}");
        Assert.True(response.IsSuccessStatusCode, $"{body}");
        return body;
    }

    private async Task<string> TextAsync(string address, string selector)
    {
        using var client = application.CreateClient();
        using var browsing = AngleSharp.BrowsingContext.New(AngleSharp.Configuration.Default);
        var html = await client.GetStringAsync(new Uri(address, UriKind.Relative));
        var page = await AngleSharp.BrowsingContextExtensions.OpenAsync(browsing, request => request.Content(html));
        return page.QuerySelector(selector)!.TextContent.Trim();
    }

    private async Task<string> NewAsync() => $"{(await SendAsync(HttpMethod.Post, "plans", Plan())).Body["id"]}";

    private async Task<JsonNode> ListAsync(string id) => (await SendAsync(HttpMethod.Get, $"plans/{id}/calls", null)).Body;

    private async Task<(HttpResponseMessage Response, JsonNode Body)> PutAsync(string id, string role, string body) =>
        await SendAsync(HttpMethod.Put, $"plans/{id}/calls/{role}", body, $"{Call(await ListAsync(id), role)["eTag"]}");

    private async Task<(HttpResponseMessage Response, JsonNode Body)> SendAsync(HttpMethod method, string path, string? json, string? tag = null)
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(method, $"/api/v1/{path}");
        if (json is not null)
        {
            request.Content = new StringContent(json, Encoding.UTF8, "application/json");
        }

        if (tag is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", tag);
        }

        var response = await client.SendAsync(request);
        return (response, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }
}
