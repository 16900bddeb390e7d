using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;

namespace TransportPlanner.Web.Tests.Sites;

/// <summary>The demonstration hospital with settings of a test, a plan and its pages.</summary>
internal static class DisplayedSite
{
    public const string Body =
        """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne", "contact"],
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.4 },
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 500 }, { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1900 },
            { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ] }
        """;

    public static async Task<HttpResponseMessage> SayAsync(HttpClient client, params (string Name, string Value)[] settings)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, "/api/v1/sites/demonstration/settings")
        {
            Content = JsonContent.Create(new
            {
                settings = settings.Select(setting => new { name = setting.Name, value = setting.Value, owner = "Transport lead", date = "2026-04-01" }),
            }),
        };
        request.Headers.TryAddWithoutValidation("If-Match", "*");
        return await client.SendAsync(request);
    }

    public static async Task<JsonNode> PlanAsync(HttpClient client, string body)
    {
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        var answer = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    public static async Task<IDocument> PageAsync(HttpClient client, string address) =>
        new HtmlParser().ParseDocument(await client.GetStringAsync(new Uri(address, UriKind.Relative)));

    /// <summary>Sends a form back with its token and these fields.</summary>
    public static async Task<IElement> PostAsync(HttpClient client, IDocument form, params (string Name, string Value)[] fields)
    {
        var token = form.QuerySelector("input[name='__RequestVerificationToken']")!.GetAttribute("value")!;
        using var content = new FormUrlEncodedContent(fields.Append((Name: "__RequestVerificationToken", Value: token)).Select(field => KeyValuePair.Create(field.Name, field.Value)));
        var answer = await client.PostAsync(new Uri("/gas", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
        return new HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync()).Body!;
    }

    public static string Words(IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
