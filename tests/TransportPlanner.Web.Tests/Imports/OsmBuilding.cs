using System.Globalization;
using System.Text;
using System.Text.Json;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>
/// An invented building of two levels tagged by the rules of Simple Indoor Tagging (OpenStreetMap wiki, page of that name): a corridor on
/// both levels by a list, a room repeated by repeat_on, an elevator and stairs by a range, doors as points of two outlines or beside them.
/// </summary>
internal static class OsmBuilding
{
    private static readonly (string Id, Dictionary<string, string> Tags, double[] Box)[] Ways =
    [
        ("1", new() { ["indoor"] = "corridor", ["level"] = "0;1", ["ref"] = "C" }, [0, 0, 20, 2]),
        ("2", new() { ["indoor"] = "room", ["level"] = "0", ["ref"] = "101", ["name"] = "Delivery room 1", ["height"] = "2.7" }, [0, 2, 5, 6]),
        ("3", new() { ["indoor"] = "room", ["level"] = "0", ["repeat_on"] = "1", ["ref"] = "102", ["room"] = "office" }, [5, 2, 10, 6]),
        ("4", new() { ["indoor"] = "room", ["highway"] = "elevator", ["level"] = "0-1", ["ref"] = "E" }, [0, -3, 2, 0]),
        ("5", new() { ["indoor"] = "room", ["room"] = "stairs", ["level"] = "0-1", ["ref"] = "S" }, [10, 2, 14, 6]),
        ("6", new() { ["indoor"] = "room", ["ref"] = "no level" }, [14, 2, 18, 6]),
        ("7", new() { ["building"] = "hospital" }, [0, -3, 20, 6]),
    ];

    private static readonly (string Id, Dictionary<string, string> Tags, double X, double Y, string[] Ways)[] Doors =
    [
        ("20", new() { ["door"] = "hinged", ["width"] = "1.2" }, 2.5, 2, ["1", "2"]),
        ("21", new() { ["door"] = "sliding", ["width"] = "110 cm", ["level"] = "0;1" }, 7.5, 2, ["1", "3"]),
        ("22", new() { ["door"] = "yes", ["level"] = "0" }, 12, 2.1, []),
        ("23", new() { ["indoor"] = "door", ["level"] = "1", ["automatic_door"] = "button" }, 12, 2.1, []),
        ("24", new() { ["door"] = "hinged", ["level"] = "0" }, 19, 0, []),
        ("25", new() { ["door"] = "yes", ["level"] = "0;1" }, 1, 0, ["1", "4"]),
    ];

    // Degrees to the metre near 48.2° north, by the series of the arc lengths; a length is right to 0.1 %.
    private static string Latitude(double y) => (48.2 + y / 111_197).ToString("F9", CultureInfo.InvariantCulture);
    private static string Longitude(double x) => (16.35 + x / 74_330).ToString("F9", CultureInfo.InvariantCulture);

    private static (double X, double Y)[] Corners(string id, double[] b) =>
        id == "1" ? [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (7.5, 2), (2.5, 2), (b[0], b[3]), (b[0], b[1])] : [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3]), (b[0], b[1])];

    public static byte[] Xml()
    {
        var (nodes, ways, next) = (new StringBuilder(), new StringBuilder(), 1_000);
        foreach (var (id, tags, x, y, _) in Doors)
        {
            nodes.Append(CultureInfo.InvariantCulture, $"<node id='{id}' lat='{Latitude(y)}' lon='{Longitude(x)}'>{Tags(tags)}</node>\n");
        }

        foreach (var (id, tags, box) in Ways)
        {
            var points = new List<string>();
            foreach (var (x, y) in Corners(id, box)[..^1])
            {
                var door = Doors.FirstOrDefault(d => d.Ways.Contains(id) && d.X == x && d.Y == y).Id;
                points.Add(door ?? $"{++next}");
                if (door is null)
                {
                    nodes.Append(CultureInfo.InvariantCulture, $"<node id='{next}' lat='{Latitude(y)}' lon='{Longitude(x)}'/>\n");
                }
            }

            // A door on a wall is a point of the room's way as well.
            var own = Doors.Where(d => d.Ways.Contains(id) && !points.Contains(d.Id)).Select(d => d.Id).ToArray();
            if (own.Length > 0 && id is "2" or "3")
            {
                points.InsertRange(1, own);
            }

            ways.Append(CultureInfo.InvariantCulture, $"<way id='{id}'>{string.Concat(points.Append(points[0]).Select(p => $"<nd ref='{p}'/>"))}{Tags(tags)}</way>\n");
        }

        return Encoding.UTF8.GetBytes($"<?xml version='1.0' encoding='UTF-8'?>\n<osm version='0.6'>\n{nodes}{ways}</osm>\n");
    }

    public static byte[] GeoJson()
    {
        var features = Ways.Select(way => Feature($"way/{way.Id}", way.Tags, "Polygon", $"[[{string.Join(',', Corners(way.Id, way.Box).Select(p => $"[{Longitude(p.X)},{Latitude(p.Y)}]"))}]]"))
            .Concat(Doors.Select(door => Feature($"node/{door.Id}", door.Tags, "Point", $"[{Longitude(door.X)},{Latitude(door.Y)}]")));
        return Encoding.UTF8.GetBytes($"{{\"type\":\"FeatureCollection\",\"features\":[{string.Join(",\n", features)}]}}");
    }

    private static string Feature(string id, Dictionary<string, string> tags, string type, string coordinates) =>
        $"{{\"type\":\"Feature\",\"id\":\"{id}\",\"properties\":{JsonSerializer.Serialize(tags)},\"geometry\":{{\"type\":\"{type}\",\"coordinates\":{coordinates}}}}}";

    private static string Tags(Dictionary<string, string> tags) => string.Concat(tags.Select(tag => $"<tag k='{tag.Key}' v='{tag.Value}'/>"));
}
