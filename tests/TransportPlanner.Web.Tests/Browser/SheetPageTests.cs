using Microsoft.Playwright;
using TransportPlanner.Core.Tests.Architecture;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>What each person takes along from the sheet of a plan.</summary>
[Trait("Needs", "Browser")]
public sealed class SheetPageTests(Chromium chromium)
{
    // The longest lists: a ventilated infant under every precaution, by the longest way of the set, with both gases.
    private const string Longest =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation",
          "precautions": ["airborne", "droplet", "contact"], "weightGrams": 1850, "gestationWeeks": 32,
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.4 },
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 250 }, { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 },
                         { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 260 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ],
          "batteries": [ { "device": "ventilator", "ratedMinutes": 30, "chargePercent": 95, "ageYears": 1.5 }, { "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 },
                         { "device": "infusionPump", "chargePercent": 100 }, { "device": "infusionPump", "ratedMinutes": 300, "chargePercent": 80, "testedMinutes": 200, "testedOn": "2025-03-01" },
                         { "device": "incubator", "ratedMinutes": 60, "chargePercent": 100, "ageYears": 3 }, { "device": "suction", "ratedMinutes": 45, "chargePercent": 70 } ] }
        """;

    // Five inputs, and no cylinder for the air that a blender draws.
    private const string Plain =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"],
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 } ] }
        """;

    // The words differ with the hour: late in the evening a wait is worth its sentence, and a plan for now names two times of go.
    // Seen to fail: with the kit in one column, which took three pages; with wider margins and the measures of the ways in a narrow column, gas and ways on Letter.
    [Theory]
    [InlineData(SheetPart.Ways)]
    [InlineData(SheetPart.Route)]
    [InlineData(SheetPart.Gas)]
    [InlineData(SheetPart.Batteries)]
    [InlineData(SheetPart.Timeline)]
    [InlineData(SheetPart.Calls)]
    [InlineData(SheetPart.Kit)]
    [InlineData(SheetPart.Wear)]
    public async Task Each_part_prints_on_one_page_of_its_own_with_a_line_to_spare(SheetPart part)
    {
        var evening = $"{PlannerApplication.Start:yyyy-MM-dd}T23:10:00Z";
        foreach (var request in new[] { Plain, Longest, Longest.Replace("\"weightGrams\"", $"\"departAt\": \"{evening}\", \"weightGrams\"") })
        {
            var address = await PageAddresses.PlanOfAsync(chromium.Client, request);
            await using var opened = await chromium.OpenAsync($"{address}?only={part}", Look.Named["desktop"]);

            await SpareALineAsync(opened);
            Assert.Equal((1, 1), (await opened.PrintedPagesAsync("A4"), await opened.PrintedPagesAsync("Letter")));
        }
    }

    private static async Task SpareALineAsync(OpenPage opened) =>
        await opened.Page.Locator("section.page").EvaluateAsync("section => { section.appendChild(document.createElement('p')).textContent = 'a line to spare'; }");

    // Seen to fail: where the pages of the first node of the print were counted, which were 8.
    [Fact]
    public async Task Twelve_officers_have_a_page_each_and_the_duty_desk_two()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest.Replace("\"weightGrams\"", "\"officers\": { \"count\": 12 }, \"weightGrams\""));
        await using var opened = await chromium.OpenAsync($"{address}?only=Posts", Look.Named["desktop"]);

        Assert.InRange(await opened.PrintedPagesAsync("A4"), 12 + 1, 12 + 2);
        Assert.InRange(await opened.PrintedPagesAsync("Letter"), 12 + 1, 12 + 2);
    }

    // What stands above its page prints at the foot of the page before. Seen to fail: with the code drawn 2 mm higher.
    [Fact]
    public async Task Nothing_of_a_page_stands_above_it()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync(address, Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        Findings.None(await opened.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('section.page')].flatMap(page => [...page.querySelectorAll('*')]
              .filter(e => e.checkVisibility() && !e.closest('svg *') && e.getBoundingClientRect().top < page.getBoundingClientRect().top - 0.5)
              .map(e => 'above its page: ' + e.outerHTML.slice(0, 120)))
            """));
    }

    // A reader of codes needs four empty modules around one (ISO/IEC 18004). The drawing has them inside, so nothing may be set over it.
    [Theory]
    [InlineData("")]
    [InlineData("/pack")]
    public async Task No_text_is_set_over_a_printed_code_or_its_quiet_zone(string part)
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync(address + part, Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        Assert.True(await opened.Page.Locator("svg.code:visible").CountAsync() > 3);
        Findings.None(await opened.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('svg.code')].filter(code => code.checkVisibility()).flatMap(code => {
              const zone = code.getBoundingClientRect();
              const texts = document.createTreeWalker(code.closest('section'), NodeFilter.SHOW_TEXT);
              const touching = [];
              while (texts.nextNode()) {
                const range = document.createRange();
                range.selectNodeContents(texts.currentNode);
                const over = [...range.getClientRects()].filter(r => r.width > 0 && r.right > zone.left + 0.5 && r.left < zone.right - 0.5 && r.bottom > zone.top + 0.5 && r.top < zone.bottom - 0.5);
                if (over.length > 0 && texts.currentNode.data.trim()) touching.push(`over the code: ${texts.currentNode.data.trim().slice(0, 60)}`);
              }
              return touching;
            })
            """));
    }

    // The list of what was refused has the focus, so that a keyboard and a screen reader begin there: also without script.
    [Fact]
    public async Task After_a_refused_form_the_keyboard_stands_at_what_was_refused()
    {
        await using var opened = await chromium.OpenAsync("/?site=demonstration", Look.Named["desktop"]);

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Make the plan" }).ClickAsync();

        await Assertions.Expect(opened.Page.Locator("[role=alert]")).ToBeFocusedAsync();
        await opened.Page.Keyboard.PressAsync("Tab");
        Assert.StartsWith("#", await opened.Page.EvaluateAsync<string>("document.activeElement.getAttribute('href')"));
    }

    // Sizes as the printer gets them; 12 pt are 16 px. The head of the page and what is drawn in a picture are not text of the sheet.
    // Seen to fail: with the cautions at 8.5 pt; with lines of 1.15 and wider margins, which took two pages of Letter.
    [Theory]
    [InlineData(SheetPart.Gas)]
    [InlineData(SheetPart.Batteries)]
    public async Task Gas_and_batteries_print_no_text_below_12_points(SheetPart part)
    {
        await StandOnShelfAsync();
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest.Replace("D-2.14", "D-2.13"));
        await using var opened = await chromium.OpenAsync($"{address}?only={part}", Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        var small = await opened.Page.Locator("section.page").EvaluateAsync<string[]>(
            """
            section => [...section.querySelectorAll('*')]
              .filter(e => !e.closest('.print-head, svg') && e.checkVisibility() && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
              .filter(e => parseFloat(getComputedStyle(e).fontSize) < 15.99)
              .map(e => `${getComputedStyle(e).fontSize} ${e.tagName}.${e.className}: ${e.textContent.trim().slice(0, 40)}`)
            """);

        Assert.Empty(small);
        var text = await opened.Page.Locator("section.page").InnerTextAsync();
        Assert.All(part == SheetPart.Gas ? new[] { "Fewest cylinders of the shelf that meet the site's rules", "Does the hose fit that wall?", "D-2.13 (start)" } : ["Where to plug in"], words => Assert.Contains(words, text));
        await SpareALineAsync(opened);
        Assert.Equal((1, 1), (await opened.PrintedPagesAsync("A4"), await opened.PrintedPagesAsync("Letter")));
    }

    // Without weight and gestation every size spans its bands: the longest kit list of all.
    // Seen to fail: with the word confirm in the line of text, which took a second page.
    [Theory]
    [InlineData("invasiveVentilation")]
    [InlineData("cpap")]
    [InlineData("nonInvasiveVentilation")]
    public async Task The_kit_prints_on_one_page_also_where_nothing_is_known_of_the_infant(string support)
    {
        var address = await PageAddresses.PlanOfAsync(
            chromium.Client, Longest.Replace("\"weightGrams\": 1850, \"gestationWeeks\": 32,", "").Replace("invasiveVentilation", support));
        await using var opened = await chromium.OpenAsync($"{address}?only=Kit", Look.Named["desktop"]);

        Assert.Equal(1, await opened.PrintedPagesAsync("A4"));
        Assert.Equal(1, await opened.PrintedPagesAsync("Letter"));
    }

    [Fact]
    public async Task On_paper_each_item_has_a_box_and_each_item_for_two_people_two_boxes_for_initials()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}?only=Kit", Look.Named["desktop"]);
        var kit = System.Text.Json.Nodes.JsonNode.Parse(await chromium.Client.GetStringAsync(new Uri("/api/v1" + address, UriKind.Relative)))!["kit"]!;
        var items = kit["items"]!.AsArray();
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        Assert.Equal(items.Count, await opened.Page.Locator(".ticks > li").CountAsync());
        var boxes = await opened.Page.Locator(".ticks .initials i").EvaluateAllAsync<double[]>("found => found.map(e => e.getBoundingClientRect().width)");
        Assert.Equal(2 * items.Count(item => (bool)item!["twoPeople"]!), boxes.Length);
        Assert.All(boxes, width => Assert.True(width > 20, $"{width} px is no room for initials"));
    }

    // Seen to fail: with the heads of the parts left out.
    [Fact]
    public async Task Every_printed_part_says_which_plan_it_is_and_when_it_is_void()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync(address, Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        var heads = await opened.Page.Locator("section.page").EvaluateAllAsync<string[]>("found => found.map(e => e.firstElementChild.innerText)");

        // The part of other transports is there only where the way comes upon one.
        var parts = Enum.GetValues<SheetPart>().Length - 1 + await opened.Page.Locator("h2", new() { HasText = "Two transports at once" }).CountAsync();
        Assert.Equal(parts + await opened.Page.Locator(".post-card").CountAsync(), heads.Length);
        Assert.All(heads, head =>
        {
            Assert.Contains(address.Split('/')[^1], head);
            Assert.Contains("version 1", head);
            Assert.Contains("void after", head);
            Assert.Contains("An incubator does not isolate", head);
        });
    }

    // Readings that are too old are named on the sheet too: one may not push the rest to a second page.
    private async Task StandOnShelfAsync()
    {
        var old = $"{PlannerApplication.Start.AddDays(-2):yyyy-MM-dd}T00:00:00Z";
        (string Tag, string Gas, string Size, int Psi, string? ReadAt)[] cylinders =
        [
            ("O-12-PRINT", "oxygen", "US-E", 1500, null), ("A-3-PRINT", "air", "US-E-AIR", 1800, null),
            .. Enumerable.Range(1, 8).Select(n => ($"O-OLD-{n}-PRINT", "oxygen", "US-E", 900, (string?)old)),
        ];
        foreach (var (tag, gas, size, psi, readAt) in cylinders)
        {
            using var content = new StringContent(
                $$"""{ "siteId": "demonstration", "tag": "{{tag}}", "cylinder": { "gas": "{{gas}}", "sizeId": "{{size}}", "gaugePsi": {{psi}} }, "readBy": "Therapist"{{(readAt is null ? "" : $", \"readAt\": \"{readAt}\"")}} }""",
                System.Text.Encoding.UTF8, "application/json");
            var response = await chromium.Client.PostAsync(new Uri("/api/v1/shelf", UriKind.Relative), content);
            Assert.True(response.IsSuccessStatusCode || response.StatusCode == System.Net.HttpStatusCode.Conflict, $"{response.StatusCode}");
        }
    }

    // Fields that a browser may not complete are empty after going back. Seen to fail: without the script.
    [Fact]
    public async Task Going_back_to_the_start_page_loses_nothing()
    {
        await using var opened = await chromium.OpenAsync("/?site=demonstration", Look.Named["desktop"]);
        var page = opened.Page;
        await page.GetByLabel("From", new() { Exact = true }).FillAsync("D-2.14");
        await page.GetByLabel("To", new() { Exact = true }).FillAsync("N-4.03");
        await page.GetByLabel("CPAP").CheckAsync();
        await page.GetByLabel("airborne").CheckAsync();
        await page.GetByLabel("Oxygen gauge", new() { Exact = true }).FillAsync("1500");
        await page.GetByLabel("Oxygen cylinder", new() { Exact = true }).SelectOptionAsync("US-E");
        await page.Locator("#clinical summary").ClickAsync();
        await page.GetByLabel("Set flow, L/min", new() { Exact = true }).FillAsync("8");
        await page.GetByLabel("Oxygen fraction", new() { Exact = true }).FillAsync("0.3");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the plan" }).ClickAsync();
        await page.WaitForAddressAsync("**/plans/**");

        await page.GoBackAsync();

        foreach (var (field, typed) in new[] { ("From", "D-2.14"), ("To", "N-4.03"), ("Oxygen gauge", "1500"), ("Set flow, L/min", "8"), ("Oxygen fraction", "0.3") })
        {
            await Assertions.Expect(page.GetByLabel(field, new() { Exact = true })).ToHaveValueAsync(typed);
        }
    }

    [Fact]
    public async Task One_part_alone_stays_at_its_way_and_its_version()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}?way=A&version=1", Look.Named["desktop"]);

        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "gas", Exact = true }).ClickAsync();
        await opened.Page.WaitForAddressAsync("**only=Gas");

        Assert.Equal(["Gas on way A"], await opened.Page.Locator("section h2").AllInnerTextsAsync());
        Assert.Contains("version=1", opened.Page.Url);
    }
}
