using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Tests.Routing;

public sealed class RouteEndpointsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string json, string address = "routes")
    {
        using var client = application.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        var response = await client.PostAsync($"/api/v1/{address}", content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private static string Request(Action<JsonObject> change)
    {
        var request = JsonNode.Parse(RouteExamples.Request)!.AsObject();
        change(request);
        return request.ToJsonString();
    }

    [Fact]
    public async Task The_documented_example_has_the_members_of_the_real_answer_at_every_depth()
    {
        var (status, real) = await Post(RouteExamples.Request);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(Members(real, "").Distinct().Order(), Members(JsonNode.Parse(RouteExamples.Response)!, "").Distinct().Order());
    }

    [Fact]
    public async Task Ways_come_quickest_first_and_every_reason_is_given_once()
    {
        var (_, body) = await Post(RouteExamples.Request);

        var routes = body["routes"]!.AsArray();
        Assert.InRange(routes.Count, 1, 4);
        Assert.Equal(routes.Select(route => (double)route!["expectedSeconds"]!).Order(), routes.Select(route => (double)route!["expectedSeconds"]!));
        Assert.Equal(
            ["best-balance", "least-exposed", "least-handled", "quickest"],
            routes.SelectMany(route => route!["reasons"]!.AsArray()).Select(reason => $"{reason}").Order());
        Assert.Equal(body["front"]!.AsArray().Count, (int)body["paretoSize"]!);
        Assert.Equal(1, (int)body["floorPlanVersion"]!);
        Assert.NotEmpty(body["notChosen"]!.AsArray());
        Assert.Contains("invented", $"{body["cautions"]![0]}", StringComparison.Ordinal);
        Assert.All(routes, route => Assert.NotEmpty(route!["planB"]!.AsArray()));
    }

    [Fact]
    public async Task Logistics_may_be_left_out_and_are_then_marked_as_assumed()
    {
        var (status, body) = await Post("""{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "precautions": ["contact"] }""");

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(
            ["departAt: now", "conveyance: 1.50 × 0.75 × 1.60 m, 140 kg", "conveyance.crew: 4", "heldElevators: true", "withHelper: true"],
            body["assumed"]!.AsArray().Select(assumed => $"{assumed}"));
        Assert.Equal(PlannerApplication.Start, DateTimeOffset.Parse($"{body["departAt"]}", null));
    }

    [Fact]
    public async Task An_unknown_site_is_404()
    {
        var (status, body) = await Post(Request(request => request["siteId"] = "elsewhere"));

        Assert.Equal((HttpStatusCode.NotFound, "not-found"), (status, $"{body["code"]}"));
        Assert.Contains("elsewhere", $"{body["detail"]}", StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("from", "D-9.99", "unknown-place")]
    [InlineData("to", "D-9.99", "unknown-place")]
    [InlineData("to", "D-2.14", "same-place")]
    public async Task A_place_that_cannot_be_an_end_is_422_with_the_field_and_the_number(string field, string number, string code)
    {
        var (status, body) = await Post(Request(request => request[field] = number));

        Assert.Equal((HttpStatusCode.UnprocessableEntity, code), (status, $"{body["code"]}"));
        Assert.Contains(number, $"{body["errors"]![field]![0]}", StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_conveyance_wider_than_every_door_is_422_with_the_first_obstacle_and_its_figure()
    {
        var (status, body) = await Post(Request(request => request["conveyance"]!["widthMetres"] = 2.5));

        Assert.Equal((HttpStatusCode.UnprocessableEntity, "no-route"), (status, $"{body["code"]}"));
        Assert.StartsWith("No way from D-2.14 to N-4.03: ", $"{body["detail"]}", StringComparison.Ordinal);
        Assert.True((double)body["obstacle"]!["needed"]! > (double)body["obstacle"]!["present"]!);
        Assert.NotEqual("", $"{body["obstacle"]!["id"]}");
    }

    [Fact]
    public async Task A_place_that_is_closed_in_the_hour_after_departure_is_an_obstacle_by_name()
    {
        var closed = await Post(
            """
            { "target": "place", "targetId": "N-4.04A", "from": "2026-05-04T02:30:00+00:00", "to": "2026-05-04T05:00:00+00:00",
              "reason": "ceiling works", "source": "facilities" }
            """,
            "sites/demonstration/closures");
        Assert.Equal(HttpStatusCode.Created, closed.Status);

        var (status, body) = await Post(Request(request => (request["to"], request["departAt"]) = ("N-4.04", "2026-05-04T02:10:00+00:00")));
        var later = await Post(Request(request => (request["to"], request["departAt"]) = ("N-4.04", "2026-05-04T05:00:00+00:00")));

        Assert.Equal((HttpStatusCode.UnprocessableEntity, "no-route"), (status, $"{body["code"]}"));
        Assert.Contains("place N-4.04A is closed", $"{body["detail"]}", StringComparison.Ordinal);
        Assert.Equal(("closure", "place", "N-4.04A"), ($"{body["obstacle"]!["limit"]}", $"{body["obstacle"]!["element"]}", $"{body["obstacle"]!["id"]}"));
        Assert.Equal(HttpStatusCode.OK, later.Status);
    }

    [Theory]
    [InlineData("lengthMetres", 150)]
    [InlineData("widthMetres", 0)]
    [InlineData("massKilograms", -1)]
    [InlineData("crew", 0)]
    public async Task A_figure_out_of_range_is_400_at_its_path(string member, double value)
    {
        var (status, body) = await Post(Request(request => request["conveyance"]![member] = member == "crew" ? (int)value : value));

        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.NotNull(body["errors"]![$"conveyance.{member}"]);
    }

    /// <summary>Paths of all members; list positions left out, names of the door kinds too, since each way has its own.</summary>
    private static IEnumerable<string> Members(JsonNode? node, string path) => node switch
    {
        JsonObject when path.EndsWith(".doorsByKind", StringComparison.Ordinal) => [],
        JsonObject members => members.SelectMany(member => Members(member.Value, $"{path}.{member.Key}").Prepend($"{path}.{member.Key}")),
        JsonArray items => items.SelectMany(item => Members(item, path)),
        _ => [],
    };
}
