using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Gas;

/// <summary>A gauge without its cylinder: the one that the site presets stands in and is marked; where none is preset the cylinder is asked for.</summary>
public sealed class PresetCylinderTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Demand = """ "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 1 } """;
    private const string Gauge = """ "cylinders": [ { "gas": "oxygen", "gaugePsi": 1100 } ] """;
    private const string Plan = """ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"] """;

    private async Task<(HttpStatusCode Status, JsonNode Body)> SendAsync(HttpMethod method, string address, string json)
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(method, $"/api/v1{address}") { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        request.Headers.IfMatch.Add(EntityTagHeaderValue.Any);
        using var response = await client.SendAsync(request);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private Task<(HttpStatusCode Status, JsonNode Body)> PresetAsync(string? oxygen) => SendAsync(
        HttpMethod.Put, "/sites/demonstration/settings",
        oxygen is null ? """{ "settings": [] }""" : $$"""{ "settings": [ { "name": "presetOxygenCylinder", "value": "{{oxygen}}", "owner": "Respiratory care", "date": "2026-04-01" } ] }""");

    [Fact]
    public async Task The_preset_stands_in_and_is_marked_as_assumed_in_supply_and_plan()
    {
        Assert.Equal(HttpStatusCode.OK, (await PresetAsync("US-E")).Status);

        var (_, supply) = await SendAsync(HttpMethod.Post, "/gas-supply", $$"""{ "siteId": "demonstration", {{Demand}}, {{Gauge}} }""");
        var (status, plan) = await SendAsync(HttpMethod.Post, "/plans", $$"""{ {{Plan}}, {{Demand}}, {{Gauge}} }""");

        // 616 L at 2,200 psi (Virginia Office of EMS, 2010) are 0.28 L/psi: 900 psi are 252 L, at 10 L/min 25 min.
        Assert.Equal(25, (int)supply["minutes"]!);
        Assert.Contains(supply["cautions"]!.AsArray(), caution => $"{caution}" == "Cylinder 1 (oxygen): that it is the one which the site presets is assumed: read its label.");
        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Contains(plan["assumed"]!.AsArray(), words => $"{words}" == "oxygen cylinder: US-E, which the site presets");
        Assert.Equal(25, (int)plan["gasByRoute"]![0]!["supply"]!["minutes"]!);
    }

    [Fact]
    public async Task Without_a_preset_the_cylinder_is_asked_for()
    {
        Assert.Equal(HttpStatusCode.OK, (await PresetAsync(null)).Status);

        foreach (var (address, body) in new[] { ("/gas-supply", $$"""{ "siteId": "demonstration", {{Demand}}, {{Gauge}} }"""), ("/plans", $$"""{ {{Plan}}, {{Gauge}} }""") })
        {
            var (status, refusal) = await SendAsync(HttpMethod.Post, address, body);

            Assert.Equal(HttpStatusCode.BadRequest, status);
            Assert.Contains("This site presets no oxygen cylinder.", $"{refusal["errors"]!["cylinders[0].sizeId"]![0]}");
        }
    }

    [Fact]
    public async Task A_gauge_above_the_preset_s_limit_is_refused()
    {
        await PresetAsync("US-E");

        var (status, refusal) = await SendAsync(HttpMethod.Post, "/plans", $$"""{ {{Plan}}, "cylinders": [ { "gas": "oxygen", "gaugePsi": 3000 } ] }""");

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains("3000 psi is above 2420 psi", $"{refusal["errors"]!["cylinders[0].gaugePsi"]![0]}");
    }

    [Theory]
    [InlineData("E", "'E' means different cylinders")]
    [InlineData("US-E-AIR", "listed for air")]
    [InlineData("AU-E", "not published")]
    [InlineData("mine", "not in the cylinder library")]
    public async Task A_preset_that_cannot_be_used_is_refused_when_it_is_set(string size, string words)
    {
        var (status, refusal) = await PresetAsync(size);

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(words, $"{refusal["errors"]!["settings[0].value"]![0]}");
    }

    [Theory]
    [InlineData("/gas", "Oxygen.Size")]
    [InlineData("/", "Oxygen.Size")]
    public async Task A_page_names_the_preset_where_no_cylinder_is_chosen(string address, string field)
    {
        await PresetAsync("US-E");
        using var client = application.CreateClient();

        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(address));

        Assert.Equal("US-E: the site's own, assumed", ((IHtmlSelectElement)page.GetElementById(field)!).Options[0].Text);
    }

    [Fact]
    public async Task The_start_page_makes_a_plan_from_a_gauge_alone()
    {
        await PresetAsync("US-E");

        var page = await PostAsync("/", ("From", "D-2.14"), ("To", "N-4.03"), ("Support", "Cpap"), ("Airborne", "true"), ("PressureUnit", "psi"), ("Oxygen.Gauge", "1500"));

        Assert.Contains("oxygen cylinder: US-E, which the site presets", page.Body!.TextContent);
    }

    [Fact]
    public async Task The_gas_page_counts_a_gauge_alone_and_says_what_it_assumed()
    {
        await PresetAsync("US-E");

        var page = await PostAsync("/gas", ("PressureUnit", "psi"), ("Oxygen.Gauge", "1100"), ("Flow", "10"), ("OxygenFraction", "1"));

        Assert.Contains("Oxygen ends first: 25 min.", page.Body!.TextContent);
        Assert.Contains("the one which the site presets is assumed", page.Body.TextContent);
    }

    // The computation throws at such a reading, so the page must have refused it first.
    [Theory]
    [InlineData("Oxygen.Gauge", "3000", "Oxygen.Size", "US-E", "3000 psi is above 2420 psi")]
    [InlineData("Air.Gauge", "2200", "Air.Size", "US-E-AIR", "2200 psi is above 2090 psi")]
    [InlineData("Air.Gauge", "1500", "Air.Size", "E", "'E' means different cylinders")]
    [InlineData("Oxygen.Gauge", "1500", "Oxygen.Size", "US-E-AIR", "listed for air")]
    [InlineData("Oxygen.Gauge", "-1", "Oxygen.Size", "US-E", "give a number from 0 to 3300 psi")]
    public async Task The_start_page_names_the_field_of_a_bad_cylinder(string gauge, string reading, string sizeField, string size, string words)
    {
        var page = await PostAsync("/", ("From", "D-2.14"), ("To", "N-4.03"), ("Support", "Cpap"), ("Airborne", "true"), ("PressureUnit", "psi"), (gauge, reading), (sizeField, size));

        var link = page.QuerySelectorAll(".attend a").Single();
        Assert.Contains(words, link.TextContent);
        Assert.Equal(words.Contains("psi") ? $"#{gauge}" : $"#{sizeField}", link.GetAttribute("href"));
        Assert.Equal(reading, ((IHtmlInputElement)page.GetElementById(gauge)!).Value);
    }

    private async Task<AngleSharp.Dom.IDocument> PostAsync(string address, params (string Name, string Value)[] typed)
    {
        using var client = application.CreateClient();
        var empty = new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var fields = typed.ToDictionary(field => $"Form.{field.Name}", field => field.Value);
        fields["__RequestVerificationToken"] = ((IHtmlInputElement)empty.QuerySelector("[name=__RequestVerificationToken]")!).Value;
        using var form = new FormUrlEncodedContent(fields);
        var response = await client.PostAsync(address, form);
        response.EnsureSuccessStatusCode();
        return new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync());
    }
}
