using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Every figure of a way can be recomputed from the figures that the answer and the sheet show, by other means than ours.</summary>
public sealed partial class WayWorkingTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const int Journeys = 200_000;

    // Rides with a rare stall, public elevators with waits, doors of all kinds; a positive room of departure.
    public static TheoryData<string, string, string> Ends => new()
    {
        { "D-2.14", "N-4.03", "2026-05-04T01:12:00Z" },
        { "D-2.14", "N-4.03", "2026-05-04T13:12:00Z" },
        { "C-2.01", "N-4.02", "2026-05-04T18:40:00Z" },
    };

    [Theory]
    [MemberData(nameof(Ends))]
    public async Task Time_people_and_exposure_come_about_from_the_crossings_shown(string from, string to, string departAt)
    {
        using var client = application.CreateClient();
        var answer = await client.PostAsJsonAsync("/api/v1/routes", new JsonObject
        {
            ["siteId"] = "demonstration",
            ["from"] = from,
            ["to"] = to,
            ["departAt"] = departAt,
            ["precautions"] = new JsonArray("airborne"),
            ["heldElevators"] = false,
        });
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        var routes = (await answer.Content.ReadFromJsonAsync<JsonNode>())!["routes"]!.AsArray();
        foreach (var route in routes)
        {
            var crossings = route!["crossings"]!.AsArray();
            double Sum(Func<JsonNode, double> figure) => crossings.Sum(crossing => figure(crossing!));

            Assert.Equal(Number(route, "metres"), Sum(c => Number(c, "metres")), 0.15);
            Assert.Equal(Number(route, "expectedSeconds"), Sum(c => Number(c, "dwellSeconds") + Number(c, "stallProbability") * Mean(c["stall"])), 0.05 * crossings.Count);
            Assert.Equal(Number(route["exposure"]!, "sharedAirMinutes"), Sum(c => Number(c, "sharedAirMinutes")), 0.002);
            Assert.Equal(Number(route["exposure"]!, "closeByMinutes"), Sum(c => Number(c, "closeByMinutes")), 0.002);
            Assert.Equal(
                Number(route, "peopleLikelyMet"),
                crossings.Where(c => !c!["isEnd"]!.GetValue<bool>()).DistinctBy(c => $"{c!["place"]}").Sum(c => Number(c!, "people")), 0.01);
            foreach (var crossing in crossings.Select(crossing => crossing!))
            {
                var (people, minutes, isEnd) = (Number(crossing, "people"), Number(crossing, "dwellSeconds") / 60, crossing["isEnd"]!.GetValue<bool>());
                Assert.Equal(Number(crossing, "dwellSeconds"), new[] { "walking", "door", "wait", "ride" }.Sum(part => Mean(crossing[part])), 0.02);
                Assert.Equal(
                    isEnd ? 0 : people * minutes * 300 / (Number(crossing, "lossPerHour") * Number(crossing, "volumeCubicMetres")),
                    Number(crossing, "sharedAirMinutes") - Number(crossing, "openDoorMinutes"), 0.002);
                Assert.Equal(
                    isEnd ? 0 : people * minutes * Math.Min(1, 4 * Math.PI / Number(crossing, "areaSquareMetres")), Number(crossing, "closeByMinutes"), 0.002);
            }

            // Second opinion: journeys drawn with MathNet.Numerics from the triangles shown, one pace for all walking.
            var times = Drawn(crossings);
            Assert.InRange(Number(route, "usualSeconds"), times[Journeys / 2] - 1.5, times[Journeys / 2] + 1.5);
            Assert.InRange(Number(route, "nearlyAlwaysSeconds"), times[Journeys * 9 / 10] - 2.5, times[Journeys * 9 / 10] + 2.5);
        }
    }

    [Fact]
    public async Task The_legs_shown_add_up_and_every_line_of_the_working_is_right_as_printed()
    {
        using var client = application.CreateClient();
        var made = await client.PostAsJsonAsync("/api/v1/plans", new JsonObject
        {
            ["siteId"] = "demonstration",
            ["from"] = "D-2.14",
            ["to"] = "N-4.03",
            ["departAt"] = "2026-11-27T02:10:00Z",
            ["support"] = "cpap",
            ["precautions"] = new JsonArray("airborne"),
        });
        var id = $"{(await made.Content.ReadFromJsonAsync<JsonNode>())!["id"]}";
        var html = await client.GetStringAsync($"/plans/{id}");
        var sheet = await BrowsingContext.New(Configuration.Default).OpenAsync(page => page.Content(html));

        var legs = sheet.QuerySelectorAll("ol.legs > li").Select(leg => Seconds(LegClock().Match(leg.TextContent).Groups[1].Value)).ToList();
        var whole = Regex.Match(sheet.Body!.TextContent, "The legs add up to the expected ([0-9:]+) min:s");
        Assert.NotEmpty(legs);
        Assert.Equal(Seconds(whole.Groups[1].Value), legs.Sum());

        var lines = sheet.QuerySelectorAll("[aria-label='Working of the exposure'] tbody tr").Select(row => row.Children.Select(cell => cell.TextContent.Trim()).ToList()).ToList();
        Assert.Contains(lines, line => line is [_, var working, ..] && SharedAirWorking().IsMatch(working));
        foreach (var line in lines.Where(line => line.Count == 5 && SharedAirWorking().IsMatch(line[1])))
        {
            var f = SharedAirWorking().Match(line[1]).Groups.Values.Skip(1).Select(group => Parsed(group.Value)).ToList();
            Assert.Equal(f[0] * f[1] * 300 / (f[2] * f[3]), Parsed(line[2]), 0.003);
            // Of a place larger than the circle the circle ÷ its area, else all of it.
            Assert.Matches(@"^(12\.566 ÷ [0-9.]+ m²|all of [0-9.]+ m²)$", line[3]);
            var part = line[3].StartsWith("all", StringComparison.Ordinal) ? 1 : 12.566 / Parsed(line[3].Split(' ')[2]);
            Assert.Equal(f[0] * f[1] * part, Parsed(line[4]), 0.002);
        }

        var together = lines.Single(line => line[0] == "together");
        Assert.Equal(lines.Where(line => line.Count == 5).Sum(line => Parsed(line[4])), Parsed(together[^1]), 0.0005 * lines.Count);

        // Plan B: found out + way on = arrival; held places: the team's times and the site's seconds give the window.
        var fallbacks = sheet.QuerySelectorAll("[aria-label='Table of fallbacks'] tbody tr").Select(row => Regex.Match(row.LastElementChild!.TextContent, "([0-9:]+) \\+ ([0-9:]+) = ([0-9:]+)")).ToList();
        Assert.NotEmpty(fallbacks);
        Assert.All(fallbacks, sum => Assert.Equal(Seconds(sum.Groups[3].Value), Seconds(sum.Groups[1].Value) + Seconds(sum.Groups[2].Value)));
        var held = sheet.QuerySelectorAll("[aria-label='Working of the held places'] tbody tr td").Select(cell => HeldWorking().Match(cell.TextContent)).ToList();
        Assert.NotEmpty(held);
        int Of(Match window, int group) => Seconds(window.Groups[group].Value);
        var go = TimeSpan.Parse("02:10:00", CultureInfo.InvariantCulture);
        Assert.All(held, window =>
        {
            Assert.Equal(go + TimeSpan.FromSeconds(Of(window, 1) - Parsed(window.Groups[2].Value)), TimeSpan.Parse(window.Groups[3].Value, CultureInfo.InvariantCulture));
            Assert.Equal(go + TimeSpan.FromSeconds(Of(window, 4) + Parsed(window.Groups[5].Value)), TimeSpan.Parse(window.Groups[6].Value, CultureInfo.InvariantCulture));
            Assert.Equal(60, Parsed(window.Groups[2].Value)); // postLeadSeconds 30 and postClearSeconds 30, the defaults
        });

        // A date stands beside each time of day: yesterday's sheet must not look like tonight's.
        Assert.Contains("leaves 2026-11-27 02:10", sheet.Body.TextContent, StringComparison.Ordinal);
        Assert.Contains("void after 2026-11-27 02:40", sheet.Body.TextContent, StringComparison.Ordinal);
    }

    [GeneratedRegex("team there ([0-9:]+) after go at the earliest, less ([0-9]+) s to stand ready and clear it = ([0-9:]+); left ([0-9:]+) after go nearly always, plus ([0-9]+) s hold = ([0-9:]+)")]
    private static partial Regex HeldWorking();

    private static double[] Drawn(JsonArray crossings)
    {
        var random = new MersenneTwister(7);
        var times = new double[Journeys];
        var walking = crossings.Select(c => c!["walking"]).OfType<JsonNode>().ToList();
        Add(walking.Sum(w => Number(w, "leastSeconds")), walking.Sum(w => Number(w, "likelySeconds")), walking.Sum(w => Number(w, "mostSeconds")), 1);
        foreach (var part in crossings.SelectMany(c => new[] { c!["door"], c["wait"], c["ride"] }).OfType<JsonNode>())
        {
            Add(Number(part, "leastSeconds"), Number(part, "likelySeconds"), Number(part, "mostSeconds"), 1);
        }

        foreach (var crossing in crossings.Where(c => Number(c!, "stallProbability") > 0))
        {
            var stall = crossing!["stall"]!;
            Add(Number(stall, "leastSeconds"), Number(stall, "likelySeconds"), Number(stall, "mostSeconds"), Number(crossing, "stallProbability"));
        }

        Array.Sort(times);
        return times;

        void Add(double least, double likely, double most, double chance)
        {
            for (var i = 0; i < times.Length; i++)
            {
                times[i] += random.NextDouble() >= chance ? 0 : most - least < 0.01 ? likely : Triangular.Sample(random, least, most, likely);
            }
        }
    }

    private static double Number(JsonNode node, string name) => node[name]!.GetValue<double>();

    private static double Mean(JsonNode? part) => part is null ? 0 : (Number(part, "leastSeconds") + Number(part, "likelySeconds") + Number(part, "mostSeconds")) / 3;

    private static double Parsed(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static int Seconds(string clock) => clock.Split(':') is [var minutes, var seconds] ? int.Parse(minutes, CultureInfo.InvariantCulture) * 60 + int.Parse(seconds, CultureInfo.InvariantCulture) : throw new FormatException(clock);

    [GeneratedRegex(@", ([0-9]+:[0-9]{2})\s")]
    private static partial Regex LegClock();

    [GeneratedRegex(@"^([0-9.]+) × ([0-9.]+) × 300 ÷ \(([0-9.]+) × ([0-9.]+)\)$")]
    private static partial Regex SharedAirWorking();
}
