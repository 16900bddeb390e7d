using System.Text.Json;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class ClinicFloorTests
{
    [Fact]
    public void The_counts_are_those_of_the_building_file()
    {
        var clinic = ClinicFloor.Load();
        using var expected = JsonDocument.Parse(clinic.Expected);
        int Count(string name) => expected.RootElement.GetProperty(name).GetInt32();

        Assert.Equal(Count("spaces"), clinic.Spaces.Count);
        Assert.Equal(Count("spaces_with_polygon"), clinic.Plan.Places.Length);
        Assert.Equal(Count("doors"), clinic.Doors.Count);
        Assert.Equal(Count("doors_with_two_spaces"), clinic.Doors.Count(row => row["space_a"].Length > 0 && row["space_b"].Length > 0));
        Assert.Equal(Count("doors_with_point"), clinic.Doors.Count(row => row["x_m"].Length > 0));
        Assert.Equal(Count("corridor_spaces"), clinic.Plan.Places.Count(place => place.Kind == PlaceKind.Corridor));
        Assert.Equal(Count("stair_spaces"), clinic.Plan.Places.Count(place => place.Kind == PlaceKind.Stairwell));
        foreach (var floor in expected.RootElement.GetProperty("spaces_by_floor").EnumerateObject())
        {
            Assert.Equal(floor.Value.GetInt32(), clinic.Spaces.Count(row => row["floor"] == floor.Name));
        }

        Assert.Equal(FloorPlanGeoJson.Write(clinic.Plan), FloorPlanGeoJson.Write(FloorPlanGeoJson.Read(FloorPlanGeoJson.Write(clinic.Plan)).Plan!));
    }

    [Fact]
    public void The_check_finds_each_door_that_contradicts_its_rooms_and_no_other_error()
    {
        var clinic = ClinicFloor.Load();
        var known = clinic.KnownErrors.Where(row => !row["finding"].Contains("coordinate", StringComparison.Ordinal)).ToArray();

        var errors = FloorPlanCheck.Run(clinic.Plan).Where(finding => finding.Severity == FindingSeverity.Error).ToArray();

        Assert.Equal(known.Select(row => $"passage {row["door"]}").Distinct().Order(StringComparer.Ordinal), errors.Select(e => e.Subject).Order(StringComparer.Ordinal));
        foreach (var row in known.Where(row => row["finding"].Contains("level differs by 0.00", StringComparison.Ordinal)))
        {
            // "door point is 1.82 m from the room outline": the same figure, computed by the file's publisher of findings.
            var metres = row["finding"].Split(' ')[3];
            Assert.Contains(errors, error => error.Subject == $"passage {row["door"]}"
                && error.Text.Contains($"{metres} m away from the outline of {row["space"]}", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Doors_alone_leave_it_in_51_pieces()
    {
        var clinic = ClinicFloor.Load();
        var everySpaceAndDoor = clinic.Plan with
        {
            Places = [.. clinic.Spaces.Select(row => clinic.Plan.Places[0] with { Number = row["number"] })],
            Passages = [.. clinic.Doors.Where(row => row["space_b"].Length > 0 && row["space_a"] != row["space_b"])
                .Select(row => clinic.Plan.Passages[0] with { Id = row["name"], From = row["space_a"], To = row["space_b"] })],
        };

        // 51: counted by the publisher of the extracts, in the README beside them.
        Assert.Equal(51 - 1, new PlacePieces(everySpaceAndDoor).Findings().Count());
    }

    [Fact]
    public void Its_graph_has_a_way_between_every_two_doors_of_every_room_none_shorter_than_the_straight_line()
    {
        var plan = ClinicFloor.Load().Plan;

        var graph = FloorGraphBuilder.Build(plan);

        var doors = plan.Places.ToDictionary(place => place.Number, place => plan.Passages.Count(p => p.From == place.Number || p.To == place.Number));
        Assert.Equal(doors.Values.Sum(n => n * (n - 1) + 2 * n), graph.ArcCount);
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            Assert.True(graph.ArcLength[arc] >= graph.ArcPath[arc][0].DistanceTo(graph.ArcPath[arc][^1]) * 1_000 - 1);
        }
    }
}
