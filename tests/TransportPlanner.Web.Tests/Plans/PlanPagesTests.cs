using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using TransportPlanner.Web.FloorPlans;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class PlanPagesTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private static readonly Dictionary<string, string> FiveInputs = new()
    {
        ["Form.From"] = "d214",
        ["Form.To"] = "N-4.03",
        ["Form.Support"] = "Cpap",
        ["Form.Airborne"] = "true",
        ["Form.PressureUnit"] = "psi",
        ["Form.Oxygen.Gauge"] = "1500",
        ["Form.Oxygen.Size"] = "US-E",
        ["Form.HeldElevators"] = "true",
        ["Form.WithHelper"] = "true",
    };

    [Fact]
    public async Task Five_inputs_on_the_start_page_lead_to_the_sheet()
    {
        var (status, sheet) = await Post(FiveInputs);

        Assert.Equal(HttpStatusCode.OK, status);
        var text = sheet.Body!.TextContent;
        Assert.Contains("D-2.14 → N-4.03", text, StringComparison.Ordinal);
        Assert.Contains("void after", text, StringComparison.Ordinal);
        Assert.Contains("Not chosen", text, StringComparison.Ordinal);
        Assert.Contains("oxygen alone", text, StringComparison.Ordinal);
        Assert.Contains("Check the flow at the patient end", text, StringComparison.Ordinal);
        Assert.Contains("invented", text, StringComparison.Ordinal);
        Assert.NotEmpty(sheet.QuerySelectorAll("svg.plan-drawing polyline.way"));
        Assert.NotEmpty(sheet.QuerySelectorAll(".assumed"));
    }

    [Fact]
    public async Task An_incubator_too_wide_marks_its_width_and_no_place()
    {
        var (_, page) = await Post(new(FiveInputs) { ["Form.WidthMetres"] = "2.4" });

        Assert.Equal("true", page.QuerySelector("#WidthMetres")!.GetAttribute("aria-invalid"));
        Assert.Null(page.QuerySelector("#From")!.GetAttribute("aria-invalid"));
        Assert.Null(page.QuerySelector("#To")!.GetAttribute("aria-invalid"));
        Assert.True(page.QuerySelector("#logistics")!.HasAttribute("open"));
        Assert.Contains("2.40 m + 2 × 0.05 m = 2.50 m", page.QuerySelector(".attend a[href='#WidthMetres']")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("2.4", page.QuerySelector("#WidthMetres")!.GetAttribute("value"));
    }

    [Fact]
    public async Task The_sheet_judges_gas_on_each_time_and_says_the_chance_in_counted_journeys()
    {
        var (_, sheet) = await Post(FiveInputs);

        var rows = sheet.QuerySelectorAll("table.verdicts tbody th").Select(cell => cell.TextContent);
        Assert.Equal(["usually", "nearly always"], rows.Take(2));
        var chances = sheet.QuerySelector(".chances")!.TextContent;
        Assert.Matches("The journey outlasts oxygen alone at fraction 1.0 in (about [0-9]+ in [0-9,]+|fewer than 1 in 10,000) journeys like this", chances);
        Assert.Contains("One more oxygen cylinder like 1:", chances, StringComparison.Ordinal);
        Assert.NotNull(sheet.QuerySelector("svg.contents"));
        Assert.Contains("left on reaching it", sheet.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_letter_chooses_the_way_that_is_read_leg_by_leg()
    {
        var (_, sheet) = await Post(FiveInputs);
        var link = sheet.QuerySelector<IHtmlAnchorElement>("table a.letter-link")!;

        var other = await Get(link.GetAttribute("href")!);

        Assert.StartsWith($"Way {link.TextContent.Trim()}:", other.QuerySelector("h2.headline")!.TextContent.Trim(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_refused_names_the_field_and_loses_nothing()
    {
        var typed = new Dictionary<string, string>(FiveInputs) { ["Form.To"] = "nowhere", ["Form.Oxygen.Gauge"] = "abc", ["Form.Flow"] = "0", ["Form.OxygenFraction"] = "30" };

        var (status, page) = await Post(typed);

        Assert.Equal(HttpStatusCode.OK, status);
        var problems = page.QuerySelector("[role=alert]")!.TextContent;
        Assert.Contains("No place is called \"nowhere\"", problems, StringComparison.Ordinal);
        Assert.Contains("\"abc\"", problems, StringComparison.Ordinal);
        Assert.Contains("0.01 to 30 L/min", problems, StringComparison.Ordinal);
        Assert.Contains("0.21 to 1", problems, StringComparison.Ordinal);
        foreach (var field in new[] { "From", "To", "Oxygen.Gauge", "Flow", "OxygenFraction" })
        {
            Assert.Equal(typed[$"Form.{field}"], ((IHtmlInputElement)page.GetElementById(field)!).Value);
        }
    }

    [Fact]
    public async Task Nothing_typed_asks_for_all_that_is_needed_and_for_no_more()
    {
        var (_, page) = await Post(new() { ["Form.PressureUnit"] = "psi" });

        var asked = page.QuerySelectorAll("[role=alert] li a").Select(a => a.GetAttribute("href")).ToList();
        Assert.Equal(["#From", "#To", "#Support", "#Precautions"], asked);
    }

    [Fact]
    public async Task A_name_that_fits_several_places_lists_them()
    {
        var (_, page) = await Post(new(FiveInputs) { ["Form.From"] = "delivery room" });

        Assert.Contains("could be", page.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("D-2.11", page.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_starts_from_what_was_given_and_makes_version_2()
    {
        var (_, sheet) = await Post(new(FiveInputs) { ["Form.WeightGrams"] = "1850" });
        var again = await Get(sheet.QuerySelector<IHtmlAnchorElement>("a[href*='again=']")!.GetAttribute("href")!);

        Assert.Equal("D-2.14", again.QuerySelector<IHtmlInputElement>("#From")!.Value);
        Assert.Equal("1500", ((IHtmlInputElement)again.GetElementById("Oxygen.Gauge")!).Value);
        Assert.Equal("1850", again.QuerySelector<IHtmlInputElement>("#WeightGrams")!.Value);
        var (_, second) = await Post(new(FiveInputs)
        {
            ["again"] = again.QuerySelector<IHtmlInputElement>("input[name=again]")!.Value,
            ["againVersion"] = again.QuerySelector<IHtmlInputElement>("input[name=againVersion]")!.Value,
            ["Form.To"] = "N-4.02",
        });
        Assert.Contains("version 2", second.QuerySelector(".sheet-head")!.TextContent, StringComparison.Ordinal);
    }

    // Seen to fail: with a form that left the further cylinders out.
    [Fact]
    public async Task A_change_keeps_everything_that_the_plan_was_made_from()
    {
        const string Given =
            """
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"],
              "demand": { "flowLitresPerMinute": 8, "oxygenFraction": 0.3, "bleedLitresPerMinute": 2, "driveGasLitresPerMinute": 1, "driveGas": "air", "airSource": "compressor" },
              "cylinders": [ { "gas": "air", "waterCapacityLitres": 2, "gaugeBar": 120, "residualBar": 14 },
                             { "gas": "oxygen", "labelLitres": 460, "labelPsi": 1987, "gaugePsi": 1500 },
                             { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1333.3 },
                             { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1333.3 } ],
              "officers": { "count": 3, "starts": ["D-2.14"] } }
            """;
        using var client = application.CreateClient();
        using var body = new StringContent(Given, Encoding.UTF8, "application/json");
        var made = await client.PostAsync("/api/v1/plans", body);
        var id = made.Headers.Location!.ToString().Split('/')[^1];
        var page = await Get($"/?again={id}");
        var form = page.QuerySelector<IHtmlFormElement>("form.ask")!;
        var typed = new Dictionary<string, string>();
        foreach (var element in form.Elements)
        {
            if (element is IHtmlInputElement { Name: { } name } input && (input.Type is not ("radio" or "checkbox") || input.IsChecked) && !typed.ContainsKey(name))
            {
                typed[name] = input.Value;
            }
            else if (element is IHtmlSelectElement { Name: { } select } list)
            {
                typed[select] = list.Value ?? "";
            }
        }

        typed.Remove("__RequestVerificationToken");

        var (_, sheet) = await Post(typed);

        Assert.Contains("version 2", sheet.QuerySelector(".sheet-head")!.TextContent, StringComparison.Ordinal);
        var first = (await GivenOf(client, $"/api/v1/plans/{id}/versions/1"))!;
        var second = (await GivenOf(client, $"/api/v1/plans/{id}"))!;
        Assert.Equal(first.ToJsonString(), second.ToJsonString());
    }

    private static async Task<JsonNode?> GivenOf(HttpClient client, string address) => JsonNode.Parse(await client.GetStringAsync(address))!["given"];

    [Fact]
    public async Task A_sheet_past_its_time_says_that_it_is_void()
    {
        var (_, sheet) = await Post(new(FiveInputs) { ["Form.DepartAt"] = "2026-05-04T01:00" });

        Assert.Contains("Void.", sheet.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
    }

    // At this hour two ways differ by less than a letter's width.
    [Fact]
    public async Task No_letter_of_the_picture_covers_another()
    {
        var (_, sheet) = await Post(new(FiveInputs) { ["Form.DepartAt"] = "2026-11-27T18:10" });

        var letters = sheet.QuerySelectorAll("svg.trade-off text.letter").Select(letter => (X: Number(letter, "x"), Y: Number(letter, "y"))).ToList();
        Assert.InRange(letters.Count, 2, 4);
        Assert.All(letters.Index(), one => Assert.All(letters.Take(one.Index), other => Assert.False(Math.Abs(one.Item.X - other.X) < 24 && Math.Abs(one.Item.Y - other.Y) < 24)));

        static double Number(IElement element, string name) => double.Parse(element.GetAttribute(name)!, System.Globalization.CultureInfo.InvariantCulture);
    }

    // Seen to fail: with a start page that planned at the demonstration site whatever was chosen.
    [Fact]
    public async Task A_hospital_that_published_its_own_floor_plan_plans_there_and_can_still_choose_the_demonstration()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var file = FloorPlanExamples.Plan.Replace("\"siteId\":\"demonstration\"", "\"siteId\":\"own\"", StringComparison.Ordinal);
        using var put = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/own/floor-plan") { Content = new StringContent(file, Encoding.UTF8, "application/geo+json") };
        put.Headers.TryAddWithoutValidation("If-None-Match", "*");
        Assert.Equal(HttpStatusCode.Created, (await client.SendAsync(put)).StatusCode);

        var start = await Parse(await client.GetAsync(new Uri("/", UriKind.Relative)));
        var demonstration = await Parse(await client.GetAsync(start.QuerySelector("nav[aria-label=Sites] a:not([aria-current])")!.GetAttribute("href")));

        Assert.Equal("own", start.QuerySelector<IHtmlInputElement>("input[name=site]")!.Value);
        Assert.Contains("R-1.01", start.QuerySelector("#places")!.InnerHtml, StringComparison.Ordinal);
        Assert.Equal("demonstration", demonstration.QuerySelector<IHtmlInputElement>("input[name=site]")!.Value);
        Assert.Contains("D-2.14", demonstration.QuerySelector("#places")!.InnerHtml, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/plans/none")]
    [InlineData("/floor-plan/nowhere")]
    [InlineData("/floor-plan/demonstration/99")]
    [InlineData("/?again=none")]
    [InlineData("/no-such-page")]
    public async Task An_address_that_leads_nowhere_says_so_in_a_page(string address)
    {
        using var client = application.CreateClient();
        client.DefaultRequestHeaders.Accept.ParseAdd("text/html");

        var response = await client.GetAsync(new Uri(address, UriKind.Relative));

        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Equal("Nothing is kept at this address", (await Parse(response)).QuerySelector("h1")!.TextContent);
    }

    private async Task<IDocument> Get(string address)
    {
        using var client = application.CreateClient();
        return await Parse(await client.GetAsync(new Uri(address, UriKind.RelativeOrAbsolute)));
    }

    private async Task<(HttpStatusCode Status, IDocument Page)> Post(Dictionary<string, string> fields)
    {
        using var client = application.CreateClient();
        var start = await Parse(await client.GetAsync(new Uri("/", UriKind.Relative)));
        using var content = new FormUrlEncodedContent(
            [.. fields, new("__RequestVerificationToken", start.QuerySelector<IHtmlInputElement>("input[name=__RequestVerificationToken]")!.Value)]);
        var response = await client.PostAsync(new Uri("/", UriKind.Relative), content);
        return (response.StatusCode, await Parse(response));
    }

    private static async Task<IDocument> Parse(HttpResponseMessage response)
    {
        var html = await response.Content.ReadAsStringAsync();
        return await BrowsingContext.New(Configuration.Default).OpenAsync(request => request.Content(html).Address(response.RequestMessage!.RequestUri!));
    }
}
