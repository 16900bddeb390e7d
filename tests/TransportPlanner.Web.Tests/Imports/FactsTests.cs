using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Imports;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Facts that people know, out to a spreadsheet and in again; on the invented demonstration hospital.</summary>
public sealed class FactsTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Facts = "/api/v1/sites/demonstration/facts";

    [Fact]
    public async Task What_is_exported_and_read_again_is_the_same_plan()
    {
        using var client = application.CreateClient();
        var geoJson = await client.GetStringAsync("/api/v1/sites/demonstration/floor-plan");
        var plan = FloorPlanGeoJson.Read(geoJson).Plan!;
        List<Finding> findings = [];

        var again = FactsFile.Read(FactsFile.Write(plan).TrimStart('\uFEFF'), plan, findings);

        Assert.Empty(findings);
        Assert.Equal(geoJson, FloorPlanGeoJson.Write(again!));

        // Nothing comes from the plan that is read onto: every fact stands in the table.
        var bare = plan with
        {
            Places = [.. plan.Places.Select(place => place with
            {
                CorridorClass = default, Height = default, AirChanges = default, Pressure = default, GradientPercent = default, Occupancy = null, OccupancySource = default, Flags = default, Facilities = [],
            })],
            Elevators = [.. plan.Elevators.Select(elevator => new Elevator { Id = elevator.Id, Name = "-", Group = elevator.Group, Car = elevator.Car, Stops = elevator.Stops })],
        };
        Assert.Equal(geoJson, FloorPlanGeoJson.Write(FactsFile.Read(FactsFile.Write(plan).TrimStart('\uFEFF'), bare, findings)!));
    }

    [Fact]
    public async Task Edited_facts_are_compared_decided_and_published_and_other_facts_stay()
    {
        using var client = application.CreateClient();
        var exported = await client.GetAsync(Facts);
        Assert.Equal("text/csv", exported.Content.Headers.ContentType!.MediaType);

        // As a spreadsheet of a country with decimal commas saves it, with the columns that were edited only.
        var id = await BringAsync(client, "demonstration", "facts", Encoding.UTF8.GetBytes(
            "number;airChangesPerHour;airChangesPerHour known;facilities\r\nN-4.03;14,5;measured 2026-04-30;\"oxygenOutlet | DIN 13260 | measured 2026-04-30; power\"\r\n"));
        var draft = await ReadAsync(client, id);

        Assert.Equal(["airChangesPerHour", "facilities"], draft["changes"]!.AsArray().Select(change => $"{change!["property"]}").Order());
        Assert.Equal(HttpStatusCode.OK, (await PublishAsync(client, id)).StatusCode);
        var plan = FloorPlanGeoJson.Read(await client.GetStringAsync("/api/v1/sites/demonstration/floor-plan")).Plan!;
        var place = plan.Places.Single(p => p.Number == "N-4.03");
        Assert.Equal(14.5, place.AirChanges.Value.PerHour);
        Assert.Equal((FactSource.Measured, new DateOnly(2026, 4, 30)), (place.AirChanges.Source, place.AirChanges.AsOf!.Value));
        Assert.Equal([FacilityKind.OxygenOutlet, FacilityKind.Power], place.Facilities.Select(facility => facility.Kind));
        Assert.NotNull(place.Occupancy);
    }

    [Theory]
    [InlineData("number,airChangesPerHour\nN-4.03,many", "Row 2, column airChangesPerHour: \"many\" is not taken: give a number from 0 to 1000 air changes per hour")]
    [InlineData("number,corridorClass\nN-4.03,\nN-4.04,sort of clean", "Row 3, column corridorClass")]
    [InlineData("number,pressure known\nN-4.03,measured", "the column pressure is not there: give both")]
    [InlineData("number,pressure,pressure known\nN-4.03,neutral,guessed", "Row 2, column pressure known")]
    [InlineData("number,name\nN-4.03,Room,and more", "Row 2 has 3 cells, and there are 2 columns")]
    [InlineData("number,colour\nN-4.03,red", "Row 1: the column \"colour\" is none of the table of facts")]
    [InlineData("place,kind\nN-4.03,corridor", "Row 1")]
    [InlineData("number,name\nX-9.99,Nowhere", "Row 2, column number: the plan has no place \"X-9.99\"")]
    [InlineData("number,name\nN-4.03,A\nN-4.03,B", "Row 3, column number: N-4.03 has a row above already")]
    [InlineData("number,elevator canBeHeld\nN-4.03,true", "Row 2, column elevator canBeHeld: N-4.03 is no car")]
    [InlineData("number,occupancy\nN-4.03,1 2 3", "Row 2, column occupancy")]
    [InlineData("", "The file is empty")]
    public async Task A_cell_that_is_not_taken_is_named_by_row_and_column_and_nothing_is_changed(string csv, string said)
    {
        using var client = application.CreateClient();
        var import = await ReadAsync(client, await BringAsync(client, "demonstration", "facts", Encoding.UTF8.GetBytes(csv)));

        Assert.Equal("refused", $"{import["import"]!["state"]}");
        Assert.Contains(said, $"{import["findings"]![0]!["text"]}");
    }

    [Fact]
    public async Task Facts_made_from_an_older_version_are_an_error()
    {
        using var client = application.CreateClient();
        var first = await BringAsync(client, "demonstration", "facts", "number,name\nN-4.03,Renamed once"u8.ToArray());
        var second = await BringAsync(client, "demonstration", "facts", "number,name\nN-4.03,Renamed twice"u8.ToArray());
        await ReadAsync(client, second);
        await PublishAsync(client, first);

        var late = await ReadAsync(client, second);

        Assert.Equal(1, late["errors"]!.GetValue<int>());
        Assert.Contains("read onto version", $"{late["findings"]![0]!["text"]}");
    }

    [Fact]
    public void A_name_that_a_spreadsheet_would_run_as_a_formula_comes_back_as_it_was()
    {
        var place = new Place
        {
            Number = "A",
            Name = "=SUM(1)",
            Kind = PlaceKind.Corridor,
            Level = "1",
            Outline = Outline.Rectangle(0, 0, 2, 2),
            GradientPercent = Fact.Measured(-3.5),
            Facilities = [new(FacilityKind.OxygenOutlet, @"odd | text; with \ marks", FactSource.Assumed, null)]
        };
        var plan = new FloorPlan { SiteId = "s", Name = "S", TimeZone = "Etc/UTC", Levels = [new("1", "One", 0)], Places = [place, place with { Number = "B", Name = "'=x" }], Passages = [] };
        var text = FactsFile.Write(plan).TrimStart('\uFEFF');

        Assert.Contains("'=SUM(1)", text);
        Assert.Contains(",-3.5,", text);
        Assert.Equal(FloorPlanGeoJson.Write(plan), FloorPlanGeoJson.Write(FactsFile.Read(text, plan with { Places = [.. plan.Places.Select(p => p with { Name = "x", Facilities = [] })] }, [])!));
    }
}
