using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Sites;

/// <summary>A crowd of the week that a person adds counts in the price of ways and is said in the working.</summary>
public sealed class CrowdTests
{
    private const string Page = "/crowds/demonstration";

    private static async Task<string> PostAsync(HttpClient client, string handler, IEnumerable<KeyValuePair<string, string>> fields)
    {
        var token = new HtmlParser().ParseDocument(await client.GetStringAsync(Page)).QuerySelector("input[name=__RequestVerificationToken]")!.GetAttribute("value")!;
        return await (await client.PostAsync($"{Page}?handler={handler}", new FormUrlEncodedContent(fields.Append(new("__RequestVerificationToken", token))))).Content.ReadAsStringAsync();
    }

    private static async Task<JsonNode> PlanAsync(HttpClient client) => (await (await client.PostAsJsonAsync("/api/v1/plans", new
    {
        siteId = "demonstration",
        from = "D-2.14",
        to = "N-4.03",
        support = "cpap",
        precautions = new[] { "airborne" },
    })).Content.ReadFromJsonAsync<JsonNode>())!;

    // The departure is Monday 03:10 at the site.
    [Fact]
    public async Task People_of_the_calendar_are_met_on_the_way_and_said_in_its_working_until_the_entry_is_taken_away()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var before = await PlanAsync(client);
        var crossing = before["routes"]!["routes"]![0]!["crossings"]!.AsArray().First(c => !c!["isEnd"]!.GetValue<bool>() && c["people"]!.GetValue<double>() > 0)!;
        var (place, usual) = ($"{crossing["place"]}", crossing["people"]!.GetValue<double>());
        List<KeyValuePair<string, string>> entry =
        [
            new("Form.Kind", "Teaching"), new("Form.Days", "Monday"), new("Form.Days", "Tuesday"), new("Form.From", "03:00"), new("Form.To", "03:15"),
            new("Form.Places", place), new("Form.Times", "2"), new("Form.Adds", "1,5"), new("Form.Owner", "Charge nurse"), new("Form.Date", "2026-03-01"),
        ];

        var page = await PostAsync(client, "Add", entry);
        var after = await PlanAsync(client);

        Assert.Contains("teaching 03:00 to 03:15 × 2 + 1.5 (Charge nurse, since 2026-03-01)", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        var crowded = after["routes"]!["routes"]!.AsArray().SelectMany(way => way!["crossings"]!.AsArray()).First(c => $"{c!["place"]}" == place)!;
        Assert.Equal(2 * usual + 1.5, crowded["people"]!.GetValue<double>(), 0.002);
        Assert.Equal(usual, crowded["usualPeople"]!.GetValue<double>());
        Assert.Equal("teaching 03:00 to 03:15 × 2 + 1.5 (Charge nurse, since 2026-03-01)", $"{crowded["crowds"]![0]}");
        var way = after["routes"]!["routes"]!.AsArray().First(w => w!["crossings"]!.AsArray().Any(c => $"{c!["place"]}" == place))!;
        Assert.Contains($"{place}: ", WebUtility.HtmlDecode(await client.GetStringAsync($"/plans/{after["id"]}?way={way["id"]}&only=Working")), StringComparison.Ordinal);
        Assert.Contains("teaching 03:00 to 03:15", WebUtility.HtmlDecode(await client.GetStringAsync($"/plans/{after["id"]}?way={way["id"]}&only=Working")), StringComparison.Ordinal);

        var gone = await PostAsync(client, "Remove", [new("index", "0"), new("words", "teaching 03:00 to 03:15 × 2 + 1.5 (Charge nurse, since 2026-03-01)")]);
        Assert.Contains("Nothing is said", gone, StringComparison.Ordinal);
        Assert.Equal($"{before["routes"]!["routes"]![0]!["peopleLikelyMet"]}", $"{(await PlanAsync(client))["routes"]!["routes"]![0]!["peopleLikelyMet"]}");
    }

    [Theory]
    [InlineData("Form.Places", "nowhere", "no place nowhere")]
    [InlineData("Form.From", "03:10", "Give a begin and a later end")]
    [InlineData("Form.To", "02:00", "Give a begin and a later end")]
    [InlineData("Form.Times", "many", "Give a factor from 0 to 100")]
    [InlineData("Form.Owner", "", "Give the role that answers for it")]
    public async Task What_cannot_be_so_is_refused_in_words_and_nothing_is_kept(string field, string value, string said)
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        Dictionary<string, string> entry = new()
        {
            ["Form.Kind"] = "Meals",
            ["Form.Days"] = "Monday",
            ["Form.From"] = "03:00",
            ["Form.To"] = "03:15",
            ["Form.Places"] = "D-2.14",
            ["Form.Adds"] = "1",
            ["Form.Owner"] = "Charge nurse",
        };
        entry[field] = value;

        var page = await PostAsync(client, "Add", entry);

        Assert.Contains("Not taken.", page, StringComparison.Ordinal);
        Assert.Contains(said, WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        Assert.Contains("Nothing is said", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_settings_take_the_same_list_and_refuse_what_it_does_not_allow()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        async Task<HttpStatusCode> PutAsync(string entry)
        {
            using var request = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
            {
                Content = new StringContent($$"""{ "settings": [ { "name": "crowdCalendar", "value": [ {{entry}} ], "owner": "Charge nurse", "date": "2026-03-01" } ] }""", System.Text.Encoding.UTF8, "application/json"),
            };
            request.Headers.TryAddWithoutValidation("If-Match", "*");
            return (await client.SendAsync(request)).StatusCode;
        }

        const string good = """{ "kind": "visiting", "places": [ "D-2.14" ], "days": [ "sunday" ], "fromMinute": 840, "toMinute": 960, "adds": 3, "owner": "Charge nurse", "date": "2026-03-01" }""";
        Assert.Equal(HttpStatusCode.OK, await PutAsync(good));
        Assert.Contains("visiting 14:00 to 16:00 + 3", WebUtility.HtmlDecode(await client.GetStringAsync(Page)), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(good.Replace("840", "841", StringComparison.Ordinal)));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(good.Replace("\"adds\"", "\"people\"", StringComparison.Ordinal)));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync("null"));
        Assert.Equal(HttpStatusCode.BadRequest, await PutAsync(good.Replace("[ \"D-2.14\" ]", "null", StringComparison.Ordinal)));
    }
}
