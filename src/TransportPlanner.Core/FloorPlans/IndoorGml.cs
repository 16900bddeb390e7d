using System.Globalization;
using System.Text;
using System.Xml;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// A published plan as IndoorGML 1.1 (OGC 19-011r4), core module: each place is a cell space with its state, each passage a boundary with its
/// transition, all in one topographic space layer. Coordinates are the site's local metres, the third one the elevation.
/// </summary>
/// <remarks>
/// The names and the order of elements follow the standard as it is quoted in its 1.0.3 schema; the namespace of 1.1 is from memory. The schema of
/// 1.1 itself was not at hand: <i>unverified against the schema</i>.
/// </remarks>
public static class IndoorGml
{
    public const string Core = "http://www.opengis.net/indoorgml/1.1/core";
    public const string Gml = "http://www.opengis.net/gml/3.2";
    public const string XLink = "http://www.w3.org/1999/xlink";

    /// <summary>Equal graphs give equal text: places, then passages, in the order of the plan.</summary>
    public static string Write(FloorGraph graph)
    {
        ArgumentNullException.ThrowIfNull(graph);
        var text = new StringBuilder();
        using (var xml = XmlWriter.Create(text, new() { Indent = true, IndentChars = " ", NewLineChars = "\n", OmitXmlDeclaration = true }))
        {
            new Writing(graph, xml).Document();
        }

        return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + text + "\n";
    }

    private sealed class Writing(FloorGraph graph, XmlWriter xml)
    {
        private readonly FloorPlan _plan = graph.Plan;
        private readonly PlanPoint[] _states = [.. graph.Plan.Places.Select((place, i) => StateOf(graph, place, i))];
        private readonly double[] _heights = [.. graph.Plan.Places.Select(place => HeightOf(graph.Plan, place))];

        internal void Document()
        {
            xml.WriteStartElement("core", "IndoorFeatures", Core);
            xml.WriteAttributeString("xmlns", "gml", null, Gml);
            xml.WriteAttributeString("xmlns", "xlink", null, XLink);
            Id("site-" + _plan.SiteId);
            Text("description", $"{_plan.Notice} Local metres: x to the east, y to the north, z above the site's own datum; not longitude and latitude. Floor plan version {_plan.Version}.".TrimStart());
            Text("name", _plan.Name);
            Primal();
            Dual();
            xml.WriteEndElement();
        }

        private void Primal()
        {
            Open("primalSpaceFeatures");
            Open("PrimalSpaceFeatures", "primal");
            foreach (var (i, place) in _plan.Places.Index())
            {
                Open("cellSpaceMember");
                Open("CellSpace", Name("cell", place.Number));
                Text("description", place.Level is { } level ? $"{place.Kind}, level {level}" : $"{place.Kind}, no level of its own; drawn at its lowest stop");
                Text("name", $"{place.Number} {place.Name}");
                Open("cellSpaceGeometry");
                Open("Geometry2D");
                xml.WriteStartElement("Polygon", Gml);
                Id(Name("outline", place.Number));
                xml.WriteStartElement("exterior", Gml);
                xml.WriteStartElement("LinearRing", Gml);
                Positions([.. place.Outline.Corners.Append(place.Outline.Corners[0]).Select(corner => (corner, _heights[i]))]);
                xml.WriteEndElement();
                xml.WriteEndElement();
                xml.WriteEndElement();
                Close(2);
                Link("duality", Name("state", place.Number));
                foreach (var passage in PassagesOf(place))
                {
                    Link("partialboundedBy", Name("boundary", passage.Id));
                }

                Close(2);
            }

            foreach (var passage in _plan.Passages)
            {
                var height = _heights[Meets(passage)];
                Open("cellSpaceBoundaryMember");
                Open("CellSpaceBoundary", Name("boundary", passage.Id));
                Text("description", passage.Direction == PassageDirection.Forward ? $"{passage.Kind}, only from {passage.From} to {passage.To}" : $"{passage.Kind}");
                Text("name", passage.Id);
                Link("duality", Name("transition", passage.Id));
                Open("cellSpaceBoundaryGeometry");
                Open("geometry2D");
                Line(Name("line", passage.Id), [(passage.Line.A, height), (passage.Line.B, height)]);
                Close(4);
            }

            Close(2);
        }

        private void Dual()
        {
            Open("multiLayeredGraph");
            Open("MultiLayeredGraph", "graph");
            Open("spaceLayers", "layers");
            Open("spaceLayerMember");
            Open("SpaceLayer", "layer-places");
            xml.WriteElementString("class", Core, "TOPOGRAPHIC");
            Open("nodes", "nodes");
            foreach (var (i, place) in _plan.Places.Index())
            {
                Open("stateMember");
                Open("State", Name("state", place.Number));
                Text("name", place.Number);
                Link("duality", Name("cell", place.Number));
                foreach (var passage in PassagesOf(place))
                {
                    Link("connects", Name("transition", passage.Id));
                }

                Open("geometry");
                xml.WriteStartElement("Point", Gml);
                Id(Name("point", place.Number));
                xml.WriteAttributeString("srsDimension", "3");
                xml.WriteElementString("pos", Gml, Position(_states[i], _heights[i]));
                xml.WriteEndElement();
                Close(3);
            }

            Close(1);
            if (_plan.Passages.Length > 0)
            {
                Open("edges", "edges");
                foreach (var (i, passage) in _plan.Passages.Index())
                {
                    Transition(i, passage);
                }

                Close(1);
            }

            Close(5);
        }

