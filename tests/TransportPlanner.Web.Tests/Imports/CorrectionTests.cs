using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Corrections on screen, as forms without script, on the invented annex.</summary>
public sealed class CorrectionTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private static byte[] Annex => WorkbookFile.Write(SmallBuilding.Sheets()).ToArray();

    private async Task<HttpClient> SiteAsync(string site)
    {
        var client = application.CreateClient();
        (await PublishAsync(client, await BringAsync(client, site, "cobie", Annex))).EnsureSuccessStatusCode();
        return client;
    }

    private FloorPlan PlanOf(string site) =>
        application.Services.GetRequiredService<FloorPlanStore>().TryFind(site, out var found) ? found.Plan : throw new InvalidOperationException(site);

    private static async Task<(string Address, IDocument Page)> SendAsync(HttpClient client, string address, string handler, params (string Name, string Value)[] fields)
    {
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var form = page.QuerySelectorAll("form").First(f => f.GetAttribute("action")!.EndsWith($"handler={handler}", StringComparison.Ordinal));
        var sent = form.QuerySelectorAll("input[type=hidden]").Select(i => (i.GetAttribute("name")!, i.GetAttribute("value") ?? "")).Concat(fields);
        var response = await client.PostAsync(form.GetAttribute("action"), new FormUrlEncodedContent(sent.Select(f => KeyValuePair.Create(f.Item1, f.Item2))));
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return (response.RequestMessage!.RequestUri!.AbsolutePath, new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync()));
    }

    private static string Text(INode? node) => Regex.Replace(node?.TextContent ?? "", @"\s+", " ").Trim();

    private static Task<(string Address, IDocument Page)> HeightAsync(HttpClient client, string site, string value) => SendAsync(
        client, $"/corrections/{site}/place/1C2?property=heightMetres", "Fact",
        ("Form.Value", value), ("Form.Source", "Measured"), ("Form.Date", "2026-05-04"), ("Form.By", "Facilities"));

    private static async Task<string> DraftAsync(HttpClient client, string site) =>
        new HtmlParser().ParseDocument(await client.GetStringAsync($"/corrections/{site}/place/1C2")).QuerySelector("#draft a")!.GetAttribute("href")!.Split('/')[^1];

    [Fact]
    public async Task A_fact_is_corrected_a_door_drawn_one_step_taken_back_and_the_rest_published()
    {
        using var client = await SiteAsync("annex-corrected");

        var (_, noted) = await HeightAsync(client, "annex-corrected", "2,45");
        var (_, drawn) = await SendAsync(client, "/corrections/annex-corrected/place/1E15A", "Draw",
            ("Form.Kind", "SlidingDoor"), ("Form.To", "1E16 Office"), ("Form.Width", "1.1"), ("Form.Source", "Measured"), ("Form.Date", "2026-05-04"), ("Form.By", "Facilities"));
        Assert.Contains("has 1 step.", Text(noted.QuerySelector("#draft")));
        Assert.Contains("has 2 steps.", Text(drawn.QuerySelector("#draft")));

        // Nothing is planned on the draft.
        Assert.Equal(1, PlanOf("annex-corrected").Version);
        Assert.DoesNotContain(PlanOf("annex-corrected").Passages, passage => passage.Id == "P 1E15A~1E16");

        var id = await DraftAsync(client, "annex-corrected");
        var (_, undone) = await SendAsync(client, $"/imports/{id}", "Step");
        Assert.Contains("correction 1, taken back", Text(undone.QuerySelector("#steps")));
        Assert.Contains("taken back by Facilities", Text(undone.QuerySelector("#steps")));
        Assert.Equal("noted by hand", Said(await ReadAsync(client, id)));

        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, id)).StatusCode);
        var plan = PlanOf("annex-corrected");
        Assert.Equal(2, plan.Version);
        Assert.Equal(1.1, plan.Passages.Single(passage => passage.Id == "P 1E15A~1E16").ClearWidth.Value.Metres);
        Assert.Equal(2.5, plan.Places.Single(place => place.Number == "1C2").Height.Value.Metres);

        // The next handover file does not know the drawn door, and keeps it.
        var next = await BringAsync(client, "annex-corrected", "cobie", Annex);
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, next)).StatusCode);
        Assert.Contains(PlanOf("annex-corrected").Passages, passage => passage.Id == "P 1E15A~1E16");

        static string Said(JsonNode import) => import["steps"]!.AsArray() is [var first, var second] && first!["takenBack"] is not null && second!["takenBack"] is null ? "noted by hand" : import.ToJsonString();
    }

    [Fact]
    public async Task What_the_plan_in_force_leaves_open_is_not_asked_again_and_what_a_correction_loses_is()
    {
        using var client = await SiteAsync("annex-lost");
        await HeightAsync(client, "annex-lost", "2.45");
        var id = await DraftAsync(client, "annex-lost");
        Assert.Empty((await ReadAsync(client, id))["findings"]!.AsArray());

        await SendAsync(client, "/corrections/annex-lost/place/1E16?property=heightMetres", "Fact", ("Form.Value", ""), ("Form.By", "Facilities"));
        var finding = Assert.Single((await ReadAsync(client, id))["findings"]!.AsArray())!;

        Assert.Equal("lost", $"{finding["path"]}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 1 })).StatusCode);
    }

    [Fact]
    public async Task Steps_are_replayed_on_a_version_that_came_into_force_meanwhile_and_a_contradiction_is_asked()
    {
        using var client = await SiteAsync("annex-meanwhile");
        await HeightAsync(client, "annex-meanwhile", "2.45");
        var id = await DraftAsync(client, "annex-meanwhile");
        var table = await client.GetStringAsync("/api/v1/sites/annex-meanwhile/facts");
        var facts = await BringAsync(client, "annex-meanwhile", "facts", System.Text.Encoding.UTF8.GetBytes("number,heightMetres,heightMetres known\r\n1C2,2.4,measured 2026-05-03\r\n"));
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, facts)).StatusCode);
        Assert.Contains("1C2", table);

        var finding = Assert.Single((await ReadAsync(client, id))["findings"]!.AsArray())!;
        Assert.Contains("was 2.5 when it was corrected to 2.45, and is 2.4 in the plan in force by now", $"{finding["text"]}");
        Assert.Equal("compared-with-another", await CodeAsync(await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 1 })));
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, id)).StatusCode);
        Assert.Equal(2.45, PlanOf("annex-meanwhile").Places.Single(place => place.Number == "1C2").Height.Value.Metres);
    }

    [Fact]
    public async Task Two_versions_stand_side_by_side_with_who_published_them_and_when()
    {
        using var client = await SiteAsync("annex-versions");
        var (_, one) = await PageAsync(client, "/floor-plan-versions/annex-versions");
        await HeightAsync(client, "annex-versions", "2.45");
        await SendAsync(client, "/corrections/annex-versions/place/1E15A", "Draw", ("Form.Kind", "Opening"), ("Form.To", "1E16"), ("Form.By", "Facilities"));
        (await PublishAsync(client, await DraftAsync(client, "annex-versions"))).EnsureSuccessStatusCode();

        var (_, page) = await PageAsync(client, "/floor-plan-versions/annex-versions");
        var rows = page.QuerySelectorAll("#changes tbody tr").Select(Text).ToList();
        var changes = (await client.GetFromJsonAsync<JsonNode>("/api/v1/sites/annex-versions/floor-plan/versions/2/changes"))!;
        var back = (await client.GetFromJsonAsync<JsonNode>("/api/v1/sites/annex-versions/floor-plan/versions/1/changes?since=2"))!;

        Assert.Contains("There is one version", Text(one.QuerySelector("main")));
        Assert.Matches(@"^2, in force \d{4}-\d\d-\d\d \d\d:\d\d \(UTC[+-]\d\d:\d\d\) Facilities Corrections$", Text(page.QuerySelector("tbody tr")));
        Assert.Contains("1 added, 1 changed.", Text(page.QuerySelector("#changes")));
        Assert.Equal(["passage P 1E15A~1E16, added", "place 1C2, changedheightMetres 2.5 (drawing 2025-03-09) 2.45 (measured 2026-05-04)"], rows);
        Assert.Equal("/floor-plan/annex-versions/Level%201/1C2", page.QuerySelectorAll("#changes tbody a")[1].GetAttribute("href"));
        Assert.Equal(["added", "changed"], changes["changes"]!.AsArray().Select(change => $"{change!["kind"]}"));
        Assert.Equal(["gone", "changed"], back["changes"]!.AsArray().Select(change => $"{change!["kind"]}"));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sites/annex-versions/floor-plan/versions/1/changes")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/floor-plan-versions/nowhere")).StatusCode);
    }

    private static async Task<(HttpStatusCode Status, IDocument Page)> PageAsync(HttpClient client, string address)
    {
        var response = await client.GetAsync(address);
        return (response.StatusCode, new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync()));
    }

    [Theory]
    [InlineData("Form.Value", "high", "\"high\" is not taken: give a number from 0.5 to 200 metres")]
    [InlineData("Form.Source", "", "Say how it is known")]
    [InlineData("Form.Date", "", "Give the day")]
    [InlineData("Form.By", "", "Say who corrects it: a role")]
    public async Task What_is_missing_or_wrong_is_said_and_stays_typed(string field, string value, string words)
    {
        using var client = await SiteAsync("annex-wrong");
        (string, string)[] fields = [("Form.Value", "2.45"), ("Form.Source", "Measured"), ("Form.Date", "2026-05-04"), ("Form.By", "Facilities")];

        var (_, page) = await SendAsync(client, "/corrections/annex-wrong/place/1C2?property=heightMetres", "Fact", [.. fields.Select(f => f.Item1 == field ? (field, value) : f)]);

        Assert.Contains(words, Text(page.QuerySelector("[role=alert]")));
        Assert.Equal(field == "Form.Value" ? value : "2.45", page.QuerySelector("#value")!.GetAttribute("value"));
        Assert.Contains("Version ", Text(page.QuerySelector("#draft")));
    }

    [Fact]
    public async Task Stops_are_set_a_door_is_taken_out_and_an_empty_draft_is_not_published()
    {
        using var client = await SiteAsync("annex-stops");
        await SendAsync(client, "/corrections/annex-stops/elevator/E1", "Stop", ("stops", "false"), ("Form.Landing", "2C1"), ("Form.By", "Facilities"));
        var (address, removed) = await SendAsync(client, "/corrections/annex-stops/passage/D2", "Remove", ("Form.By", "Facilities"));
        var id = address.Split('/')[^1];
        Assert.Contains("elevator E1 does not stop at 2C1", Text(removed.QuerySelector("#steps")));
        Assert.Contains("passage D2 taken out", Text(removed.QuerySelector("#steps")));

        var keys = (await ReadAsync(client, id))["steps"]!.AsArray().Select(step => ($"{step!["key"]}", "open", (string?)null)).ToList();
        (await ChangeAsync(client, id, "decisions", Decisions(keys))).EnsureSuccessStatusCode();
        Assert.Equal("answer-refused", await CodeAsync(await ChangeAsync(client, id, "decisions", Decisions([(keys[0].Item1, "accepted", "why")]))));
        Assert.Equal("findings-open", await CodeAsync(await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 1 })));
    }

    [Fact]
    public async Task Corrections_have_no_file_and_what_is_not_there_has_no_page()
    {
        using var client = application.CreateClient();
        var begun = await client.PostAsJsonAsync("/api/v1/imports", new JsonObject { ["siteId"] = "annex", ["fileName"] = "x", ["format"] = "corrections", ["by"] = "Facilities" });

        Assert.Equal(HttpStatusCode.BadRequest, begun.StatusCode);
        Assert.Contains("on the page of a place", await begun.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/corrections/demonstration/place/none")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/corrections/nowhere/place/D-2.11")).StatusCode);
        Assert.Contains("/corrections/demonstration/place/D-2.11", await client.GetStringAsync("/floor-plan/demonstration/2/D-2.11"));
    }

    private static async Task<string> CodeAsync(HttpResponseMessage response) => $"{(await response.Content.ReadFromJsonAsync<JsonNode>())!["code"]}";
}
