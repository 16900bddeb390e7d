using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>The oracle is the building's own list of counts, findings and openings, made by other programs from the same file.</summary>
public sealed partial class ClinicImportTests
{
    [Fact]
    public void The_workbook_of_the_clinic_imports_to_the_expected_counts()
    {
        var (building, findings) = Clinic.Read(withOutlines: true);
        var expected = JsonNode.Parse(File.ReadAllText(Path.Combine(Clinic.Folder, "expected.json")))!;
        var draft = DraftBuilder.Build(building, Clinic.Header);
        var plan = draft.With([]);

        Assert.DoesNotContain(findings, finding => finding.Severity == FindingSeverity.Error);
        Assert.Equal(Count("floors"), building.Levels.Length);
        Assert.Equal(Count("spaces"), building.Spaces.Length);
        Assert.All(expected["spaces_by_floor"]!.AsObject(), floor =>
            Assert.Equal(floor.Value!.GetValue<int>(), building.Spaces.Count(space => space.Level == floor.Key)));
        Assert.Equal(Count("doors"), building.Doors.Length);
        Assert.Equal(Count("doors_with_two_spaces"), building.Doors.Count(door => door.Spaces.Length == 2));
        Assert.Equal(Count("doors_with_point"), building.Doors.Count(door => door.Point is not null));
        Assert.Equal(Count("lift_components"), building.Elevators.Length);
        Assert.Equal(Count("stair_spaces"), plan.Places.Count(place => place.Kind == PlaceKind.Stairwell));
        Assert.Equal(Count("corridor_spaces"), plan.Places.Count(place => place.Kind == PlaceKind.Corridor));
        Assert.Equal(Count("spaces_with_polygon"), building.Spaces.Count(space => space.Outline is not null && !space.IsBox));
        Assert.Equal(
            expected["isolation_spaces"]!.AsArray().Select(number => $"{number}").Order(),
            building.Spaces.Where(space => space.Name.Contains("ISOLATION", StringComparison.Ordinal)).Select(space => space.Number).Order());
        Assert.Equal(PlaceKind.IsolationRoom, plan.Places.Single(place => place.Number == "1E33").Kind);
        Assert.Equal(Count("doors_contradicting_geometry"), draft.FileFindings
            .Where(finding => finding.Path == "doorPoint" && finding.Text.Contains(" m from the outline of ", StringComparison.Ordinal)).DistinctBy(finding => finding.Subject).Count());

        int Count(string name) => expected[name]!.GetValue<int>();
    }

    [Fact]
    public void The_cross_check_finds_exactly_the_known_errors_of_the_clinic()
    {
        var known = Clinic.Rows("known_data_errors.csv");
        var draft = DraftBuilder.Build(Clinic.Read(withOutlines: true).Building, Clinic.Header);

        Assert.Equal(
            known.Select(row => Far().Match(row["finding"]) is { Success: true } far
                ? $"{row["door"]} {row["space"]} {far.Groups[1]} {far.Groups[2]}"
                : $"{row["door"]} {(row["finding"].StartsWith("joins", StringComparison.Ordinal) ? "floors" : "point")}").Order(),
            draft.FileFindings.Where(finding => finding.Path is "doorPoint" or "doorLevels").Select(finding => Ours().Match(finding.Text) is { Success: true } far
                ? $"{far.Groups[1]} {far.Groups[3]} {far.Groups[2]} {far.Groups[4]}"
                : $"{finding.Subject["door ".Length..]} {(finding.Path == "doorLevels" ? "floors" : "point")}").Order());
    }

    [Fact]
    public void Doors_have_the_places_points_and_widths_of_the_extract()
    {
        var doors = Clinic.Read(withOutlines: false).Building.Doors.ToDictionary(door => door.Id);

        Assert.All(Clinic.Rows("doors.csv"), row =>
        {
            var door = doors[row["name"]];
            Assert.Equal(row["space_a"], door.Spaces[0]);
            Assert.Equal(row["x_m"].Length > 0, door.Point is not null);
            Assert.Equal(Figure(row["x_m"]) ?? 0, door.Point?.X ?? 0, 0.0011);
            Assert.Equal(Figure(row["y_m"]) ?? 0, door.Point?.Y ?? 0, 0.0011);
            if (Figure(row["nominal_width_m"]) is { } width)
            {
                Assert.Equal(width, door.NominalWidthMetres);
            }
        });
    }