        private void Transition(int index, Passage passage)
        {
            var (from, to) = (graph.PlaceIndex[passage.From], graph.PlaceIndex[passage.To]);
            var (before, after) = (Arc(graph.DepartureVertex(from), 2 * index), Arc(2 * index, graph.ArrivalVertex(to)));
            Open("transitionMember");
            Open("Transition", Name("transition", passage.Id));
            Text("name", passage.Id);
            xml.WriteElementString("weight", Core, Number((Millimetres(before) + Millimetres(after) + graph.FlightLength[index]) / 1000.0));
            Link("connects", Name("state", passage.From));
            Link("connects", Name("state", passage.To));
            Link("duality", Name("boundary", passage.Id));
            Open("geometry");
            var door = _heights[Meets(passage)];
            Line(Name("way", passage.Id), [.. Way(before, _states[from], passage.Line.Midpoint, _heights[from], door), .. Way(after, passage.Line.Midpoint, _states[to], door, _heights[to])]);
            Close(3);
        }

        /// <summary>Points of an arc, or the straight piece where the graph has none: inside a car, or where no way leads through the outline.</summary>
        private IEnumerable<(PlanPoint Point, double Height)> Way(int? arc, PlanPoint from, PlanPoint to, double first, double last)
        {
            PlanPoint[] points = arc is { } walked ? [.. graph.ArcPath[walked]] : [from, to];
            return points.Select((point, i) => (point, i == points.Length - 1 ? last : first));
        }

        private int? Arc(int source, int target)
        {
            for (var arc = graph.FirstArc[source]; arc < graph.FirstArc[source + 1]; arc++)
            {
                if (graph.ArcTarget[arc] == target)
                {
                    return arc;
                }
            }

            return null;
        }

        private int Millimetres(int? arc) => arc is { } walked ? graph.ArcLength[walked] : 0;

        /// <summary>Index of the place on whose level the passage's line lies: of a landing door the landing, of a stair flight the lower storey.</summary>
        private int Meets(Passage passage)
        {
            var (from, to) = (graph.PlaceIndex[passage.From], graph.PlaceIndex[passage.To]);
            return _plan.Places[from].Level is null ? to : _plan.Places[to].Level is null ? from : _heights[to] < _heights[from] ? to : from;
        }

        private ILookup<string, Passage>? _passagesOf;

        private IEnumerable<Passage> PassagesOf(Place place) => (_passagesOf ??= _plan.Passages
            .SelectMany(passage => new[] { (Place: passage.From, passage), (Place: passage.To, passage) })
            .ToLookup(end => end.Place, end => end.passage, StringComparer.Ordinal))[place.Number];

        private void Line(string id, IReadOnlyList<(PlanPoint, double)> points)
        {
            xml.WriteStartElement("LineString", Gml);
            Id(id);
            Positions([.. points.Where((point, i) => i == 0 || point != points[i - 1])]);
            xml.WriteEndElement();
        }

        private void Positions(IReadOnlyList<(PlanPoint Point, double Height)> points)
        {
            // A line of one point is none: two equal ones stay.
            var written = points.Count == 1 ? [points[0], points[0]] : points;
            xml.WriteStartElement("posList", Gml);
            xml.WriteAttributeString("srsDimension", "3");
            xml.WriteString(string.Join(' ', written.Select(p => Position(p.Point, p.Height))));
            xml.WriteEndElement();
        }

        private void Open(string element, string? id = null)
        {
            xml.WriteStartElement(element, Core);
            if (id is not null)
            {
                Id(id);
            }
        }

        private void Close(int elements)
        {
            for (var i = 0; i < elements; i++)
            {
                xml.WriteEndElement();
            }
        }

        private void Id(string id) => xml.WriteAttributeString("gml", "id", Gml, id);

        private void Text(string element, string text) => xml.WriteElementString(element, Gml, text);

        private void Link(string element, string id)
        {
            Open(element);
            xml.WriteAttributeString("xlink", "href", XLink, "#" + id);
            Close(1);
        }
    }

    /// <summary>An XML name that tells which number it stands for: what a name may not hold is written <c>_x002F_</c>.</summary>
    internal static string Name(string kind, string number) => $"{kind}-{XmlConvert.EncodeLocalName("n" + number)![1..]}";

    private static PlanPoint StateOf(FloorGraph graph, Place place, int index)
    {
        var departure = graph.DepartureVertex(index);
        return graph.FirstArc[departure] < graph.FirstArc[departure + 1]
            ? graph.ArcPath[graph.FirstArc[departure]][0]
            : place.StandingPoint ?? new PlaceShape(place.Outline).InteriorPoint();
    }

    /// <summary>Elevation of a place; of a car that of its lowest stop.</summary>
    private static double HeightOf(FloorPlan plan, Place place)
    {
        var levels = place.Level is { } level ? [level] : plan.Elevators.Where(elevator => elevator.Car == place.Number).SelectMany(elevator => elevator.Stops.Select(stop => stop.Level));
        return plan.Levels.Where(l => levels.Contains(l.Id)).Select(l => l.ElevationMetres).DefaultIfEmpty(0).Min();
    }

    private static string Position(PlanPoint point, double height) => $"{Number(point.X)} {Number(point.Y)} {Number(height)}";

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
