using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Gas;

public sealed class GasPageTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private static readonly (string Name, string Value)[] Enough =
    [
        ("Oxygen.Gauge", "1100"), ("Oxygen.Size", "US-E"), ("Air.Gauge", "1800"), ("Air.Size", "US-E-AIR"),
        ("Flow", "10"), ("OxygenFraction", "0.30"), ("JourneyMinutes", "9"),
    ];

    private async Task<IDocument> Post(params (string Name, string Value)[] typed)
    {
        using var client = application.CreateClient();
        var empty = new HtmlParser().ParseDocument(await client.GetStringAsync("/gas"));
        var fields = typed.ToDictionary(field => $"Form.{field.Name}", field => field.Value);
        fields["__RequestVerificationToken"] = ((IHtmlInputElement)empty.QuerySelector("[name=__RequestVerificationToken]")!).Value;
        fields.TryAdd("Form.PressureUnit", "psi");
        using var form = new FormUrlEncodedContent(fields);
        var response = await client.PostAsync("/gas", form);
        response.EnsureSuccessStatusCode();
        Assert.Equal("/gas", response.RequestMessage!.RequestUri!.PathAndQuery);
        return new HtmlParser().ParseDocument(await response.Content.ReadAsStringAsync());
    }

    private static (string Name, string Value)[] With(params (string Name, string Value)[] changed) =>
        [.. Enough.Where(field => changed.All(c => c.Name != field.Name)), .. changed];

    private static string Text(INode? node) => Regex.Replace(node?.TextContent ?? "", @"\s+", " ").Trim();

    private static string Answer(IDocument page) => Text(page.QuerySelector("#answer"));

    private static string? Value(IDocument page, string field) => page.GetElementById(field) switch
    {
        IHtmlInputElement input => input.Value,
        IHtmlSelectElement select => select.Value,
        _ => null,
    };

    [Fact]
    public async Task A_minute_volume_shows_the_rule_for_adults_and_stays_chosen()
    {
        var page = await Post(With(("Flow", "0.75"), ("FlowIs", "MinuteVolume")));

        Assert.Contains("Rule taught for adults, by minute volume: needs ", Answer(page), StringComparison.Ordinal);
        Assert.Contains("The flow is a minute volume", Answer(page), StringComparison.Ordinal);
        Assert.Equal("MinuteVolume", Value(page, "FlowIs"));
        Assert.True(page.GetElementById("FlowIs")!.Closest("details")!.HasAttribute("open"));
        Assert.DoesNotContain("Rule taught for adults", Answer(await Post(Enough)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("psi", """{ "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1100 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 }""")]
    [InlineData("bar", """{ "gas": "oxygen", "waterCapacityLitres": 2, "gaugeBar": 150, "residualBar": 14 }, { "gas": "air", "labelLitres": 400, "labelBar": 200, "gaugeBar": 120 }""")]
    [InlineData("kPa", """{ "gas": "oxygen", "litresPerPsi": 0.28, "gaugeKpa": 9000 }, { "gas": "oxygen", "sizeId": "US-D", "gaugeKpa": 8000 }, { "gas": "air", "waterCapacityLitres": 3, "gaugeKpa": 12000 }""")]
    public async Task The_page_gives_what_the_api_gives_for_the_same_input(string unit, string cylinders)
    {
        var json = $$"""
            { "journeyMinutes": 9, "cylinderTemperatureCelsius": 24, "cylinders": [ {{cylinders}} ],
              "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.30, "driveGasLitresPerMinute": 1, "driveGas": "air", "bleedLitresPerMinute": 0.5 } }
            """;
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        var api = JsonNode.Parse(await (await client.PostAsync("/api/v1/gas-supply", content)).Content.ReadAsStringAsync())!;
        List<(string, string)> typed =
        [
            ("PressureUnit", unit), ("Flow", "10"), ("OxygenFraction", "0,30"), ("JourneyMinutes", "9"), ("Celsius", "24"), ("DriveFlow", "1"), ("DriveGas", "Air"), ("Bleed", "0.5"),
        ];
        var oxygen = 0;
        foreach (var cylinder in JsonNode.Parse($"[{cylinders}]")!.AsArray())
        {
            var prefix = $"{cylinder!["gas"]}" == "air" ? "Air" : oxygen++ == 0 ? "Oxygen" : "SecondOxygen";
            typed.AddRange(cylinder.AsObject().Where(member => member.Key != "gas").Select(member => ($"{prefix}.{Field(member.Key)}", $"{member.Value}")));
        }

        var page = await Post([.. typed]);

        var figures = page.QuerySelectorAll("#answer .figure").Select(Text).ToList();
        var gases = api["gases"]!.AsArray();
        // Of oxygen that outlasts air the page shows when it ends in all.
        JsonNode Shown(JsonNode gas) => $"{gas["gas"]}" == "oxygen" && api["oxygenOnceAirEnds"] is { } after ? after : gas;
        Assert.Equal([.. gases.Select(gas => $"{Shown(gas!)["minutes"]} min{(Shown(gas!)["airMinutes"] is { } air ? $", alone from minute {Math.Floor((double)air)}" : "")}"), $"{api["oxygenAlone"]!["minutes"]} min"], figures);
        var answer = Answer(page);
        foreach (var gas in gases)
        {
            Assert.Contains($"at least {Shown(gas!)["minutesLow"]} min, with gauge and flowmeter error", answer);
            Assert.Contains($"{Shown(gas!)["working"]}", answer);
            Assert.Contains($"{gas!["working"]}", answer);
            Assert.Contains($"{gas["flowWorking"]}", answer);
        }

        Assert.Contains($"ends first: {api["minutes"]} min.", answer);
        Assert.Contains($"{api["oxygenAlone"]!["working"]}", answer);
        Assert.All(api["rules"]!.AsArray(), rule => Assert.Contains($"{rule!["working"]}", answer));
        Assert.All(api["cautions"]!.AsArray(), caution => Assert.Contains($"{caution}", answer));
        Assert.Contains("Counted 2026-05-04 ", answer);
    }

    private static string Field(string member) => member switch
    {
        "sizeId" => "Size",
        "litresPerPsi" => "LitresPerPsi",
        "waterCapacityLitres" => "WaterLitres",
        "labelLitres" => "LabelLitres",
        _ when member.StartsWith("label", StringComparison.Ordinal) => "LabelPressure",
        _ when member.StartsWith("gauge", StringComparison.Ordinal) => "Gauge",
        _ => "Residual",
    };

    // 616 L at 2,200 psi: Virginia Office of Emergency Medical Services, Oxygen Cylinder Guidance, 2010. (1100 - 200) x 616 / 2200 = 252 L, at 10 L/min 25 min.
    [Fact]
    public async Task A_rule_that_is_met_and_one_that_is_short_say_so_in_words_with_both_figures()
    {
        var page = await Post(Enough);

        var rows = page.QuerySelectorAll("#answer table").First(table => Text(table).Contains("verdict")).QuerySelectorAll("tbody tr").Select(Text);
        Assert.Equal(["twice the journey18 min25 minmet", "journey plus 30 minutes39 min25 minshort by 14 min"], rows.Select(row => row.Replace("min ", "min").Replace(" min", " min")));
    }

    [Theory]
    [InlineData("OxygenFraction", "30", "Oxygen fraction (30 percent is 0.30): give a number from 0.21 to 1; \"30\" is not.")]
    [InlineData("Flow", "0", "Set flow: give a number from 0.01 to 30 L/min; \"0\" is not.")]
    [InlineData("Oxygen.Gauge", "2500", "2500 psi is above 2420 psi, 110 percent of this cylinder's full pressure of 2200 psi")]
    [InlineData("Oxygen.Gauge", "9000", "Oxygen gauge: give a number from 0 to 3300 psi; \"9000\" is not.")]
    [InlineData("Oxygen.Gauge", "full", "Oxygen gauge: give a number from 0 to 3300 psi; \"full\" is not.")]
    [InlineData("Oxygen.WaterLitres", "4.7", "Oxygen cylinder: the capacity is given 2 times, by the size (US-E) and by the water capacity (4.7). Keep one and empty the rest.")]
    [InlineData("JourneyMinutes", "-3", "Journey: give a number from 0.1 to 1440 min; \"-3\" is not.")]
    [InlineData("Celsius", "80", "Cylinder temperature: give a number from -20 to 50 °C; \"80\" is not.")]
    public async Task A_bad_figure_is_named_with_its_field_and_nothing_typed_is_lost(string field, string value, string words)
    {
        var typed = With((field, value));

        var page = await Post(typed);

        Assert.Contains(words, Answer(page));
        Assert.Empty(page.QuerySelectorAll("#answer .figure"));
        Assert.All(typed, entry => Assert.Equal(entry.Value, Value(page, entry.Name)));
        Assert.All(page.QuerySelectorAll("#answer .attend a"), link => Assert.NotNull(page.GetElementById(link.GetAttribute("href")![1..])));
    }

    [Fact]
    public async Task Stops_and_elevators_give_the_change_over_the_picture_and_the_minutes_if_the_elevator_stalls()
    {
        // 616 L at 2,200 psi (source above): (500 - 200) x 0.28 = 84 L at 10 L/min; at the low end (84 - 21) / 11 = 5.7 min.
        var page = await Post(With(
            ("Oxygen.Gauge", "500"), ("OxygenFraction", "1"), ("SecondOxygen.Gauge", "1100"), ("SecondOxygen.Size", "US-E"), ("Stops", "2; 5"), ("Elevators", "6")));

        var answer = Answer(page);
        Assert.Contains("Minute 5, on reaching the stop at minute 5: oxygen from cylinder 1 to cylinder 2.", answer);
        Assert.Contains("Cylinder 1 may be empty at minute 5.7, the journey ends at minute 9;", answer);
        // 252 L less 1 min at 10 L/min.
        Assert.Contains("If it stalls, the elevator at minute 6: 24 min are left on reaching it", answer);
        var picture = page.QuerySelector("#answer svg.contents")!;
        Assert.Contains("change to 2", Text(picture));
        Assert.Contains("arrival", Text(picture));
        Assert.Contains("Oxygen, cylinder 1: 84 L at minute 0, 34 L at minute 5.", answer);
    }

    [Theory]
    [InlineData("Stops", "12", "Stop: give a number from 0.1 to 9 min; \"12\" is not.")]
    [InlineData("Elevators", "soon", "Elevator: give a number from 0.1 to 9 min; \"soon\" is not.")]
    public async Task A_stop_outside_the_journey_is_refused(string field, string value, string words) =>
        Assert.Contains(words, Answer(await Post(With((field, value)))));

    [Fact]
    public async Task A_letter_without_a_country_is_refused_with_the_countries_to_choose_from()
    {
        var page = await Post(With(("Oxygen.Size", "E")));

        Assert.Contains("'E' means different cylinders in different countries", Answer(page));
        Assert.Contains("US-E", Answer(page));
        Assert.Contains("UK-E", Answer(page));
    }

    [Fact]
    public async Task A_gauge_below_the_residual_is_zero_minutes_with_a_caution()
    {
        var page = await Post(With(("Oxygen.Gauge", "150")));

        Assert.Contains("Oxygen ends first: 0 min.", Answer(page));
        Assert.Contains("150 psi is not above the residual of 200 psi", Answer(page));
    }

    [Theory]
    [InlineData("JourneyMinutes", "0", "Journey: give a number from 0.1 to 1440 min; \"0\" is not.")]
    [InlineData("Oxygen.Residual", "-200", "Oxygen residual: give a number from 0 to 3300 psi; \"-200\" is not.")]
    [InlineData("Oxygen.Size", "US-E-AIR", "Oxygen cylinder: US-E-AIR is listed for air")]
    [InlineData("Oxygen.Gauge", "2421", "Oxygen gauge: 2421 psi is above 2420 psi, 110 percent of this cylinder's full pressure of 2200 psi")]
    [InlineData("Oxygen.LabelLitres", "616", "the capacity is given 2 times, by the size (US-E) and by the label (616)")]
    public async Task A_bad_figure_names_the_field_the_figure_and_the_fix(string field, string value, string words)
    {
        var page = await Post(With((field, value), ("Oxygen.LabelPressure", field == "Oxygen.LabelLitres" ? "2200" : "")));

        Assert.Contains(words, Answer(page));
        Assert.True(field == "Oxygen.Size" || Value(page, field) == value);
    }

    [Fact]
    public async Task What_is_still_to_be_given_is_listed_without_an_alarm()
    {
        var page = await Post(("Oxygen.Gauge", "1100"));

        Assert.Equal("Still to give: the set flow; the oxygen fraction; the oxygen cylinder: its size, or another way to give its capacity.", Answer(page));
        Assert.Equal("1100", Value(page, "Oxygen.Gauge"));
    }

    [Fact]
    public async Task Each_size_names_its_country_litres_and_pressure()
    {
        using var client = application.CreateClient();
        var page = new HtmlParser().ParseDocument(await client.GetStringAsync("/gas"));

        var options = page.QuerySelectorAll("[id='Oxygen.Size'] option[value]:not([value=''])").Select(Text).ToList();

        Assert.NotEmpty(options);
        Assert.All(options, option => Assert.Matches(@", (United States|United Kingdom|Australia|Germany|India|International): [\d,]+(–[\d,]+)? L at \d+ (psi|bar)", option));
    }
}
