using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>Go on a phone: a re-check, two voices, a stop.</summary>
[Trait("Needs", "Browser")]
public sealed class GoPageTests(Chromium chromium)
{
    private const string Plan =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.02", "support": "cpap", "precautions": ["droplet"],
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-M", "gaugePsi": 1500 }, { "gas": "air", "sizeId": "US-H-AIR", "gaugePsi": 1800 } ] }
        """;

    [Theory]
    [InlineData("phone")]
    [InlineData("without-script")]
    public async Task Two_people_say_go_and_one_says_stop(string look)
    {
        // A plan a look, so that the second does not meet the words of the first.
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Plan + new string(' ', look.Length));
        await using var opened = await chromium.OpenAsync($"{address}/go?way=A", Look.Named[look]);
        var page = opened.Page;
        await page.GetByText("Go is not given").WaitForAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "respiratory therapist" }).ClickAsync();
        await page.GetByLabel("Cylinder 1, oxygen US-M, gauge now, psi").FillAsync("1450");
        await page.GetByLabel("Cylinder 2, air US-H-AIR, gauge now, psi").FillAsync("1790");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the re-check" }).ClickAsync();
        await page.GetByText("Answer each line").WaitForAsync();
        Assert.Equal("1450", await page.GetByLabel("Cylinder 1, oxygen US-M, gauge now, psi").InputValueAsync());
        foreach (var line in new[] { "Breathing support", "Flow", "Oxygen fraction", "Crew", "The way, as far as anybody knows" })
        {
            await page.GetByRole(AriaRole.Group, new() { Name = line, Exact = true }).GetByLabel("as planned").CheckAsync();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the re-check" }).ClickAsync();
        await page.GetByText("Read 1450 psi, 1790 psi").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "team lead" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Team lead: go by way A" }).ClickAsync();
        await page.GetByText("Security has not said go.").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "security", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Security: go by way A" }).ClickAsync();
        await page.GetByText("Both voices say go: way A, version 1").WaitForAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Stop: take both voices back" }).ClickAsync();
        await page.GetByText("Stop was said").WaitForAsync();
        Assert.Equal(0, await page.GetByText("Both voices say go").CountAsync());
        Assert.Empty(opened.Errors);
    }

    [Fact]
    public async Task Who_waits_sees_the_other_voice_without_a_press()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Plan + "   ");
        using var recheck = new HttpRequestMessage(HttpMethod.Post, $"/api/v1{address}/go/recheck")
        {
            Content = new StringContent(
                """
                { "role": "teamLead", "way": "A", "support": "same", "flow": "same", "oxygenFraction": "same", "crew": "same", "onTheWay": "same",
                  "gauges": [ { "gaugePsi": 1450 }, { "gaugePsi": 1790 } ] }
                """,
                System.Text.Encoding.UTF8, "application/json"),
        };
        recheck.Headers.TryAddWithoutValidation("If-Match", "*");
        (await chromium.Client.SendAsync(recheck)).EnsureSuccessStatusCode();
        await using var opened = await chromium.OpenAsync($"{address}/go?way=A&role=TeamLead", Look.Named["phone"]);
        await using var other = await chromium.OpenAsync($"{address}/go?way=A&role=Security", Look.Named["phone"]);
        await opened.Page.GetByLabel("Cylinder 1, oxygen US-M, gauge now, psi").FillAsync("1400");

        await other.Page.GetByRole(AriaRole.Button, new() { Name = "Security: go by way A" }).ClickAsync();

        await opened.Page.Locator("#go").GetByText("Security has not said go.").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        Assert.Equal("1400", await opened.Page.GetByLabel("Cylinder 1, oxygen US-M, gauge now, psi").InputValueAsync());
        Assert.Empty(opened.Errors);
    }

    [Fact]
    public async Task A_call_is_one_press_and_an_answer_another()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Plan + "     ");
        await using var opened = await chromium.OpenAsync($"{address}/calls", Look.Named["phone"]);
        var security = opened.Page.Locator("#Security");

        await security.GetByRole(AriaRole.Button, new() { Name = "Called" }).ClickAsync();
        await security.GetByText("no answer yet").WaitForAsync();
        await security.GetByRole(AriaRole.Button, new() { Name = "Acknowledged" }).ClickAsync();
        await opened.Page.GetByText("1 of 8 acknowledged").WaitForAsync();

        Assert.Empty(opened.Errors);
    }
}
