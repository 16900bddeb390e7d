using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Imports;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

public sealed class OsmReaderTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private static (BuildingRecord Building, List<Finding> Findings) Read(byte[] file)
    {
        var findings = new List<Finding>();
        var building = OsmReader.Read(Encoding.UTF8.GetString(file), "Invented", findings, new Progress<string>(), TestContext.Current.CancellationToken);
        return (building ?? throw new InvalidOperationException(string.Join('\n', findings)), findings);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Lists_ranges_and_repetitions_of_levels_become_one_place_a_level_and_an_elevator_one_shaft(bool geoJson)
    {
        var (building, findings) = Read(geoJson ? OsmBuilding.GeoJson() : OsmBuilding.Xml());

        Assert.Equal([("0", 0.0), ("1", 4.0)], building.Levels.Select(level => (level.Name, level.ElevationMetres!.Value)));
        Assert.Equal(
            [("101", "0"), ("102 L0", "0"), ("102 L1", "1"), ("C L0", "0"), ("C L1", "1"), ("E", "0"), ("S L0", "0"), ("S L1", "1")],
            building.Spaces.Select(space => (space.Number, space.Level)).Order());
        Assert.Equal(20, building.Spaces.Single(space => space.Number == "101").Outline!.AreaSquareMetres, 0.05);
        Assert.Equal(2.7, building.Spaces.Single(space => space.Number == "101").HeightMetres);
        Assert.Equal("Office", building.Spaces.First(space => space.Number.StartsWith("102", StringComparison.Ordinal)).Name);
        Assert.Contains(findings, finding => finding.Text.Contains("no level and is left out", StringComparison.Ordinal));
        Assert.Contains(findings, finding => finding.Text.Contains("4 m a level is taken, assumed", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Doors_lie_between_the_outlines_that_share_their_point_or_are_nearest_on_their_level(bool geoJson)
    {
        var (building, _) = Read(geoJson ? OsmBuilding.GeoJson() : OsmBuilding.Xml());
        var doors = building.Doors.Select(door => $"{string.Join('~', door.Spaces.Order())} {door.Description} {door.NominalWidthMetres}".TrimEnd()).Order(StringComparer.Ordinal);

        // The door of the shaft is left to the proposed landing; the one at the end of the corridor leads nowhere that is drawn.
        Assert.Equal(["101~C L0 hinged 1.2", "102 L0~C L0 sliding 1.1", "102 L1~C L1 sliding 1.1", "C L0 hinged", "C L0~S L0 yes", "C L1~S L1  automatic"], doors);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task The_building_is_decided_published_and_planned_on(bool geoJson)
    {
        using var client = application.CreateClient();
        var site = geoJson ? "osm-geojson" : "osm-xml";
        var id = await BringAsync(client, site, "osm", geoJson ? OsmBuilding.GeoJson() : OsmBuilding.Xml());
        var draft = await ReadAsync(client, id);

        Assert.Equal(["L E@C L0", "L E@C L1", "S S L0~S L1"], draft["joins"]!.AsArray().Select(join => $"{join!["id"]}"));
        Assert.Equal(0, draft["errors"]!.GetValue<int>());
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, id)).StatusCode);

        var routes = await client.PostAsJsonAsync("/api/v1/routes", new JsonObject
        {
            ["siteId"] = site,
            ["from"] = "101",
            ["to"] = "102 L1",
            ["departAt"] = "2026-05-04T02:10:00Z",
            ["precautions"] = new JsonArray("airborne"),
        });
        Assert.Equal(HttpStatusCode.OK, routes.StatusCode);
        Assert.Contains("\"hasUnknown\":true", await routes.Content.ReadAsStringAsync());

        // A second export of the same building changes nothing.
        var again = await ReadAsync(client, await BringAsync(client, site, "osm", geoJson ? OsmBuilding.GeoJson() : OsmBuilding.Xml()));
        Assert.Empty(again["changes"]!.AsArray());
    }
}
