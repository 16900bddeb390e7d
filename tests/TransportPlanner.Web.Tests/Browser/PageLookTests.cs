using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using TransportPlanner.Core.Tests.Architecture;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>What holds on every page in light and dark and at every width.</summary>
[Trait("Needs", "Browser")]
public sealed class PageLookTests(Chromium chromium)
{
    private static readonly AxeRunOptions Rules = new() { Rules = new() { ["target-size"] = new() { Enabled = true } } };

    public static TheoryData<string, string> PagesAndLooks =>
    [
        .. from page in PageAddresses.Own.Keys
           from look in Look.Named
           where look.Value.Script
           select new TheoryDataRow<string, string>(page, look.Key),
    ];

    // Rules: WCAG 2.2 A and AA and axe's best practice. Axe leaves the size of targets (criterion 2.5.8) out unless asked.
    // Seen to fail: with grey on grey, a picture without a text, a field without a label, a region that only a mouse scrolls,
    // and buttons of 9 px; then with a box of 2000 px, in every look.
    [Theory]
    [MemberData(nameof(PagesAndLooks))]
    public async Task Axe_finds_nothing_and_the_page_does_not_scroll_sideways(string page, string look)
    {
        await using var opened = await PageAddresses.OpenAsync(chromium, page, Look.Named[look]);
        await opened.SavePictureAsync($"{page}.{look}");

        var excess = await opened.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth");
        var widest = await opened.Page.EvaluateAsync<string[]>(
            """
            () => [...document.body.querySelectorAll('*')]
              .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 && !e.closest('.scroll') && !e.closest('svg *'))
              .map(e => e.outerHTML.slice(0, 160))
            """);
        var result = await opened.Page.RunAxe(Rules);

        Findings.None(
            from violation in result.Violations
            from node in violation.Nodes
            select $"{violation.Id}: {violation.Help} {node.Html}");
        Assert.True(excess <= 0, $"The page is {excess} px wider than the window: {string.Join(" | ", widest)}");
    }
}
