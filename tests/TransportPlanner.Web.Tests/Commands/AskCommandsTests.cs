using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using TransportPlanner.Web.Commands;

namespace TransportPlanner.Web.Tests.Commands;

/// <summary>The questions that a nurse or a therapist asks from a terminal.</summary>
public sealed partial class AskCommandsTests(AskCommandsTests.DataFolder folder) : IClassFixture<AskCommandsTests.DataFolder>
{
    private static readonly string[] FiveInputs =
        ["plan", "--from", "D-2.14", "--to", "N-4.03", "--support", "invasiveVentilation", "--precautions", "airborne,contact", "--oxygen", "US-E 1500 psi"];

    /// <summary>One data folder for all questions, as one hospital has it.</summary>
    public sealed class DataFolder : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("planner-tests-").FullName;

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }

    [Fact]
    public async Task Five_inputs_give_the_whole_plan_in_the_order_of_the_sheet()
    {
        var (code, text, error) = await RunAsync(FiveInputs);

        Assert.Equal((PlannerCommands.Done, ""), (code, error));
        string[] parts =
        [
            "D-2.14 → N-4.03", "void after", "An incubator does not isolate", "WAYS", "usually, min:s", "LEG BY LEG", "GAS ON WAY",
            "(1500 − 200) psi × 616 L ÷ 2200 psi = 364 L", "oxygen alone", "CHANGE OVER", "RULES FOR EACH TIME OF THE WAY", "plan B, worst arrival, ",
            "The journey outlasts ", "One more oxygen cylinder", "KIT: BEFORE DEPARTURE", "[ ][ ] ", "KIT: HANDOFF", "WHO WEARS WHAT", "PROTECTIVE WEAR, ON",
            "AFTERWARDS", "ASSUMED", "this hospital is invented",
        ];
        var places = parts.Select(part => Regex.Replace(text, @"\s+", " ").IndexOf(part, StringComparison.Ordinal)).ToList();
        Assert.DoesNotContain(-1, places);
        Assert.Equal(places.Order(), places);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= TextPage.Width, line));
        Assert.DoesNotMatch(RedLine(), text);
    }

    [Fact]
    public async Task Batteries_are_typed_in_words_and_printed_with_the_first_to_die()
    {
        var (code, text, error) = await RunAsync(
            [.. FiveInputs, "--battery", "monitor rated 180 min charge 90 % age 2 years", "--battery", "infusionPump from 2024-05-01 charge 80", "--depart", "2026-05-04T02:10:00Z"]);

        Assert.Equal((PlannerCommands.Done, ""), (code, error));
        var words = Regex.Replace(text, @"\s+", " ");
        Assert.Contains("First to die of those that are known: monitor (battery 1), 77 min.", words, StringComparison.Ordinal);
        Assert.Contains("infusion pump (battery 2): UNKNOWN; still to give: rated minutes, or a timed run", words, StringComparison.Ordinal);
        Assert.Contains("Start: D-2.14, CEE 7/3", words, StringComparison.Ordinal);

        var (_, without, _) = await RunAsync(FiveInputs);
        Assert.Contains("Batteries unknown: no device was given.", without, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_gauge_alone_and_a_tag_of_the_shelf_are_cylinders_too()
    {
        // A folder of its own: what stands on the shelf is in every plan.
        using var own = new DataFolder();
        await using (var planner = (await LocalPlanner.StartAsync(new(null, own.Path), TextWriter.Null, CancellationToken.None))!)
        {
            var (status, text) = await planner.PostAsync(
                "/shelf", JsonNode.Parse("""{ "siteId": "demonstration", "tag": "O 12", "cylinder": { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, "readBy": "Therapist" }""")!.AsObject(),
                CancellationToken.None);
            Assert.True(status == 201, text);
        }

        var (code, gas, error) = await RunInAsync(own.Path, "gas", "--flow", "10", "--oxygen-fraction", "1", "--oxygen", "shelf o 12");
        var (_, plan, _) = await RunInAsync(own.Path, [.. FiveInputs[..^1], "shelf O 12"]);
        var (wrong, _, other) = await RunInAsync(own.Path, "gas", "--flow", "10", "--oxygen-fraction", "1", "--air", "shelf O 12", "--oxygen", "shelf O-99");
        var (none, _, preset) = await RunInAsync(own.Path, "gas", "--flow", "10", "--oxygen-fraction", "1", "--oxygen", "1500 psi");
        var (nowhere, _, site) = await RunInAsync(own.Path, "gas", "--site", "elsewhere", "--flow", "10", "--oxygen-fraction", "1", "--oxygen", "1500 psi");

        Assert.Equal((PlannerCommands.Done, ""), (code, error));
        Assert.Contains("(1500 − 200) psi × 616 L ÷ 2200 psi = 364 L", gas, StringComparison.Ordinal);
        Assert.Contains("(1500 − 200) psi × 616 L ÷ 2200 psi = 364 L", plan, StringComparison.Ordinal);
        Assert.Contains("FEWEST CYLINDERS OF THE SHELF", plan, StringComparison.Ordinal);
        Assert.Equal((PlannerCommands.BadInput, PlannerCommands.BadInput, PlannerCommands.BadInput), (wrong, none, nowhere));
        Assert.Contains("--air \"shelf O 12\": O 12 holds oxygen, not air.", other, StringComparison.Ordinal);
        Assert.Contains("--oxygen \"shelf O-99\": no cylinder O-99 stands on the shelf of this site; there are O 12.", other, StringComparison.Ordinal);
        Assert.Contains("--oxygen \"1500 psi\": Give exactly one capacity", preset, StringComparison.Ordinal);
        Assert.Contains("--site: there is no site elsewhere", site, StringComparison.Ordinal);
    }

    // Two programs that ask for one thing must read one thing. Id, call-sign and instants are those of the making.
    [Fact]
    public async Task The_answer_is_the_api_s_own()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        using var body = new StringContent(
            """
            { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne", "contact"],
              "departAt": "2026-05-04T02:10:00+00:00", "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 } ] }
            """,
            Encoding.UTF8, "application/json");

        // A folder of its own: a plan of another question for the same hour would be named as another transport.
        using var own = new DataFolder();
        var (_, text, _) = await RunInAsync(own.Path, [.. FiveInputs, "--json", "--depart", "2026-05-04T02:10:00+00:00"]);
        var expected = JsonNode.Parse(await (await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), body)).Content.ReadAsStringAsync())!;
        var given = JsonNode.Parse(text)!;

        // What no longer fits is counted from the instant of making; the timeline back from go is not.
        static JsonArray ForGo(JsonNode plan) => [.. plan["timeline"]!.AsArray().Select(timeline => timeline!["forGo"]!.DeepClone())];
        Assert.True(JsonNode.DeepEquals(ForGo(expected), ForGo(given)), $"{given["timeline"]}");
        foreach (var member in new[] { "id", "callSign", "madeAt", "timeline" })
        {
            expected[member] = given[member]!.DeepClone();
        }

        Assert.True(JsonNode.DeepEquals(expected, given), $"{given}");
    }

    [Fact]
    public async Task A_kept_plan_is_found_again_and_weight_is_not_in_its_text()
    {
        var (_, text, _) = await RunAsync([.. FiveInputs, "--weight", "1850", "--gestation", "32"]);
        var (_, json, _) = await RunAsync([.. FiveInputs, "--weight", "1850", "--gestation", "32", "--json"]);

        // A random id of hexadecimal digits may hold these four by chance.
        Assert.DoesNotMatch("(?<![0-9a-f])1,?850(?![0-9a-f])", text);
        Assert.DoesNotMatch("(?<![0-9a-f])1,?850(?![0-9a-f])", json);
        Assert.Matches("plan [0-9a-f]{32}", text);
    }

    // Issue by issue what a person may type wrong: the option, what is wrong, and the fix.
    [Theory]
    [InlineData("--from", "nowhere", "--from: no place is called")]
    [InlineData("--from", "delivery room", "D-2.11 Delivery room 1")]
    [InlineData("--site", "elsewhere", "--site: there is no site elsewhere. Give one of demonstration")]
    [InlineData("--support", "oxygen", "--support: Give one of selfVentilating")]
    [InlineData("--precautions", "measles", "--precautions: Give one of contact, droplet, airborne")]
    [InlineData("--oxygen", "E 1500 psi", "--oxygen \"E 1500 psi\": 'E' means different cylinders in different countries")]
    [InlineData("--oxygen", "US-E 9000 psi", "--oxygen \"US-E 9000 psi\": Give 0 to 3300 psi")]
    [InlineData("--oxygen", "US-E 3200 psi", "3200 psi is above 2420 psi, 110 percent")]
    [InlineData("--oxygen", "full", "--oxygen \"full\": Give capacity and gauge")]
    [InlineData("--oxygen", "US-E 1500 psi 100 bar", "Give capacity and gauge")]
    [InlineData("--battery", "flat", "--battery \"flat\": Give one of ventilator, monitor")]
    [InlineData("--battery", "monitor 180", "--battery \"monitor 180\": Give the device and what is known of it")]
    [InlineData("--battery", "monitor rated 180 rated 90", "Give the device and what is known of it")]
    [InlineData("--battery", "monitor charge 140 %", "--battery \"monitor charge 140 %\": Give the charge in percent, 0 to 100")]
    [InlineData("--battery", "monitor tested 60 min", "--battery \"monitor tested 60 min\": A timed run counts by its age")]
    [InlineData("--battery", "monitor from 2999-01-01", "2999-01-01 is no day in the 30 years up to the departure")]
    [InlineData("--flow", "0", "--flow: Give the set flow")]
    [InlineData("--flow", "ten", "--flow: \"ten\" is not a number")]
    [InlineData("--oxygen-fraction", "30", "--oxygen-fraction: Give a fraction from 0.21 to 1, not percent")]
    [InlineData("--weight", "1.85", "--weight: Give a whole number")]
    [InlineData("--depart", "tomorrow", "--depart: Give an instant with its offset")]
    [InlineData("--width", "75", "--width: Is this in metres?")]
    public async Task What_is_typed_wrong_ends_with_2_and_names_the_option(string option, string value, string expected)
    {
        var at = Array.IndexOf(FiveInputs, option);
        string[] args = at < 0 ? [.. FiveInputs, option, value] : [.. FiveInputs[..at], option, value, .. FiveInputs[(at + 2)..]];

        var (code, output, error) = await RunAsync(args);

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains(expected, error);
        Assert.Empty(output);
    }

    [Theory]
    [InlineData("--oxygen", "US-E-AIR 1500 psi", "listed for air: contents of one gas are never used for another")]
    [InlineData("--oxygen", "UK-CD 260 bar", "260 bar is above 253 bar, 110 percent of this cylinder's full pressure of 230 bar")]
    [InlineData("--oxygen", "US-E 1500 psi residual -200 psi", "Give 0 to 3300 psi")]
    [InlineData("--oxygen", "E 1500 psi", "UK-E 680 L")]
    [InlineData("--journey", "0", "--journey: Give the journey in minutes, 0.1 to 1440")]
    [InlineData("--flow", "0", "--flow: Give the set flow, 0.01 to 30")]
    public async Task Gas_that_is_typed_wrong_ends_with_2_and_names_option_figure_and_fix(string option, string value, string expected)
    {
        Dictionary<string, string> options = new() { ["--flow"] = "10", ["--oxygen-fraction"] = "0.30", ["--journey"] = "9", ["--oxygen"] = "US-E 1500 psi", [option] = value };

        var (code, output, error) = await RunAsync(["gas", .. options.SelectMany(pair => new[] { pair.Key, pair.Value })]);

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains(expected, error);
        Assert.Empty(output);
    }

    [Fact]
    public async Task A_gauge_below_the_residual_is_an_answer_of_no_minutes()
    {
        var (code, text, _) = await RunAsync("gas", "--flow", "10", "--oxygen-fraction", "1", "--oxygen", "US-E 150 psi");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.Contains("Oxygen ends first: 0 min.", text);
        Assert.Contains("150 psi is not above the residual of 200 psi", Regex.Replace(text, @"\s+", " "));
    }

    [Fact]
    public async Task A_no_of_the_planner_ends_with_1_and_names_the_first_obstacle()
    {
        var (code, _, error) = await RunAsync([.. FiveInputs, "--width", "4"]);

        Assert.Equal(PlannerCommands.No, code);
        Assert.StartsWith("--width: No way from ", error, StringComparison.Ordinal);
        Assert.Contains("too narrow", error);
    }

    [Fact]
    public async Task Origin_and_destination_in_one_place_names_the_option()
    {
        var (code, output, error) = await RunAsync("plan", "--from", "D-2.14", "--to", "D-2.14", "--support", "cpap", "--precautions", "droplet");

        Assert.Equal((PlannerCommands.BadInput, ""), (code, output));
        Assert.StartsWith("--to: Origin and destination are both D-2.14.", error, StringComparison.Ordinal);
    }

    // Too little gas is an answer. By hand: (150 − 200) psi leave nothing.
    [Fact]
    public async Task A_gauge_below_its_residual_is_no_minutes_and_no_refusal()
    {
        var (code, text, error) = await RunAsync("gas", "--flow", "10", "--oxygen-fraction", "1", "--journey", "9", "--oxygen", "US-E 150 psi residual 200 psi");

        Assert.Equal((PlannerCommands.Done, ""), (code, error));
        Assert.Contains("Oxygen ends first: 0 min.", text);
        Assert.Contains("twice the journey: short by 18 min", text);
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("migrate")]
    [InlineData("serve")]
    public async Task A_data_folder_that_cannot_be_made_is_named(string command)
    {
        var file = Path.Combine(folder.Path, "a-file");
        await File.WriteAllTextAsync(file, "");
        string[] args = command == "plan" ? FiveInputs : [command];
        var (output, error) = (new StringWriter(), new StringWriter());

        var code = await PlannerCommands.RunAsync([.. args, "--data-folder", Path.Combine(file, "below")], output, error);

        Assert.Equal((PlannerCommands.BadInput, ""), (code, output.ToString()));
        Assert.StartsWith("--data-folder: the data folder cannot be used: ", error.ToString(), StringComparison.Ordinal);
    }

    // Worked example of the REST contract: 252 L at 1.139 L/min are 221 min, 252 L at 10 L/min 25 min.
    [Fact]
    public async Task Gas_alone_prints_minutes_working_and_rules()
    {
        var (code, text, _) = await RunAsync(
            "gas", "--flow", "10", "--oxygen-fraction", "0.30", "--journey", "9", "--oxygen", "0.28 L/psi 1100 psi residual 200 psi", "--air", "2 L 150 bar residual 14 bar");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.Contains("Air ends first: 30 min.", text);
        Assert.Contains("(1100 − 200) psi × 0.28 L/psi = 252 L; 252 L ÷ 1.139 L/min = 221 min", text);
        Assert.Contains("oxygen alone at fraction 1.0, 10 L/min: 25 min", text);
        Assert.Contains("twice the journey: met", text);
        Assert.Contains("journey plus 30 minutes: short by 14 min", text);
        Assert.DoesNotMatch(RedLine(), text);
    }

    // CDC/HICPAC 2003, Table B.1: 12 air changes, 99.9 %: 35 min.
    [Fact]
    public async Task Airing_prints_minutes_rounded_up_and_what_they_assume()
    {
        var (code, text, _) = await RunAsync("airing", "--air-changes", "12", "--removal", "99.9");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.StartsWith("35 min\n", text);
        Assert.Contains("THIS ASSUMES", text);
    }

    [Fact]
    public async Task Nothing_given_names_every_option_that_is_needed()
    {
        var (code, _, error) = await RunAsync("airing");

        Assert.Equal(PlannerCommands.BadInput, code);
        Assert.Contains("--air-changes: Required", error);
        Assert.Contains("--removal: Required", error);
    }

    [Fact]
    public async Task A_terminal_prints_in_the_units_and_the_word_of_the_site()
    {
        using var application = new PlannerApplication();
        using var client = application.CreateClient();
        (await Sites.DisplayedSite.SayAsync(client, ("pressureUnit", "bar"), ("lengthUnit", "feet"), ("elevatorWord", "lift"))).EnsureSuccessStatusCode();

        var (code, text, _) = await RunInAsync(application.DataFolder, FiveInputs[..^2]);
        var (refused, _, error) = await RunInAsync(application.DataFolder, [.. FiveInputs[..2], "Elevator", .. FiveInputs[3..]]);

        Assert.Equal(PlannerCommands.Done, code);
        Assert.Matches(@"\d ft[,)]", text);
        Assert.DoesNotMatch(@"\(clean corridor, \d+ m\)", text);
        Assert.Matches(@"\d+ bar \(\d+0 psi\)", text);
        Assert.Matches("(?i)\\blift", text);
        Assert.DoesNotMatch("(?i)elevator", text);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= TextPage.Width, line));
        Assert.Equal(PlannerCommands.BadInput, refused);
        Assert.DoesNotMatch("(?i)elevator", error);
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("gas")]
    [InlineData("airing")]
    public async Task Help_shows_an_example_and_the_exit_codes(string command)
    {
        var (code, text, _) = await RunAsync(command, "--help");

        Assert.Equal(PlannerCommands.Done, code);
        Assert.Contains($"Example: {command} --", text);
        Assert.Contains("Exit codes", text);
    }

    [GeneratedRegex(@"\b(safe|safely|cleared|no risk|risk[- ]free|guaranteed|sterile|chance of infection)\b|[✓✔✅]", RegexOptions.IgnoreCase)]
    private static partial Regex RedLine();

    private Task<(int Code, string Output, string Error)> RunAsync(params string[] args) => RunInAsync(folder.Path, args);

    private static async Task<(int Code, string Output, string Error)> RunInAsync(string folder, params string[] args)
    {
        var (output, error) = (new StringWriter { NewLine = "\n" }, new StringWriter { NewLine = "\n" });
        string[] all = args.Contains("--help") ? args : [.. args, "--data-folder", folder];
        var code = await PlannerCommands.RunAsync(all, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
