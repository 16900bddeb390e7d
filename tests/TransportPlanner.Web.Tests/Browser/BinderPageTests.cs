using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>The downtime binder as the printer gives it, and the page on which it is made.</summary>
[Trait("Needs", "Browser")]
public sealed class BinderPageTests(Chromium chromium)
{
    // At most three pages of contents. Seen to fail: with larger letters, twenty fronts and twenty backs flowed on, 203 pages.
    [Fact]
    public async Task The_set_prints_a_contents_and_a_front_and_a_back_for_each_sheet()
    {
        var address = await PageAddresses.BinderAsync(chromium.Client);
        await using var opened = await chromium.OpenAsync(address, Look.Named["desktop"]);
        var contents = await opened.Page.Locator(".binder tbody tr").CountAsync();

        Assert.Equal(40, contents);
        Assert.Equal(80, await opened.Page.Locator(".standing").CountAsync());
        foreach (var paper in new[] { "A4", "Letter" })
        {
            Assert.InRange(await opened.PrintedPagesAsync(paper), 161, 163);
        }
    }

    [Fact]
    public async Task Every_sheet_stands_by_itself_and_names_what_it_was_made_for()
    {
        var address = await PageAddresses.BinderAsync(chromium.Client);
        await using var opened = await chromium.OpenAsync(address, Look.Named["desktop"]);
        await opened.Page.EmulateMediaAsync(new() { Media = Media.Print });

        var sheets = await opened.Page.Locator(".standing").EvaluateAllAsync<string[]>("found => found.map(e => e.innerText)");

        Assert.All(sheets, sheet => Assert.All(
            ["floor plan version 1", "airborne precautions", "void when", "Least gauge, one cylinder of oxygen", "Plan B", "Planning aid", "Check the flow at the patient end", "An incubator does not isolate"],
            words => Assert.Contains(words, sheet)));
        Assert.DoesNotContain(sheets, sheet => sheet.Contains("minutes of gas", StringComparison.OrdinalIgnoreCase));
    }

    // On a quick machine a set may be ready before anybody can press Stop: then it is begun again.
    [Fact]
    public async Task Without_script_the_page_counts_sheets_and_can_be_stopped()
    {
        await PageAddresses.BinderAsync(chromium.Client);
        await using var opened = await chromium.OpenAsync("/binder/demonstration", Look.Named["without-script"]);

        var stopped = opened.Page.GetByText("It is not made again by itself until somebody asks for it below.");
        for (var attempt = 0; attempt < 20 && await stopped.CountAsync() == 0; attempt++)
        {
            await opened.Page.GetByLabel("droplet").CheckAsync();
            await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Make 80 sheets" }).ClickAsync();
            try
            {
                await opened.Page.RunAndWaitForResponseAsync(
                    () => opened.Page.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync(new() { Timeout = 3_000 }),
                    response => response.Request.Method == "POST" && response.Url.Contains("handler=Stop", StringComparison.Ordinal),
                    new() { Timeout = 10_000 });
            }
            catch (TimeoutException)
            {
                // The page looked again and the set was ready: there is no button any more.
            }

            await opened.Page.GotoAsync("/binder/demonstration");
        }

        await Assertions.Expect(stopped).ToBeVisibleAsync();

        // What was made before is still there, and droplet stays chosen.
        Assert.Equal(40, await opened.Page.Locator(".binder tbody tr").CountAsync());
        Assert.True(await opened.Page.GetByLabel("droplet").IsCheckedAsync());
    }
}
