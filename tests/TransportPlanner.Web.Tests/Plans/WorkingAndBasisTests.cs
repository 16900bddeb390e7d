using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using static TransportPlanner.Web.Tests.Sites.DisplayedSite;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>What a stranger missed: workings of rides, cars and held elevators, settings that were used and not listed, and oxygen that outlasts air.</summary>
public sealed partial class WorkingAndBasisTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task The_parts_of_a_ride_as_printed_add_up_to_its_seconds()
    {
        var (plan, way) = await WayAsync();
        var rides = way["crossings"]!.AsArray().Where(crossing => crossing!["rideWorking"] is not null).Select(crossing => crossing!).ToList();
        Assert.NotEmpty(rides);
        foreach (var ride in rides)
        {
            var working = $"{ride["rideWorking"]}";
            var parts = working.Split("; ").Where(part => !part.StartsWith("together", StringComparison.Ordinal)).Select(part => Three(part.StartsWith("flight", StringComparison.Ordinal) ? part[part.IndexOf('≈')..] : part)).ToList();
            Assert.Equal(6, parts.Count);
            var (least, likely, most) = (parts.Sum(part => part.Least), parts.Sum(part => part.Likely), parts.Sum(part => part.Most));
            Assert.Equal((double)ride["ride"]!["leastSeconds"]!, least, 0.021);
            Assert.Equal((double)ride["ride"]!["likelySeconds"]!, likely, 0.021);
            Assert.Equal((double)ride["ride"]!["mostSeconds"]!, most, 0.021);

            // Peters 1995, full speed reached: d/v + v/a + a/j.
            if (FullSpeed().Match(working) is { Success: true } flight)
            {
                double Of(int group) => double.Parse(flight.Groups[group].Value, CultureInfo.InvariantCulture);
                Assert.Equal(Of(1) / Of(2) + Of(3) / Of(4) + Of(5) / Of(6), Of(7), 0.006);
            }
        }

        using var client = application.CreateClient();
        var page = await PageAsync(client, $"/plans/{plan["id"]}?only=Working&way={way["id"]}");
        Assert.Equal(rides.Count, page.QuerySelectorAll("p.ride").Length);
        Assert.All(rides, ride => Assert.Contains(page.QuerySelectorAll("p.ride").Select(Words), words => words.Contains($"{ride["rideWorking"]}", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_car_s_capture_its_cleaning_and_its_air_with_doors_shut_are_worked_out()
    {
        var (plan, way) = await WayAsync();
        using var client = application.CreateClient();
        var cars = (await PageAsync(client, $"/plans/{plan["id"]}?only=Working&way={way["id"]}")).QuerySelectorAll("p.car").Select(Words).ToList();
        var captured = plan["posts"]!.AsArray().Single(posts => $"{posts!["route"]}" == $"{way["id"]}")!["elevators"]!.AsArray();
        Assert.NotEmpty(captured);
        foreach (var car in captured)
        {
            // Its air takes longer than the 10 min of cleaning that are the default, and its usual wait less than the 60 s before the team.
            var aired = plan["airing"]!.AsArray().Single(place => $"{place!["place"]}" == $"{car!["elevator"]}")!;
            Assert.True((int)aired["minutesDoorsShut"]! > 10);
            Assert.Contains(cars, words => words.StartsWith($"{car!["name"]}: team on {car["landing"]} ", StringComparison.Ordinal)
                && words.Contains("less 60 s = ", StringComparison.Ordinal)
                && words.Contains($" nearly always, plus {aired["minutesDoorsShut"]} min for its air, doors shut = ", StringComparison.Ordinal));
        }

        var air = plan["airing"]!.AsArray().Where(place => place!["minutesDoorsShut"] is not null && place["routes"]!.AsArray().Any(route => $"{route}" == $"{way["id"]}")).ToList();
        Assert.NotEmpty(air);
        foreach (var place in air)
        {
            var shut = Airing().Match($"{place!["workingDoorsShut"]}");
            Assert.True(shut.Success, $"{place["workingDoorsShut"]}");
            var minutes = -Math.Log(double.Parse(shut.Groups[1].Value, CultureInfo.InvariantCulture)) / double.Parse(shut.Groups[2].Value, CultureInfo.InvariantCulture) * 60;
            Assert.Equal(Math.Ceiling(minutes), (double)place["minutesDoorsShut"]!);
            Assert.Contains(cars, words => words.Contains($"with doors shut {place["workingDoorsShut"]}", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Each_place_of_the_working_leads_to_its_page_on_the_floor_plan()
    {
        var (plan, way) = await WayAsync();
        using var client = application.CreateClient();
        var page = await PageAsync(client, $"/plans/{plan["id"]}?only=Working&way={way["id"]}");
        var links = page.QuerySelectorAll("table.airing th a").Select(link => (Place: Words(link), To: link.GetAttribute("href")!)).DistinctBy(link => link.Place).ToList();

        Assert.Equal(way["crossings"]!.AsArray().Select(crossing => $"{crossing!["place"]}").Distinct().Order(), links.Select(link => link.Place).Order());
        foreach (var (place, to) in links)
        {
            Assert.Contains(place, (await PageAsync(client, to)).QuerySelector("#place")!.TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Every_setting_that_the_posts_the_cars_and_the_fit_used_is_listed_until_the_site_says_it()
    {
        using var own = new PlannerApplication();
        using var client = own.CreateClient();
        string[] used =
        [
            "clearanceEachSideMillimetres: 50 mm", "holdMinutes: 0 min", "postClearSeconds: 30 s", "elevatorCarsHeldFor: contact, droplet, airborne", "elevatorCaptureSeconds: 60 s",
            "elevatorCarParkMinutes: 0 min", "elevatorCarCleaningMinutes: 10 min", "placesClearedFor: airborne",
        ];

        var plan = await PlanAsync(client, Body);
        var assumed = plan["assumed"]!.AsArray().Select(one => $"{one}").ToList();
        Assert.All(used, one => Assert.Contains(one, assumed));
        Assert.Contains(assumed, one => Regex.IsMatch(one, "^(clean|soiled|public|restricted)CorridorsHeldFor: airborne$"));
        var basis = Words((await PageAsync(client, $"/plans/{plan["id"]}?only=Basis")).QuerySelector("section.page")!);
        Assert.Contains("Cleaning a car takes 10 min.", basis, StringComparison.Ordinal);
        Assert.DoesNotMatch("[a-z]+[A-Z][A-Za-z]+: ", basis);

        (await SayAsync(client, ("lengthUnit", "feet"))).EnsureSuccessStatusCode();
        var inFeet = Words((await PageAsync(client, $"/plans/{plan["id"]}?only=Basis")).QuerySelector("section.page")!);
        Assert.Contains("within 49 ft.", inFeet, StringComparison.Ordinal);
        Assert.DoesNotContain("within 15 m", inFeet, StringComparison.Ordinal);
    }

    // 10 L/min at 0.4: oxygen 2.405 L/min from two cylinders lasts far longer than the air beside it; then it flows at 10 L/min.
    [Fact]
    public async Task Oxygen_beside_air_that_ends_first_shows_when_both_ends_and_not_what_it_would_give_with_more_air()
    {
        var (plan, way) = await WayAsync();
        var supply = plan["gasByRoute"]!.AsArray().Single(gas => $"{gas!["route"]}" == $"{way["id"]}")!["supply"]!;
        Assert.Equal("air", $"{supply["limitingGas"]}");
        var after = supply["oxygenOnceAirEnds"]!;
        var (air, oxygen) = ((double)supply["gases"]![1]!["exactMinutes"]!, (double)supply["gases"]![0]!["exactMinutes"]!);
        var (own, alone) = ((double)supply["gases"]![0]!["flowLitresPerMinute"]!, (double)supply["oxygenAlone"]!["flowLitresPerMinute"]!);
        Assert.Equal(Math.Floor(air + (oxygen - air) * own / alone), (double)after["minutes"]!);

        using var client = application.CreateClient();
        foreach (var (address, figure) in new[] { ($"?only=Ways&way={way["id"]}", "dl.figures"), ($"?only=Gas&way={way["id"]}", "dl.figures") })
        {
            var figures = (await PageAsync(client, $"/plans/{plan["id"]}{address}")).QuerySelectorAll($"{figure} .figure").Select(Words).ToList();
            Assert.Contains(figures, words => words.StartsWith($"{after["minutes"]} min", StringComparison.Ordinal));
            Assert.DoesNotContain(figures, words => words.StartsWith($"{supply["gases"]![0]!["minutes"]} min", StringComparison.Ordinal));
        }

        var huddle = Words((await PageAsync(client, $"/plans/{plan["id"]}/pack?only=Huddle&way={way["id"]}")).Body!);
        Assert.Contains($"Gas as set {Math.Floor(air)} min: air ends first. Oxygen alone, fraction 1.0: {supply["oxygenAlone"]!["minutes"]} min.", huddle, StringComparison.Ordinal);
        Assert.All(plan["gasByRoute"]!.AsArray().SelectMany(gas => gas!["shortfalls"]!.AsArray()), shortfall =>
            Assert.Equal(Math.Round((double)shortfall!["chance"]!, 6), (double)shortfall["chance"]!));
    }

    [Fact]
    public async Task A_size_that_was_read_by_nothing_given_does_not_say_that_something_was()
    {
        using var client = application.CreateClient();
        var none = await PlanAsync(client, Body);
        var given = await PlanAsync(client, Body.Replace("\"support\"", "\"weightGrams\": 1837, \"gestationWeeks\": 33, \"support\"", StringComparison.Ordinal));

        static IEnumerable<string> Bases(JsonNode plan) => plan["kit"]!["items"]!.AsArray().SelectMany(item => item!["sizes"]!.AsArray()).Select(size => $"{size!["basis"]}");
        Assert.DoesNotContain("what was given when the plan was made", Bases(none));
        Assert.Contains("what was given when the plan was made", Bases(given));
        Assert.DoesNotContain(Bases(given), basis => Regex.IsMatch(basis, @"1[ ,.]?837|\b33 weeks"));
    }

    [Fact]
    public async Task A_fire_door_that_lies_on_and_back_is_said_once()
    {
        var (plan, _) = await WayAsync();
        using var client = application.CreateClient();
        foreach (var way in plan["routes"]!["routes"]!.AsArray())
        {
            var legs = (await PageAsync(client, $"/plans/{plan["id"]}?only=Route&way={way!["id"]}")).QuerySelector("ol.legs")!.TextContent;
            foreach (Match alarm in Alarm().Matches(legs))
            {
                Assert.NotEqual(alarm.Groups[1].Value, alarm.Groups[2].Value);
            }

            Assert.DoesNotMatch(@"\b0 m (on|back)", legs);
        }
    }

    private async Task<(JsonNode Plan, JsonNode Way)> WayAsync()
    {
        using var client = application.CreateClient();
        var plan = await PlanAsync(client, Body);
        return (plan, plan["routes"]!["routes"]!.AsArray().First(way => way!["elevators"]!.AsArray().Any(ride => (bool)ride!["isHeld"]!))!);
    }

    private static (double Least, double Likely, double Most) Three(string part)
    {
        var numbers = Number().Matches(part).Select(match => double.Parse(match.Value, CultureInfo.InvariantCulture)).ToList();
        return numbers.Count == 1 ? (numbers[0], numbers[0], numbers[0]) : (numbers[0], numbers[1], numbers[2]);
    }

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@": ([\d.]+) ÷ ([\d.]+) \+ ([\d.]+) ÷ ([\d.]+) \+ ([\d.]+) ÷ ([\d.]+) ≈ ([\d.]+) s")]
    private static partial Regex FullSpeed();

    [GeneratedRegex(@"^−ln\(([\d.]+)\) ÷ ([\d.]+) per h")]
    private static partial Regex Airing();

    [GeneratedRegex(@"fire alarm \([^)]*\): (?:stay on level \S+, do not board; )?(\S+) to [^;]*?, or (\S+) to")]
    private static partial Regex Alarm();
}
