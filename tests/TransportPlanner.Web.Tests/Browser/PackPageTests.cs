using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using TransportPlanner.Core.Tests.Architecture;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Tests.Plans;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>The pack as the printer gives it.</summary>
[Trait("Needs", "Browser")]
public sealed class PackPageTests(Chromium chromium)
{
    // The longest lists: twelve officers, every precaution, the most legs that the demonstration hospital asks for, three cylinders, four batteries.
    private const string Longest =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "nonInvasiveVentilation",
          "precautions": ["airborne", "droplet", "contact"], "officers": { "count": 12 }, "departAt": "2026-05-04T13:10:00Z",
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.4 },
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1900 },
            { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ],
          "batteries": [ { "device": "ventilator", "ratedMinutes": 240, "chargePercent": 90, "ageYears": 2 }, { "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 },
            { "device": "infusionPump", "ratedMinutes": 300, "chargePercent": 100, "ageYears": 1 }, { "device": "incubator", "chargePercent": 100, "ageYears": 1 } ] }
        """;

    // Seen to fail: with the box for handwriting at 28 mm, which took a second page for the receiving door; with the kind of each door on the
    // line of its number, which took two for the helper's card.
    [Theory]
    [InlineData(PackSheet.Huddle, 1)]
    [InlineData(PackSheet.Calls, 1)]
    [InlineData(PackSheet.Strip, 2)]
    [InlineData(PackSheet.Gas, 1)]
    [InlineData(PackSheet.Posts, 12)]
    [InlineData(PackSheet.Receiving, 1)]
    [InlineData(PackSheet.Helper, 1)]
    [InlineData(PackSheet.Stuck, 1)]
    [InlineData(PackSheet.CloseOut, 1)]
    [InlineData(PackSheet.Labels, 2)]
    public async Task Each_sheet_keeps_to_its_pages(PackSheet sheet, int most)
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}/pack?only={sheet}&way=C", Look.Named["desktop"]);

        Assert.Equal(sheet == PackSheet.Strip ? 12 : 0, await opened.Page.Locator("tr.leg").CountAsync());
        Assert.InRange(await opened.PrintedPagesAsync("A4"), 1, most);
        Assert.InRange(await opened.PrintedPagesAsync("Letter"), 1, most);
    }

    // Capitals 22 minutes of arc high: distance × tan(22′) is 3.84 mm at 60 cm, 4.48 mm at 70 cm, 12.8 mm at 2 m; 1 mm is 96 ÷ 25.4 px.
    // The unit cap is the height of a capital in the face that is really used, in whole pixels: hence the measure at 1000 px, scaled by the
    // width of the letters. Seen to fail: with 15 pt at 70 cm.
    [Theory]
    [InlineData(".near", 0.6)]
    [InlineData(".carried .beside td", 0.6)]
    [InlineData(".letters li", 0.6)]
    [InlineData(".doors .how", 0.6)]
    [InlineData(".calls .say", 0.6)]
    [InlineData(".arm", 0.7)]
    [InlineData(".far", 2.0)]
    public async Task What_is_acted_on_is_as_high_as_its_distance_asks(string part, double metres)
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}/pack", Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        var heights = await opened.Page.Locator($".card {part}").EvaluateAllAsync<double[]>(
            """
            found => found.map(e => {
              const probe = (style) => {
                const text = e.appendChild(document.createElement('span'));
                text.textContent = 'HHHHHHHHHH';
                text.style.cssText = 'position: absolute; letter-spacing: 0; white-space: nowrap; ' + style;
                const ruler = text.appendChild(document.createElement('i'));
                ruler.style.cssText = 'position: absolute; width: 1px; height: 1cap';
                const size = { width: text.getBoundingClientRect().width, cap: ruler.getBoundingClientRect().height };
                text.remove();
                return size;
              };
              const large = probe('font-size: 1000px; font-size-adjust: none');
              return large.cap * probe('').width / large.width / 96 * 25.4;
            })
            """);

        Assert.NotEmpty(heights);
        Assert.All(heights, height => Assert.InRange(height, 1000 * metres * Math.Tan(22.0 / 60 / 180 * Math.PI) - 0.02, double.MaxValue));
    }

    // Seen to fail: with the time of void left out.
    [Fact]
    public async Task Every_card_stands_by_itself()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var opened = await chromium.OpenAsync($"{address}/pack", Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });
        var id = address.Split('/')[^1];
        var callSign = $"{(await chromium.Client.GetFromJsonAsync<JsonNode>(new Uri($"/api/v1{address}", UriKind.Relative)))!["callSign"]}";

        var heads = await opened.Page.Locator(".card").EvaluateAllAsync<string[]>("found => found.map(e => e.firstElementChild.innerText)");
        var codes = await opened.Page.Locator(".card .code").EvaluateAllAsync<string[]>("found => found.map(e => e.firstElementChild.getAttribute('d'))");

        Assert.Equal(Enum.GetValues<PackSheet>().Length - 1 + 12, heads.Length);
        Assert.All(heads, head => Assert.All(
            [id, callSign, "version 1", "void after", "printed as of", "Planning aid", "Check the flow at the patient end", "An incubator does not isolate"],
            words => Assert.Contains(words, head, StringComparison.OrdinalIgnoreCase)));
        Assert.Equal(heads.Length, codes.Length);
        Assert.All(codes, code => Assert.Equal(id, QrReader.Read(PlanCode.Side(id), code).Text));

        // 12 mm are 45 px, and a word takes 15 mm: a box or a line that nobody can write in is none.
        var rooms = await opened.Page.Locator(".card").EvaluateAllAsync<string[]>(
            """
            cards => cards.map(card => [...card.querySelectorAll('.hand')].some(e => e.getBoundingClientRect().height >= 45) ? 'box'
              : [...card.querySelectorAll('.write, td.box')].some(e => e.getBoundingClientRect().width >= 50) ? 'line' : 'none')
            """);
        // Post cards and labels have lines for times, every other sheet has a box.
        Assert.Equal((heads.Length - 12 - 1, 12 + 1), (rooms.Count(room => room == "box"), rooms.Count(room => room == "line")));
    }

    // Written beside the page's own style sheets, so a browser shows it from a memory stick as it shows the page.
    [Fact]
    public async Task The_file_to_send_prints_as_the_page_does()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Longest);
        await using var page = await chromium.OpenAsync($"{address}/pack", Look.Named["desktop"]);
        await using var file = await chromium.OpenAsync("/kit", Look.Named["without-script"]);
        var requests = 0;
        await file.Page.GotoAsync("about:blank");
        file.Page.Request += (_, _) => requests++;

        await file.Page.SetContentAsync(await chromium.Client.GetStringAsync(new Uri($"{address}/pack?file=true", UriKind.Relative)));

        Assert.Equal(await page.PrintedPagesAsync("A4"), await file.PrintedPagesAsync("A4"));
        Assert.Equal(0, requests);
        Findings.None(file.Errors);
    }
}
