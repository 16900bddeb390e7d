using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class GoTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Plan = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "weightGrams": 1850, "gestationWeeks": 32,
          "demand": { "flowLitresPerMinute": 8, "oxygenFraction": 0.3 },
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-M", "gaugePsi": 1500 }, { "gas": "air", "sizeId": "US-H-AIR", "gaugePsi": 1800 } ] }
        """;

    private const string Lead = """{ "role": "teamLead", "way": "A" }""";
    private const string Security = """{ "role": "security", "way": "A" }""";

    private static string Recheck(string flow = "same", decimal oxygen = 1450, string way = "A") => $$"""
        { "role": "respiratoryTherapist", "way": "{{way}}", "support": "same", "flow": "{{flow}}", "oxygenFraction": "same", "crew": "same", "onTheWay": "same",
          "gauges": [ { "gaugePsi": {{oxygen}} }, { "gaugePsi": 1790 } ] }
        """;

    [Fact]
    public async Task Go_is_given_by_two_voices_about_one_version_and_an_answered_recheck()
    {
        var id = await NewAsync();
        var before = await ReadAsync(id);
        Assert.Null(before["givenAt"]);
        Assert.Equal(["recheck", "teamLead", "security"], before["missing"]!.AsArray().Select(missing => $"{missing}"));

        var first = await OkAsync(id, "recheck", Recheck());
        Assert.Contains("Read 1450 psi, 1790 psi", $"{first["recheck"]!["gas"]}");
        var second = await OkAsync(id, "voices", Lead);
        Assert.Null(second["givenAt"]);
        Assert.Equal(["security"], second["missing"]!.AsArray().Select(missing => $"{missing}"));
        var third = await OkAsync(id, "voices", Security);

        Assert.NotNull(third["givenAt"]);
        Assert.Empty(third["missing"]!.AsArray());
        Assert.Equal("A", $"{third["way"]}");
        Assert.True(JsonNode.DeepEquals(third, await ReadAsync(id)));
    }

    // Seen to fail: while the closures listed were those of the least exposed way and not of the way that was spoken about.
    [Fact]
    public async Task A_newer_version_and_a_closure_on_the_way_take_both_back_and_say_so()
    {
        var id = await NewAsync();
        await GiveAsync(id);
        var (changed, _) = await SendAsync(HttpMethod.Put, $"plans/{id}", Plan, "*");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        var newer = await ReadAsync(id);
        Assert.Null(newer["givenAt"]);
        Assert.Contains("Version 2", $"{newer["takenBack"]}");

        await GiveAsync(id);
        var elevator = await ElevatorAsync(id);
        var (_, closure) = await SendAsync(HttpMethod.Post, "sites/demonstration/closures",
            $$"""{ "target": "elevator", "targetId": "{{elevator}}", "from": "2026-05-04T02:00:00Z", "to": "2026-05-04T04:00:00Z", "reason": "Out of order", "source": "Facilities" }""");
        var shut = await ReadAsync(id);
        Assert.Null(shut["givenAt"]);
        Assert.Contains(elevator, $"{shut["takenBack"]}");
        Assert.Contains(elevator, $"{shut["closures"]![0]}");
        var (refused, problem) = await PostAsync(id, "voices", Lead);
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Equal("closure-on-way", $"{problem["code"]}");

        // The closure ends; what it took back does not come back.
        await SendAsync(HttpMethod.Delete, $"sites/demonstration/closures/{closure["id"]}", null, "*");
        var after = await ReadAsync(id);
        Assert.Empty(after["closures"]!.AsArray());
        Assert.Null(after["givenAt"]);
        await GiveAsync(id);
        Assert.NotNull((await ReadAsync(id))["givenAt"]);
    }

    // US-M has 1.56 L/psi; at 1.0 the 8 L/min of oxygen alone last (gauge − 200) × 1.56 ÷ 8 minutes: 10 psi above the residual is under two.
    [Fact]
    public async Task A_change_and_a_gauge_that_breaks_a_rule_take_both_back()
    {
        var id = await NewAsync();
        await GiveAsync(id);
        var changed = await OkAsync(id, "recheck", Recheck("changed"));
        Assert.Equal(["flow"], changed["recheck"]!["changed"]!.AsArray().Select(item => $"{item}"));
        Assert.Equal(["changed", "teamLead", "security"], changed["missing"]!.AsArray().Select(missing => $"{missing}"));

        await GiveAsync(id);
        var low = await OkAsync(id, "recheck", Recheck(oxygen: 210));
        Assert.Equal(["gauge"], low["recheck"]!["changed"]!.AsArray().Select(item => $"{item}"));
        Assert.Contains("oxygen alone 1 min", $"{low["recheck"]!["gas"]}");
        Assert.Null(low["givenAt"]);
    }

    // 1 L/psi and 10 L/min at 1.0: cylinder 2 alone meets both rules, so nothing else says that the first, from which the team would leave, is empty or short.
    // Seen to fail: with the sum of all cylinders alone.
    [Theory]
    [InlineData(150, "The connected cylinder, oxygen 1, reads 150 psi and gives no minute above its residual of 200 psi: connect another before leaving.", "gauge")]
    [InlineData(300, "The connected cylinder, oxygen 1, reads 300 psi: alone it gives 10 min, less than the ", null)]
    [InlineData(2100, null, null)]
    public async Task A_connected_cylinder_that_is_empty_or_short_is_named_though_a_full_one_stands_beside_it(int psi, string? words, string? changed)
    {
        const string Two = """
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 1.0 },
              "cylinders": [ { "gas": "oxygen", "litresPerPsi": 1, "gaugePsi": 2000 }, { "gas": "oxygen", "litresPerPsi": 1, "gaugePsi": 2000 } ] }
            """;
        var id = $"{(await SendAsync(HttpMethod.Post, "plans", Two)).Body["id"]}";
        var body = Recheck().Replace("1450", $"{psi}", StringComparison.Ordinal).Replace("1790", "2000", StringComparison.Ordinal);

        var answer = await OkAsync(id, "recheck", body);

        var read = $"{answer["recheck"]!["gas"]}";
        Assert.DoesNotContain("short by", read, StringComparison.Ordinal);
        Assert.Equal(words is not null, read.Contains("The connected cylinder", StringComparison.Ordinal));
        Assert.Contains(words ?? "", read, StringComparison.Ordinal);
        Assert.Equal(changed is null ? [] : [changed], answer["recheck"]!["changed"]!.AsArray().Select(item => $"{item}"));
        using var client = application.CreateClient();
        var page = await client.GetStringAsync(new Uri($"/plans/{id}/go?way=A", UriKind.Relative));
        Assert.Equal(words is not null, page.Contains("Look at the cylinder that is connected.", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_page_names_the_way_that_each_voice_speaks_about()
    {
        var id = await NewAsync();
        await OkAsync(id, "recheck", Recheck(way: "B"));
        await OkAsync(id, "voices", Lead.Replace("\"A\"", "\"B\"", StringComparison.Ordinal));
        using var client = application.CreateClient();

        var page = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await client.GetStringAsync(new Uri($"/plans/{id}/go?way=A", UriKind.Relative)));

        var said = page.QuerySelectorAll("#go dl.lines dd").Select(line => line.TextContent).ToList();
        Assert.StartsWith("go by way B, ", said[0], StringComparison.Ordinal);
        Assert.Equal("nothing said that stands about way B", said[1]);
        Assert.Contains(" for way B, ", said[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Anybody_may_say_stop_and_go_begins_anew()
    {
        var id = await NewAsync();
        await GiveAsync(id);

        var (response, stopped) = await SendAsync(HttpMethod.Post, $"plans/{id}/go/stop", """{ "role": "transportNurse" }""");

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Null(stopped["givenAt"]);
        Assert.Null(stopped["recheck"]);
        Assert.Contains("Stop was said", $"{stopped["takenBack"]}");
    }

    // The default of gaugeStaleMinutes is 15. Its own application, because the clock is moved.
    [Fact]
    public async Task A_recheck_grows_old_and_a_void_plan_hears_nobody()
    {
        await using var later = new PlannerApplication();
        var go = new GoTests(later);
        var id = await go.NewAsync();
        await go.OkAsync(id, "recheck", Recheck());
        await go.OkAsync(id, "voices", Lead);
        later.Time.Advance(TimeSpan.FromMinutes(16));
        Assert.Equal("recheck-first", $"{(await go.PostAsync(id, "voices", Security)).Body["code"]}");
        Assert.Equal(["stale", "security"], (await go.ReadAsync(id))["missing"]!.AsArray().Select(missing => $"{missing}"));
        // Who spoke upon the old gauges speaks again.
        await go.OkAsync(id, "recheck", Recheck());
        await go.OkAsync(id, "voices", Security);
        Assert.NotNull((await go.OkAsync(id, "voices", Lead))["givenAt"]);

        later.Time.Advance(TimeSpan.FromMinutes(60));
        Assert.NotNull((await go.ReadAsync(id))["givenAt"]);
        var (refused, problem) = await go.PostAsync(id, "voices", Lead);
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Equal("plan-void", $"{problem["code"]}");
    }

    [Theory]
    [InlineData("voices", """{ "role": "transportNurse", "way": "A" }""", "role")]
    [InlineData("voices", """{ "role": "security", "way": "Z" }""", "way")]
    [InlineData("recheck", """{ "role": "teamLead", "way": "A", "support": "same", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same", "gauges": [] }""", "gauges")]
    [InlineData("recheck", """{ "role": "teamLead", "way": "A", "support": "same", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same", "gauges": [ { "gaugePsi": 1, "gaugeBar": 1 }, { "gaugePsi": 1 } ] }""", "gauges[0].gaugePsi")]
    [InlineData("recheck", """{ "role": "teamLead", "way": "A", "support": "stable", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same", "gauges": [] }""", "support")]
    public async Task A_bad_word_names_its_field(string what, string body, string field)
    {
        var (response, problem) = await PostAsync(await NewAsync(), what, body);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.NotNull(problem["errors"]![field]);
    }

    [Theory]
    [InlineData("5000", "Cylinder 1, oxygen US-M: Give 0 to 3300 psi.")]
    [InlineData("", "Cylinder 1, oxygen US-M: Read the gauge again and type its number.")]
    [InlineData("-5", "Cylinder 1, oxygen US-M: Read the gauge again and type its number.")]
    public async Task A_gauge_out_of_its_range_is_named_at_its_field_of_the_page_and_nothing_typed_is_lost(string typed, string words)
    {
        const string Two = """
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "demand": { "flowLitresPerMinute": 8, "oxygenFraction": 1.0 },
              "cylinders": [ { "gas": "oxygen", "sizeId": "US-M", "gaugePsi": 1500 }, { "gas": "oxygen", "sizeId": "US-M", "gaugePsi": 1600 } ] }
            """;
        using var client = application.CreateClient();
        var id = $"{(await SendAsync(HttpMethod.Post, "plans", Two)).Body["id"]}";
        var address = $"/plans/{id}/go?way=A&role=TransportNurse";
        var form = await Sites.DisplayedSite.PageAsync(client, address);
        string Hidden(string name) => form.QuerySelector($"form[action*='handler=Recheck'] input[name={name}]")!.GetAttribute("value")!;
        (string Name, string Value)[] fields =
        [
            ("support", "Same"), ("flow", "Changed"), ("oxygenFraction", "Same"), ("crew", "Same"), ("onTheWay", "Same"), ("gauge", typed), ("gauge", "1550"),
            ("tag", Hidden("tag")), ("__RequestVerificationToken", Hidden("__RequestVerificationToken")),
        ];

        var answer = await client.PostAsync(new Uri($"{address}&handler=Recheck", UriKind.Relative), new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Name, field.Value))));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var page = new AngleSharp.Html.Parser.HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync());
        var link = page.QuerySelector("[role=alert] a")!;
        Assert.Equal(("#gauge-0", words), (link.GetAttribute("href"), link.TextContent));
        Assert.Equal(["gauge-0"], page.QuerySelectorAll("[aria-invalid=true]").Select(field => field.Id));
        Assert.Equal([typed, "1550"], page.QuerySelectorAll("input[name=gauge]").Select(field => field.GetAttribute("value") ?? ""));
        Assert.Equal(
            ["support Same", "flow Changed", "oxygenFraction Same", "crew Same", "onTheWay Same"],
            page.QuerySelectorAll("input[type=radio][checked]").Select(choice => $"{choice.GetAttribute("name")} {choice.GetAttribute("value")}"));
        Assert.Equal(
            ["Cylinder 1, oxygen US-M, gauge now, psi", "Cylinder 2, oxygen US-M, gauge now, psi"],
            page.QuerySelectorAll("label[for^=gauge]").Select(label => label.TextContent));
        Assert.Null((await ReadAsync(id))["recheck"]);
    }

    [Fact]
    public async Task A_word_without_or_with_a_stale_tag_is_refused_and_one_role_speaks_once()
    {
        var id = await NewAsync();
        Assert.Equal("recheck-first", $"{(await PostAsync(id, "voices", Lead)).Body["code"]}");
        await OkAsync(id, "recheck", Recheck());
        var tag = $"{(await ReadAsync(id))["eTag"]}";
        await OkAsync(id, "voices", Lead);

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SendAsync(HttpMethod.Post, $"plans/{id}/go/voices", Security, tag)).Response.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await SendAsync(HttpMethod.Post, $"plans/{id}/go/voices", Security)).Response.StatusCode);
        Assert.Equal("already-said", $"{(await PostAsync(id, "voices", Lead)).Body["code"]}");
        Assert.Equal(HttpStatusCode.NotFound, (await SendAsync(HttpMethod.Get, "plans/none/go", null)).Response.StatusCode);
    }

    // Nothing of the infant, and no words of the red lines.
    [Fact]
    public async Task Nothing_is_kept_but_roles_times_answers_and_gauges()
    {
        var id = await NewAsync();
        await GiveAsync(id);
        using var scope = application.Services.CreateScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();

        var rows = await context.GoWords.AsNoTracking().Where(word => word.PlanId == id).ToListAsync(TestContext.Current.CancellationToken);

        Assert.Equal(3, rows.Count);
        Assert.Equal(
            ["At", "Changed", "Kind", "Number", "PlanId", "PlanVersion", "Role", "Way", "Words"],
            context.Model.FindEntityType(typeof(GoWord))!.GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal));
        Assert.All(rows, row => Assert.DoesNotContain("1850", $"{row.Words}"));
        var answer = (await ReadAsync(id)).ToJsonString();
        Assert.All(new[] { "safe", "cleared", "1850", "32" }, word => Assert.DoesNotMatch($@"(?i)\b{word}\b", answer));
    }

    private async Task GiveAsync(string id)
    {
        await OkAsync(id, "recheck", Recheck());
        await OkAsync(id, "voices", Lead);
        await OkAsync(id, "voices", Security);
    }

    private async Task<string> NewAsync() => $"{(await SendAsync(HttpMethod.Post, "plans", Plan)).Body["id"]}";

    private async Task<string> ElevatorAsync(string id) =>
        $"{(await SendAsync(HttpMethod.Get, $"plans/{id}", null)).Body["routes"]!["routes"]!.AsArray().Single(route => $"{route!["id"]}" == "A")!["elevators"]![0]!["elevator"]}";

    private async Task<JsonNode> ReadAsync(string id) => (await SendAsync(HttpMethod.Get, $"plans/{id}/go", null)).Body;

    private async Task<JsonNode> OkAsync(string id, string what, string body)
    {
        var (response, answer) = await PostAsync(id, what, body);
        Assert.True(response.IsSuccessStatusCode, answer.ToJsonString());
        Assert.Equal($"{answer["eTag"]}", response.Headers.ETag!.Tag);
        return answer;
    }

    private async Task<(HttpResponseMessage Response, JsonNode Body)> PostAsync(string id, string what, string body) =>
        await SendAsync(HttpMethod.Post, $"plans/{id}/go/{what}", body, $"{(await ReadAsync(id))["eTag"]}");

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
        var text = await response.Content.ReadAsStringAsync();
        return (response, text.Length == 0 ? new JsonObject() : JsonNode.Parse(text)!);
    }
}
