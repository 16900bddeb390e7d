using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using TransportPlanner.Core.Tests.Architecture;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>What holds on every page in light and dark and at every width.</summary>
[Trait("Needs", "Browser")]
public sealed class PageLookTests(Chromium chromium)
{
    // Of what passes, axe then writes down one node a rule instead of all: on a long page that is most of its work.
    private static readonly HashSet<ResultType> Violations = [ResultType.Violations];

    // WCAG 2.2 A and AA and axe's best practice. Axe leaves the size of targets (criterion 2.5.8) out unless asked.
    private static readonly AxeRunOptions AllRules = new()
    {
        Rules = new() { ["target-size"] = new() { Enabled = true } },
        ResultTypes = Violations,
    };

    // All that dark changes are colours.
    private static readonly AxeRunOptions Contrast = new() { RunOnly = RunOnlyOptions.Rules("color-contrast"), ResultTypes = Violations };

    public static TheoryData<string> Pages => [.. PageAddresses.Own.Keys];

    // One opened page takes all looks, since the style sheet asks for nothing but colours and widths: opening it for each took
    // half an hour for all pages. Seen to fail: with grey on grey, a picture without a text, a field without a label, a region
    // that only a mouse scrolls, and buttons of 9 px; then with a box of 2000 px, in every look.
    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Axe_finds_nothing_and_the_page_does_not_scroll_sideways(string page)
    {
        await using var opened = await PageAddresses.OpenAsync(chromium, page, Look.Named["desktop"]);
        var found = new List<string>();
        foreach (var (name, look) in Look.Named.Where(look => look.Value.Script))
        {
            await opened.Page.EmulateMediaAsync(new() { ColorScheme = look.Dark ? ColorScheme.Dark : ColorScheme.Light });
            await opened.Page.SetViewportSizeAsync(look.Viewport.Width, look.Viewport.Height);
            await opened.SavePictureAsync($"{page}.{name}");
            found.AddRange((await SidewaysAsync(opened.Page)).Select(text => $"{name}: {text}"));
            if (look.Viewport == Viewport.Desktop || look.Viewport == Viewport.Narrowest)
            {
                var result = await opened.Page.RunAxe(look.Dark ? Contrast : AllRules);
                found.AddRange(
                    from violation in result.Violations
                    from node in violation.Nodes
                    select $"{name}: {violation.Id}: {violation.Help} {node.Html}");
            }
        }

        Findings.None(found);
    }

    private static Task<string[]> SidewaysAsync(IPage page) => page.EvaluateAsync<string[]>(
        """
        () => {
          const root = document.documentElement, excess = root.scrollWidth - root.clientWidth;
          return excess <= 0 ? [] : [`${excess} px wider than the window`, ...[...document.body.querySelectorAll('*')]
            .filter(e => e.getBoundingClientRect().right > root.clientWidth + 1 && !e.closest('.scroll') && !e.closest('svg *'))
            .map(e => e.outerHTML.slice(0, 160))];
        }
        """);
}
