using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>What script adds to the checklist: a press changes the list in place.</summary>
[Trait("Needs", "Browser")]
public sealed class ChecklistTickTests(Chromium chromium)
{
    private const string Plan =
        """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "highFlowCannula", "precautions": ["droplet"], "cylinders": [] }""";

    [Fact]
    public async Task A_press_changes_the_list_in_place_and_keeps_the_scroll()
    {
        var address = await PageAddresses.PlanOfAsync(chromium.Client, Plan);
        await using var opened = await chromium.OpenAsync($"{address}/checklist?role=ReceivingNurse", Look.Named["phone"]);
        var page = opened.Page;
        await page.EvaluateAsync("window.kept = true");
        var item = page.Locator("#arrival-temperature");
        await item.ScrollIntoViewIfNeededAsync();
        var before = await page.EvaluateAsync<double>("scrollY");

        await item.GetByRole(AriaRole.Button, new() { Name = "Done" }).ClickAsync();
        await item.GetByText("done: receiving nurse").WaitForAsync();

        Assert.True(await page.EvaluateAsync<bool>("window.kept === true"));
        Assert.InRange(await page.EvaluateAsync<double>("scrollY"), before - 60, before + 60);
        Assert.Contains("1 of", await page.Locator("#progress").InnerTextAsync());
        Assert.Empty(opened.Errors);
    }
}
