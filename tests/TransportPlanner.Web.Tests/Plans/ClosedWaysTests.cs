using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Something is taken out of use after plans were made: who closes it learns whom it touches, and the sheet says so.</summary>
public sealed class ClosedWaysTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Closures = "/api/v1/sites/demonstration/closures";

    private static async Task<JsonNode> PlanAsync(HttpClient client, DateTimeOffset departAt)
    {
        var made = await client.PostAsJsonAsync("/api/v1/plans", new
        {
            siteId = "demonstration",
            from = "D-2.14",
            to = "N-4.03",
            support = "cpap",
            precautions = new[] { "airborne" },
            departAt,
        });
        made.EnsureSuccessStatusCode();
        return (await made.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    private static async Task<JsonNode> CloseAsync(HttpClient client, string target, string id, DateTimeOffset from, DateTimeOffset to)
    {
        var answer = await client.PostAsJsonAsync(Closures, new { target, targetId = id, from, to, reason = "Repair", source = "Facilities" });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    private static async Task EndAsync(HttpClient client, JsonNode closure)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, $"{Closures}/{closure["id"]}");
        request.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        (await client.SendAsync(request)).EnsureSuccessStatusCode();
    }

    /// <summary>What a way meets, with the position of the leg: taken from the plan as the API answers it, an opening from the floor plan.</summary>
    private IEnumerable<(string Target, string Id, int Leg)> Met(JsonNode way)
    {
        Assert.True(application.Services.GetRequiredService<FloorPlanStore>().TryFind("demonstration", out var site));
        var legs = way["legs"]!.AsArray();
        var steps = legs.SelectMany((leg, i) => leg!["places"]!.AsArray().Select(place => (Place: $"{place}", Leg: i + 1))).ToList();
        var (first, second) = steps.Zip(steps.Skip(1)).First(pair => site.Plan.Passages.Any(p => Joins(p, pair) && p.Kind == PassageKind.Opening));
        yield return ("passage", site.Plan.Passages.First(p => Joins(p, (first, second)) && p.Kind == PassageKind.Opening).Id, second.Leg);
        yield return ("place", steps[1].Place, steps[1].Leg);
        yield return ("elevator", $"{legs.First(leg => leg!["elevator"] is not null)!["elevator"]!["elevator"]}", legs.TakeWhile(leg => leg!["elevator"] is null).Count() + 1);
        var doors = legs.Select((leg, i) => (Leg: i + 1, Doors: leg!["doors"]!.AsArray())).Last(leg => leg.Doors.Count > 0);
        yield return ("passage", $"{doors.Doors[^1]!["passage"]}", doors.Leg);

        static bool Joins(Passage passage, ((string Place, int) First, (string Place, int) Second) pair) =>
            (passage.From, passage.To) == (pair.First.Place, pair.Second.Place) || (passage.To, passage.From) == (pair.First.Place, pair.Second.Place);
    }

    [Fact]
    public async Task A_closure_names_the_planned_transports_with_way_leg_and_time_and_their_sheets_say_so()
    {
        using var client = application.CreateClient();
        var departAt = PlannerApplication.Start.AddMinutes(10);
        var plan = await PlanAsync(client, departAt);
        var way = plan["routes"]!["routes"]![0]!;

        foreach (var (target, id, leg) in Met(way).ToList())
        {
            var closure = await CloseAsync(client, target, id, departAt.AddMinutes(-5), departAt.AddMinutes(5));
            var touched = Assert.Single(closure["touches"]!.AsArray(), touched => $"{touched!["planId"]}" == $"{plan["id"]}")!;
            var met = touched["ways"]!.AsArray().Single(w => $"{w!["way"]}" == $"{way["id"]}")!;
            var begins = departAt.AddSeconds(Math.Round(way["legs"]!.AsArray().Take(leg - 1).Sum(l => l!["expectedSeconds"]!.GetValue<double>())));

            Assert.Equal($"{plan["callSign"]}", $"{touched["callSign"]}");
            Assert.Equal(leg, met["leg"]!.GetValue<int>());
            Assert.Equal(begins, met["legBegins"]!.GetValue<DateTimeOffset>());
            var sheet = await client.GetStringAsync($"/plans/{plan["id"]}?way={way["id"]}");
            Assert.Contains($"Way {way["id"]} is closed since this plan was made.", sheet, StringComparison.Ordinal);
            Assert.Contains($"{id}, Repair, 2026-05-04 03:15 to 2026-05-04 03:25, said by Facilities", sheet, StringComparison.Ordinal);

            await EndAsync(client, closure);
            Assert.DoesNotContain("closed since", await client.GetStringAsync($"/plans/{plan["id"]}?way={way["id"]}"), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_closure_on_the_way_stands_in_every_head_of_the_pack_on_the_calls_and_on_the_officers_cards()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var departAt = PlannerApplication.Start.AddMinutes(60);
        var plan = await PlanAsync(client, departAt);
        var shown = $"{(await client.GetFromJsonAsync<JsonNode>($"/api/v1/plans/{plan["id"]}/calls"))!["way"]}";
        var way = plan["routes"]!["routes"]!.AsArray().Single(way => $"{way!["id"]}" == shown)!;
        static IEnumerable<string> Places(JsonNode way) => way["legs"]!.AsArray().SelectMany(leg => leg!["places"]!.AsArray().Select(place => $"{place}"));
        var (place, other) = (
            from candidate in plan["routes"]!["routes"]!.AsArray()
            from met in Places(way)
            where !Places(candidate!).Contains(met)
            select (met, candidate!)).First();
        async Task<AngleSharp.Dom.IDocument> PageAsync(string address) => new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var pages = new[] { $"/plans/{plan["id"]}/pack", $"/plans/{plan["id"]}/calls", "/officers" };
        foreach (var page in pages)
        {
            Assert.DoesNotContain("closed", (await PageAsync(page)).Body!.TextContent, StringComparison.Ordinal);
        }

        await CloseAsync(client, "place", place, departAt.AddMinutes(-5), departAt.AddMinutes(5));

        foreach (var page in pages)
        {
            var alert = Assert.Single((await PageAsync(page)).QuerySelectorAll("[role=alert]"));
            Assert.Contains(place, alert.TextContent, StringComparison.Ordinal);
            Assert.Contains("Repair", alert.TextContent, StringComparison.Ordinal);
        }

        foreach (var page in new[] { pages[0], $"{pages[0]}?file=true", "/officers" })
        {
            var heads = (await PageAsync(page)).QuerySelectorAll(".pack-head");
            Assert.True(heads.Length >= 2);
            Assert.All(heads, head => Assert.Matches($"(?i)way {shown}.*{place}", head.TextContent));
        }

        // Another way does not lead there.
        Assert.DoesNotContain("closed", (await PageAsync($"{pages[0]}?way={other["id"]}")).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_transport_is_not_named_outside_the_hour_from_its_departure_nor_once_it_is_void_nor_off_its_ways()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var departAt = PlannerApplication.Start.AddMinutes(10);
        var plan = await PlanAsync(client, departAt);
        var place = $"{plan["routes"]!["routes"]![0]!["legs"]![1]!["places"]![0]}";
        async Task<int> Named(string target, string id, int from, int to)
        {
            var closure = await CloseAsync(client, target, id, departAt.AddMinutes(from), departAt.AddMinutes(to));
            await EndAsync(client, closure);
            return closure["touches"]!.AsArray().Count;
        }

        Assert.Equal(1, await Named("place", place, -5, 1));
        Assert.Equal(0, await Named("place", place, -5, 0));
        Assert.Equal(1, await Named("place", place, 59, 90));
        Assert.Equal(0, await Named("place", place, 60, 90));
        Assert.Equal(0, await Named("place", "N-4.01", -5, 90));
        own.Time.Advance(TimeSpan.FromMinutes(71));
        Assert.Equal(0, await Named("place", place, -5, 90));
    }

    [Fact]
    public async Task A_door_is_taken_out_of_use_on_the_page_of_its_place_which_names_whom_it_touches_and_ends_it_again()
    {
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var plan = await PlanAsync(client, PlannerApplication.Start);
        var leg = plan["routes"]!["routes"]![0]!["legs"]!.AsArray().First(l => l!["doors"]!.AsArray().Count > 0)!;
        var (door, address) = ($"{leg["doors"]![0]!["passage"]}", $"/floor-plan/demonstration/{leg["level"]}/{leg["places"]![0]}");
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var form = new Dictionary<string, string>
        {
            ["door"] = door,
            ["hours"] = "1",
            ["reason"] = "Does not work",
            ["role"] = "Security",
            ["__RequestVerificationToken"] = page.QuerySelector("form[action*='handler=Close'] input[name=__RequestVerificationToken]")!.GetAttribute("value")!,
        };

        var closed = new HtmlParser().ParseDocument(await (await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(form))).Content.ReadAsStringAsync());
        var stranger = await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(new Dictionary<string, string>(form) { ["door"] = "no such door" }));
        var listed = (await client.GetFromJsonAsync<JsonNode>(Closures))!["closures"]!.AsArray().Single()!;

        Assert.Contains(page.QuerySelectorAll("input[name=door]"), choice => choice.GetAttribute("value") == door);
        Assert.Contains($"{plan["callSign"]}", closed.QuerySelector("ul.touched")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(("passage", door), ($"{listed["target"]}", $"{listed["targetId"]}"));
        Assert.Equal(HttpStatusCode.BadRequest, stranger.StatusCode);

        var open = await (await client.PostAsync($"{address}?handler=Reopen", new FormUrlEncodedContent(form))).Content.ReadAsStringAsync();
        Assert.DoesNotContain($"Passage {door} is out of use", open, StringComparison.Ordinal);
        Assert.Empty((await client.GetFromJsonAsync<JsonNode>(Closures))!["closures"]!.AsArray());
    }
}
