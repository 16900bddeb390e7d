using System.Globalization;
using System.Xml.Linq;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>
/// Structure after OGC 19-011r4, Indoor navigable Multilayered Graph: a state is the dual of a cell space, a transition joins two states and is the
/// dual of a boundary. The schema of version 1.1 was not obtainable from a public package, so it is not validated against it.
/// </summary>
public sealed class IndoorGmlTests
{
    private static readonly XNamespace Core = IndoorGml.Core;
    private static readonly XNamespace Gml = IndoorGml.Gml;
    private static readonly XName Href = XName.Get("href", IndoorGml.XLink);
    private static readonly XDocument Small = XDocument.Parse(IndoorGml.Write(SmallSite.Graph));

    private static string Id(XElement element) => element.Attribute(Gml + "id")!.Value;
    private static string Target(XElement link) => link.Attribute(Href)!.Value[1..];

    [Fact]
    public void There_is_a_cell_and_a_state_for_each_place_and_a_boundary_and_a_transition_for_each_passage()
    {
        Assert.Equal(SmallSite.Plan.Places.Length, Small.Descendants(Core + "CellSpace").Count());
        Assert.Equal(SmallSite.Plan.Places.Length, Small.Descendants(Core + "State").Count());
        Assert.Equal(SmallSite.Plan.Passages.Length, Small.Descendants(Core + "CellSpaceBoundary").Count());
        Assert.Equal(SmallSite.Plan.Passages.Length, Small.Descendants(Core + "Transition").Count());
        Assert.Single(Small.Descendants(Core + "SpaceLayer"));
    }

    [Fact]
    public void Ids_are_unique_and_every_link_leads_to_one()
    {
        var ids = Small.Descendants().Attributes(Gml + "id").Select(id => id.Value).ToList();
        var links = Small.Descendants().Attributes(Href).Select(href => href.Value).ToList();

        Assert.Equal(ids.Distinct().Count(), ids.Count);
        Assert.All(links, link => Assert.Contains(link[1..], ids));
        Assert.NotEmpty(links);
    }

    [Fact]
    public void Every_state_is_the_dual_of_its_cell_and_every_transition_joins_the_two_states_of_its_passage()
    {
        var cells = Small.Descendants(Core + "CellSpace").ToDictionary(Id);
        Assert.All(Small.Descendants(Core + "State"), state =>
            Assert.Equal(Id(state), Target(cells[Target(state.Element(Core + "duality")!)].Element(Core + "duality")!)));

        var passages = SmallSite.Plan.Passages.ToDictionary(passage => passage.Id);
        Assert.All(Small.Descendants(Core + "Transition"), transition =>
        {
            var passage = passages[transition.Element(Gml + "name")!.Value];
            Assert.Equal(
                [IndoorGml.Name("state", passage.From), IndoorGml.Name("state", passage.To)], transition.Elements(Core + "connects").Select(Target));
        });
        Assert.All(Small.Descendants(Core + "State"), state => Assert.All(state.Elements(Core + "connects"), link =>
            Assert.Contains(Id(state), Small.Descendants(Core + "Transition").Single(t => Id(t) == Target(link)).Elements(Core + "connects").Select(Target))));
    }

    /// <summary>GML 3.2.1 (OGC 07-036), 10.5.8 and 10.4.4: a ring closes; a line runs between the points that it joins, here the two states.</summary>
    [Fact]
    public void Rings_close_and_lines_run_from_state_to_state()
    {
        Assert.All(Small.Descendants(Gml + "LinearRing"), ring =>
        {
            var points = Points(ring.Element(Gml + "posList")!);
            Assert.True(points.Count >= 4);
            Assert.Equal(points[0], points[^1]);
        });
        var states = Small.Descendants(Core + "State").ToDictionary(Id, state => Points(state.Descendants(Gml + "pos").Single())[0]);
        Assert.All(Small.Descendants(Core + "Transition"), transition =>
        {
            var line = Points(transition.Descendants(Gml + "posList").Single());
            var ends = transition.Elements(Core + "connects").Select(link => states[Target(link)]).ToList();
            Assert.Equal(ends[0], line[0]);
            Assert.Equal(ends[1], line[^1]);
        });
    }

    /// <summary>Pythagoras along the written line; every door lies on the outlines that it joins, so nothing else is walked.</summary>
    [Fact]
    public void The_weight_of_a_transition_is_the_walk_in_metres_from_standing_point_to_standing_point()
    {
        var walked = Small.Descendants(Core + "Transition").Where(t => SmallSite.Plan.Passages.Single(p => p.Id == t.Element(Gml + "name")!.Value).Kind is not (PassageKind.LandingDoor or PassageKind.StairFlight)).ToList();

        Assert.NotEmpty(walked);
        Assert.All(walked, transition =>
        {
            var line = Points(transition.Descendants(Gml + "posList").Single());
            var length = line.Zip(line.Skip(1), (a, b) => Math.Sqrt(Math.Pow(b.X - a.X, 2) + Math.Pow(b.Y - a.Y, 2))).Sum();
            Assert.Equal(length, double.Parse(transition.Element(Core + "weight")!.Value, CultureInfo.InvariantCulture), 0.005);
        });
    }

    [Fact]
    public void A_number_that_is_no_xml_name_gets_an_id_of_its_own()
    {
        string[] numbers = ["1/2", "1_x002F_2", "1 2", "Ä-1", "#", "1.2"];
        var names = numbers.Select(number => IndoorGml.Name("cell", number)).ToList();

        Assert.Equal(numbers.Length, names.Distinct().Count());
        Assert.All(names, name => Assert.Equal(name, System.Xml.XmlConvert.VerifyNCName(name)));
    }

    private static List<(double X, double Y, double Z)> Points(XElement positions)
    {
        var numbers = positions.Value.Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToList();
        return [.. numbers.Chunk(3).Select(point => (point[0], point[1], point[2]))];
    }
}
