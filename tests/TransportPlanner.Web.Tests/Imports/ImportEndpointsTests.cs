using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>From an uploaded file to a plan that the planner plans on; all buildings are invented but the clinic.</summary>
public sealed class ImportEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private static byte[] Annex => WorkbookFile.Write(SmallBuilding.Sheets()).ToArray();

    [Fact]
    public async Task A_workbook_becomes_a_draft_is_decided_published_and_planned_on()
    {
        using var client = application.CreateClient();
        var id = await BringAsync(client, "annex-one", "cobie", Annex);
        var draft = await ReadAsync(client, id);

        Assert.Equal("draft", $"{draft["import"]!["state"]}");
        Assert.Equal(["L E1@1C1", "L E1@2C1", "O 1C1~1C2"], draft["joins"]!.AsArray().Select(join => $"{join!["id"]}"));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sites/annex-one")).StatusCode);
        Assert.Equal("findings-open", await CodeAsync(await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 0 })));

        var published = await PublishAsync(client, id);
        var site = (await client.GetFromJsonAsync<JsonNode>("/api/v1/sites/annex-one"))!;
        var routes = await client.PostAsJsonAsync("/api/v1/routes", new JsonObject
        {
            ["siteId"] = "annex-one",
            ["from"] = "2E01",
            ["to"] = "1E15A",
            ["departAt"] = "2026-05-04T02:10:00Z",
            ["precautions"] = new JsonArray("airborne"),
        });

        Assert.Equal(HttpStatusCode.OK, published.StatusCode);
        Assert.Equal(1, site["floorPlanVersion"]!.GetValue<int>());
        Assert.Equal("Annex (invented)", $"{site["name"]}");
        Assert.Equal("published", $"{(await ReadAsync(client, id))["import"]!["state"]}");

        // Nobody has said how many people are about or how wide the car is: the way is found and says so.
        Assert.Equal(HttpStatusCode.OK, routes.StatusCode);
        Assert.Contains("\"hasUnknown\":true", await routes.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task A_warning_is_accepted_with_a_reason_that_is_kept_and_only_for_the_words_it_was_given_to()
    {
        using var client = application.CreateClient();
        var id = await BringAsync(client, "annex-two", "cobie", Annex);
        var finding = (await ReadAsync(client, id))["findings"]!.AsArray().First(f => $"{f!["path"]}" == "inferred.Opening")!;
        var key = $"{finding["key"]}";

        Assert.Equal("answer-refused", await CodeAsync(await ChangeAsync(client, id, "decisions", Decisions([(key, "accepted", " ")]))));
        Assert.Equal("answer-refused", await CodeAsync(await ChangeAsync(client, id, "decisions", Decisions([(key, "confirmed", null)]))));
        Assert.Equal("answer-refused", await CodeAsync(await ChangeAsync(client, id, "decisions", Decisions([("nothing", "accepted", "why")]))));
        Assert.Equal("stale", await CodeAsync(await ChangeAsync(client, id, "decisions", Decisions([(key, "accepted", "why")]), "\"1\"")));

        var accepted = await ChangeAsync(client, id, "decisions", Decisions([(key, "accepted", "Walled up since 2019")]));
        var after = (await accepted.Content.ReadFromJsonAsync<JsonNode>())!["findings"]!.AsArray().Single(f => $"{f!["key"]}" == key)!;

        Assert.Equal("Walled up since 2019", $"{after["answer"]!["reason"]}");
        Assert.Equal("Facilities", $"{after["answer"]!["by"]}");

        // Once the join is answered the warning is another one, and so is its key.
        await ChangeAsync(client, id, "decisions", Decisions([("O 1C1~1C2", "noWay", "Glass wall")]));
        Assert.DoesNotContain((await ReadAsync(client, id))["findings"]!.AsArray(), f => $"{f!["key"]}" == key);
    }

    [Fact]
    public async Task A_second_file_is_compared_and_what_people_found_out_survives()
    {
        using var client = application.CreateClient();
        await PublishAsync(client, await BringAsync(client, "annex-three", "cobie", Annex));

        // A person adds what the workbook does not know, through our own format.
        var known = (await client.GetStringAsync("/api/v1/sites/annex-three/floor-plan"))
            .Replace("\"airChangesPerHour\":null", "\"airChangesPerHour\":12", StringComparison.Ordinal).Replace("\"version\":1", "\"version\":0", StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, await BringAsync(client, "annex-three", "geoJson", Encoding.UTF8.GetBytes(known)))).StatusCode);

        var sheets = SmallBuilding.Sheets();
        var at = Array.FindIndex(sheets, sheet => sheet.Name == "Space");
        sheets[at].Rows[2][4] = "Store";
        var id = await BringAsync(client, "annex-three", "cobie", WorkbookFile.Write(sheets).ToArray());
        var second = await ReadAsync(client, id);

        var change = Assert.Single(second["changes"]!.AsArray())!;
        Assert.Equal(("changed", "1E16", "name", "Office", "Store"), ($"{change["kind"]}", $"{change["number"]}", $"{change["property"]}", $"{change["before"]}", $"{change["after"]}"));
        Assert.All(second["joins"]!.AsArray(), join => Assert.Equal("confirmed", $"{join!["state"]}"));
        await PublishAsync(client, id);
        var inForce = await client.GetStringAsync("/api/v1/sites/annex-three/floor-plan");
        Assert.Contains("\"version\":3", inForce);
        Assert.Contains("\"airChangesPerHour\":12", inForce);
        Assert.Contains("Store", inForce);
    }

    [Fact]
    public async Task What_was_compared_with_another_version_is_not_published()
    {
        using var client = application.CreateClient();
        var first = await BringAsync(client, "annex-four", "cobie", Annex);
        var second = await BringAsync(client, "annex-four", "cobie", Annex);
        await ReadAsync(client, second);
        await PublishAsync(client, first);

        var answer = await ChangeAsync(client, second, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 0 });

        Assert.Equal("compared-with-another", await CodeAsync(answer));
        Assert.Equal("wrong-import-state", await CodeAsync(await ChangeAsync(client, first, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 1 })));
    }

    [Fact]
    public async Task Our_own_file_comes_back_as_it_went_and_a_wrong_site_is_refused()
    {
        using var client = application.CreateClient();
        var plan = await client.GetStringAsync("/api/v1/sites/demonstration/floor-plan");
        var same = await ReadAsync(client, await BringAsync(client, "demonstration", "geoJson", Encoding.UTF8.GetBytes(plan)));
        var other = await ReadAsync(client, await BringAsync(client, "annex-five", "geoJson", Encoding.UTF8.GetBytes(plan)));

        Assert.Equal("draft", $"{same["import"]!["state"]}");
        Assert.Empty(same["changes"]!.AsArray());
        Assert.Equal("refused", $"{other["import"]!["state"]}");
        Assert.Contains("The file is of site demonstration", $"{other["findings"]![0]!["text"]}");
    }

    [Fact]
    public async Task The_clinic_is_brought_published_and_planned_on_with_its_unknowns_said()
    {
        using var client = application.CreateClient();
        var outlines = await File.ReadAllTextAsync(Path.Combine(Clinic.Folder, "spaces.csv"), TestContext.Current.CancellationToken);
        var id = await BringAsync(client, "clinic", "cobie", await File.ReadAllBytesAsync(Clinic.Workbook, TestContext.Current.CancellationToken), outlines);
        var draft = await ReadAsync(client, id);

        Assert.Equal(0, draft["errors"]!.GetValue<int>());
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, id)).StatusCode);
        application.Services.GetRequiredService<FloorPlanStore>().TryFind("clinic", out var site);

        var body = new JsonObject
        {
            ["siteId"] = "clinic",
            ["from"] = "2BC1",
            ["to"] = "1E33",
            ["support"] = "cpap",
            ["precautions"] = new JsonArray("airborne"),
            ["cylinders"] = new JsonArray(),
        };
        var tooWide = await client.PostAsJsonAsync("/api/v1/plans", body);
        body["conveyance"] = new JsonObject { ["lengthMetres"] = 1.2, ["widthMetres"] = 0.65, ["heightMetres"] = 1.5, ["massKilograms"] = 120, ["crew"] = 2 };
        var plan = await client.PostAsJsonAsync("/api/v1/plans", body);
        var text = await plan.Content.ReadAsStringAsync();
        var sheet = await client.GetAsync($"/plans/{JsonNode.Parse(text)!["id"]}");

        // Every space of the file stands in the plan; the shaft as its car.
        Assert.Equal(Clinic.Rows("spaces.csv").Count, site!.Plan.Places.Length);

        // A leaf of 915 mm less 75 mm does not pass 750 mm with 50 mm on each side, and the answer says that the figure is assumed.
        var refused = await tooWide.Content.ReadAsStringAsync();
        Assert.Contains("is 1 cm too narrow (0.84 m clear, 0.85 m needed, assumed 2011-09-14)", refused);
        Assert.True(plan.StatusCode == HttpStatusCode.Created, text);
        Assert.Contains("\"hasUnknown\":true", text);
        Assert.Equal(HttpStatusCode.OK, sheet.StatusCode);
        Assert.Contains("unknown", await sheet.Content.ReadAsStringAsync());
    }

    private static async Task<string> CodeAsync(HttpResponseMessage response) => $"{(await response.Content.ReadFromJsonAsync<JsonNode>())!["code"]}";
}
