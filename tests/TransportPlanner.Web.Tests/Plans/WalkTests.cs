using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>A way is walked with a phone and its doors are measured.</summary>
public sealed class WalkTests
{
    // Seen to fail: with a door listed on both sides of it.
    [Fact]
    public async Task Doors_and_places_stand_in_order_and_a_measured_width_is_a_step_of_the_draft()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var plan = await (await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "airborne" } }))
            .Content.ReadFromJsonAsync<JsonNode>();
        var way = plan!["routes"]!["routes"]![0]!;
        var address = $"/plans/{plan["id"]}/walk?way={way["id"]}";
        application.Time.Advance(TimeSpan.FromDays(2));
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var listed = page.QuerySelectorAll("ol.legs > li").Select(item => item.Id!).ToList();
        var places = way["legs"]!.AsArray().SelectMany(leg => leg!["places"]!.AsArray().Select(place => $"{place}")).ToList();
        var doors = way["legs"]!.AsArray().SelectMany(leg => leg!["doors"]!.AsArray().Select(door => $"{door!["passage"]}")).ToList();
        Dictionary<string, string> form = new()
        {
            ["passage"] = doors[0],
            ["centimetres"] = "112,5",
            ["by"] = "Facilities",
            ["__RequestVerificationToken"] = page.QuerySelector("input[name=__RequestVerificationToken]")!.GetAttribute("value")!,
        };

        var noted = await (await client.PostAsync(address, new FormUrlEncodedContent(form))).Content.ReadAsStringAsync();
        var wrong = await (await client.PostAsync(address, new FormUrlEncodedContent(new Dictionary<string, string>(form) { ["centimetres"] = "wide" }))).Content.ReadAsStringAsync();
        var import = (await client.GetFromJsonAsync<JsonNode>("/api/v1/imports"))!["imports"]!.AsArray().Single()!;
        var step = (await client.GetFromJsonAsync<JsonNode>($"/api/v1/imports/{import["id"]}"))!["steps"]!.AsArray().Single()!;

        Assert.Equal(places, listed.Where(places.Contains));
        Assert.Equal(doors.Distinct(), listed.Where(doors.Contains));
        Assert.Contains("1.125 m wide", noted, StringComparison.Ordinal);
        Assert.Contains("2026-05-06, today", noted, StringComparison.Ordinal);
        Assert.Contains("give its clear width from 10 to 5,000 cm", wrong, StringComparison.Ordinal);
        Assert.StartsWith($"clearWidthMetres of passage {doors[0]}: 1.125, measured 2026-05-06", $"{step["text"]}", StringComparison.Ordinal);
        Assert.Equal("Facilities", $"{step["by"]}");
    }

    // H-2.03 is crossed straight on over 18 m: 20, 25, 18, 22.5 and 22 s are 0.9, 0.72, 1.0, 0.8 and 0.8181… m/s, median 0.8181….
    [Fact]
    public async Task Walks_are_timed_and_become_the_speed_of_plans_once_a_person_confirms_it()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var before = await PlanAsync(client);
        var address = $"/plans/{before["id"]}/walk?way={before["routes"]!["routes"]![0]!["id"]}";
        var crossings = before["routes"]!["routes"]![0]!["crossings"]!.AsArray();
        var crossing = Enumerable.Range(0, crossings.Count).Single(i => $"{crossings[i]!["place"]}" == "H-2.03");
        var token = new HtmlParser().ParseDocument(await client.GetStringAsync(address)).QuerySelector("input[name=__RequestVerificationToken]")!.GetAttribute("value")!;
        async Task<string> PostAsync(string handler, params (string Name, string Value)[] fields) => await (await client.PostAsync(
            $"{address}&handler={handler}", new FormUrlEncodedContent([.. fields.Append(("by", "Facilities")).Append(("__RequestVerificationToken", token)).Select(f => KeyValuePair.Create(f.Item1, f.Item2))])))
            .Content.ReadAsStringAsync();
        Task<string> TimeAsync(string seconds) => PostAsync("Time", ("crossing", $"{crossing}"), ("seconds", seconds));

        var tooFast = new HtmlParser().ParseDocument(await TimeAsync("5.9"));
        var words = await TimeAsync("quick");
        var turning = await PostAsync("Time", ("crossing", "1"), ("seconds", "20"));
        var early = await PostAsync("Speed", ("words", ""));
        foreach (var seconds in new[] { "20", "25", "18", "22,5" })
        {
            await TimeAsync(seconds);
        }

        var stopped = await TimeAsync("60");
        var page = new HtmlParser().ParseDocument(await TimeAsync("22"));
        var kept = await PlanAsync(client);
        const string Pace = "0.72 to 1.00 m/s, median 0.81, 5 walks timed 2026-05-04";
        var stale = await PostAsync("Speed", ("words", Pace.Replace("5", "6", StringComparison.Ordinal)));
        var confirmed = await PostAsync("Speed", ("words", Pace));
        var after = await PlanAsync(client);
        var sheet = await client.GetStringAsync($"/plans/{after["id"]}?only=Basis");

        Assert.Contains("H-2.03, seconds: 5.9 s over 18.0 m is faster than 3 m/s", tooFast.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal("5.9", tooFast.QuerySelector("input[aria-invalid=true]")!.GetAttribute("value"));
        Assert.Contains("H-2.03, seconds: Give the seconds", words, StringComparison.Ordinal);
        Assert.Contains("This way has no such walk", turning, StringComparison.Ordinal);
        Assert.Contains("5 walks are needed", early, StringComparison.Ordinal);
        Assert.Contains("H-2.03, seconds: 60 s over 18.0 m is 0.30 m/s; the median of the 4 walks kept is 0.85 m/s", stopped, StringComparison.Ordinal);
        Assert.Equal(5, page.QuerySelectorAll("#speed li").Length);
        Assert.Contains("assumed: nobody has measured it here", page.QuerySelector("#speed")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(Pace, page.QuerySelector("#speed input[name=words]")!.GetAttribute("value"));
        Assert.Contains("incubatorSpeed: 0.8 to 1 m/s, likely 0.9", kept["assumed"]!.AsArray().Select(assumed => $"{assumed}"));
        Assert.Empty(kept["measured"]!.AsArray());
        Assert.Equal(WalkingOf(before), WalkingOf(kept));
        Assert.Contains("look at the speed again", stale, StringComparison.Ordinal);
        Assert.Contains($"measured, {Pace}", confirmed, StringComparison.Ordinal);
        Assert.Equal([$"incubatorSpeed: {Pace}"], after["measured"]!.AsArray().Select(measured => $"{measured}"));
        Assert.DoesNotContain(after["assumed"]!.AsArray(), assumed => $"{assumed}".StartsWith("incubatorSpeed:", StringComparison.Ordinal));
        // 18 m at 1.00, 0.81 and 0.72 m/s.
        Assert.Equal((18, 22.22, 25), WalkingOf(after));
        Assert.Contains($"The incubator goes {Pace} straight on.", sheet, StringComparison.Ordinal);
    }

    // Seen from the settings: the role and the day stand with the speeds, and one that somebody types later is no longer called measured.
    [Fact]
    public async Task A_speed_typed_after_the_measurement_is_not_called_measured()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        JsonObject measurement = new() { ["count"] = 5, ["slowest"] = 0.72, ["median"] = 0.81, ["fastest"] = 1.0, ["first"] = "2026-05-04", ["last"] = "2026-05-04" };
        async Task<JsonArray> MeasuredAsync(double likely)
        {
            using var put = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
            {
                Content = JsonContent.Create(new JsonObject
                {
                    ["settings"] = new JsonArray([.. new (string, JsonNode)[] { ("incubatorSpeedMinimum", 0.72), ("incubatorSpeedLikely", likely), ("incubatorSpeedMaximum", 1.0), ("measuredIncubatorSpeed", measurement.DeepClone()) }
                        .Select(v => new JsonObject { ["name"] = v.Item1, ["value"] = v.Item2, ["owner"] = "Facilities", ["date"] = "2026-05-04" })]),
                }),
            };
            put.Headers.TryAddWithoutValidation("If-Match", "*");
            (await client.SendAsync(put)).EnsureSuccessStatusCode();
            return (await PlanAsync(client))["measured"]!.AsArray();
        }

        Assert.Single(await MeasuredAsync(0.81));
        Assert.Empty(await MeasuredAsync(0.9));
    }

    private static async Task<JsonNode> PlanAsync(HttpClient client) =>
        (await (await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "airborne" } }))
            .Content.ReadFromJsonAsync<JsonNode>())!;

    private static (double, double, double) WalkingOf(JsonNode plan)
    {
        var walking = plan["routes"]!["routes"]!.AsArray().SelectMany(way => way!["crossings"]!.AsArray()).First(crossing => $"{crossing!["place"]}" == "H-2.03")!["walking"]!;
        return ((double)walking["leastSeconds"]!, (double)walking["likelySeconds"]!, (double)walking["mostSeconds"]!);
    }
}
