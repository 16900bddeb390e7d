using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>The list is ticked by plain forms, as a browser without script sends them.</summary>
public sealed class ChecklistPageTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task Nothing_can_be_ticked_before_somebody_says_who_ticks()
    {
        using var client = application.CreateClient();
        var page = await GetAsync(client, await AddressAsync(client));

        Assert.Empty(page.QuerySelectorAll("form button"));
        Assert.Contains("Who ticks?", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(7, page.QuerySelectorAll("nav.parts a").Length);
        Assert.Equal(["Before departure", "Under way", "Handoff"], page.QuerySelectorAll("h2").Select(h => h.TextContent.Split(',')[0]));
    }

    [Fact]
    public async Task Two_roles_look_one_after_the_other_and_the_page_says_who_and_when()
    {
        using var client = application.CreateClient();
        var address = await AddressAsync(client);

        var first = await PressAsync(client, address, "RespiratoryTherapist", "oxygen-cylinder", ("state", "Done"));
        Assert.Contains("1 of 2: respiratory therapist", Said(first, "oxygen-cylinder"), StringComparison.Ordinal);
        var again = await PressAsync(client, address, "RespiratoryTherapist", "oxygen-cylinder", ("state", "Done"));
        Assert.Contains("The second look comes from another role", again.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        var second = await PressAsync(client, address, "TransportNurse", "oxygen-cylinder", ("state", "Done"));

        Assert.Matches(@"^done: respiratory therapist \d\d:\d\d \(UTC[+-]\d\d:\d\d\), transport nurse \d\d:\d\d", Said(second, "oxygen-cylinder"));
        Assert.StartsWith("1 of ", second.QuerySelector("#progress")!.TextContent, StringComparison.Ordinal);
        Assert.Null(second.QuerySelector("[role=alert]"));
    }

    [Fact]
    public async Task An_item_is_skipped_with_a_reason_that_stays_in_sight_and_reopened()
    {
        using var client = application.CreateClient();
        var address = await AddressAsync(client);

        var skipped = await PressAsync(client, address, "TeamLead", "wrap", ("state", "Skipped"), ("reason", "NotAvailable"));
        Assert.StartsWith("skipped, not there: team lead", Said(skipped, "wrap"), StringComparison.Ordinal);
        Assert.Contains("1 skipped: Hat and wrap", skipped.QuerySelector("#progress")!.TextContent, StringComparison.Ordinal);

        var open = await PressAsync(client, address, "TeamLead", "wrap", ("state", "Open"));
        Assert.Equal("open", Said(open, "wrap"));
    }

    [Fact]
    public async Task A_press_on_an_item_that_somebody_else_ticked_meanwhile_is_not_taken()
    {
        using var client = application.CreateClient();
        var address = await AddressAsync(client);
        var read = await GetAsync(client, $"{address}?role=TransportNurse");
        await PressAsync(client, address, "TeamLead", "wrap", ("state", "Skipped"), ("reason", "NoTime"));

        var late = await SendAsync(client, $"{address}?role=TransportNurse", read, "wrap", ("state", "Done"));

        Assert.Contains("changed meanwhile", late.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.StartsWith("skipped, no time: team lead", Said(late, "wrap"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_sheet_leads_to_the_list()
    {
        using var client = application.CreateClient();
        var address = await AddressAsync(client);

        var sheet = await GetAsync(client, address.Replace("/checklist", "?only=Kit", StringComparison.Ordinal));

        Assert.NotNull(sheet.QuerySelector($"a[href='{address}']"));
        using var missing = await client.GetAsync(new Uri("/plans/none/checklist", UriKind.Relative));
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    private static string Said(IDocument page, string item) => page.QuerySelector($"#{item} .said")!.TextContent;

    private static async Task<string> AddressAsync(HttpClient client)
    {
        using var content = new StringContent(
            """{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne"] }""", Encoding.UTF8, "application/json");
        using var made = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        return $"/plans/{JsonNode.Parse(await made.Content.ReadAsStringAsync())!["id"]}/checklist";
    }

    private static async Task<IDocument> GetAsync(HttpClient client, string address) => await Parse(await client.GetAsync(new Uri(address, UriKind.Relative)));

    private static async Task<IDocument> PressAsync(HttpClient client, string address, string role, string item, params (string Name, string Value)[] fields) =>
        await SendAsync(client, $"{address}?role={role}", await GetAsync(client, $"{address}?role={role}"), item, fields);

    /// <summary>Sends the form of one item as the page has it, with the fields of the button that is pressed.</summary>
    private static async Task<IDocument> SendAsync(HttpClient client, string address, IDocument page, string item, params (string Name, string Value)[] fields)
    {
        var form = page.QuerySelector<IHtmlFormElement>($"#{item} form")!;
        Assert.Equal("post", form.Method);
        using var content = new FormUrlEncodedContent(
        [
            .. new[] { "item", "tag", "__RequestVerificationToken" }.Select(name =>
                KeyValuePair.Create(name, form.QuerySelector<IHtmlInputElement>($"input[name={name}]")!.Value)),
            .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value)),
        ]);
        return await Parse(await client.PostAsync(new Uri(address, UriKind.Relative), content));
    }

    private static async Task<IDocument> Parse(HttpResponseMessage response)
    {
        var html = await response.Content.ReadAsStringAsync();
        Assert.True(response.IsSuccessStatusCode, $"{(int)response.StatusCode} {html}");
        return await BrowsingContext.New(Configuration.Default).OpenAsync(request => request.Content(html).Address(response.RequestMessage!.RequestUri!));
    }
}
