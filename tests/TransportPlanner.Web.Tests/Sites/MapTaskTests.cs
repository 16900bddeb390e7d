using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Sites;

/// <summary>What did not fit on the way becomes a task of the floor plan, and is done when it was corrected.</summary>
public sealed class MapTaskTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Tasks = "/api/v1/sites/demonstration/map-tasks";

    private static async Task<JsonArray> OpenAsync(HttpClient client) => (await client.GetFromJsonAsync<JsonNode>(Tasks))!["tasks"]!.AsArray();

    private static async Task<string> TokenAsync(HttpClient client, string address) =>
        new HtmlParser().ParseDocument(await client.GetStringAsync(address)).QuerySelector("input[name=__RequestVerificationToken]")!.GetAttribute("value")!;

    [Fact]
    public async Task A_task_is_added_listed_and_done_once_by_its_etag()
    {
        using var client = application.CreateClient();
        var added = await client.PostAsJsonAsync(Tasks, new { target = "elevator", targetId = "C1", text = "did not come", by = "Security" });
        var id = $"{(await added.Content.ReadFromJsonAsync<JsonNode>())!["id"]}";
        async Task<HttpResponseMessage> DoneAsync(string tag)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, $"{Tasks}/{id}/done") { Content = JsonContent.Create(new { by = "Facilities", how = "Call button mended" }) };
            request.Headers.TryAddWithoutValidation("If-Match", tag);
            return await client.SendAsync(request);
        }

        Assert.Equal(HttpStatusCode.Created, added.StatusCode);
        Assert.Contains(await OpenAsync(client), task => $"{task!["id"]}" == id && $"{task["reportedAt"]}" == "2026-05-04T02:10:00+00:00");
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await DoneAsync("\"7\"")).StatusCode);
        var done = await DoneAsync("\"1\"");
        Assert.Equal(HttpStatusCode.OK, done.StatusCode);
        Assert.Equal("Call button mended", $"{(await done.Content.ReadFromJsonAsync<JsonNode>())!["doneHow"]}");
        Assert.Equal(HttpStatusCode.Conflict, (await DoneAsync("\"2\"")).StatusCode);
        Assert.DoesNotContain(await OpenAsync(client), task => $"{task!["id"]}" == id);
    }

    [Fact]
    public async Task What_the_floor_plan_does_not_have_is_impossible_and_an_unknown_task_or_site_not_found()
    {
        using var client = application.CreateClient();

        var unknown = await client.PostAsJsonAsync(Tasks, new { target = "passage", targetId = "no such door", text = "did not open", by = "Security" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, unknown.StatusCode);
        Assert.Equal("unknown-target", $"{(await unknown.Content.ReadFromJsonAsync<JsonNode>())!["code"]}");
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sites/nowhere/map-tasks")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.PostAsJsonAsync($"{Tasks}/none/done", new { by = "Facilities", how = "Nothing" })).StatusCode);
    }

    [Fact]
    public async Task A_door_that_did_not_open_goes_from_the_sheet_to_a_task_that_its_correction_does()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var plan = await (await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "airborne" } }))
            .Content.ReadFromJsonAsync<JsonNode>();
        var way = plan!["routes"]!["routes"]![0]!;
        var door = $"{way["legs"]!.AsArray().First(leg => leg!["doors"]!.AsArray().Count > 0)!["doors"]![0]!["passage"]}";
        var report = $"/plans/{plan["id"]}/report?way={way["id"]}";
        Assert.Contains($"/plans/{plan["id"]}/report?way={way["id"]}", await client.GetStringAsync($"/plans/{plan["id"]}?way={way["id"]}"), StringComparison.Ordinal);
        var form = new Dictionary<string, string>
        {
            ["what"] = $"Passage:{door}",
            ["text"] = "did not open",
            ["role"] = "Clean helper",
            ["__RequestVerificationToken"] = await TokenAsync(client, report),
        };

        var kept = await (await client.PostAsync(report, new FormUrlEncodedContent(form))).Content.ReadAsStringAsync();
        var nothing = await (await client.PostAsync(report, new FormUrlEncodedContent(new Dictionary<string, string>(form) { ["what"] = "Passage:none" }))).Content.ReadAsStringAsync();

        Assert.Contains($"{door} did not open", kept, StringComparison.Ordinal);
        Assert.Contains("Not kept.", nothing, StringComparison.Ordinal);
        var task = Assert.Single(await OpenAsync(client))!;
        Assert.Equal(("passage", door, "Clean helper"), ($"{task["target"]}", $"{task["targetId"]}", $"{task["reportedBy"]}"));
        Assert.Contains(door, await client.GetStringAsync("/map-tasks/demonstration"), StringComparison.Ordinal);

        var correction = $"/corrections/demonstration/passage/{door}";
        var corrected = await client.PostAsync($"{correction}?handler=Fact", new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["Form.Property"] = "access",
            ["Form.Value"] = "key",
            ["Form.By"] = "Facilities",
            ["__RequestVerificationToken"] = await TokenAsync(client, correction),
        }));
        corrected.EnsureSuccessStatusCode();
        Assert.Single(await OpenAsync(client));
        var import = (await client.GetFromJsonAsync<JsonNode>("/api/v1/imports"))!["imports"]!.AsArray().Single()!;
        var published = await Imports.ImportFlow.PublishAsync(client, $"{import["id"]}");

        Assert.True(published.IsSuccessStatusCode, await published.Content.ReadAsStringAsync());
        Assert.Empty(await OpenAsync(client));
        Assert.Contains("corrected in version 2", await client.GetStringAsync("/map-tasks/demonstration"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_task_is_done_by_hand_on_its_page_with_what_was_done()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        await client.PostAsJsonAsync(Tasks, new { target = "elevator", targetId = "C1", text = "did not come", by = "Security" });
        const string page = "/map-tasks/demonstration";
        var id = $"{(await OpenAsync(client)).Single()!["id"]}";
        var form = new Dictionary<string, string> { ["task"] = id, ["by"] = "", ["how"] = "", ["__RequestVerificationToken"] = await TokenAsync(client, page) };

        var silent = await (await client.PostAsync($"{page}?handler=Done", new FormUrlEncodedContent(form))).Content.ReadAsStringAsync();
        var done = await (await client.PostAsync($"{page}?handler=Done", new FormUrlEncodedContent(new Dictionary<string, string>(form) { ["by"] = "Facilities", ["how"] = "Button mended" }))).Content.ReadAsStringAsync();

        Assert.Contains("Not taken.", silent, StringComparison.Ordinal);
        Assert.Contains("Button mended", done, StringComparison.Ordinal);
        Assert.Empty(await OpenAsync(client));
    }
}
