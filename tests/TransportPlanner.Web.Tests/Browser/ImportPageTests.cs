using Microsoft.Playwright;
using TransportPlanner.Web.Tests.Imports;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>The whole way of a building through the pages, as somebody from facilities goes it. The annex is invented.</summary>
[Trait("Needs", "Browser")]
public sealed class ImportPageTests(Chromium chromium)
{
    [Fact]
    public async Task A_workbook_is_brought_decided_and_published_in_the_browser()
    {
        await using var opened = await chromium.OpenAsync("/imports", Look.Named["desktop"]);
        var page = opened.Page;
        await page.GetByLabel("File of the building").SetInputFilesAsync(new FilePayload
        {
            Name = "annex.xlsx",
            MimeType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            Buffer = WorkbookFile.Write(SmallBuilding.Sheets()).ToArray(),
        });
        await page.GetByLabel("COBie workbook").CheckAsync();
        await page.GetByLabel("Site, short name").FillAsync("browser-annex");
        await page.GetByLabel("Site, as people call it").FillAsync("Annex (invented)");
        await page.GetByLabel("Time zone").FillAsync("Europe/Lisbon");
        await page.GetByLabel("Who brings it").FillAsync("Facilities");
        await page.GetByRole(AriaRole.Button, new() { Name = "Read the file" }).ClickAsync();
        await page.GetByRole(AriaRole.Heading, new() { Name = "Findings to decide" }).WaitForAsync();

        foreach (var open in await page.GetByLabel("it is open").AllAsync())
        {
            await open.CheckAsync();
        }

        await page.GetByLabel("Who looked (a role)").FillAsync("Facilities");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these answers" }).ClickAsync();
        await page.WaitForAddressAsync("**?by=Facilities#joins");
        Assert.Equal(0, await page.GetByRole(AriaRole.Button, new() { Name = "Publish this floor plan" }).CountAsync());
        while (await page.GetByLabel("Why it may stay").CountAsync() is > 0 and var left)
        {
            await page.GetByLabel("Why it may stay").First.FillAsync("Looked at on site");
            await page.GetByRole(AriaRole.Button, new() { Name = "Accept" }).First.ClickAsync();
            await page.WaitForFunctionAsync("n => document.readyState === 'complete' && document.querySelectorAll('#findings form').length < n", left);
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Publish this floor plan" }).ClickAsync();
        await page.GetByText("Published as version 1").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Look at the floor plan" }).ClickAsync();
        await page.GetByRole(AriaRole.Heading, new() { Name = "Level 1", Exact = true }).WaitForAsync();
        Assert.Empty(opened.Errors);
    }
}
