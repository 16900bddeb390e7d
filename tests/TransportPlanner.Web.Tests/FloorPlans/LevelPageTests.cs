using System.Net;
using System.Net.Http.Json;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;

namespace TransportPlanner.Web.Tests.FloorPlans;

public sealed class LevelPageTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Site = "/floor-plan/demonstration";

    private FloorPlan Plan
    {
        get
        {
            _ = application.Server;
            Assert.True(application.Services.GetRequiredService<FloorPlanStore>().TryFind("demonstration", out var site));
            return site.Plan;
        }
    }

    private async Task<(HttpStatusCode Status, string Address, IDocument Page)> Get(string address)
    {
        using var client = application.CreateClient();
        var response = await client.GetAsync(address);
        return (response.StatusCode, response.RequestMessage!.RequestUri!.AbsolutePath, new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync()));
    }

    private static string Text(INode? node) => Regex.Replace(node?.TextContent ?? "", @"\s+", " ").Trim();

    [Fact]
    public async Task The_bare_address_leads_to_the_lowest_level_with_a_delivery_room()
    {
        var (status, address, page) = await Get("/floor-plan");

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal($"{Site}/2", address);
        Assert.Contains("this hospital is invented", Text(page.QuerySelector(".notice")));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("2")]
    [InlineData("4")]
    public async Task Each_place_of_a_level_is_a_link_in_the_drawing_and_a_row_of_the_table(string level)
    {
        var places = Plan.Places.Where(p => p.Level == level).Select(p => $"{Site}/{level}/{p.Number}").Order().ToList();
        var cars = Plan.Elevators.Where(e => e.Stops.Any(s => s.Level == level)).Select(e => $"{Site}/{level}/{e.Car}").ToList();

        var (_, _, page) = await Get($"{Site}/{level}");

        Assert.Equal(places, page.QuerySelectorAll("#places tbody a").Select(a => a.GetAttribute("href")).Order());
        Assert.Equal(places.Concat(cars).Order(), page.QuerySelectorAll("svg[data-pan-zoom] a").Select(a => a.GetAttribute("href")).Order());
    }

    [Theory]
    [InlineData("D-2.11", "2/D-2.11")]
    [InlineData("d211", "2/D-2.11")]
    [InlineData("Delivery room 1", "2/D-2.11")]
    [InlineData("C1", "2/C1")]
    public async Task A_number_or_a_name_finds_its_place(string typed, string place)
    {
        var (status, address, _) = await Get($"{Site}/2?find={Uri.EscapeDataString(typed)}");

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal($"{Site}/{place}", address);
    }

    [Fact]
    public async Task A_name_that_fits_several_places_lists_them_and_an_unknown_one_says_so_and_stays_typed()
    {
        var (_, _, several) = await Get($"{Site}/2?find=delivery");
        var (_, _, none) = await Get($"{Site}/2?find=observatory");

        Assert.True(several.QuerySelectorAll("[role=alert] a").Length > 1);
        Assert.Contains("No place is called \"observatory\"", Text(none.QuerySelector("[role=alert]")));
        Assert.Equal("observatory", none.QuerySelector("#find")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Each_fact_of_each_place_shows_value_source_and_date_or_is_written_out_as_unknown()
    {
        var unknowns = 0;
        foreach (var place in Plan.Places.Where(p => p.Level == "2" || p.Level is null))
        {
            var (status, _, page) = await Get($"{Site}/2/{place.Number}");

            Assert.Equal(HttpStatusCode.OK, status);
            var rows = page.QuerySelector("#place table")!.QuerySelectorAll("tbody tr").Select(row => row.Children.Select(Text).ToList()).ToList();
            Assert.All(rows, row => Assert.All(row, cell => Assert.NotEmpty(cell)));
            Assert.All(rows, row => Assert.Matches(@"^(measured|drawing|assumed|from the outline|nobody has said)$", row[2]));
            Assert.All(rows, row => Assert.Matches(@"^(\d{4}-\d\d-\d\d, (today|\d+ (day|month|year)s? ago)|no date|floor plan version \d+)$", row[3]));
            Assert.All(rows, row => Assert.Equal(row[1] == "unknown", row[2] == "nobody has said"));
            var air = rows.Single(row => row[0].StartsWith("Air changes", StringComparison.Ordinal) && !row[0].Contains("open"));
            Assert.Equal(place.AirChanges.IsKnown ? FormattableString.Invariant($"{place.AirChanges.Value.PerHour:0.##} per hour") : "unknown", air[1]);
            unknowns += rows.Count(row => row[1] == "unknown");
        }

        Assert.True(unknowns > 0, "The demonstration hospital has unknown facts on this level.");
    }

    [Fact]
    public async Task A_passage_of_unknown_width_says_unknown_and_a_known_one_its_source_and_date()
    {
        var passage = Plan.Passages.First(p => !p.ClearWidth.IsKnown && p.Kind != PassageKind.StairFlight);
        var known = Plan.Passages.First(p => p.ClearWidth is { IsKnown: true, Source: FactSource.Measured, AsOf: not null } && Plan.Places.First(q => q.Number == p.From).Level is not null);

        async Task<string> Row(Passage wanted)
        {
            var place = Plan.Places.First(p => p.Number == wanted.From);
            var (_, _, page) = await Get($"{Site}/{place.Level}/{place.Number}");
            return Text(page.QuerySelectorAll(".passages tbody tr").Single(row => Text(row).StartsWith(wanted.Id + ",", StringComparison.Ordinal)));
        }

        Assert.Contains("clear width unknown nobody has said", await Row(passage));
        Assert.Contains(
            FormattableString.Invariant($"clear width {known.ClearWidth.Value.Metres:0.00#} m measured, {known.ClearWidth.AsOf:yyyy-MM-dd}"), await Row(known));
    }

    [Fact]
    public async Task An_elevator_car_shows_the_facts_of_its_elevator_and_its_stops()
    {
        var elevator = Plan.Elevators.First(e => e.RatedLoadKilograms.IsKnown);

        var (_, _, page) = await Get($"{Site}/{elevator.Stops[0].Level}/{elevator.Car}");

        Assert.Contains(FormattableString.Invariant($"Rated load{elevator.RatedLoadKilograms.Value:0} kg"), Text(page.QuerySelector("#place")));
        Assert.All(elevator.Stops, stop => Assert.Contains(page.QuerySelectorAll("#place a"), a => Text(a) == stop.Landing));
    }

    [Fact]
    public async Task A_closed_place_is_hatched_and_its_reason_and_end_stand_in_words()
    {
        using var client = application.CreateClient();
        var posted = await client.PostAsJsonAsync("/api/v1/sites/demonstration/closures", new
        {
            target = "place",
            targetId = "H-0.02",
            from = PlannerApplication.Start.AddHours(-1),
            to = PlannerApplication.Start.AddHours(3),
            reason = "Ceiling works",
            source = "facilities",
        });
        Assert.Equal(HttpStatusCode.Created, posted.StatusCode);

        var (_, _, level) = await Get($"{Site}/0");
        var (_, _, place) = await Get($"{Site}/0/H-0.02");

        // 05:10 UTC on 4 May is 06:10 in Lisbon (IANA time zone data: summer time, one hour ahead).
        const string Words = "Ceiling works, until 2026-05-04 06:10 (UTC+01:00); said by facilities";
        Assert.Contains($"place H-0.02: {Words}", Text(level.QuerySelector(".attend")));
        Assert.Contains($"out of use: {Words}", Text(level.QuerySelector("#places tbody")));
        Assert.Contains("-closed)", level.QuerySelector($"svg a[href='{Site}/0/H-0.02']")!.InnerHtml);
        Assert.DoesNotContain("-closed)", level.QuerySelector($"svg a[href='{Site}/0/H-0.01']")!.InnerHtml);
        Assert.Contains(Words, Text(place.QuerySelector("#place .attend")));
    }

    [Theory]
    [InlineData("/floor-plan/nowhere")]
    [InlineData(Site + "/9")]
    [InlineData(Site + "/2/X-9.99")]
    [InlineData(Site + "/2/H-0.02")]
    public async Task What_the_plan_does_not_have_is_not_found(string address) => Assert.Equal(HttpStatusCode.NotFound, (await Get(address)).Status);

    [Theory]
    [InlineData("2025-03-04", "2025-03-04, 14 months ago")]
    [InlineData("2025-03-05", "2025-03-05, 13 months ago")]
    [InlineData("2026-05-04", "2026-05-04, today")]
    [InlineData("2026-05-03", "2026-05-03, 1 day ago")]
    [InlineData("2026-04-04", "2026-04-04, 1 month ago")]
    [InlineData("2023-05-05", "2023-05-05, 2 years ago")]
    [InlineData("2026-05-05", "2026-05-05")]
    [InlineData(null, "no date")]
    public void A_date_is_shown_with_its_age_rounded_down(string? day, string words) =>
        Assert.Equal(words, FloorPlanWords.Aged(day is null ? null : DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), PlannerApplication.Start));

    [Fact]
    public async Task A_place_is_taken_out_of_use_on_its_page_and_ways_avoid_it_until_it_ends_by_itself()
    {
        // Its own application: the clock is moved on.
        await using var own = new PlannerApplication();
        using var client = own.CreateClient();
        var place = Plan.Places.First(p => p.Level == "4" && p.Kind == PlaceKind.IsolationRoom);
        var address = $"{Site}/4/{place.Number}";
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync(address));
        var token = page.QuerySelector("form[action*='handler=Close'] input[name=__RequestVerificationToken]")!.GetAttribute("value")!;
        Dictionary<string, string> form = new() { ["hours"] = "4", ["reason"] = "Cleaning", ["role"] = "Facilities", ["__RequestVerificationToken"] = token };

        var closed = await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(form));
        var wrong = await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(new Dictionary<string, string>(form) { ["hours"] = "1000" }));
        var bare = await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(form.Where(field => field.Key[0] != '_')));
        var route = await client.PostAsJsonAsync("/api/v1/routes", new { siteId = "demonstration", from = "D-2.14", to = place.Number, departAt = PlannerApplication.Start, precautions = new[] { "airborne" } });

        Assert.NotNull(page.QuerySelector("details form"));
        Assert.Contains("Cleaning, until 2026-05-04 07:10 (UTC+01:00); said by Facilities", Text(new HtmlParser().ParseDocument(await closed.Content.ReadAsStringAsync()).Body));
        Assert.Equal([HttpStatusCode.BadRequest, HttpStatusCode.BadRequest], [wrong.StatusCode, bare.StatusCode]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, route.StatusCode);

        // A slip must not close an isolation room for a day: the page ends what it began.
        var reopened = await client.PostAsync($"{address}?handler=Reopen", new FormUrlEncodedContent(form));
        Assert.DoesNotContain("Out of use.", await reopened.Content.ReadAsStringAsync());
        Assert.True((await client.PostAsJsonAsync("/api/v1/routes", new { siteId = "demonstration", from = "D-2.14", to = place.Number, departAt = PlannerApplication.Start, precautions = new[] { "airborne" } })).IsSuccessStatusCode);

        await client.PostAsync($"{address}?handler=Close", new FormUrlEncodedContent(form));
        own.Time.Advance(TimeSpan.FromHours(5));
        Assert.DoesNotContain("Out of use on this level", await client.GetStringAsync($"{Site}/4"));
    }
}