    [Fact]
    public void Open_joins_are_those_of_the_reference_graph_less_the_ones_that_a_door_makes()
    {
        var building = Clinic.Read(withOutlines: true).Building;
        var reference = Clinic.Rows("reference_graph_nodes.csv").Where(row => row["kind"] == "open").Select(row => Sorted(row["id"][2..].Split('~'))).ToHashSet();
        var draft = DraftBuilder.Build(building, Clinic.Header);
        var doored = draft.With([]).Passages.Select(door => Sorted([door.From, door.To])).ToHashSet();

        var ours = draft.Joins.Where(join => join.Kind == PassageKind.Opening).Select(join => Sorted([join.From, join.To])).ToHashSet();

        Assert.Equal(reference.Except(doored).Order(), ours.Order());
        Assert.Equal(70, reference.Count);
    }

    [Fact]
    public void Confirmed_joins_bring_the_pieces_of_the_clinic_together_and_no_error_keeps_it_from_being_published()
    {
        var draft = DraftBuilder.Build(Clinic.Read(withOutlines: true).Building, Clinic.Header);
        string[] all = [.. draft.Joins.Select(join => join.Id)];

        Assert.Equal(3, draft.Joins.Count(join => join.Kind == PassageKind.StairFlight));
        Assert.Contains(draft.Joins, join => join.Id == "L E1@1BC4");
        Assert.Contains(draft.Joins, join => join.Id == "L E1@2BC1");
        Assert.Empty(draft.With([]).Elevators);
        Assert.Equal(907, draft.With(all).Elevators.Single().RatedLoadKilograms.Value);
        Assert.DoesNotContain(draft.Review(all), finding => finding.Severity == FindingSeverity.Error);
        Assert.True(FloorPlanGeoJson.Read(FloorPlanGeoJson.Write(draft.With(all))).IsRead);
    }

    [Fact]
    public void With_all_joins_confirmed_the_clinic_falls_into_the_pieces_of_the_reference_graph()
    {
        var draft = DraftBuilder.Build(Clinic.Read(withOutlines: true).Building, Clinic.Header);
        var plan = draft.With([.. draft.Joins.Select(join => join.Id)]);
        var rooms = Clinic.Rows("reference_graph_nodes.csv").Where(row => row["kind"] == "room").Select(row => row["id"][2..]).ToHashSet();

        // The reference graph puts the car into two nodes of its own and leaves the shaft's room alone.
        rooms.Remove("E1");

        Assert.Equal(
            Pieces(rooms, Clinic.Rows("reference_graph_edges.csv").Select(row => (row["from"], row["to"])), id => id.StartsWith("R:", StringComparison.Ordinal) ? id[2..] : id),
            Pieces(rooms, plan.Passages.Select(passage => (passage.From, passage.To)), id => id));
    }

