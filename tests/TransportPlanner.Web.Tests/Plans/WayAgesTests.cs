using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Facts older than the site's limit are named on the sheet of the plan that rests on them.</summary>
public sealed class WayAgesTests
{
    // A file of facts says when the air of one corridor was measured; today is 2026-05-04 and the limit is the site's own, so far back that every other figure of the demonstration is younger.
    [Theory]
    [InlineData("2023-05-04", 36, "3 years ago", true)]
    [InlineData("2023-05-05", 36, "2 years ago", false)]
    [InlineData("2023-05-05", 35, "2 years ago", true)]
    public async Task Old_air_changes_are_counted_on_the_sheet_and_listed_in_its_working(string measured, int limit, string age, bool old)
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        using var put = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
        {
            Content = JsonContent.Create(new { settings = new[] { new { name = "airChangesStaleMonths", value = limit, owner = "Facilities", date = "2026-05-04" } } }),
        };
        put.Headers.TryAddWithoutValidation("If-Match", "*");
        (await client.SendAsync(put)).EnsureSuccessStatusCode();
        var facts = $"number,airChangesPerHour,airChangesPerHour known\r\nHC-2.04,4.5,measured {measured}\r\n";
        (await PublishAsync(client, await BringAsync(client, "demonstration", "facts", Encoding.UTF8.GetBytes(facts)))).EnsureSuccessStatusCode();
        var plan = await (await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "airborne" } }))
            .Content.ReadFromJsonAsync<JsonNode>();
        var way = plan!["routes"]!["routes"]!.AsArray().First(w => w!["crossings"]!.AsArray().Any(c => $"{c!["place"]}" == "HC-2.04"))!["id"];

        var sheet = new HtmlParser().ParseDocument(await client.GetStringAsync($"/plans/{plan["id"]}?way={way}")).Body!.TextContent;
        var working = new HtmlParser().ParseDocument(await client.GetStringAsync($"/plans/{plan["id"]}?way={way}&only=Working"));
        var line = working.QuerySelectorAll("li").Select(item => item.TextContent).Single(text => text.StartsWith("HC-2.04: 4.5 per hour", StringComparison.Ordinal));

        Assert.Equal(old, sheet.Contains($"Air changes of 1 place on way {way} are {limit} months old or older.", StringComparison.Ordinal));
        Assert.Contains($"{measured}, {age}", line, StringComparison.Ordinal);
        Assert.Equal(old, line.Contains($"beyond the site's limit of {limit} months", StringComparison.Ordinal));
    }
}
