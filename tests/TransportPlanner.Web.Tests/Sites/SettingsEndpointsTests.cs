using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Sites;

public sealed class SettingsEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Address = "/api/v1/sites/demonstration/settings";

    [Fact]
    public async Task What_nobody_said_is_the_default_and_marked_assumed()
    {
        using var client = application.CreateClient();

        var removal = Find(await client.GetFromJsonAsync<JsonNode>(Address), "removalPercent");

        Assert.Equal(99.9, removal["value"]!.GetValue<double>());
        Assert.True(removal["assumed"]!.GetValue<bool>());
    }

    [Fact]
    public async Task A_site_says_its_own_values_once_per_version()
    {
        using var client = application.CreateClient();
        var tag = $"{(await client.GetAsync(Address)).Headers.ETag}";
        var body = Settings(("crew", 5), ("publicCorridorsHeldFor", new JsonArray("airborne", "droplet")), ("presetOxygenCylinder", "us-E"));

        var replaced = await PutAsync(client, tag, body);
        var stale = await PutAsync(client, tag, body);
        var read = await client.GetFromJsonAsync<JsonNode>(Address);
        using var scope = application.Services.CreateScope();
        var settings = await SiteSettings.ReadAsync(scope.ServiceProvider.GetRequiredService<PlannerContext>(), "demonstration", default);

        Assert.Equal(HttpStatusCode.OK, replaced.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, stale.StatusCode);
        Assert.Equal(5, Find(read, "crew")["value"]!.GetValue<int>());
        Assert.Equal("Transport lead", $"{Find(read, "crew")["owner"]}");
        Assert.False(Find(read, "crew")["assumed"]!.GetValue<bool>());
        Assert.True(Find(read, "holdMinutes")["assumed"]!.GetValue<bool>());
        Assert.Equal(5, settings.Get(SiteSettings.Crew));
        Assert.Equal(PrecautionSet.Airborne | PrecautionSet.Droplet, settings.Get(SiteSettings.PublicCorridorsHeldFor));
        Assert.Equal("us-E", settings.Get(SiteSettings.PresetOxygenCylinder));
        Assert.True(settings.IsAssumed(SiteSettings.RemovalPercent));
        Assert.False(settings.IsAssumed(SiteSettings.Crew));
    }

    [Fact]
    public async Task A_value_out_of_range_an_unknown_name_and_a_repeated_one_are_named()
    {
        using var client = application.CreateClient();
        var body = Settings(("crew", 30), ("crews", 4), ("holdMinutes", 5), ("holdMinutes", 6), ("reserveRule", "none"));

        var answer = await PutAsync(client, "*", body);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonNode>())!["errors"]!;

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("1 to 12 people; got 30", $"{errors["settings[0].value"]![0]}");
        Assert.Contains("crews", $"{errors["settings[1].name"]![0]}");
        Assert.Contains("twice", $"{errors["settings[3].name"]![0]}");
        Assert.Contains("twiceTheJourney", $"{errors["settings[4].value"]![0]}");
    }

    [Fact]
    public async Task Speeds_out_of_order_are_refused()
    {
        using var client = application.CreateClient();

        var answer = await PutAsync(client, "*", Settings(("incubatorSpeedMinimum", 1.5)));

        Assert.Contains("incubatorSpeedLikely", $"{(await answer.Content.ReadFromJsonAsync<JsonNode>())!["errors"]!["settings"]![0]}");
    }

    [Fact]
    public void Every_default_is_a_value_that_the_setting_accepts() =>
        Assert.All(SiteSettings.All, s => Assert.True(s.Accepts(System.Text.Json.JsonElement.Parse(s.Default?.ToJsonString() ?? "null")), s.Name));

    private static JsonNode Find(JsonNode? settings, string name) => settings!["settings"]!.AsArray().Single(s => $"{s!["name"]}" == name)!;

    private static JsonObject Settings(params (string Name, JsonNode Value)[] values) => new()
    {
        ["settings"] = new JsonArray([.. values.Select(v => new JsonObject { ["name"] = v.Name, ["value"] = v.Value, ["owner"] = "Transport lead", ["date"] = "2026-04-01" })]),
    };

    private static async Task<HttpResponseMessage> PutAsync(HttpClient client, string tag, JsonObject body)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, Address) { Content = JsonContent.Create(body) };
        request.Headers.TryAddWithoutValidation("If-Match", tag);
        return await client.SendAsync(request);
    }
}