    // 207 pairs by networkx 2.8.8, 105 of them on one level; the other lengths rest on two edges that the reference assumes for the car. There a way
    // is a straight line between points inside each room; here it stays inside the outline, and a door lies halfway between the outlines of its
    // rooms, up to 0.25 m from its point. So a way may be a little shorter, and longer where the straight line cuts a corner. Seen to fail:
    // with rooms crossed in straight lines.
    [Fact]
    public void Shortest_ways_of_the_imported_model_are_those_of_the_reference_graph_within_what_outlines_change()
    {
        var draft = DraftBuilder.Build(Clinic.Read(withOutlines: true).Building, Clinic.Header);
        var anchors = Clinic.Rows("reference_graph_nodes.csv").Where(row => row["kind"] == "room")
            .ToDictionary(row => row["space"], row => new PlanPoint(Figure(row["x_m"])!.Value, Figure(row["y_m"])!.Value));
        var plan = draft.With([.. draft.Joins.Select(join => join.Id)]);
        var graph = FloorGraphBuilder.Build(plan with
        {
            Places = [.. plan.Places.Select(place => anchors.TryGetValue(place.Number, out var at) ? place with { StandingPoint = at } : place)],
        });
        var (withCar, onFoot) = (Ways(_ => true), Ways(arc => graph.ArcElevator[arc] < 0));

        var longer = new List<double>();
        var rows = Clinic.Rows("reference_shortest_paths_networkx.csv");
        foreach (var row in rows)
        {
            var theirs = Figure(row["shortest_m_no_stairs"]);
            Assert.Equal(theirs is not null, Metres(withCar, row) is not null);
            if (theirs is { } metres && !row["via_rooms_no_stairs"].Contains("L:", StringComparison.Ordinal))
            {
                var ours = Metres(onFoot, row)!.Value;
                Assert.InRange(ours, metres - 0.5, metres * 1.09);
                longer.Add(ours / metres);
            }
        }

        Assert.Equal((207, 105), (rows.Count, longer.Count));
        Assert.InRange(longer.Order().ElementAt(52), 1, 1.01);

        AdjacencyGraph<int, SEquatableTaggedEdge<int, int>> Ways(Func<int, bool> isTaken)
        {
            var ways = new AdjacencyGraph<int, SEquatableTaggedEdge<int, int>>();
            ways.AddVertexRange(Enumerable.Range(0, graph.VertexCount));
            ways.AddEdgeRange(Enumerable.Range(0, graph.ArcCount).Where(arc => isTaken(arc) && !IsFlight(graph.ArcSource[arc]) && !IsFlight(graph.ArcTarget[arc]))
                .Select(arc => new SEquatableTaggedEdge<int, int>(graph.ArcSource[arc], graph.ArcTarget[arc], graph.ArcLength[arc])));
            return ways;
        }

        double? Metres(AdjacencyGraph<int, SEquatableTaggedEdge<int, int>> ways, Dictionary<string, string> row) =>
            ways.ShortestPathsDijkstra(edge => edge.Tag, graph.DepartureVertex(graph.PlaceIndex[row["from"][2..]]))(
                graph.ArrivalVertex(graph.PlaceIndex[row["to"][2..]]), out var path) ? path.Sum(edge => edge.Tag) / 1000.0 : null;

        bool IsFlight(int vertex) => graph.IsTraversal(vertex) && plan.Passages[FloorGraph.PassageOf(vertex)].Kind == PassageKind.StairFlight;
    }

    [Fact]
    public void Boxes_alone_still_make_a_draft_that_says_which_rooms_need_their_outline()
    {
        var draft = DraftBuilder.Build(Clinic.Read(withOutlines: false).Building, Clinic.Header);

        Assert.DoesNotContain(draft.Review([]), finding => finding.Severity == FindingSeverity.Error);
        Assert.Contains(draft.FileFindings, finding => finding is { Path: "area", Subject: "place 1AC1" });
    }

    /// <summary>The connected pieces, each as the numbers of its rooms; whatever else the edges name only connects.</summary>
    private static IEnumerable<string> Pieces(HashSet<string> rooms, IEnumerable<(string From, string To)> edges, Func<string, string> name)
    {
        var leaders = rooms.ToDictionary(room => room);
        foreach (var (from, to) in edges)
        {
            leaders[Leader(name(from))] = Leader(name(to));
        }

        return rooms.GroupBy(Leader).Select(piece => string.Join(' ', piece.Order(StringComparer.Ordinal))).Order(StringComparer.Ordinal);

        string Leader(string node)
        {
            leaders.TryAdd(node, node);
            return leaders[node] == node ? node : leaders[node] = Leader(leaders[node]);
        }
    }

    private static string Sorted(string[] pair) => string.Join('~', pair.Order(StringComparer.Ordinal));
    private static double? Figure(string text) => text.Length > 0 ? double.Parse(text, CultureInfo.InvariantCulture) : null;

    [GeneratedRegex(@"door point is ([\d.]+) m from the room outline, level differs by ([\d.]+) m")]
    private static partial Regex Far();

    [GeneratedRegex(@"the point of door (.+) is ([\d.]+) m from the outline of (\w+), the level differs by ([\d.]+) m")]
    private static partial Regex Ours();
}
