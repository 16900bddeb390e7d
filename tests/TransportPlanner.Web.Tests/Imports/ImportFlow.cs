using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Steps of an import as a client of the API takes them.</summary>
internal static class ImportFlow
{
    private const string Address = "/api/v1/imports";

    public static async Task<string> BringAsync(HttpClient client, string site, string format, byte[] file, string? outlines = null)
    {
        var begun = await client.PostAsJsonAsync(Address, new JsonObject
        {
            ["siteId"] = site,
            ["siteName"] = "Annex (invented)",
            ["timeZone"] = "Europe/Lisbon",
            ["fileName"] = "annex",
            ["format"] = format,
            ["by"] = "Facilities",
        });
        begun.EnsureSuccessStatusCode();
        var id = $"{(await begun.Content.ReadFromJsonAsync<JsonNode>())!["id"]}";
        if (outlines is not null)
        {
            (await client.PutAsync($"{Address}/{id}/outlines", new StringContent(outlines))).EnsureSuccessStatusCode();
        }

        (await client.PutAsync($"{Address}/{id}/file", new ByteArrayContent(file))).EnsureSuccessStatusCode();
        return id;
    }

    /// <summary>The import once the planner has read its file.</summary>
    public static async Task<JsonNode> ReadAsync(HttpClient client, string id)
    {
        for (var tries = 0; tries < 600; tries++)
        {
            var import = (await client.GetFromJsonAsync<JsonNode>($"{Address}/{id}"))!;
            if ($"{import["import"]!["state"]}" is not "reading")
            {
                return import;
            }

            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        throw new TimeoutException($"Import {id} was not read within a minute.");
    }

    /// <summary>Sends a change with the tag of what is there now, or the one given.</summary>
    public static async Task<HttpResponseMessage> ChangeAsync(HttpClient client, string id, string action, JsonObject body, string? tag = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"{Address}/{id}/{action}") { Content = JsonContent.Create(body) };
        request.Headers.TryAddWithoutValidation("If-Match", tag ?? $"{(await client.GetAsync($"{Address}/{id}")).Headers.ETag}");
        return await client.SendAsync(request);
    }

    public static JsonObject Decisions(IEnumerable<(string Key, string Answer, string? Reason)> answers) => new()
    {
        ["by"] = "Facilities",
        ["decisions"] = new JsonArray([.. answers.Select(said => new JsonObject { ["key"] = said.Key, ["answer"] = said.Answer, ["reason"] = said.Reason })]),
    };

    /// <summary>Confirms every join, accepts every warning, publishes.</summary>
    public static async Task<HttpResponseMessage> PublishAsync(HttpClient client, string id)
    {
        var import = await ReadAsync(client, id);
        var joins = import["joins"]!.AsArray().Where(join => $"{join!["state"]}" == "open").Select(join => ($"{join!["id"]}", "confirmed", (string?)null)).ToList();
        if (joins.Count > 0)
        {
            (await ChangeAsync(client, id, "decisions", Decisions(joins))).EnsureSuccessStatusCode();
        }

        import = await ReadAsync(client, id);
        var warnings = import["findings"]!.AsArray().Where(finding => finding!["answer"] is null)
            .Select(finding => ($"{finding!["key"]}", "accepted", (string?)"Looked at on site")).ToList();
        if (warnings.Count > 0)
        {
            (await ChangeAsync(client, id, "decisions", Decisions(warnings))).EnsureSuccessStatusCode();
        }

        return await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = import["comparedWithVersion"]!.GetValue<int>() });
    }
}
