using System.Net;
using System.Text;
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
        ["Form.OxygenGauge"] = "1500",
        ["Form.OxygenSize"] = "US-E",
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
        var typed = new Dictionary<string, string>(FiveInputs) { ["Form.To"] = "nowhere", ["Form.OxygenGauge"] = "abc", ["Form.Flow"] = "0", ["Form.OxygenFraction"] = "30" };

        var (status, page) = await Post(typed);

        Assert.Equal(HttpStatusCode.OK, status);
        var problems = page.QuerySelector("[role=alert]")!.TextContent;
        Assert.Contains("No place is called \"nowhere\"", problems, StringComparison.Ordinal);
        Assert.Contains("\"abc\"", problems, StringComparison.Ordinal);
        Assert.Contains("0.01 to 30 L/min", problems, StringComparison.Ordinal);
        Assert.Contains("0.21 to 1", problems, StringComparison.Ordinal);
        foreach (var field in new[] { "From", "To", "OxygenGauge", "Flow", "OxygenFraction" })
        {
            Assert.Equal(typed[$"Form.{field}"], page.QuerySelector<IHtmlInputElement>($"#{field}")!.Value);
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
        Assert.Equal("1500", again.QuerySelector<IHtmlInputElement>("#OxygenGauge")!.Value);
        Assert.Equal("1850", again.QuerySelector<IHtmlInputElement>("#WeightGrams")!.Value);
        var (_, second) = await Post(new(FiveInputs)
        {
            ["again"] = again.QuerySelector<IHtmlInputElement>("input[name=again]")!.Value,
            ["againVersion"] = again.QuerySelector<IHtmlInputElement>("input[name=againVersion]")!.Value,
            ["Form.To"] = "N-4.02",
        });
        Assert.Contains("version 2", second.QuerySelector(".sheet-head")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sheet_past_its_time_says_that_it_is_void()
    {
        var (_, sheet) = await Post(new(FiveInputs) { ["Form.DepartAt"] = "2026-05-04T01:00" });

        Assert.Contains("Void.", sheet.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
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
