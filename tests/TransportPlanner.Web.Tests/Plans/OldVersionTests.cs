using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;
using static TransportPlanner.Web.Tests.Sites.DisplayedSite;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>An old version says by itself that it is old: on the screen, on each sheet and card, and in the one file.</summary>
public sealed class OldVersionTests
{
    private const string Words1 = "Replaced by version 2 at 2026-05-04 03:15: do not use this one.";

    [Fact]
    public async Task Every_head_of_an_old_version_names_the_one_that_replaced_it()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var plan = await PlanAsync(client, Body);
        Assert.DoesNotContain("Replaced by", await client.GetStringAsync($"/plans/{plan["id"]}?version=1"), StringComparison.Ordinal);
        application.Time.Advance(TimeSpan.FromMinutes(5));
        using var change = new HttpRequestMessage(HttpMethod.Put, $"/api/v1/plans/{plan["id"]}") { Content = new StringContent(Body, Encoding.UTF8, "application/json") };
        change.Headers.TryAddWithoutValidation("If-Match", "\"1\"");
        (await client.SendAsync(change)).EnsureSuccessStatusCode();

        var sheet = await PageAsync(client, $"/plans/{plan["id"]}?version=1");
        var pack = await PageAsync(client, $"/plans/{plan["id"]}/pack?version=1");
        var file = new HtmlParser().ParseDocument(await client.GetStringAsync($"/plans/{plan["id"]}/pack?version=1&file=true"));

        foreach (var (page, address) in new[] { (sheet, $"/plans/{plan["id"]}"), (pack, $"/plans/{plan["id"]}/pack") })
        {
            var banner = page.QuerySelectorAll("[role=alert]").Single(alert => alert.TextContent.Contains("Replaced", StringComparison.Ordinal));
            Assert.Equal($"{Words1} Open version 2", Words(banner));
            Assert.Equal(address, banner.QuerySelector("a")!.GetAttribute("href"));
        }

        Assert.All(new[] { sheet.QuerySelectorAll(".print-head"), pack.QuerySelectorAll(".pack-head"), file.QuerySelectorAll(".pack-head") }, heads =>
        {
            Assert.True(heads.Length >= 10);
            Assert.All(heads, head => Assert.Contains(Words1, Words(head), StringComparison.Ordinal));
        });
        foreach (var newest in new[] { "", "?version=2", "/pack", "/pack?version=2", "/pack?file=true" })
        {
            Assert.DoesNotContain("Replaced by", await client.GetStringAsync($"/plans/{plan["id"]}{newest}"), StringComparison.Ordinal);
        }
    }
}
