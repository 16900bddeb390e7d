using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using TransportPlanner.Web.Shared;
using UnitsNet;
using static TransportPlanner.Web.Tests.Sites.DisplayedSite;

namespace TransportPlanner.Web.Tests.Sites;

/// <summary>Units and words of a site on everything that is read, against a second library of units.</summary>
public sealed class SiteDisplayTests
{
    [Theory]
    [InlineData("pressureUnit", "atm", "one of psi, bar, kPa")]
    [InlineData("lengthUnit", "yards", "one of metres, feet")]
    [InlineData("elevatorWord", "hoist", "one of elevator, lift")]
    public async Task A_unit_or_word_that_does_not_exist_is_refused_with_the_choices(string name, string value, string choices)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();

        var answer = await SayAsync(client, (name, value));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var error = $"{(await answer.Content.ReadFromJsonAsync<JsonNode>())!["errors"]!["settings[0].value"]![0]}";
        Assert.Contains($"{name}: give {choices}", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("bar", 1)]
    [InlineData("kPa", 100)]
    public async Task A_gauge_is_shown_as_given_with_the_sites_unit_beside_it_and_the_least_one_up_to_the_mark(string unit, int mark)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        (await SayAsync(client, ("pressureUnit", unit))).EnsureSuccessStatusCode();
        var plan = await PlanAsync(client, Body);
        double In(double psi) => unit == "bar" ? Pressure.FromPoundsForcePerSquareInch(psi).Bars : Pressure.FromPoundsForcePerSquareInch(psi).Kilopascals;
        string Marks(double count) => (count * mark).ToString("0", CultureInfo.InvariantCulture);
        var read = $"500 psi ({Marks(Math.Floor(In(500) / mark))} {unit})";
        var least = plan["gasByRoute"]![0]!["leastGauges"]!.AsArray().Where(one => $"{one!["gauge"]}".EndsWith(" psi", StringComparison.Ordinal)).Select(one => (Size: $"{one!["sizeId"]}", Gauge: $"{one["gauge"]}")).ToList();

        var strips = Words((await PageAsync(client, $"/plans/{plan["id"]}/pack?only=Gas&way=A")).Body!);
        var sheet = Words((await PageAsync(client, $"/plans/{plan["id"]}?only=Gas&way=A")).Body!);

        Assert.Contains($"read {read}", strips, StringComparison.Ordinal);
        Assert.Contains($"oxygen US-E {read}", sheet, StringComparison.Ordinal);
        Assert.NotEmpty(least);
        foreach (var (size, psi) in least)
        {
            Assert.Contains($"{size}{Marks(Math.Ceiling(In(double.Parse(psi.Split(' ')[0], CultureInfo.InvariantCulture)) / mark))} {unit} ({psi})", sheet, StringComparison.Ordinal);
        }

