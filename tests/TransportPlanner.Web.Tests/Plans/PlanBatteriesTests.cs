using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class PlanBatteriesTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Monitor = """{ "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 }""";

    [Fact]
    public async Task A_plan_says_each_battery_the_first_to_die_and_the_verdict_on_each_time()
    {
        var (status, plan) = await Make($$"""[ {{Monitor}}, { "device": "infusionPump", "chargePercent": 100, "testedMinutes": 200, "testedOn": "2026-03-01" } ]""");

        Assert.Equal(HttpStatusCode.Created, status);
        // 180 × 0.9 × 0.8 × 0.6 = 77.76; 200 × 0.8 × (1 − 0.2 × 3/12) = 152: from 1 March to 4 May are three months begun.
        Assert.Equal([77L, 152L], plan["batteries"]!.AsArray().Select(battery => (long)battery!["minutes"]!));
        Assert.Equal(77.76m, (decimal)plan["batteries"]![0]!["exactMinutes"]!);
        Assert.All(plan["batteriesByRoute"]!.AsArray().Zip(plan["gasByRoute"]!.AsArray()), pair =>
        {
            var (batteries, gas) = pair;
            Assert.Equal((1, 0), ((int)batteries!["firstToDie"]!, batteries["unknown"]!.AsArray().Count));
            Assert.Equal(gas!["verdicts"]!.AsArray().Select(v => $"{v!["time"]} {v["journeyMinutes"]}"), batteries["verdicts"]!.AsArray().Select(v => $"{v!["time"]} {v["journeyMinutes"]}"));
            Assert.All(batteries["verdicts"]!.AsArray(), verdict => Assert.All(verdict!["rules"]!.AsArray(), rule =>
                Assert.Equal(77 >= (decimal)rule!["requiredMinutes"]! ? "met" : "short", $"{rule["answer"]}")));
            Assert.Equal("D-2.14", $"{batteries["plugInPoints"]![0]!["place"]}");
        });
        Assert.Contains("batteryMarginPercent: 20 %", plan["assumed"]!.AsArray().Select(assumed => $"{assumed}"));
    }

    [Fact]
    public async Task What_nobody_gave_is_unknown_and_is_never_a_number()
    {
        var (_, without) = await Make("[]");
        var (_, plan) = await Make("""[ { "device": "ventilator", "chargePercent": 100, "ageYears": 1 } ]""");

        Assert.Empty(without["batteries"]!.AsArray());
        Assert.DoesNotContain(without["assumed"]!.AsArray(), assumed => $"{assumed}".Contains("battery", StringComparison.Ordinal));
        Assert.Null(plan["batteries"]![0]!["minutes"]);
        Assert.Equal("unknown: give rated minutes, or a timed run", $"{plan["batteries"]![0]!["working"]}");
        Assert.All(plan["batteriesByRoute"]!.AsArray(), batteries =>
        {
            Assert.Null(batteries!["firstToDie"]);
            Assert.Null(batteries["minutesIfStuck"]);
            Assert.All(batteries["verdicts"]!.AsArray(), verdict => Assert.All(verdict!["rules"]!.AsArray(), rule => Assert.Equal("unknown", $"{rule!["answer"]}")));
        });
    }

    [Theory]
    [InlineData("""{ "device": "toaster" }""", "batteries[0].device")]
    [InlineData("""{ "ratedMinutes": 60 }""", "batteries[0].device")]
    [InlineData("""{ "device": "monitor", "minutes": 60 }""", "batteries[0].minutes")]
    [InlineData("""{ "device": "monitor", "ratedMinutes": 0 }""", "batteries[0].ratedMinutes")]
    [InlineData("""{ "device": "monitor", "ratedMinutes": "60" }""", "batteries[0].ratedMinutes")]
    [InlineData("""{ "device": "monitor", "chargePercent": 101 }""", "batteries[0].chargePercent")]
    [InlineData("""{ "device": "monitor", "ageYears": -1 }""", "batteries[0].ageYears")]
    [InlineData("""{ "device": "monitor", "ageYears": 1, "batteryDate": "2025-01-01" }""", "batteries[0].batteryDate")]
    [InlineData("""{ "device": "monitor", "batteryDate": "2026-05-05" }""", "batteries[0].batteryDate")]
    [InlineData("""{ "device": "monitor", "testedMinutes": 60 }""", "batteries[0].testedOn")]
    [InlineData("""{ "device": "monitor", "testedOn": "2026-01-01" }""", "batteries[0].testedMinutes")]
    [InlineData("""{ "device": "monitor", "testedMinutes": 60, "testedOn": "2026-13-01" }""", "batteries[0].testedOn")]
    [InlineData("""{ "device": "monitor", "testedMinutes": 60, "testedOn": "1990-01-01" }""", "batteries[0].testedOn")]
    [InlineData("null", "batteries")]
    public async Task A_wrong_battery_names_its_field(string battery, string field)
    {
        var (status, problem) = await Make($"[ {battery} ]");

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.True(problem["errors"]!.AsObject().ContainsKey(field), $"{problem}");
    }

    [Fact]
    public async Task A_site_s_own_derating_counts_and_is_no_longer_assumed()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var settings = await client.GetAsync(new Uri("/api/v1/sites/demonstration/settings", UriKind.Relative));
        using var change = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
        {
            Content = Json("""
                { "settings": [ { "name": "batteryMarginPercent", "value": 50, "owner": "clinical engineering", "date": "2026-04-01" },
                                { "name": "batteryLossPercentPerYear", "value": 0, "owner": "clinical engineering", "date": "2026-04-01" } ] }
                """),
        };
        change.Headers.TryAddWithoutValidation("If-Match", settings.Headers.ETag!.Tag);
        (await client.SendAsync(change)).EnsureSuccessStatusCode();

        var (_, plan) = await Make($"[ {Monitor} ]", client);

        Assert.Equal(81, (long)plan["batteries"]![0]!["minutes"]!);
        Assert.DoesNotContain(plan["assumed"]!.AsArray(), assumed => $"{assumed}".Contains("battery", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_site_s_own_hand_hygiene_stands_in_the_plan_and_is_no_longer_assumed()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var (_, before) = await Make("[]", client);
        Assert.Contains(before["assumed"]!.AsArray(), assumed => $"{assumed}" == "handHygieneSeconds: 15 s");
        var settings = await client.GetAsync(new Uri("/api/v1/sites/demonstration/settings", UriKind.Relative));
        using var change = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
        {
            Content = Json("""{ "settings": [ { "name": "handHygieneSeconds", "value": 30, "owner": "infection prevention", "date": "2026-04-01" } ] }"""),
        };
        change.Headers.TryAddWithoutValidation("If-Match", settings.Headers.ETag!.Tag);
        (await client.SendAsync(change)).EnsureSuccessStatusCode();

        var (_, plan) = await Make("[]", client);

        Assert.Equal(30, (int)plan["kit"]!["wearOn"]![0]!["handHygieneSeconds"]!);
        Assert.DoesNotContain(plan["assumed"]!.AsArray(), assumed => $"{assumed}".Contains("handHygiene", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_version_that_was_made_before_batteries_were_planned_still_opens_and_says_so()
    {
        var (_, plan) = await Make($"[ {Monitor} ]");
        using var scope = application.Services.CreateScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        var id = $"{plan["id"]}";
        var version = await context.PlanVersions.SingleAsync(v => v.PlanId == id);
        var snapshot = JsonNode.Parse(version.Snapshot)!.AsObject();
        Assert.True(snapshot.Remove("batteries") && snapshot.Remove("batteriesByRoute") && snapshot["given"]!.AsObject().Remove("batteries"));
        await context.PlanVersions.Where(v => v.PlanId == id).ExecuteUpdateAsync(row => row.SetProperty(v => v.Snapshot, snapshot.ToJsonString()));

        var sheet = await Open($"/plans/{id}?only=Batteries");
        var again = await Open($"/?again={id}");

        Assert.Contains("made before batteries were planned", sheet.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal("D-2.14", again.QuerySelector<IHtmlInputElement>("#From")!.Value);
    }

    [Fact]
    public async Task The_start_page_takes_rows_the_sheet_shows_them_and_a_change_fills_them_in_again()
    {
        var sheet = await Post(("Form.Batteries[0].Device", ""), ("Form.Batteries[1].Device", "Monitor"), ("Form.Batteries[1].Rated", "180"), ("Form.Batteries[1].Charge", "90"),
            ("Form.Batteries[1].Age", "2"), ("Form.Batteries[2].Device", "Ventilator"));

        var text = string.Join(' ', sheet.Body!.TextContent.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("First to die of those that are known: monitor (battery 1), 77 min.", text, StringComparison.Ordinal);
        Assert.Contains("180 min rated × 90 % charge × 80 % after the margin × (1 − 20 % × 24/12 years) = 77 min", text, StringComparison.Ordinal);
        Assert.Contains("Unknown: ventilator (battery 2). It may be the first to die.", text, StringComparison.Ordinal);
        Assert.Contains("Start: D-2.14, CEE 7/3", text, StringComparison.Ordinal);
        Assert.Contains("the display of the device decides", text, StringComparison.Ordinal);

        var again = await Open(sheet.QuerySelector<IHtmlAnchorElement>("a[href*='again=']")!.GetAttribute("href")!);
        Assert.Equal(["180", "90", "2"], new[] { "Rated", "Charge", "Age" }.Select(field => again.GetElementById($"Batteries[0].{field}")!.GetAttribute("value")));
        Assert.Equal("Ventilator", again.QuerySelector<IHtmlSelectElement>("[id='Batteries[1].Device']")!.Value);
    }

    [Fact]
    public async Task What_is_typed_wrong_in_a_row_is_named_and_stays()
    {
        var page = await Post(("Form.Batteries[0].Rated", "lots"), ("Form.Batteries[1].Device", "Monitor"), ("Form.Batteries[1].Tested", "60"), ("Form.Batteries[1].Age", "2024-99-01"));

        var problems = page.QuerySelector("[role=alert]")!.TextContent;
        foreach (var words in new[] { "Battery 1: choose the device", "Battery 1, rated: give a number from 1 to 2880 min", "Battery 2: a timed run counts by its age", "Battery 2, date: give a day such as" })
        {
            Assert.Contains(words, problems, StringComparison.Ordinal);
        }

        Assert.Equal("lots", page.GetElementById("Batteries[0].Rated")!.GetAttribute("value"));

        var late = await Post(("Form.DepartAt", "2026-05-04T02:10"), ("Form.Batteries[0].Device", ""), ("Form.Batteries[1].Device", "Monitor"), ("Form.Batteries[1].Age", "2026-06-01"));
        Assert.Equal("#Batteries[0].Age", late.QuerySelector("[role=alert] li a")!.GetAttribute("href"));
        Assert.Contains("2026-06-01 is no day in the 30 years up to the departure on 2026-05-04", late.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
    }

    private static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");

    private static Task<IDocument> Parse(string html) => BrowsingContext.New(Configuration.Default).OpenAsync(response => response.Content(html));

    private async Task<(HttpStatusCode Status, JsonNode Body)> Make(string batteries, HttpClient? given = null)
    {
        using var own = given is null ? application.CreateClient() : null;
        using var body = Json($$"""
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "departAt": "2026-05-04T02:10:00Z",
              "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 } ], "batteries": {{batteries}} }
            """);
        var response = await (given ?? own!).PostAsync(new Uri("/api/v1/plans", UriKind.Relative), body);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private async Task<IDocument> Open(string address)
    {
        using var client = application.CreateClient();
        return await Parse(await client.GetStringAsync(new Uri(address, UriKind.Relative)));
    }

    private async Task<IDocument> Post(params (string Name, string Value)[] typed)
    {
        using var client = application.CreateClient();
        var page = await Parse(await client.GetStringAsync(new Uri("/", UriKind.Relative)));
        Dictionary<string, string> form = new()
        {
            ["__RequestVerificationToken"] = page.QuerySelector<IHtmlInputElement>("input[name=__RequestVerificationToken]")!.Value,
            ["Form.From"] = "D-2.14",
            ["Form.To"] = "N-4.03",
            ["Form.Support"] = "Cpap",
            ["Form.Airborne"] = "true",
            ["Form.PressureUnit"] = "psi",
            ["Form.HeldElevators"] = "true",
            ["Form.WithHelper"] = "true",
        };
        foreach (var (name, value) in typed)
        {
            form[name] = value;
        }

        using var content = new FormUrlEncodedContent(form);
        var response = await client.PostAsync(new Uri("/", UriKind.Relative), content);
        return await Parse(await response.Content.ReadAsStringAsync());
    }
}
