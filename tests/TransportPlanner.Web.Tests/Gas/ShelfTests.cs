using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Tests.Gas;

public sealed class ShelfTests
{
    private static async Task<(HttpStatusCode Status, JsonNode? Body)> SendAsync(
        PlannerApplication application, HttpMethod method, string address, string? json = null, string ifMatch = "*")
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(method, $"/api/v1{address}") { Content = json is null ? null : new StringContent(json, Encoding.UTF8, "application/json") };
        request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        using var response = await client.SendAsync(request);
        var text = await response.Content.ReadAsStringAsync();
        return (response.StatusCode, text.Length == 0 ? null : JsonNode.Parse(text));
    }

    private static async Task<string> PutAsync(PlannerApplication application, string tag, string gas, string size, int psi, string readAt = "2026-05-04T02:05:00Z")
    {
        var (status, body) = await SendAsync(application, HttpMethod.Post, "/shelf", $$"""
            { "siteId": "demonstration", "tag": "{{tag}}", "cylinder": { "gas": "{{gas}}", "sizeId": "{{size}}", "gaugePsi": {{psi}} }, "readBy": "Therapist", "readAt": "{{readAt}}" }
            """);
        Assert.True(status == HttpStatusCode.Created, $"{body}");
        return $"{body!["id"]}";
    }

    private static async Task<JsonNode> OnShelfAsync(PlannerApplication application, string tag) =>
        (await SendAsync(application, HttpMethod.Get, "/shelf?siteId=demonstration")).Body!["cylinders"]!.AsArray().Single(c => $"{c!["tag"]}" == tag)!;

    [Fact]
    public async Task A_reading_ages_becomes_stale_and_is_then_not_counted()
    {
        await using var application = new PlannerApplication();
        await PutAsync(application, "O-1", "oxygen", "US-E", 2200);

        var fresh = await OnShelfAsync(application, "O-1");
        application.Time.Advance(TimeSpan.FromMinutes(11));
        var stale = await OnShelfAsync(application, "O-1");
        var (_, set) = await SendAsync(application, HttpMethod.Post, "/shelf/smallest-set", GasExamples.SmallestSet);

        // (2200 − 200) psi × 616 L ÷ 2200 psi = 560 L; read 5 min before the clock of the test starts; 15 min is the assumed limit.
        Assert.Equal((5, false, 560m), ((int)fresh["ageMinutes"]!, (bool)fresh["stale"]!, (decimal)fresh["usableLitres"]!));
        Assert.Equal((16, true), ((int)stale["ageMinutes"]!, (bool)stale["stale"]!));
        Assert.False((bool)set!["found"]!);
        Assert.Equal("its reading is 16 min old", $"{set["leftOut"]![0]!["why"]}");
    }

    [Fact]
    public async Task The_smallest_set_meets_the_rule_and_leaves_the_full_cylinder()
    {
        await using var application = new PlannerApplication();
        await PutAsync(application, "O-full", "oxygen", "US-E", 2200);
        await PutAsync(application, "O-part", "oxygen", "US-E", 1700);
        await PutAsync(application, "O-low", "oxygen", "US-E", 600);
        await PutAsync(application, "A-1", "air", "US-E-AIR", 1900);

        var (_, set) = await SendAsync(application, HttpMethod.Post, "/shelf/smallest-set", """
            { "siteId": "demonstration", "journeyMinutes": 9, "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.30 } }
            """);

        // 39 min at 10 L/min are 390 L of oxygen; 1,500 psi of 0.28 L/psi are 420 L. Air: 39 × 8.86 = 346 L of (1900 − 200) × 625 ÷ 1900 = 559 L.
        Assert.Equal(["A-1", "O-part"], set!["tags"]!.AsArray().Select(tag => $"{tag}"));
        Assert.All(set["supply"]!["rules"]!.AsArray(), rule => Assert.True((bool)rule!["met"]!));
    }

    [Fact]
    public async Task The_site_s_own_rule_decides_the_set()
    {
        await using var application = new PlannerApplication();
        await PutAsync(application, "O-low", "oxygen", "US-E", 900);
        await SendAsync(application, HttpMethod.Put, "/sites/demonstration/settings", """{ "settings": [ { "name": "reserveRule", "value": "twiceTheJourney", "owner": "A", "date": "2026-04-01" } ] }""");

        // (900 − 200) × 0.28 = 196 L; twice 9 min at 10 L/min are 180 L, 9 + 30 min would be 390 L.
        var (_, set) = await SendAsync(application, HttpMethod.Post, "/shelf/smallest-set", """
            { "siteId": "demonstration", "journeyMinutes": 9, "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 1 } }
            """);

        Assert.True((bool)set!["found"]!);
        Assert.Equal("twice-the-journey", $"{Assert.Single(set["supply"]!["rules"]!.AsArray())!["rule"]}");
    }

    [Fact]
    public async Task Flow_is_felt_twice_by_two_people_and_a_check_that_found_none_says_so()
    {
        await using var application = new PlannerApplication();
        var id = await PutAsync(application, "O-1", "oxygen", "US-E", 2200);
        async Task<string> CheckAsync(bool felt)
        {
            application.Time.Advance(TimeSpan.FromMinutes(1));
            var (status, body) = await SendAsync(application, HttpMethod.Post, $"/shelf/{id}/flow-checks", GasExamples.FlowCheck.Replace("\"flowFeltAtPatientEnd\": true", $"\"flowFeltAtPatientEnd\": {(felt ? "true" : "false")}"));
            Assert.Equal(HttpStatusCode.Created, status);
            return $"{body!["flow"]}";
        }

        Assert.Equal("flow not checked: full is not flowing", $"{(await OnShelfAsync(application, "O-1"))["flow"]}");
        Assert.Equal("flow felt once; a second check before leaving", await CheckAsync(true));
        Assert.Equal("flow felt twice", await CheckAsync(true));
        Assert.Equal("the last check found no flow: do not count on it", await CheckAsync(false));
        Assert.Equal("flow felt once; a second check before leaving", await CheckAsync(true));
        application.Time.Advance(TimeSpan.FromMinutes(16));
        Assert.Equal("flow felt once, the last 16 min ago: check again; a second check before leaving", $"{(await OnShelfAsync(application, "O-1"))["flow"]}");
        Assert.Equal(["2026-05-04T02:14:00+00:00", "2026-05-04T02:13:00+00:00"], (await OnShelfAsync(application, "O-1"))["flowChecks"]!.AsArray().Take(2).Select(c => $"{c!["at"]}"));
    }

    [Fact]
    public async Task A_new_reading_needs_the_version_that_was_read_and_a_cylinder_that_can_have_it()
    {
        await using var application = new PlannerApplication();
        var id = await PutAsync(application, "O-1", "oxygen", "US-E", 2200);

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SendAsync(application, HttpMethod.Put, $"/shelf/{id}/reading", GasExamples.GaugeReading, "\"7\"")).Status);
        var (high, refusal) = await SendAsync(application, HttpMethod.Put, $"/shelf/{id}/reading", """{ "gaugePsi": 2500, "readBy": "Therapist" }""");
        var (early, _) = await SendAsync(application, HttpMethod.Put, $"/shelf/{id}/reading", """{ "gaugePsi": 1450, "readBy": "Therapist", "readAt": "2026-05-04T02:00:00Z" }""");
        var (late, _) = await SendAsync(application, HttpMethod.Put, $"/shelf/{id}/reading", """{ "gaugePsi": 1450, "readBy": "Therapist", "readAt": "2026-05-04T02:30:00Z" }""");
        var (kept, body) = await SendAsync(application, HttpMethod.Put, $"/shelf/{id}/reading", """{ "gaugeBar": 100, "readBy": "Therapist" }""", "\"1\"");

        Assert.Equal((HttpStatusCode.BadRequest, true), (high, $"{refusal!["errors"]!["gaugePsi"]![0]}".Contains("2500 psi is above 2420 psi")));
        Assert.Equal((HttpStatusCode.UnprocessableEntity, HttpStatusCode.UnprocessableEntity), (early, late));
        Assert.Equal((HttpStatusCode.OK, "100 bar", 0, 2), (kept, $"{body!["gauge"]}", (int)body["ageMinutes"]!, (int)body["version"]!));
    }

    [Fact]
    public async Task A_tag_stands_once_and_a_cylinder_can_be_taken_off()
    {
        await using var application = new PlannerApplication();
        var id = await PutAsync(application, "O-1", "oxygen", "US-E", 2200);
        await SendAsync(application, HttpMethod.Post, $"/shelf/{id}/flow-checks", GasExamples.FlowCheck);

        Assert.Equal(HttpStatusCode.Conflict, (await SendAsync(application, HttpMethod.Post, "/shelf", GasExamples.NewShelfCylinder.Replace("O-12", "o-1"))).Status);
        Assert.Equal(HttpStatusCode.NoContent, (await SendAsync(application, HttpMethod.Delete, $"/shelf/{id}")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await SendAsync(application, HttpMethod.Delete, $"/shelf/{id}")).Status);
    }

    [Fact]
    public async Task The_documented_cylinder_is_the_real_answer()
    {
        await using var application = new PlannerApplication();
        var (_, put) = await SendAsync(application, HttpMethod.Post, "/shelf", GasExamples.NewShelfCylinder);
        application.Time.Advance(TimeSpan.FromMinutes(2));
        await SendAsync(application, HttpMethod.Post, $"/shelf/{put!["id"]}/flow-checks", GasExamples.FlowCheck);
        application.Time.Advance(TimeSpan.FromMinutes(3));

        var shown = await OnShelfAsync(application, "O-12");
        var expected = JsonNode.Parse(GasExamples.OnShelf)!;
        expected["id"] = $"{put["id"]}";
        foreach (var (name, value) in expected["cylinder"]!.AsObject())
        {
            Assert.True(JsonNode.DeepEquals(value, shown["cylinder"]![name]), name);
        }

        expected["cylinder"] = shown["cylinder"]!.DeepClone();
        Assert.True(JsonNode.DeepEquals(expected, shown), $"{shown}");
    }

    [Fact]
    public async Task The_page_puts_reads_checks_and_finds()
    {
        await using var application = new PlannerApplication();
        await PostAsync(application, "Add", ("Tag", "O-7"), ("Gas", "Oxygen"), ("PressureUnit", "psi"), ("Cylinder.Gauge", "2000"), ("Cylinder.Size", "US-E"), ("Role", "Therapist"));
        var id = $"{(await OnShelfAsync(application, "O-7"))["id"]}";
        var refused = await PostAsync(application, "Read", ("CylinderId", id), ("PressureUnit", "psi"), ("Gauge", "3000"), ("Role", "Therapist"));
        await PostAsync(application, "Read", ("CylinderId", id), ("PressureUnit", "psi"), ("Gauge", "1900"), ("Role", "Therapist"));
        var page = await PostAsync(application, "Check", ("CylinderId", id), ("Role", "Therapist"), ("SecondRole", "Nurse"), ("CapOff", "true"), ("ValveOpen", "true"), ("FlowSet", "true"));

        Assert.Contains("3000 psi is above 2420 psi", refused.QuerySelector(".attend")!.TextContent);
        Assert.Contains("1900 psi", page.Body!.TextContent);
        Assert.Contains("The last check found no flow: do not count on it.", page.Body.TextContent);
        Assert.Contains("Therapist and Nurse: no flow felt at the patient end", page.Body.TextContent);
        Assert.Contains("Full is not flowing", page.Body.TextContent);

        var found = await PostAsync(application, "Smallest", ("Flow", "10"), ("OxygenFraction", "1"), ("JourneyMinutes", "9"));
        Assert.Contains("Take O-7.", found.GetElementById("smallest")!.TextContent);
    }

    [Fact]
    public async Task The_gas_page_names_the_smallest_set_beside_what_was_typed()
    {
        await using var application = new PlannerApplication();
        (string, string)[] typed = [("PressureUnit", "psi"), ("Oxygen.Gauge", "1100"), ("Oxygen.Size", "US-E"), ("Flow", "10"), ("OxygenFraction", "1"), ("JourneyMinutes", "9")];

        var empty = await PostAsync(application, null, typed);
        await PutAsync(application, "O-low", "oxygen", "US-E", 900);
        await PutAsync(application, "O-part", "oxygen", "US-E", 1700);
        var page = await PostAsync(application, null, typed);

        // Typed: 252 L, 25 min, short of 39 min; on the shelf (1700 − 200) × 0.28 = 420 L, 42 min.
        Assert.Null(empty.QuerySelector(".from-shelf"));
        Assert.Contains("Oxygen ends first: 25 min.", page.Body!.TextContent);
        Assert.Contains("Take O-part. Oxygen ends first: 42 min.", page.QuerySelector(".from-shelf")!.TextContent);
    }

    private static async Task<AngleSharp.Dom.IDocument> PostAsync(PlannerApplication application, string? handler, params (string Name, string Value)[] typed)
    {
        using var client = application.CreateClient();
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(handler is null ? "/gas" : "/shelf"));
        var fields = typed.ToDictionary(field => field.Name == "CylinderId" ? field.Name : $"Form.{field.Name}", field => field.Value);
        fields["__RequestVerificationToken"] = ((IHtmlInputElement)page.QuerySelector("[name=__RequestVerificationToken]")!).Value;
        using var form = new FormUrlEncodedContent(fields);
        var response = await client.PostAsync(handler is null ? "/gas" : $"/shelf?handler={handler}", form);
        response.EnsureSuccessStatusCode();
        return new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync());
    }
}
