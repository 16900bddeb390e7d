using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using static TransportPlanner.Web.Tests.Sites.DisplayedSite;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>What the desk and the cards say of two transports at once, against the plans themselves.</summary>
public sealed class TwoTransportsTests
{
    private const string First = """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "departAt": "2026-05-04T02:40:00Z" }""";
    private static readonly string Second = First.Replace("02:40", "02:43", StringComparison.Ordinal).Replace("D-2.14", "D-2.11", StringComparison.Ordinal).Replace("N-4.03", "N-4.02", StringComparison.Ordinal);

    [Fact]
    public async Task The_desk_shows_each_overlap_of_the_ways_shown_once_with_both_windows()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var second = await PlanAsync(client, Second);
        Assert.DoesNotContain("Two transports at once", (await PageAsync(client, "/desk")).Body!.TextContent, StringComparison.Ordinal);
        var first = await PlanAsync(client, First);

        var tables = (await PageAsync(client, "/desk")).QuerySelectorAll("table.overlap");

        var table = Assert.Single(tables);
        Assert.Equal([$"{first["callSign"]}", $"{second["callSign"]}"], table.QuerySelectorAll("thead th").Skip(1).Take(2).Select(head => head.TextContent));
        var way = $"{first["routes"]!["routes"]!.AsArray().First(r => r!["reasons"]!.AsArray().Any(reason => $"{reason}" == "least-exposed"))!["id"]}";
        var theirs = $"{second["routes"]!["routes"]!.AsArray().First(r => r!["reasons"]!.AsArray().Any(reason => $"{reason}" == "least-exposed"))!["id"]}";
        var places = first["overlaps"]!.AsArray().Single(overlap => $"{overlap!["route"]}" == way)!["transports"]![0]!["places"]!.AsArray()
            .Where(place => place!["theirRoutes"]!.AsArray().Any(route => $"{route}" == theirs)).ToList();
        var rows = table.QuerySelectorAll("tbody tr");
        Assert.NotEmpty(places);
        Assert.Equal(places.Select(place => $"{place!["place"]}"), rows.Select(row => Words(row.Children[0]).Split(' ')[0]));
        foreach (var (place, row) in places.Zip(rows))
        {
            Assert.StartsWith($"{Local(place!["ours"]!["from"]):HH:mm:ss} to {Local(place["ours"]!["to"]):HH:mm:ss}", row.Children[1].TextContent, StringComparison.Ordinal);
            Assert.StartsWith($"{Local(place["theirs"]!["from"]):HH:mm:ss} to {Local(place["theirs"]!["to"]):HH:mm:ss}", row.Children[2].TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_transport_that_is_over_is_shown_until_its_air_is_renewed()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var over = await PlanAsync(client, First.Replace("02:40", "03:10", StringComparison.Ordinal));
        application.Time.Advance(TimeSpan.FromMinutes(91));
        var next = await PlanAsync(client, First.Replace("02:40", "03:42", StringComparison.Ordinal));

        var table = (await PageAsync(client, "/desk")).QuerySelector("table.overlap")!;

        Assert.Contains($"{next["callSign"]}, before it is free of {over["callSign"]}", table.TextContent, StringComparison.Ordinal);
        Assert.Contains("1 transport", (await PageAsync(client, "/desk")).QuerySelector("[role=status]")!.TextContent.Replace("One", "1", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_desk_lists_the_posts_of_all_transports_by_time_and_by_officer()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var first = await PlanAsync(client, First);
        var second = await PlanAsync(client, Second);
        int Posts(JsonNode plan) => plan["posts"]!.AsArray().Single(posts => $"{posts!["route"]}" == Way(plan))!["posts"]!.AsArray().Count;

        var byTime = Rows(await PageAsync(client, "/desk"));
        var byOfficer = Rows(await PageAsync(client, "/desk/demonstration?by=officer"));

        Assert.Equal(Posts(first) + Posts(second), byTime.Count);
        Assert.Equal(byTime.Order(), byOfficer.Order());
        Assert.Equal(byTime.Select(row => row.From).Order(), byTime.Select(row => row.From));
        Assert.Contains(byTime, row => row.Mark.StartsWith("1.", StringComparison.Ordinal));
        Assert.Contains(byTime, row => row.Mark.StartsWith("2.", StringComparison.Ordinal));

        // Each officer's posts stand together, in the order in which they are walked.
        var officers = byOfficer.Select(row => row.Officer).ToList();
        Assert.Equal(officers.Distinct().Count(), officers.Zip(officers.Skip(1)).Count(pair => pair.First != pair.Second) + 1);
        Assert.All(byOfficer.GroupBy(row => row.Officer), own => Assert.Equal(own.Select(row => row.From).Order(), own.Select(row => row.From)));
        Assert.NotEqual(byTime, byOfficer);
    }

    [Fact]
    public async Task Two_posts_at_one_door_at_once_name_each_other()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        await PlanAsync(client, First);
        Assert.DoesNotContain("Same door", (await PageAsync(client, "/desk")).Body!.TextContent, StringComparison.Ordinal);
        await PlanAsync(client, First);

        var rows = Rows(await PageAsync(client, "/desk"));

        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.EndsWith($"Same door then: {(row.Mark[0] == '1' ? '2' : '1')}{row.Mark[1..]}", row.Where, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Huddle", ".spoken .other")]
    [InlineData("Strip", "p.other")]
    public async Task The_cards_name_the_transport_that_the_way_comes_upon_in_one_line(string sheet, string line)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var first = await PlanAsync(client, First);
        Assert.Null((await PageAsync(client, $"/plans/{first["id"]}/pack?only={sheet}")).QuerySelector(line));
        var second = await PlanAsync(client, Second);

        var words = Words((await PageAsync(client, $"/plans/{first["id"]}/pack?only={sheet}")).QuerySelector(line)!);

        var met = (await PlanAgainAsync(client, first))["overlaps"]!.AsArray().Single(overlap => $"{overlap!["route"]}" == Way(first))!["transports"]![0]!["places"]![0]!;
        Assert.Contains($"{second["callSign"]} crosses in {met["place"]}, {Local(met["theirs"]!["from"]):HH:mm} to ", words, StringComparison.Ordinal);
        Assert.EndsWith("agree who goes first.", words, StringComparison.Ordinal);
        var card = await PageAsync(client, $"/plans/{first["id"]}/pack?only=Huddle");
        Assert.InRange(Words(card.QuerySelector(".spoken")!).Split(' ').Length, 60, 150);
    }

    // A plan that leaves now is late in every step, so every sheet counts to the earliest go that fits. API: the plan's own departure.
    [Fact]
    public async Task Every_sheet_and_card_counts_from_the_earliest_go_where_the_departure_leaves_too_little_time()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var plan = await PlanAsync(client, Body);
        var way = plan["routes"]!["routes"]!.AsArray().First(one => $"{one!["id"]}" == Way(plan))!;
        var timeline = plan["timeline"]!.AsArray().First(line => $"{line!["route"]}" == Way(plan) && $"{line["tempo"]}" == "urgent")!;
        var (go, planned) = (Instant(timeline["earliestGo"]), Instant(plan["routes"]!["departAt"]));
        var minutes = Math.Ceiling((go - planned).TotalMinutes);
        Assert.True(minutes > 1, $"{minutes}");
        var says = $"All times: go at {Local(go):HH:mm}, the earliest that fits, {minutes} min after the planned {Local(planned):HH:mm}.";

        var pack = await PageAsync(client, $"/plans/{plan["id"]}/pack");
        var heads = pack.QuerySelectorAll(".pack-head").ToList();
        Assert.NotEmpty(heads);
        Assert.All(heads, head => Assert.Contains(says, Words(head), StringComparison.Ordinal));
        var sheet = await PageAsync(client, $"/plans/{plan["id"]}");
        Assert.All(sheet.QuerySelectorAll(".print-head"), head => Assert.Contains(says, Words(head), StringComparison.Ordinal));

        Assert.Contains($"go at {Local(go):HH:mm}.", Words(pack.QuerySelector(".spoken")!), StringComparison.Ordinal);
        string Arrives(string member) => $"{Local(go.AddSeconds((double)way[member]!).AddSeconds(59.999)):HH:mm}";
        Assert.Contains($"{Arrives("usualSeconds")} to {Arrives("nearlyAlwaysSeconds")}", Words(pack.QuerySelector(".door-front")!), StringComparison.Ordinal);
        var posts = plan["posts"]!.AsArray().First(one => $"{one!["route"]}" == Way(plan))!["posts"]!.AsArray();
        var first = posts.MinBy(post => Instant(post!["from"]))!;
        var shown = pack.QuerySelectorAll(".post-card .when").Concat(sheet.QuerySelectorAll(".post-card .when")).Select(Words).ToList();
        Assert.Equal(2 * posts.Count(post => Instant(post!["from"]) == Instant(first["from"])), shown.Count(words => words.StartsWith($"Be there by {Local(Instant(first["from"]) + (go - planned)):HH:mm:ss} (", StringComparison.Ordinal)));
        Assert.DoesNotContain("Go there at once", Words(pack.Body!) + Words(sheet.Body!), StringComparison.Ordinal);
        var list = await PageAsync(client, $"/plans/{plan["id"]}?only=Posts");
        Assert.Contains(list.QuerySelectorAll("td[data-label=from]").Select(Words), from => from == $"{Local(Instant(first["from"]) + (go - planned)):HH:mm:ss}");
        Assert.DoesNotContain("Too late for this departure", Words(list.Body!), StringComparison.Ordinal);

        var fits = await PlanAsync(client, Body.Replace("\"support\"", "\"departAt\": \"2026-05-04T06:00:00Z\", \"support\"", StringComparison.Ordinal));
        Assert.DoesNotContain("All times:", (await PageAsync(client, $"/plans/{fits["id"]}/pack")).Body!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("selfVentilating", "For the support, none: bag or T-piece")]
    [InlineData("cpap", "For the support, CPAP: its device")]
    [InlineData("invasiveVentilation", "For the support, ventilator by tube: a tested ventilator")]
    public async Task The_receiving_door_names_the_support_and_what_stands_ready_for_it_and_nothing_else_of_the_infant(string support, string ready)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var plan = await PlanAsync(client, First.Replace("\"cpap\"", $"\"{support}\", \"weightGrams\": 1837, \"gestationWeeks\": 33", StringComparison.Ordinal));

        var page = await PageAsync(client, $"/plans/{plan["id"]}/pack?only=Receiving");

        Assert.Contains(ready, Words(page.Body!), StringComparison.Ordinal);
        Assert.DoesNotContain("upport", page.QuerySelector(".door-front")!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"(?i)1[ ,.]?837|\b33\b|gestation|weight|gram|mother|diagnos", page.QuerySelector("section.card")!.TextContent.Replace($"{plan["id"]}", "", StringComparison.Ordinal));
    }

    /// <summary>An instant on the clocks of the demonstration hospital.</summary>
    private static DateTimeOffset Local(JsonNode? instant) => Local(Instant(instant));

    private static DateTimeOffset Local(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById("Europe/Lisbon"));

    private static DateTimeOffset Instant(JsonNode? instant) => DateTimeOffset.Parse($"{instant}", System.Globalization.CultureInfo.InvariantCulture);

    private static string Way(JsonNode plan) =>
        $"{plan["routes"]!["routes"]!.AsArray().First(r => r!["reasons"]!.AsArray().Any(reason => $"{reason}" == "least-exposed"))!["id"]}";

    private static async Task<JsonNode> PlanAgainAsync(HttpClient client, JsonNode plan) =>
        JsonNode.Parse(await client.GetStringAsync(new Uri($"/api/v1/plans/{plan["id"]}", UriKind.Relative)))!;

    private static List<(string Mark, string From, string Officer, string Where)> Rows(IDocument desk) =>
    [
        .. desk.QuerySelectorAll("table.desk-posts tbody tr").Select(row => (
            Regex.Match(row.Children[0].TextContent, @"\d+\.\d+").Value, row.Children[1].TextContent, row.Children[3].TextContent, Words(row.Children[4]))),
    ];
}
