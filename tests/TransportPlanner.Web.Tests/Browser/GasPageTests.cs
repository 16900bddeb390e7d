using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>What script and paper add to the gas page.</summary>
[Trait("Needs", "Browser")]
public sealed class GasPageTests(Chromium chromium)
{
    // Seen to fail: without the request token of the form, so that the planner refused what was typed.
    [Fact]
    public async Task The_answer_follows_what_is_typed_and_focus_and_scroll_stay()
    {
        await using var opened = await chromium.OpenAsync("/gas", Look.Named["phone"]);
        var page = opened.Page;
        await page.GetByLabel("Oxygen cylinder", new() { Exact = true }).SelectOptionAsync("US-E");
        await page.GetByLabel("Oxygen gauge", new() { Exact = true }).FillAsync("1500");
        await page.GetByLabel("Set flow, L/min").FillAsync("10");
        await page.GetByLabel("Oxygen fraction").FocusAsync();
        var before = await page.EvaluateAsync<double>("() => scrollY");

        await page.Keyboard.TypeAsync("1");
        await page.GetByRole(AriaRole.Heading, new() { Name = "Minutes of gas" }).WaitForAsync();

        Assert.Equal("OxygenFraction", await page.EvaluateAsync<string>("() => document.activeElement.id"));
        Assert.Equal(before, await page.EvaluateAsync<double>("() => scrollY"));
        Assert.True(await page.EvaluateAsync<bool>("() => document.querySelector('#answer h2').getBoundingClientRect().bottom < innerHeight"), "The answer is on the first screen of a phone.");
        Assert.Empty(opened.Errors);
    }

    // Seen to fail: with figures one below the other, which took two pages.
    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public async Task The_answer_prints_on_one_page(string paper)
    {
        await using var opened = await PageAddresses.OpenAsync(chromium, "gas-counted", Look.Named["desktop"]);

        Assert.Equal(1, await opened.PrintedPagesAsync(paper));
    }
}
