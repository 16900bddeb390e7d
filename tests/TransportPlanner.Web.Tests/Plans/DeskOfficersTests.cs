using System.Globalization;
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
        var turns = page.QuerySelectorAll("ol").Select(list => list.QuerySelectorAll("li").Select(Turn.Of).ToList()).ToList();
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
        Assert.Equal(Number(open, 1), two.QuerySelectorAll("h2:contains('Nobody') + ul li").Length);
        var byOfficers = ByOfficers().Matches(two.Body!.TextContent).Select(match => double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(byOfficers.OrderDescending(), byOfficers);
        Assert.Equal(double.Parse(open.Groups[2].Value, CultureInfo.InvariantCulture), byOfficers[2]);
        Assert.Contains("Officer 1, now at D-2.13", Words(placed.Body!), StringComparison.Ordinal);
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
            var said = Item().Match(Words(item));
            var walk = Walk().Match(Words(item));
            return new(
                said.Groups[3].Value.Split(", "), TimeSpan.Parse(said.Groups[1].Value, CultureInfo.InvariantCulture), TimeSpan.Parse(said.Groups[2].Value, CultureInfo.InvariantCulture),
                walk.Success ? 60 * (walk.Groups[1].Length > 0 ? int.Parse(walk.Groups[1].Value, CultureInfo.InvariantCulture) : 0) + int.Parse(walk.Groups[2].Value, CultureInfo.InvariantCulture) : 0);
        }
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(\d+) officers? mans? (\d+) posts? of all of them; each transport alone would ask for (\d+) in all\.")]
    private static partial Regex Headline();

    [GeneratedRegex(@"(\d+) posts stay open, and about ([\d.]+) people")]
    private static partial Regex Open();

    [GeneratedRegex(@"\d+: ([\d.]+)(?=[;.])")]
    private static partial Regex ByOfficers();

    [GeneratedRegex(@"^(\d\d:\d\d:\d\d) to (\d\d:\d\d:\d\d), by word: ([\d., ]+) door")]
    private static partial Regex Item();

    [GeneratedRegex(@"Walk to it (?:(\d+) min )?(\d+) s\.")]
    private static partial Regex Walk();
}