        // What is computed with and answered stays as it was given.
        Assert.Equal(500, (int)plan["given"]!["cylinders"]![0]!["gaugePsi"]!);
        Assert.Contains("(500 − 200) psi", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_gas_page_begins_in_the_sites_unit_and_shows_a_gauge_in_another_beside_it()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        (await SayAsync(client, ("pressureUnit", "bar"))).EnsureSuccessStatusCode();
        var form = await PageAsync(client, "/gas");

        var answer = Words(await PostAsync(client, form, ("Form.PressureUnit", "psi"), ("Form.Oxygen.Size", "US-E"), ("Form.Oxygen.Gauge", "1500"), ("Form.Flow", "8"), ("Form.OxygenFraction", "1")));

        Assert.Equal("bar", form.QuerySelector("input[name='Form.PressureUnit'][checked]")!.GetAttribute("value"));
        Assert.Equal("bar", (await PageAsync(client, "/")).QuerySelector("input[name='Form.PressureUnit'][checked]")!.GetAttribute("value"));

        // 1,500 psi × 6.894757 kPa (NIST SP 811, appendix B) are 103.4 bar.
        Assert.Contains("Gauge: oxygen US-E 1500 psi (103 bar).", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Lengths_in_feet_add_up_to_the_way_in_feet()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        (await SayAsync(client, ("lengthUnit", "feet"))).EnsureSuccessStatusCode();
        var plan = await PlanAsync(client, Body);

        foreach (var way in plan["routes"]!["routes"]!.AsArray())
        {
            var strip = await PageAsync(client, $"/plans/{plan["id"]}/pack?only=Strip&way={way!["id"]}");
            var feet = Math.Round(Length.FromMeters((double)way["metres"]!).Feet, MidpointRounding.AwayFromZero);

            Assert.Equal(feet, strip.QuerySelectorAll("tr.leg .metres").Sum(cell => int.Parse(cell.TextContent, CultureInfo.InvariantCulture)));
            Assert.Contains("ft", strip.QuerySelectorAll("thead th").Select(head => head.TextContent));
            Assert.Contains($"way {way["id"]}: {feet} ft", Words((await PageAsync(client, $"/plans/{plan["id"]}/pack?only=Huddle&way={way["id"]}")).Body!), StringComparison.Ordinal);
            Assert.DoesNotMatch(@"\d m\b", Words(strip.QuerySelector("main")!));
            var legs = Words((await PageAsync(client, $"/plans/{plan["id"]}?only=Route&way={way["id"]}")).QuerySelector("ol.legs")!);
            Assert.Matches(@"\d ft\b", legs);
            Assert.DoesNotMatch(@"\d m\b", legs);
        }
    }

    [Theory]
    [InlineData("lift", "elevator")]
    [InlineData("elevator", "lift")]
    public async Task A_site_reads_its_own_word_on_every_page_and_print(string says, string never)
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        (await SayAsync(client, ("elevatorWord", says))).EnsureSuccessStatusCode();
        var plan = await PlanAsync(client, Body);
        await PlanAsync(client, Body);
        string[] pages =
        [
            "/", $"/?again={plan["id"]}", $"/plans/{plan["id"]}", $"/plans/{plan["id"]}?tempo=Planned", $"/plans/{plan["id"]}/pack", $"/plans/{plan["id"]}/pack?file=true",
            $"/plans/{plan["id"]}/calls", $"/plans/{plan["id"]}/go", $"/plans/{plan["id"]}/checklist", $"/plans/{plan["id"]}/report", "/desk/demonstration", "/desk",
            "/binder", "/gas", "/shelf", "/kit", "/floor-plan", "/map-tasks", "/crowds",
        ];
        var said = 0;
        foreach (var address in pages)
        {
            var read = Read(await PageAsync(client, address));

            Assert.False(Regex.IsMatch(read, $@"\b{never}s?\b", RegexOptions.IgnoreCase), $"{address}: {Regex.Match(read, $@".{{0,60}}\b{never}.{{0,60}}", RegexOptions.IgnoreCase)}");
            Assert.DoesNotMatch(@"(?i)\ban lift|\ba elevator", read);
            said += Regex.Count(read, $@"\b{says}s?\b", RegexOptions.IgnoreCase);
        }

        Assert.True(said > 100, $"{said}");
        var calls = await client.GetStringAsync(new Uri($"/api/v1/plans/{plan["id"]}/calls", UriKind.Relative));
        Assert.Matches($@"(?i)\b{says}", calls);
        Assert.DoesNotMatch($@"(?i)\b{never}", calls);
    }

    [Fact]
    public async Task What_is_sent_back_and_what_the_API_names_keep_their_words()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var before = await PageAsync(client, "/");
        (await SayAsync(client, ("elevatorWord", "lift"))).EnsureSuccessStatusCode();

        var after = await PageAsync(client, "/");
        var plan = await PlanAsync(client, Body);

        static List<string> Sent(IParentNode page) => [.. page.QuerySelectorAll("input:not([name^='__']), select, option, textarea").Select(field => $"{field.GetAttribute("name")}={field.GetAttribute("value")}")];
        Assert.Equal(Sent(before), Sent(after));
        Assert.NotNull(plan["posts"]![0]!["elevators"]);
        Assert.NotNull(plan["routes"]!["routes"]![0]!["elevators"]);
    }

    [Theory]
    [InlineData("<p>Call an elevator; Elevators: two.</p>", "<p>Call a lift; Lifts: two.</p>")]
    [InlineData("""<input name="elevator" value="elevator" placeholder="An elevator">""", """<input name="elevator" value="elevator" placeholder="A lift">""")]
    [InlineData("<code>elevator P2</code><textarea>elevator</textarea>", "<code>elevator P2</code><textarea>elevator</textarea>")]
    [InlineData("<p>plan --elevators-not-held</p>", "<p>plan --elevators-not-held</p>")]
    [InlineData("""<a href="/elevator" title="elevator">elevator&#x27;s</a>""", """<a href="/elevator" title="lift">lift&#x27;s</a>""")]
    public void What_is_read_changes_and_what_is_an_address_a_name_or_a_value_does_not(string html, string expected) =>
        Assert.Equal(expected, (SiteDisplay.Default with { IsLift = true }).Page(html));

    /// <summary>All that is read or read aloud.</summary>
    private static string Read(IDocument page)
    {
        var aloud = page.All.SelectMany(element => new[] { "aria-label", "title", "alt", "placeholder" }.Select(element.GetAttribute)).OfType<string>().ToList();
        foreach (var hidden in page.QuerySelectorAll("script, style").ToList())
        {
            hidden.Remove();
        }

        return $"{page.Title} {Words(page.Body!)} {string.Join(" · ", aloud)}";
    }
}
