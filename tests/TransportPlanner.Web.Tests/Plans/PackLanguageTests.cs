using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp;
using AngleSharp.Dom;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.Tests.Architecture;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>The pack and the binder in another language: what is ours is translated, what is not is listed here.</summary>
public sealed partial class PackLanguageTests
{
    /// <summary>Words that are data, by where they come from. Titles of roles would be, had the site set any.</summary>
    private static readonly (string Source, string Words)[] Data =
    [
        ("notice of the floor plan", @"Demonstration data: this hospital is invented\. No building, door, elevator or person in it exists\. Plan no real transport with it\."),
        ("Core's list of flows, devices and sources", "high-frequency oscillator|neonatal ventilator practice, general knowledge"),
        ("units and scales", "psi|bar|min|L|m|ft|s|kg|UTC"),
        ("connectors and sizes of cylinders", @"DIN|BS|(?:US|UK|IN)-\S+|EN"),
        ("name of the program", "Transport Planner"),
    ];

    private const string Body =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne", "droplet", "contact"],
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.4 }, "departAt": "2026-05-04T05:00:00Z",
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 500 }, { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1900 },
            { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ],
          "batteries": [ { "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 }, { "device": "ventilator", "chargePercent": 100, "ageYears": 1 } ] }
        """;

    // Seen to fail: with words in a string of a template, in one of PackWords, and in a template itself; each sheet with them was named.
    [Fact]
    public async Task Outside_the_marks_of_a_translation_stand_only_data()
    {
        using var application = new PlannerApplication { PackLanguage = PseudoTranslation.Install() };
        using var client = application.CreateClient();
        var plan = await MakeAsync(client, Body);
        var now = await MakeAsync(client, """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "highFlowCannula", "precautions": ["airborne"] }""");
        await BinderAsync(client);
        string[] addresses =
        [
            .. plan["routes"]!["routes"]!.AsArray().Select(way => $"/plans/{plan["id"]}/pack?file=true&way={way!["id"]}"), $"/plans/{now["id"]}/pack?file=true",
            "/binder/demonstration/set?file=true",
        ];
        var names = Names(application, plan, now);

        List<string> findings = [];
        foreach (var address in addresses)
        {
            var page = await PageAsync(client, address);
            Assert.Equal(PseudoTranslation.Tag, page.DocumentElement.GetAttribute("lang"));
            Assert.True(page.Body!.TextContent.Count(character => character == '⟦') > 200, address);
            findings.AddRange(Outside(page.Body, names).Select(words => $"{address}: {words}"));
        }

        // The cards of the officers stand on a page with the masthead of every page.
        var cards = (await PageAsync(client, "/officers/demonstration")).QuerySelectorAll("section.card").ToList();
        Assert.True(cards.Count > 2);
        findings.AddRange(cards.SelectMany(card => Outside(card, names)).Select(words => $"/officers: {words}"));

        Findings.None(findings);
    }

    // Pair 1 crosses door 205, pair 2 leaves by door 102, which is 0.70 m wide; elevator B is too small, so without A there is no way for either.
    // Seen to fail: with Core's sentences on the sheet.
    [Fact]
    public async Task Paper_says_in_its_language_why_there_is_no_way_and_what_nobody_has_measured()
    {
        using var application = new PlannerApplication { PackLanguage = PseudoTranslation.Install() };
        using var client = application.CreateClient();
        var floor = JsonNode.Parse(BinderTests.Site)!;
        var door = floor["features"]!.AsArray().Single(feature => $"{feature!["properties"]!["number"]}" == "205")!["properties"]!;
        door["clearWidthMetres"] = null;
        door["sources"]!.AsObject().Remove("clearWidthMetres");
        await BinderTests.PublishAsync(client, "small", floor, "If-None-Match", "*");
        await BinderTests.MadeAsync(client, "small", "{}");
        var open = await PageAsync(client, "/binder/small/set?file=true");
        var plan = await MakeAsync(client, """{ "siteId": "small", "from": "D-1.01", "to": "I-2.01", "support": "cpap", "precautions": ["airborne"] }""");
        var pack = await PageAsync(client, $"/plans/{plan["id"]}/pack?file=true");
        var carried = new[] { PackSheet.Strip, PackSheet.Helper }.Select(sheet => TextAsync(client, $"/plans/{plan["id"]}/pack?only={sheet}&file=true"));
        Assert.All(await Task.WhenAll(carried), sheet => Assert.Contains("door 205: clear width unknown", Marks().Replace(sheet, ""), StringComparison.Ordinal));
        await BinderTests.CloseElevatorAsync(client);
        await BinderTests.MadeAsync(client, "small", "{}");
        var closed = await PageAsync(client, "/binder/small/set?file=true");

        string[] names =
        [
            .. floor["features"]!.AsArray().SelectMany(feature => new[] { $"{feature!["properties"]!["name"]}", $"{feature["properties"]!["number"]}" }).Where(name => name.Length > 2)
                .OrderByDescending(name => name.Length),
            $"{floor["name"]}", $"{floor["notice"]}", "Yearly inspection", "Facilities", "wall outlet", $"{plan["callSign"]}",
        ];
        Findings.None(new[] { open, closed, pack }.SelectMany(page => Outside(page.Body!, names)).Distinct());
        var sheets = open.QuerySelectorAll("section.standing").Select(sheet => Marks().Replace(sheet.TextContent, "")).ToList();
        Assert.Contains("door 205: clear width unknown", sheets[0], StringComparison.Ordinal);
        Assert.Contains("No way from D-1.02 to I-2.01: door 102 is 15 cm too narrow (0.70 m clear, 0.85 m needed, measured 2026-04-14)", sheets[2], StringComparison.Ordinal);
        Assert.Contains(
            "No way from D-1.01 to I-2.01: elevator A is closed from", Marks().Replace(closed.QuerySelector("section.standing")!.TextContent, ""), StringComparison.Ordinal);
    }

    // The list above is long: this shows that it does not let everything through.
    [Theory]
    [InlineData("Read the gauge now", "Read the gauge now")]
    [InlineData("⟦Usually ⟧4:24 then go", "then go")]
    [InlineData("⟦Usually ⟧4:24⟦, nearly always ⟧4:50 min", "")]
    public async Task A_word_outside_the_marks_is_found(string text, string words)
    {
        using var browsing = BrowsingContext.New(Configuration.Default);
        var page = await browsing.OpenAsync(request => request.Content($"<p>{text}</p>"));

        Assert.Equal(words.Length == 0 ? [] : [words], Outside(page.Body!, []));
    }

    // What a page or the API stores must not depend on the language of paper. Seen to fail: with the language set for every page.
    [Fact]
    public async Task Other_pages_and_what_is_stored_stay_English()
    {
        using var application = new PlannerApplication { PackLanguage = PseudoTranslation.Install() };
        using var client = application.CreateClient();
        var plan = await MakeAsync(client, Body);
        var id = $"{plan["id"]}";

        Assert.DoesNotContain("⟦", $"{plan}", StringComparison.Ordinal);
        Assert.Contains("⟦", await TextAsync(client, $"/plans/{id}/pack"), StringComparison.Ordinal);
        string[] others = [$"/plans/{id}", $"/plans/{id}?only=Posts", $"/plans/{id}?only=Gas", $"/plans/{id}/calls", $"/api/v1/plans/{id}", $"/api/v1/plans/{id}/calls", "/"];
        Findings.None(
            from page in await Task.WhenAll(others.Select(async address => (Address: address, Text: await client.GetStringAsync(new Uri(address, UriKind.Relative)))))
            where page.Text.Contains('⟦', StringComparison.Ordinal)
            select page.Address);
    }

    [Fact]
    public async Task The_API_and_English_stay_as_they_are()
    {
        using var application = new PlannerApplication { PackLanguage = PseudoTranslation.Install() };
        using var english = new PlannerApplication();
        using var client = application.CreateClient();
        using var englishClient = english.CreateClient();
        await BinderAsync(client);

        Assert.DoesNotContain("⟦", await client.GetStringAsync(new Uri("/api/v1/sites/demonstration/binder", UriKind.Relative)), StringComparison.Ordinal);
        Assert.Contains("⟦Downtime binder⟧", await TextAsync(client, "/binder"), StringComparison.Ordinal);
        Assert.DoesNotContain("⟦", await TextAsync(englishClient, "/binder"), StringComparison.Ordinal);
    }

    // Core says it for the API, paper builds it from its parts; a plan of an earlier release has no parts. Seen to fail: with another word in the sentence of an officer at an elevator.
    [Fact]
    public async Task What_Core_says_reads_the_same_on_English_paper_and_stays_English_without_its_parts()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var id = $"{(await MakeAsync(client, Body.Replace(", \"oxygenFraction\": 0.4", "", StringComparison.Ordinal)))["id"]}";
        using var scope = application.Services.CreateScope();
        var plan = (await PlanStore.FindAsync(scope.ServiceProvider.GetRequiredService<PlannerContext>(), id, null, TestContext.Current.CancellationToken))!;
        var timelines = plan.GasByRoute.Select(gas => gas.Supply!.Timeline!).ToList();
        (string Core, Func<string> Paper, Func<string>? Earlier)[] all =
        [
            .. from posts in plan.Posts
               from post in posts.Posts
               select (post.Say, Words(() => PackWords.Say(post, posts)), Words(() => PackWords.Say(post, posts with { Held = [], Elevators = [] }))),
            .. from least in plan.GasByRoute.SelectMany(gas => gas.LeastGauges).Where(least => least.InWholeMinutes)
               select (least.Working, Words(() => PackGasWords.Least(least)), Words(() => PackGasWords.Least(least with { RuleFigures = "" }))),
            .. from stall in timelines.SelectMany(timeline => timeline.Stalls)
               select (GasWords.Sentence(stall.Working), Words(() => PackGasWords.Stall(stall)), Words(() => PackGasWords.Stall(stall with { Counted = null }))),
            .. from change in timelines.SelectMany(timeline => timeline.ChangeOvers).Where(change => change.AtMinute > 0)
               select (change.Where, Words(() => PackGasWords.Where(change)), Words(() => PackGasWords.Where(change with { PlaceNumber = null }))),
            .. from gas in plan.GasByRoute.SelectMany(gas => gas.Supply!.Gases)
               select (gas.FlowWorking, Words(() => PackGasWords.Flow(gas, plan)), (Func<string>?)null),
        ];
        Assert.True(all.Length > 20, $"{all.Length} sentences");
        Assert.All(all, one => Assert.Equal(one.Core, one.Paper()));

        CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(PseudoTranslation.Install());
        Assert.All(all, one => Assert.Contains("⟦", one.Paper(), StringComparison.Ordinal));
        Assert.All(all.Where(one => one.Earlier is not null), one => Assert.Equal(one.Core, one.Earlier!()));

        static Func<string> Words(Func<string> words) => words;
    }

    // Two places say it: the list of settings, for who sets one, and the texts, for who translates. Seen to fail: with another word for security in the texts.
    [Fact]
    public void A_role_that_the_site_has_not_named_is_called_as_the_settings_say()
    {
        var titles = new RoleTitles(new([]));

        Assert.Equal(
            PackSettings.All.Take(8).Select(title => ((Setting<string>)title).Assumed),
            [titles.Lead, titles.Therapist, titles.Nurse, titles.Helper, titles.Receiver, titles.Cleaner, titles.Watcher, titles.Security]);
    }

    [Theory]
    [InlineData("xx")]
    [InlineData("no such language")]
    public void A_language_without_its_texts_is_refused_at_the_start(string tag)
    {
        using var application = new PlannerApplication { PackLanguage = tag };

        var refused = Assert.Throws<InvalidOperationException>(application.CreateClient);

        Assert.Contains($"PackTexts.{tag}.resx", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>What is left of each text between two tags when the marked words and the data are gone.</summary>
    private static IEnumerable<string> Outside(IElement page, IReadOnlyList<string> names)
    {
        var data = new Regex($@"(?<![\w-])(?:{string.Join('|', Data.Select(one => one.Words))})(?![\w-])", RegexOptions.IgnoreCase | RegexOptions.Singleline);
        foreach (var node in page.Descendants().OfType<IText>().Where(text => text.ParentElement!.LocalName is not ("style" or "script")))
        {
            var words = names.Aggregate(Marked().Replace(node.Text, "¦"), (text, name) => text.Replace(name, "§", StringComparison.OrdinalIgnoreCase));
            words = Figures().Replace(data.Replace(words, "§"), "§").Trim(' ', '\n', '§', '¦');
            if (Word().IsMatch(words))
            {
                yield return Spaces().Replace(words, " ");
            }
        }
    }

    /// <summary>Names and numbers of the floor plan and call-signs, the longest first.</summary>
    private static List<string> Names(PlannerApplication application, params JsonNode[] plans)
    {
        var floor = application.Services.GetRequiredService<FloorPlanStore>().Default!.Plan;
        return [.. floor.Places.SelectMany(place => new[] { place.Name, place.Number }).Concat(floor.Passages.Select(passage => passage.Id)).Concat(floor.Elevators.Select(elevator => elevator.Name))
            .Concat(plans.SelectMany(plan => new[] { $"{plan["callSign"]}", $"{plan["id"]}" })).Append(floor.Name)
            .Where(name => name.Length > 2).Distinct().OrderByDescending(name => name.Length)];
    }

    private static async Task<JsonNode> MakeAsync(HttpClient client, string body)
    {
        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        var answer = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    private static async Task BinderAsync(HttpClient client)
    {
        var address = new Uri("/api/v1/sites/demonstration/binder", UriKind.Relative);
        (await client.PostAsJsonAsync(address, new { })).EnsureSuccessStatusCode();
        for (var i = 0; $"{(await client.GetFromJsonAsync<JsonNode>(address))!["progress"]}" != "made"; i++)
        {
            Assert.True(i < 1200, "no binder in two minutes");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    private static async Task<string> TextAsync(HttpClient client, string address) => (await PageAsync(client, address)).DocumentElement.TextContent;

    private static async Task<IDocument> PageAsync(HttpClient client, string address)
    {
        var html = await client.GetStringAsync(new Uri(address, UriKind.Relative));
        return await BrowsingContext.New(Configuration.Default).OpenAsync(request => request.Content(html));
    }

    [GeneratedRegex("[⟦⟧]")]
    private static partial Regex Marks();

    [GeneratedRegex("⟦[^⟧]*⟧")]
    private static partial Regex Marked();

    // A number, an id, a time: whatever has a figure in it.
    [GeneratedRegex(@"\S*\d\S*")]
    private static partial Regex Figures();

    [GeneratedRegex(@"\p{L}{2}")]
    private static partial Regex Word();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
