using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp;
using AngleSharp.Dom;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Posts;

/// <summary>Posts in the plan's answer and on its sheet.</summary>
public sealed class PlanPostsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Airborne = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"] }
        """;

    [Fact]
    public async Task Each_way_has_its_posts_and_the_fewest_officers_that_man_them_all()
    {
        var plan = await Make(Airborne);

        Assert.Equal(plan["routes"]!["routes"]!.AsArray().Select(r => $"{r!["id"]}"), plan["posts"]!.AsArray().Select(p => $"{p!["route"]}"));
        foreach (var way in plan["posts"]!.AsArray())
        {
            var (posts, officers) = (way!["posts"]!.AsArray(), way["officers"]!.AsArray());
            Assert.NotEmpty(posts);
            Assert.Equal((int)way["fewestOfficers"]!, officers.Count);
            Assert.Empty(way["unmanned"]!.AsArray());
            Assert.Equal(0, (double)way["peopleLikelyMet"]!);
            Assert.Equal(
                posts.Select(p => $"{p!["id"]}").Order(),
                officers.SelectMany(o => o!["duties"]!.AsArray()).Select(d => $"{d!["post"]}").Order());
            Assert.All(posts, post => Assert.Contains(
                $"{post!["kind"]}" == "elevator" ? "taken for a transport" : "held for a transport", $"{post["say"]}", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Fewer_officers_leave_posts_open_and_the_people_likely_met_there_are_their_sum()
    {
        var plan = await Make(With("officers", JsonNode.Parse("""{ "count": 1 }""")!));

        foreach (var way in plan["posts"]!.AsArray().Where(p => (int)p!["fewestOfficers"]! > 1))
        {
            var open = way!["unmanned"]!.AsArray().Select(id => $"{id}").ToHashSet();
            Assert.NotEmpty(open);
            Assert.Single(way["officers"]!.AsArray());
            var sum = way["posts"]!.AsArray().Where(p => open.Contains($"{p!["id"]}")).Sum(p => (double)p!["peopleLikelyMet"]!);
            Assert.Equal(sum, (double)way["peopleLikelyMet"]!, 6);
            Assert.Equal((double)way["peopleLikelyMetByOfficers"]![1]!, sum, 6);
        }
    }

    [Fact]
    public async Task Under_precautions_for_which_the_site_holds_no_corridor_no_place_is_held()
    {
        var plan = await Make(With("precautions", new JsonArray("contact")));

        Assert.All(plan["posts"]!.AsArray(), way => Assert.Empty(way!["held"]!.AsArray()));
    }

    [Theory]
    [InlineData("""{ "count": 61 }""", HttpStatusCode.BadRequest, "officers.count")]
    [InlineData("""{ "count": 1, "starts": ["D-2.14", "D-2.14"] }""", HttpStatusCode.BadRequest, "officers.starts")]
    [InlineData("""{ "count": 1, "starts": ["nowhere"] }""", HttpStatusCode.UnprocessableEntity, "officers.starts[0]")]
    public async Task Officers_that_cannot_be_are_refused_by_field(string officers, HttpStatusCode status, string field)
    {
        var (answered, body) = await Post(With("officers", JsonNode.Parse(officers)!));

        Assert.Equal(status, answered);
        Assert.NotNull(body["errors"]![field]);
    }

    [Fact]
    public async Task The_sheet_has_the_whole_and_a_card_for_each_officer()
    {
        var plan = await Make(Airborne);
        var way = plan["posts"]![0]!;

        var sheet = await Page($"/plans/{plan["id"]}?way={way["route"]}&only=Posts");

        Assert.Equal(1 + way["officers"]!.AsArray().Count, sheet.QuerySelectorAll("section.page").Length);
        var text = sheet.Body!.TextContent;
        Assert.All(way["posts"]!.AsArray(), post => Assert.Contains($"{post!["say"]}", text, StringComparison.Ordinal));
        Assert.Contains("The clock releases nobody", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_plan_that_was_stored_before_posts_were_planned_still_opens_and_says_so()
    {
        var plan = await Make(Airborne);
        var id = $"{plan["id"]}";
        await using (var scope = application.Services.CreateAsyncScope())
        {
            var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
            var stored = JsonNode.Parse((await context.PlanVersions.SingleAsync(v => v.PlanId == id)).Snapshot)!.AsObject();
            stored.Remove("posts");
            var older = stored.ToJsonString();
            await context.PlanVersions.Where(v => v.PlanId == id).ExecuteUpdateAsync(v => v.SetProperty(row => row.Snapshot, older));
        }

        var sheet = await Page($"/plans/{id}?only=Posts");

        Assert.Contains("made before posts were planned", sheet.Body!.TextContent, StringComparison.Ordinal);
    }

    private static string With(string member, JsonNode value)
    {
        var body = JsonNode.Parse(Airborne)!.AsObject();
        body[member] = value;
        return body.ToJsonString();
    }

    private async Task<JsonNode> Make(string json)
    {
        var (status, body) = await Post(json);
        Assert.Equal(HttpStatusCode.Created, status);
        return body;
    }

    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string json)
    {
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        var response = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private async Task<IDocument> Page(string address)
    {
        using var client = application.CreateClient();
        var html = await client.GetStringAsync(new Uri(address, UriKind.Relative));
        return await BrowsingContext.New(Configuration.Default).OpenAsync(page => page.Content(html));
    }
}
