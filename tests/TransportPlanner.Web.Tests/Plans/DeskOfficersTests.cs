using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using static TransportPlanner.Web.Tests.Sites.DisplayedSite;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>The officers for two transports together. That their number is the least and their use the best is proved in the tests of the core.</summary>
public sealed partial class DeskOfficersTests
{
    private const string First = """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "departAt": "2026-05-04T02:40:00Z" }""";
    private static readonly string Second = First.Replace("02:40", "02:43", StringComparison.Ordinal).Replace("D-2.14", "D-2.11", StringComparison.Ordinal).Replace("N-4.03", "N-4.02", StringComparison.Ordinal);

    // The third transport goes the way of the first a minute later, so that doors are needed by both at once.
    [Fact]
    public async Task Every_post_of_all_is_dealt_once_in_lists_that_can_be_walked_by_fewer_than_each_alone_asks_for()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        await PlanAsync(client, First);
        await PlanAsync(client, Second);
        await PlanAsync(client, First.Replace("02:40", "02:41", StringComparison.Ordinal));
        var marks = (await PageAsync(client, "/desk")).QuerySelectorAll("table.desk-posts tbody th").Select(head => Words(head).Split(' ')[0]).Order().ToList();

        var page = await PageAsync(client, "/officers");

        var said = Headline().Match(Words(page.QuerySelector("p.answer")!));
        var (fewest, posts, apart) = (Number(said, 1), Number(said, 2), Number(said, 3));
        Assert.InRange(fewest, 1, apart - 1);
        var turns = page.QuerySelectorAll("ol.post-card").Select(list => list.QuerySelectorAll("li").Select(Turn.Of).ToList()).ToList();
        Assert.Equal(fewest, turns.Count);
        Assert.Equal(posts, turns.Sum(list => list.Count));
        Assert.Equal(marks, turns.SelectMany(list => list.SelectMany(turn => turn.Marks)).Order());
        Assert.Contains(turns, list => list.Any(turn => turn.Marks.Select(mark => mark[0]).Distinct().Count() == 2));
        Assert.All(turns, list => Assert.All(list.Zip(list.Skip(1)), pair =>
            // 15 s is the margin of the demonstration hospital.
            Assert.True(pair.First.To + TimeSpan.FromSeconds(pair.Second.WalkSeconds + 15) <= pair.Second.From, $"{pair.First} then {pair.Second}")));
    }

    [Fact]
    public async Task Fewer_officers_leave_posts_open_with_what_it_costs_and_starting_places_count()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        await PlanAsync(client, First);
        await PlanAsync(client, Second);

        var all = Words((await PageAsync(client, "/officers")).QuerySelector("p.answer")!);
        var two = await PageAsync(client, "/officers?count=2");
        var placed = await PageAsync(client, "/officers?count=2&starts=D-2.13,D-2.14");

        Assert.Contains("Every post is manned.", all, StringComparison.Ordinal);
        var open = Open().Match(Words(two.QuerySelector("p.answer")!));
        Assert.Equal(Number(open, 1), two.QuerySelectorAll("h3:contains('Nobody') + ul li").Length);
        var byOfficers = ByOfficers().Matches(two.Body!.TextContent).Select(match => double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(byOfficers.OrderDescending(), byOfficers);
        Assert.Equal(double.Parse(open.Groups[2].Value, CultureInfo.InvariantCulture), byOfficers[2]);
        Assert.Contains("From D-2.13 walk to your post", Words(placed.Body!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_API_gives_the_lists_of_the_page_with_whose_post_each_turn_is()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        await PlanAsync(client, First);
        await PlanAsync(client, Second);
        await PlanAsync(client, First.Replace("02:40", "02:41", StringComparison.Ordinal));

        var answer = await client.GetFromJsonAsync<JsonNode>(new Uri("/api/v1/transports/officers?siteId=demonstration&count=3&starts=D-2.13&starts=D-2.14", UriKind.Relative));
        var page = await PageAsync(client, "/officers?count=3&starts=D-2.13,D-2.14");
        var desk = await client.GetFromJsonAsync<JsonNode>(new Uri("/api/v1/transports?siteId=demonstration", UriKind.Relative));

        Assert.Equal(3, answer!["officers"]!.AsArray().Count);
        var cards = page.QuerySelectorAll("section.officer").Select(card => string.Join(' ', card.QuerySelectorAll(".post-card > li").SelectMany(item => Turn.Of(item).Marks)));
        Assert.Equal(cards, answer["officers"]!.AsArray().Select(officer => string.Join(' ', officer!["turns"]!.AsArray().SelectMany(turn => turn!["of"]!.AsArray().Select(of => $"{of!["mark"]}")))));
        // Every post of every transport is somewhere, once.
        var dealt = answer["officers"]!.AsArray().SelectMany(officer => officer!["turns"]!.AsArray()).Concat(answer["unmanned"]!.AsArray())
            .SelectMany(turn => turn!["of"]!.AsArray()).Select(of => $"{of!["planId"]} {of["post"]}").Order(StringComparer.Ordinal);
        Assert.Equal(
            desk!["transports"]!.AsArray().SelectMany(transport => transport!["posts"]!.AsArray().Select(post => $"{transport["planId"]} {post!["post"]}")).Order(StringComparer.Ordinal), dealt);
    }

    [Theory]
    [InlineData("siteId=nowhere", 404, "")]
    [InlineData("siteId=demonstration&count=61", 400, "count")]
    [InlineData("siteId=demonstration&count=two", 400, "count")]
    [InlineData("siteId=demonstration&starts=D-2.14", 400, "count")]
    [InlineData("siteId=demonstration&count=1&starts=nowhere", 400, "starts")]
    public async Task The_API_names_the_field(string query, int status, string field)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();

        var response = await client.GetAsync(new Uri($"/api/v1/transports/officers?{query}", UriKind.Relative));

        Assert.Equal(status, (int)response.StatusCode);
        var problem = await response.Content.ReadFromJsonAsync<JsonNode>();
        Assert.Equal(field.Length > 0, problem!["errors"]?[field] is not null);
    }

    [Fact]
    public async Task A_pack_names_the_cards_for_all_where_another_transport_leaves_that_day()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        await PlanAsync(client, First);
        var alone = (await PageAsync(client, (await PageAsync(client, "/desk")).QuerySelector("a[href*='/plans/']")!.GetAttribute("href")!.Split('?')[0].TrimEnd('/') + "/pack?only=Posts")).Body!.TextContent;
        await PlanAsync(client, Second);
        var together = (await PageAsync(client, (await PageAsync(client, "/desk")).QuerySelector("a[href*='/plans/']")!.GetAttribute("href")!.Split('?')[0].TrimEnd('/') + "/pack?only=Posts")).Body!.TextContent;

        Assert.DoesNotContain("Another transport leaves", alone, StringComparison.Ordinal);
        Assert.Contains("Another transport leaves within 24 hours.", together, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("count=61", "count", "0 to 60")]
    [InlineData("count=two", "count", "0 to 60")]
    [InlineData("starts=D-2.14", "count", "how many officers")]
    [InlineData("count=1&starts=nowhere", "starts", "nowhere is no place")]
    [InlineData("count=1&starts=D-2.14,D-2.11", "starts", "more than 1 officer")]
    public async Task What_cannot_be_is_named_at_its_field_and_stays_typed(string query, string field, string words)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();

        var page = await PageAsync(client, $"/officers?{query}");

        Assert.Contains(words, page.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(field, page.QuerySelector("[aria-invalid=true]")!.Id);
        Assert.All(query.Split('&').Select(pair => pair.Split('=')), pair => Assert.Equal(pair[1], page.QuerySelector($"input[name={pair[0]}]")!.GetAttribute("value")));
    }

    private sealed record Turn(IReadOnlyList<string> Marks, TimeSpan From, TimeSpan To, int WalkSeconds)
    {
        public static Turn Of(IElement item)
        {
            var walk = Walk().Match(Words(item));
            var times = Times().Match(Words(item.QuerySelector(".when")!));
            return new(
                [.. Mark().Matches(Words(item)).Select(match => match.Groups[1].Value)], TimeSpan.Parse(times.Groups[1].Value, CultureInfo.InvariantCulture),
                TimeSpan.Parse(times.Groups[2].Value, CultureInfo.InvariantCulture),
                walk.Success ? 60 * (walk.Groups[1].Length > 0 ? int.Parse(walk.Groups[1].Value, CultureInfo.InvariantCulture) : 0) + int.Parse(walk.Groups[2].Value, CultureInfo.InvariantCulture) : 0);
        }
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(\d+) officers? for (\d+) posts of all transports; each transport alone would ask for (\d+) in all\.")]
    private static partial Regex Headline();

    [GeneratedRegex(@"(\d+) posts stay open, and about ([\d.]+) people")]
    private static partial Regex Open();

    [GeneratedRegex(@"\d+: ([\d.]+)(?=[;.])")]
    private static partial Regex ByOfficers();

    [GeneratedRegex(@"Be there by (\d\d:\d\d:\d\d).* nearly always by (\d\d:\d\d:\d\d)")]
    private static partial Regex Times();

    [GeneratedRegex(@" \((\d+\.\d+)\)")]
    private static partial Regex Mark();

    [GeneratedRegex(@"[Ww]alk to (?:the next|your) post: (?:(\d+) min )?(\d+) s\.")]
    private static partial Regex Walk();
}
