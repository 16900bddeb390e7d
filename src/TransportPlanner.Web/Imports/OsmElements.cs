using System.Globalization;
using System.Text.Json;
using System.Xml;
using System.Xml.Linq;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Imports;

/// <summary>A tagged point, line or area. <see cref="Points"/>: one of a point, a closed ring of an area, none where the file cuts it off; <see cref="Ways"/>: ids of the ways that a point is part of, where the file says so.</summary>
internal sealed record OsmElement(string Id, IReadOnlyDictionary<string, string> Tags, (double Latitude, double Longitude)[] Points, bool IsPoint)
{
    public HashSet<string> Ways { get; init; } = [];
    public string? Tag(string key) => Tags.GetValueOrDefault(key);
}

/// <summary>Elements of an OSM XML file (version 0.6) or of OSM data as GeoJSON, whose properties are the tags.</summary>
internal static class OsmElements
{
    private const int MaxPoints = 1_000_000;

    public static IReadOnlyList<OsmElement>? Read(string text, List<Finding> findings, CancellationToken cancellationToken)
    {
        try
        {
            return text.TrimStart() is ['<', ..] ? Xml(text, findings, cancellationToken) : GeoJson(text, findings);
        }
        catch (Exception e) when (e is XmlException or JsonException or FormatException or OverflowException or InvalidOperationException or KeyNotFoundException or ArgumentException)
        {
            findings.Add(WorkbookTables.Refused($"The file is neither OSM XML nor GeoJSON with tags as properties ({e.GetType().Name}{(e is XmlException x ? $", line {x.LineNumber}" : "")}): export it again and upload that."));
            return null;
        }
    }

    private static List<OsmElement>? Xml(string text, List<Finding> findings, CancellationToken cancellationToken)
    {
        using var reader = XmlReader.Create(new StringReader(text), new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null });
        var points = new Dictionary<string, (double, double)>(StringComparer.Ordinal);
        var ways = new Dictionary<string, string[]>(StringComparer.Ordinal);
        var waysOf = new Dictionary<string, HashSet<string>>(StringComparer.Ordinal);
        var (nodes, areas) = (new List<(string Id, Dictionary<string, string> Tags)>(), new List<OsmElement>());
        reader.MoveToContent();
        if (reader.Name != "osm")
        {
            findings.Add(WorkbookTables.Refused($"The file begins with <{reader.Name}>, and OSM XML begins with <osm>: export it again and upload that."));
            return null;
        }

        reader.Read();
        while (!reader.EOF)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (reader.NodeType != XmlNodeType.Element)
            {
                reader.Read();
                continue;
            }

            var element = (XElement)XNode.ReadFrom(reader);
            var id = (string?)element.Attribute("id") ?? "";
            var tags = element.Elements("tag").GroupBy(tag => (string?)tag.Attribute("k") ?? "").ToDictionary(tag => tag.Key, tag => (string?)tag.First().Attribute("v") ?? "");
            if (element.Name == "node")
            {
                points[id] = (Degrees((string?)element.Attribute("lat"), 90), Degrees((string?)element.Attribute("lon"), 180));
                if (tags.Count > 0)
                {
                    nodes.Add((id, tags));
                }
            }
            else if (element.Name == "way")
            {
                ways[id] = [.. element.Elements("nd").Select(nd => (string?)nd.Attribute("ref") ?? "")];
                foreach (var node in ways[id])
                {
                    (waysOf.TryGetValue(node, out var known) ? known : waysOf[node] = []).Add($"w{id}");
                }

                if (tags.Count > 0)
                {
                    areas.Add(new($"w{id}", tags, Ring(ways[id]), false));
                }
            }
            else if (element.Name == "relation" && tags.ContainsKey("indoor"))
            {
                var outer = element.Elements("member").Where(member => (string?)member.Attribute("type") == "way" && (string?)member.Attribute("role") is "outer" or "").Select(member => (string?)member.Attribute("ref") ?? "").ToArray();
                areas.Add(new($"r{id}", tags, outer is [var one] && element.Elements("member").All(member => (string?)member.Attribute("role") != "inner") && ways.TryGetValue(one, out var ring) ? Ring(ring) : [], false));
            }

            if (points.Count > MaxPoints)
            {
                findings.Add(WorkbookTables.Refused($"The file has more than {MaxPoints} points, which is the limit: export the building alone."));
                return null;
            }
        }

        return [.. areas, .. nodes.Where(node => points.ContainsKey(node.Id)).Select(node =>
            new OsmElement($"n{node.Id}", node.Tags, [points[node.Id]], true) { Ways = waysOf.GetValueOrDefault(node.Id) ?? [] })];

        // A way that names a point the file does not have is cut off at the edge of the export: it has no outline.
        (double, double)[] Ring(string[] way) => way.All(points.ContainsKey) ? [.. way.Select(node => points[node])] : [];
    }

    private static List<OsmElement>? GeoJson(string text, List<Finding> findings)
    {
        using var document = JsonDocument.Parse(text);
        if (document.RootElement.TryGetProperty("coordinateSystem", out _))
        {
            findings.Add(WorkbookTables.Refused("This is a floor plan of the planner's own, in local metres: bring it as floor plan GeoJSON."));
            return null;
        }

        var elements = new List<OsmElement>();
        var count = 0;
        foreach (var feature in document.RootElement.GetProperty("features").EnumerateArray())
        {
            var properties = feature.GetProperty("properties");
            var source = properties.TryGetProperty("tags", out var inner) && inner.ValueKind == JsonValueKind.Object ? inner : properties;
            var tags = source.EnumerateObject().Where(tag => tag.Value.ValueKind is JsonValueKind.String or JsonValueKind.Number or JsonValueKind.True or JsonValueKind.False)
                .GroupBy(tag => tag.Name).ToDictionary(tag => tag.Key, tag => tag.First().Value.ToString(), StringComparer.Ordinal);
            var id = feature.TryGetProperty("id", out var own) ? own.ToString() : tags.GetValueOrDefault("@id") ?? FormattableString.Invariant($"feature {count + 1}");
            count++;
            if (feature.GetProperty("geometry") is not { ValueKind: JsonValueKind.Object } geometry)
            {
                continue;
            }

            var coordinates = geometry.GetProperty("coordinates");
            var (points, isPoint) = geometry.GetProperty("type").GetString() switch
            {
                "Point" => ([Point(coordinates)], true),
                "LineString" => ([.. coordinates.EnumerateArray().Select(Point)], false),
                "Polygon" when coordinates.GetArrayLength() == 1 => ([.. coordinates[0].EnumerateArray().Select(Point)], false),
                "MultiPolygon" when coordinates.GetArrayLength() == 1 && coordinates[0].GetArrayLength() == 1 => ([.. coordinates[0][0].EnumerateArray().Select(Point)], false),
                _ => (Array.Empty<(double, double)>(), false),
            };
            elements.Add(new(id.Replace('/', ' '), tags, points, isPoint));
        }

        return elements;
    }

    private static (double, double) Point(JsonElement json) => (Within(json[1].GetDouble(), 90), Within(json[0].GetDouble(), 180));

    private static double Degrees(string? text, double most) => Within(double.Parse(text ?? "", NumberStyles.Float, CultureInfo.InvariantCulture), most);

    private static double Within(double degrees, double most) => Math.Abs(degrees) <= most ? degrees : throw new FormatException("No longitude and latitude.");
}
