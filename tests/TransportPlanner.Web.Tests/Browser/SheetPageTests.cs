using Microsoft.Playwright;
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
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ] }
        """;

    // Seen to fail: with the kit in one column, which took three pages.
    [Theory]
    [InlineData(SheetPart.Ways)]
    [InlineData(SheetPart.Route)]
    [InlineData(SheetPart.Gas)]
    [InlineData(SheetPart.Kit)]
    [InlineData(SheetPart.Wear)]
    public async Task Each_part_prints_on_one_page_of_its_own(SheetPart part)
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}?only={part}", Look.Named["desktop"]);

        Assert.Equal(1, await opened.PrintedPagesAsync("A4"));
        Assert.Equal(1, await opened.PrintedPagesAsync("Letter"));
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

        Assert.Equal(Enum.GetValues<SheetPart>().Length + await opened.Page.Locator(".post-card").CountAsync(), heads.Length);
        Assert.All(heads, head =>
        {
            Assert.Contains(address.Split('/')[^1], head);
            Assert.Contains("version 1", head);
            Assert.Contains("void after", head);
            Assert.Contains("An incubator does not isolate", head);
        });
    }

    [Fact]
    public async Task One_part_alone_stays_at_its_way_and_its_version()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}?way=A&version=1", Look.Named["desktop"]);

        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "gas", Exact = true }).ClickAsync();
        await opened.Page.WaitForURLAsync("**only=Gas");

        Assert.Equal(["Gas on way A"], await opened.Page.Locator("section h2").AllInnerTextsAsync());
        Assert.Contains("version=1", opened.Page.Url);
    }
}
