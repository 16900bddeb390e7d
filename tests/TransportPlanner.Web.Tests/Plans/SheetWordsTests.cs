using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>What a stranger asked of the sheet: figures that recompute, one wording for one thing, and no address that is silently ignored. Each was seen to fail with the sheet as it was before, but for the one on bail-out points.</summary>
public sealed partial class SheetWordsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string TwoCylinders =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne"],
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.4 },
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 },
                         { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ] }
        """;

    [Fact]
    public async Task Minutes_that_need_a_change_over_say_so_beside_the_figure()
    {
        var plan = await MakeAsync(TwoCylinders);
        foreach (var (part, words) in new[] { ("Ways", "min, 1 change-over"), ("Gas", "2 cylinders in turn, 1 change-over counted in") })
        {
            var figures = (await PageAsync(plan, $"?only={part}")).QuerySelectorAll("dl.figures > div").Select(Words).ToList();

            Assert.Contains(words, figures.First(figure => figure.StartsWith("oxygen", StringComparison.Ordinal)), StringComparison.Ordinal);
            Assert.DoesNotContain("change-over", figures.Single(figure => figure.StartsWith("air", StringComparison.Ordinal)), StringComparison.Ordinal);
        }

        Assert.Contains("Oxygen (cylinder 1; cylinder 2 unopened and not counted here) ends at minute", Words((await PageAsync(plan, "?only=Gas")).Body!), StringComparison.Ordinal);
    }

    // From the landing of the soiled elevator a one-way door leads no way back, and the only bail-out point that its leg names is reached by that elevator.
    [Fact]
    public async Task Who_can_reach_no_bail_out_point_is_not_sent_to_one()
    {
        var plan = await MakeAsync(
            """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"], "departAt": "2026-05-04T16:32:00Z" }""");
        var way = plan["routes"]!["routes"]!.AsArray().First(route => route!["planB"]!.AsArray().Any(fallback => $"{fallback!["failed"]}" == "S1"))!;
        var alone = way["planB"]!.AsArray().Where(fallback => fallback!["arrivalSeconds"] is null).ToList();

        Assert.Equal([], alone.Single(fallback => $"{fallback!["failed"]}" == "S1")!["bailOuts"]!.AsArray());
        Assert.Contains(alone, fallback => fallback!["bailOuts"]!.AsArray().Count == 1);
        var (sheet, pack) = (Words((await PageAsync(plan, $"?way={way["id"]}")).Body!), Words((await PageAsync(plan, $"/pack?way={way["id"]}")).Body!));
        Assert.All(new[] { sheet, pack }, page => Assert.Contains("no bail-out point can be reached from L-2.S: stay there and call", page, StringComparison.Ordinal));
        Assert.All(alone.SelectMany(fallback => fallback!["bailOuts"]!.AsArray()), near => Assert.Contains($"bail-out {near!["place"]}", sheet, StringComparison.Ordinal));
    }

    // Every figure that is printed is worked again from the others on the page, and led by hand near to what the convolution gave.
    [Fact]
    public async Task The_working_leads_from_the_parts_to_stalls_percentiles_and_chances()
    {
        var plan = await MakeAsync(TwoCylinders);
        var page = await PageAsync(plan, "?only=Working");
        var lines = page.QuerySelectorAll("p.chance").Select(Words).ToList();
        var id = Regex.Match(page.QuerySelector("section h2")!.TextContent, "way ([A-D])").Groups[1].Value;
        var way = plan["routes"]!["routes"]!.AsArray().Single(route => $"{route!["id"]}" == id)!;

        var stalls = lines.Select(line => Stall().Match(line)).Where(match => match.Success).Select(match => Figures(match)).ToList();
        Assert.Equal(way["crossings"]!.AsArray().Count(crossing => (double)crossing!["stallProbability"]! > 0), stalls.Count);
        Assert.NotEmpty(stalls);
        Assert.All(stalls, f =>
        {
            Assert.Equal(f[0] * 1000, f[1], 0.001);
            Assert.Equal((f[2] + f[3] + f[4]) / 3, f[5], 0.5);
            Assert.Equal(f[0] * f[5], f[6], 0.06);
        });

        var spread = Figures(lines.Select(line => Spread().Match(line)).Single(match => match.Success));
        Assert.Equal(Math.Sqrt(spread[0] + spread[1] + spread[2] + spread[3]), spread[4], 0.06);
        var parts = page.QuerySelectorAll("[aria-label='Working of the time'] td.working").SelectMany(cell => Part().Matches(cell.TextContent)).ToList();
        foreach (var (name, at) in new[] { ("door", 1), ("wait", 2), ("ride", 3) })
        {
            Assert.Equal(parts.Where(part => part.Groups[1].Value == name).Sum(part => Variance(Figures(part, 2))), spread[at], 0.5 + 0.02 * spread[at]);
        }

        var walks = parts.Where(part => part.Groups[1].Value == "walk").Select(part => Figures(part, 2)).ToList();
        Assert.Equal(Variance([walks.Sum(w => w[0]), walks.Sum(w => w[1]), walks.Sum(w => w[2])]), spread[0], 0.5 + 0.02 * spread[0]);

        var curve = Figures(lines.Select(line => Curve().Match(line)).Single(match => match.Success));
        Assert.Equal(curve[0] + 1.28 * spread[4], curve[1], 0.2);
        Assert.InRange((int)way["usualSeconds"]! - curve[0], -4, 4);
        Assert.InRange((int)way["nearlyAlwaysSeconds"]! - curve[1], -6, 6);

        var gas = plan["gasByRoute"]!.AsArray().Single(one => $"{one!["route"]}" == id)!;
        foreach (var shortfall in gas["shortfalls"]!.AsArray())
        {
            var line = lines.Single(line => line.Contains($"The journey outlasts {shortfall!["supply"]} in", StringComparison.Ordinal));
            Assert.Contains("cannot show that step by step", line, StringComparison.Ordinal);
            var byHand = Regex.Match(line, "= ([0-9.]+) in 1,000\\. Above it").Groups[1].Value;
            Assert.Equal((double)shortfall!["chance"]! * 1000, double.Parse(byHand, CultureInfo.InvariantCulture), 0.1 + 0.25 * (double)shortfall["chance"]! * 1000);
        }
    }

    [Fact]
    public async Task The_sheet_of_the_working_has_the_reserve_and_the_low_end_that_the_gas_sheet_leaves_out_on_paper()
    {
        var plan = await MakeAsync(TwoCylinders);
        var text = Words((await PageAsync(plan, "?only=Working")).QuerySelector("section.page")!);
        var gas = plan["gasByRoute"]!.AsArray().Single(one => text.Contains($"Working of way {one!["route"]} ", StringComparison.Ordinal))!;

        Assert.All(gas["supply"]!["gases"]!.AsArray(), one => Assert.Contains($"low end of the band: {one!["workingLow"]}.", text, StringComparison.Ordinal));
        Assert.All(gas["verdicts"]!.AsArray().SelectMany(verdict => verdict!["rules"]!.AsArray()), rule => Assert.Contains($"{rule!["working"]}. Source: {rule["source"]}.", text, StringComparison.Ordinal));
        Assert.Contains("(working: sheet “working”)", (await PageAsync(plan, "?only=Gas")).QuerySelector(".judged h3 .print-only")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "Ways, Overlaps, Route")]
    [InlineData("/pack", "Huddle, Calls, Strip")]
    public async Task A_sheet_that_does_not_exist_is_404_and_the_names_are_said(string page, string names)
    {
        var plan = await MakeAsync(TwoCylinders);
        using var client = application.CreateClient();
        foreach (var wrong in new[] { "Nonsense", "99" })
        {
            var answer = await client.GetAsync(new Uri($"/plans/{plan["id"]}{page}?only={wrong}", UriKind.Relative));

            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            var alert = Words(new HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync()).QuerySelector("[role=alert]")!);
            Assert.StartsWith($"No sheet {wrong}. The sheets are {names}", alert, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(new Uri($"/plans/{plan["id"]}{page}?only=Gas", UriKind.Relative))).StatusCode);
    }

    [Fact]
    public async Task What_is_assumed_is_said_in_words_and_not_by_the_names_of_a_program()
    {
        var body = JsonNode.Parse(TwoCylinders)!.AsObject();
        body["batteries"] = JsonNode.Parse("""[ { "device": "ventilator", "ratedMinutes": 60, "chargePercent": 95, "ageYears": 1 } ]""");
        var plan = await MakeAsync(body.ToJsonString());

        var lines = (await PageAsync(plan, "?only=Basis")).QuerySelectorAll("ul:first-of-type .assumed").Select(Words).ToList();

        Assert.Equal(plan["assumed"]!.AsArray().Count, lines.Count);
        Assert.Contains("Each hand-hygiene step takes 15 s.", lines);
        Assert.All(lines, line => Assert.DoesNotMatch("[a-z][A-Z]|^[a-z]+[.:]", line));
    }

    [Fact]
    public async Task Whether_a_hose_fits_has_one_wording_on_gas_sheet_receiving_card_and_strip()
    {
        var plan = await MakeAsync(TwoCylinders);
        var outlet = plan["gasByRoute"]![0]!["outlets"]!.AsArray().Single(one => $"{one!["purpose"]}" == "destination" && $"{one["gas"]}" == "oxygen")!;
        var wall = $"{string.Join(", ", outlet["connectors"]!.AsArray())}, {$"{outlet["fit"]}" switch { "fits" => "hose fits", "doesNotFit" => "hose does not fit", _ => "fit unknown" }}";

        Assert.Contains(wall, Words((await PageAsync(plan, "?only=Gas&way=A")).QuerySelector(".hoses")!), StringComparison.Ordinal);
        Assert.Contains($"Wall oxygen: {wall};", Words((await PageAsync(plan, "/pack?only=Receiving&way=A")).Body!), StringComparison.Ordinal);
        Assert.DoesNotMatch("the hose |unknown whether", Words((await PageAsync(plan, "/pack?way=A")).Body!));
    }

    [Theory]
    [InlineData("/?site=demonstration")]
    [InlineData("/kit")]
    public async Task A_refused_form_puts_the_focus_on_what_was_refused(string address)
    {
        using var client = application.CreateClient();
        var asked = new HtmlParser().ParseDocument(await client.GetStringAsync(new Uri(address, UriKind.Relative)));
        var token = asked.QuerySelector<IHtmlInputElement>("input[name=__RequestVerificationToken]")!.Value;
        using var form = new FormUrlEncodedContent(new Dictionary<string, string> { ["__RequestVerificationToken"] = token, ["site"] = "demonstration", ["Form.PressureUnit"] = "psi" });

        var page = new HtmlParser().ParseDocument(await (await client.PostAsync(new Uri(address, UriKind.Relative), form)).Content.ReadAsStringAsync());

        var focused = page.QuerySelectorAll("[autofocus]").Single();
        Assert.Equal(("alert", "-1"), (focused.GetAttribute("role"), focused.GetAttribute("tabindex")));
    }

    private static double[] Figures(Match match) => Figures(match, 1);

    private static double[] Figures(Match match, int from) => [.. match.Groups.Values.Skip(from).Select(group => double.Parse(group.Value, CultureInfo.InvariantCulture))];

    // Variance of a triangular distribution: from memory, as any table of distributions has it.
    private static double Variance(double[] t) => (t[0] * t[0] + t[1] * t[1] + t[2] * t[2] - t[0] * t[1] - t[0] * t[2] - t[1] * t[2]) / 18;

    private static string Words(IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private async Task<JsonNode> MakeAsync(string body)
    {
        using var client = application.CreateClient();
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        var answer = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
    }

    private async Task<IHtmlDocument> PageAsync(JsonNode plan, string query)
    {
        using var client = application.CreateClient();
        return new HtmlParser().ParseDocument(await client.GetStringAsync(new Uri($"/plans/{plan["id"]}{query}", UriKind.Relative)));
    }

    [GeneratedRegex("^Stall of .*: 1 ride × chance ([0-9.]+) = ([0-9.]+) in 1,000\\. A stall lasts ([0-9.]+), ([0-9.]+), ([0-9.]+) s, mean ([0-9.]+) s; [0-9.]+ × [0-9.]+ s = ([0-9.]+) s\\.$")]
    private static partial Regex Stall();

    [GeneratedRegex("All walking as one ([0-9.]+), doors ([0-9.]+), waits ([0-9.]+), rides ([0-9.]+) s²; .* = ([0-9.]+) s without a stall")]
    private static partial Regex Spread();

    [GeneratedRegex("a normal curve comes near: ([0-9.]+) s = .* = ([0-9.]+) s = ")]
    private static partial Regex Curve();

    [GeneratedRegex("(walk|door|wait|ride) ([0-9.]+), ([0-9.]+), ([0-9.]+)")]
    private static partial Regex Part();
}
