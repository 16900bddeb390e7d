using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Tests.Plans;

public sealed class ChecklistEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Plan = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne"],
          "weightGrams": 1850, "gestationWeeks": 32 }
        """;

    private const string Therapist = """{ "state": "done", "role": "respiratoryTherapist" }""";
    private const string Nurse = """{ "state": "done", "role": "transportNurse" }""";

    [Fact]
    public async Task A_new_plan_has_its_kit_list_open()
    {
        var (list, plan) = await NewAsync();

        Assert.Equal(plan["kit"]!["items"]!.AsArray().Select(item => $"{item!["id"]}"), list["items"]!.AsArray().Select(item => $"{item!["id"]}"));
        Assert.Equal(list["items"]!.AsArray().Count, (int)list["open"]!);
        Assert.All(list["items"]!.AsArray(), item => Assert.Equal("\"1.0\"", $"{item!["eTag"]}"));
        Assert.Equal(2, (int)Item(list, "oxygen-cylinder")["confirmationsNeeded"]!);
        Assert.Equal(1, (int)Item(list, "face-mask")["confirmationsNeeded"]!);
    }

    [Fact]
    public async Task Two_roles_in_two_entries_make_an_item_for_two_people_done()
    {
        var (list, _) = await NewAsync();

        var (response, first) = await TickAsync(list, "oxygen-cylinder", Therapist);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal($"{first["eTag"]}", response.Headers.ETag!.Tag);
        Assert.Equal("open", $"{first["state"]}");
        Assert.Single(first["entries"]!.AsArray());

        var (_, second) = await TickAsync(list, "oxygen-cylinder", Nurse, $"{first["eTag"]}");
        Assert.Equal("done", $"{second["state"]}");
        Assert.Equal(["respiratoryTherapist", "transportNurse"], second["entries"]!.AsArray().Select(entry => $"{entry!["role"]}"));

        var after = await ListAsync(list);
        Assert.Equal(1, (int)after["done"]!);
        Assert.True(JsonNode.DeepEquals(second, Item(after, "oxygen-cylinder")), Item(after, "oxygen-cylinder").ToJsonString());
    }

    [Fact]
    public async Task The_same_role_twice_and_a_second_tick_are_conflicts_with_a_code()
    {
        var (list, _) = await NewAsync();
        var (_, first) = await TickAsync(list, "oxygen-cylinder", Therapist);

        var (same, problem) = await TickAsync(list, "oxygen-cylinder", Therapist, $"{first["eTag"]}");
        Assert.Equal(HttpStatusCode.Conflict, same.StatusCode);
        Assert.Equal("same-role", $"{problem["code"]}");

        var (_, mask) = await TickAsync(list, "face-mask", Nurse);
        var (again, done) = await TickAsync(list, "face-mask", Therapist, $"{mask["eTag"]}");
        Assert.Equal(HttpStatusCode.Conflict, again.StatusCode);
        Assert.Equal("already-done", $"{done["code"]}");
    }

    [Fact]
    public async Task A_skipped_item_keeps_its_reason_and_can_be_reopened()
    {
        var (list, _) = await NewAsync();

        var (_, skipped) = await TickAsync(list, "wrap", """{ "state": "skipped", "role": "teamLead", "reason": "notAvailable" }""");
        Assert.Equal("skipped", $"{skipped["state"]}");
        Assert.Equal("notAvailable", $"{skipped["reason"]}");
        Assert.Equal(1, (int)(await ListAsync(list))["skipped"]!);

        var (_, open) = await TickAsync(list, "wrap", """{ "state": "open", "role": "teamLead" }""", $"{skipped["eTag"]}");
        Assert.Equal("open", $"{open["state"]}");
        Assert.Null(open["reason"]);
        Assert.Empty(open["entries"]!.AsArray());
    }

    [Theory]
    [InlineData("""{ "state": "skipped", "role": "teamLead" }""", "reason")]
    [InlineData("""{ "state": "done", "role": "teamLead", "reason": "noTime" }""", "reason")]
    [InlineData("""{ "state": "done", "role": "everyCareGiver" }""", "role")]
    [InlineData("""{ "state": "ticked", "role": "teamLead" }""", "state")]
    [InlineData("""{ "state": "skipped", "role": "teamLead", "reason": "the infant is tired" }""", "reason")]
    public async Task A_bad_entry_names_its_field(string body, string field)
    {
        var (list, _) = await NewAsync();

        var (response, problem) = await TickAsync(list, "wrap", body);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.NotNull(problem["errors"]![field]);
    }

    [Fact]
    public async Task An_entry_without_or_with_a_stale_tag_is_refused()
    {
        var (list, _) = await NewAsync();
        await TickAsync(list, "oxygen-cylinder", Therapist);

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await TickAsync(list, "oxygen-cylinder", Nurse)).Response.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionRequired, (await TickAsync(list, "wrap", Nurse, "")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await TickAsync(list, "teddy-bear", Nurse, "\"1.0\"")).Response.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await SendAsync(HttpMethod.Get, "plans/none/checklist", null)).Response.StatusCode);
    }

    /// <summary>From 1,850 to 2,500 g the tube goes from 3.0 to 3.5 mm (NRP 6th ed., KS-02 and KS-03), the bag does not change.</summary>
    [Fact]
    public async Task A_new_version_keeps_what_it_did_not_touch_and_reopens_what_it_changed()
    {
        var (list, _) = await NewAsync();
        await TickAsync(list, "self-inflating-bag", Therapist);
        await TickAsync(list, "tracheal-tube", Therapist);
        await TickAsync(list, "oxygen-cylinder", Therapist);

        var (changed, _) = await SendAsync(
            HttpMethod.Put, $"plans/{list["planId"]}", Plan.Replace("1850", "2500", StringComparison.Ordinal).Replace("32", "36", StringComparison.Ordinal), "\"1\"");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        var after = await ListAsync(list);

        Assert.Equal(2, (int)after["planVersion"]!);
        Assert.Equal("done", $"{Item(after, "self-inflating-bag")["state"]}");
        Assert.Equal("open", $"{Item(after, "tracheal-tube")["state"]}");
        Assert.Empty(Item(after, "tracheal-tube")["entries"]!.AsArray());
        Assert.Contains("3.5", $"{Item(after, "tracheal-tube")["size"]}", StringComparison.Ordinal);

        // Who read the tube of version 1 cannot confirm that of version 2 by it, and the old size back again is not the old look.
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await TickAsync(list, "tracheal-tube", Nurse, "\"1.1\"")).Response.StatusCode);
        await SendAsync(HttpMethod.Put, $"plans/{list["planId"]}", Plan, "\"2\"");
        var back = await ListAsync(list);
        Assert.Equal("open", $"{Item(back, "tracheal-tube")["state"]}");
        Assert.Equal("done", $"{Item(back, "self-inflating-bag")["state"]}");
    }

    [Fact]
    public async Task A_tick_keeps_a_role_a_time_and_nothing_else()
    {
        var (list, _) = await NewAsync();
        await TickAsync(list, "tracheal-tube", Therapist);

        await using var scope = application.Services.CreateAsyncScope();
        var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
        var plan = $"{list["planId"]}";
        var row = await context.KitTicks.AsNoTracking().SingleAsync(tick => tick.PlanId == plan);

        Assert.Equal("tracheal-tube", row.ItemId);
        string[] columns = ["FirstAt", "FirstRole", "ItemId", "PlanId", "PlanVersion", "Reason", "SecondAt", "SecondRole", "State", "Version"];
        Assert.Equal(columns, context.Model.FindEntityType(typeof(KitTick))!.GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    private static JsonNode Item(JsonNode list, string id) => list["items"]!.AsArray().Single(item => $"{item!["id"]}" == id)!;

    private async Task<(JsonNode List, JsonNode Plan)> NewAsync()
    {
        var (_, plan) = await SendAsync(HttpMethod.Post, "plans", Plan);
        return ((await SendAsync(HttpMethod.Get, $"plans/{plan["id"]}/checklist", null)).Body, plan);
    }

    private async Task<JsonNode> ListAsync(JsonNode list) => (await SendAsync(HttpMethod.Get, $"plans/{list["planId"]}/checklist", null)).Body;

    /// <summary>With the tag of the list as it was read, unless another is given; an empty one sends none.</summary>
    private Task<(HttpResponseMessage Response, JsonNode Body)> TickAsync(JsonNode list, string item, string body, string? tag = null) =>
        SendAsync(HttpMethod.Put, $"plans/{list["planId"]}/checklist/{item}", body, tag ?? $"{Item(list, item)["eTag"]}");

    private async Task<(HttpResponseMessage Response, JsonNode Body)> SendAsync(HttpMethod method, string path, string? json, string? tag = null)
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(method, $"/api/v1/{path}");
        if (json is not null)
        {
            request.Content = new StringContent(json, Encoding.UTF8, "application/json");
        }

        if (tag is { Length: > 0 })
        {
            request.Headers.TryAddWithoutValidation("If-Match", tag);
        }

        var response = await client.SendAsync(request);
        return (response, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }
}
