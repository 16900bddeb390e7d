using System.IO.Compression;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Imports;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>Files that offices and attackers send: each is refused in words or becomes a draft with findings, and the plan in force stays.</summary>
public sealed class BrokenFilesTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const string Head =
        "{\"type\":\"FeatureCollection\",\"coordinateSystem\":\"local metres, x to the east, y to the north; not longitude and latitude\",\"siteId\":\"broken\",\"name\":\"B\",\"timeZone\":\"Etc/UTC\",\"version\":0,\"features\":[";

    private const string Level = "{\"type\":\"Feature\",\"geometry\":null,\"properties\":{\"feature\":\"level\",\"number\":\"1\",\"name\":\"One\",\"elevationMetres\":0}},";

    private const string Kept = "The plan in force";

    /// <summary>Name of the file, and what the first finding must say.</summary>
    public static TheoryData<string, string, string> Refused => new()
    {
        { "empty.xlsx", "cobie", "cannot be read as an .xlsx workbook" },
        { "text.xlsx", "cobie", "cannot be read as an .xlsx workbook" },
        { "truncated.xlsx", "cobie", "cannot be read as an .xlsx workbook" },
        { "zip bomb.xlsx", "cobie", "unpacks to more than 512 MiB" },
        { "entity bomb.xlsx", "cobie", "cannot be read as an .xlsx workbook" },
        { "million rows.xlsx", "cobie", "more than 200000 rows" },
        { "no sheets of ours.xlsx", "cobie", "no sheet" },
        { "empty sheets.xlsx", "cobie", "sheet" },
        { "truncated.geojson", "geoJson", "" },
        { "latin-1.geojson", "geoJson", "UTF-8" },
        { "not a number.geojson", "geoJson", "" },
        { "infinite.geojson", "geoJson", "give a" },
        { "deep.geojson", "geoJson", "" },
        { "array.geojson", "geoJson", "" },
        { "wrong types.geojson", "geoJson", "give a" },
        { "empty.osm", "osm", "neither OSM XML nor GeoJSON" },
        { "truncated.osm", "osm", "neither OSM XML nor GeoJSON" },
        { "entity bomb.osm", "osm", "neither OSM XML nor GeoJSON" },
        { "page.osm", "osm", "begins with <html>" },
        { "no level.osm", "osm", "no closed outline" },
        { "endless levels.osm", "osm", "no closed outline" },
        { "not a number.osm", "osm", "neither OSM XML nor GeoJSON" },
        { "two continents.osm", "osm", "more than 5 km from their middle" },
        { "our own.geojson", "osm", "planner's own" },
        { "wrong types of osm.geojson", "osm", "neither OSM XML nor GeoJSON" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public async Task A_broken_file_is_refused_in_words_and_changes_nothing(string name, string format, string said)
    {
        using var client = application.CreateClient();
        var before = await client.GetStringAsync("/api/v1/sites");

        var import = await ReadAsync(client, await BringAsync(client, "broken", format, Make(name)));

        Assert.Equal("refused", $"{import["import"]!["state"]}");
        var texts = import["findings"]!.AsArray().Select(finding => $"{finding!["text"]}").ToList();
        Assert.Contains(texts, text => text.Contains(said, StringComparison.Ordinal));
        Assert.DoesNotContain(texts, text => text.Contains("fault of its own", StringComparison.Ordinal));
        Assert.True(before == await client.GetStringAsync("/api/v1/sites"), Kept);
    }

    [Theory]
    [InlineData("self-crossing.geojson", "crosses or touches itself")]
    [InlineData("no places.geojson", "1 levels and 0 places")]
    [InlineData("dangling.geojson", "which does not exist")]
    [InlineData("twice.geojson", "used 2 times")]
    public async Task A_plan_that_contradicts_itself_becomes_a_draft_with_an_error_that_nobody_can_accept(string name, string said)
    {
        using var client = application.CreateClient();
        var id = await BringAsync(client, "broken", "geoJson", Make(name));
        var import = await ReadAsync(client, id);

        Assert.Equal("draft", $"{import["import"]!["state"]}");
        var error = import["findings"]!.AsArray().First(finding => $"{finding!["severity"]}" == "error")!;
        Assert.Contains(said, $"{error["text"]}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await ChangeAsync(client, id, "decisions", Decisions([($"{error["key"]}", "accepted", "Leave it")]))).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await ChangeAsync(client, id, "publish", new() { ["by"] = "Facilities", ["comparedWithVersion"] = 0 })).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sites/broken")).StatusCode);
    }

    [Fact]
    public async Task A_file_above_the_limit_is_413_and_leaves_nothing_behind()
    {
        using var client = application.CreateClient();
        var begun = await client.PostAsync("/api/v1/imports", new StringContent(
            """{ "siteId": "broken", "fileName": "large", "format": "cobie", "by": "Facilities" }""", Encoding.UTF8, "application/json"));
        var address = $"{begun.Headers.Location}";

        var answer = await client.PutAsync($"{address}/file", new StreamContent(new MemoryStream(new byte[ImportFiles.MaxFileBytes + 1])));

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.False(File.Exists(Path.Combine(application.DataFolder, "uploads", address[(address.LastIndexOf('/') + 1)..])));
    }

    [Fact]
    public async Task Formulas_are_read_as_the_values_saved_with_them_and_odd_text_stays_text()
    {
        using var client = application.CreateClient();
        var sheets = SmallBuilding.Sheets();
        var at = Array.FindIndex(sheets, sheet => sheet.Name == "Space");
        sheets[at].Rows[1][4] = "Isolation\u0007 Raum \u00e4\u4e2d\ud83d\ude80";
        sheets[at].Rows[2][5] = new Formula("2600+100", "2700");

        var import = await ReadAsync(client, await BringAsync(client, "broken", "cobie", WorkbookFile.Write(sheets).ToArray()));
        var plan = await client.GetStringAsync($"/api/v1/imports/{import["import"]!["id"]}/floor-plan");

        Assert.Equal("draft", $"{import["import"]!["state"]}");
        Assert.Contains("Isolation Raum \u00e4\u4e2d\ud83d\ude80", JsonNode.Parse(plan)!["features"]!.AsArray().Select(feature => $"{feature!["properties"]!["name"]}"));
        Assert.Equal(3, plan.Split("\"heightMetres\":2.7,").Length - 1);
    }

    private static byte[] Make(string name) => name switch
    {
        "empty.xlsx" => [],
        "text.xlsx" => "this is no zip file"u8.ToArray(),
        "truncated.xlsx" => Whole()[..(Whole().Length / 2)],
        "zip bomb.xlsx" => Zip(("xl/workbook.xml", writer =>
        {
            var zeros = new byte[1 << 20];
            for (var i = 0; i < 600; i++)
            {
                writer.Write(zeros);
            }
        }
        )),
        "entity bomb.xlsx" => Replaced("xl/workbook.xml",
            "<!DOCTYPE w [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\">]><workbook>&c;</workbook>"),
        "million rows.xlsx" => WorkbookFile.Write([("Floor", [["Name", "Elevation"]]), ("Space", [["Name"], .. Enumerable.Repeat(new object?[] { 1 }, 1_000_000)])]).ToArray(),
        "no sheets of ours.xlsx" => WorkbookFile.Write(("Notes", [["Name"], ["nothing"]])).ToArray(),
        "empty sheets.xlsx" => WorkbookFile.Write(("Floor", []), ("Space", [])).ToArray(),
        "truncated.geojson" => Encoding.UTF8.GetBytes(Head + Level),
        "latin-1.geojson" => Encoding.Latin1.GetBytes(Head.Replace("\"B\"", "\"Gebäude\"", StringComparison.Ordinal) + Level.TrimEnd(',') + "]}"),
        "not a number.geojson" => Encoding.UTF8.GetBytes(Head + Level.Replace("\"elevationMetres\":0", "\"elevationMetres\":NaN", StringComparison.Ordinal).TrimEnd(',') + "]}"),
        "infinite.geojson" => Encoding.UTF8.GetBytes(Head + Level.Replace("\"elevationMetres\":0", "\"elevationMetres\":1e999", StringComparison.Ordinal).TrimEnd(',') + "]}"),
        "deep.geojson" => Encoding.UTF8.GetBytes(new string('[', 100_000)),
        "array.geojson" => "[1, 2, 3]"u8.ToArray(),
        "wrong types.geojson" => Encoding.UTF8.GetBytes(Head + Level.Replace("\"number\":\"1\"", "\"number\":{}", StringComparison.Ordinal).TrimEnd(',') + "]}"),
        "empty.osm" => [],
        "truncated.osm" => OsmBuilding.Xml()[..(OsmBuilding.Xml().Length / 2)],
        "entity bomb.osm" => Encoding.UTF8.GetBytes("<!DOCTYPE o [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><osm><node id='&b;' lat='0' lon='0'/></osm>"),
        "page.osm" => "<html><body>Sign in first</body></html>"u8.ToArray(),
        "no level.osm" => Osm(xml => xml.Replace("k='level'", "k='floor'", StringComparison.Ordinal).Replace("k='repeat_on'", "k='again'", StringComparison.Ordinal)),
        "endless levels.osm" => Osm(xml => xml.Replace("k='level' v='0;1'", "k='level' v='-9999-9999'", StringComparison.Ordinal).Replace("k='level' v='0", "k='level' v='0-9999;0", StringComparison.Ordinal)),
        "not a number.osm" => Osm(xml => xml.Replace("lat='48.2", "lat='NaN48.2", StringComparison.Ordinal)),
        "two continents.osm" => Osm(xml => xml.Replace("lon='16.35006", "lon='-70.35006", StringComparison.Ordinal)),
        "our own.geojson" => Encoding.UTF8.GetBytes(Head + Level + Place("A", "[[0,0],[5,0],[5,5],[0,0]]") + "]}"),
        "wrong types of osm.geojson" => "{\"type\":\"FeatureCollection\",\"features\":[{\"properties\":[],\"geometry\":{\"type\":\"Point\",\"coordinates\":\"here\"}}]}"u8.ToArray(),
        "self-crossing.geojson" => Encoding.UTF8.GetBytes(Head + Level + Place("A", "[[0,0],[5,5],[5,0],[0,5],[0,0]]") + "]}"),
        "no places.geojson" => Encoding.UTF8.GetBytes(Head + Level.TrimEnd(',') + "]}"),
        "dangling.geojson" => Encoding.UTF8.GetBytes(Head + Level + Place("A", "[[0,0],[5,0],[5,5],[0,0]]").Replace("\"level\":\"1\"", "\"level\":\"9\"", StringComparison.Ordinal) + "]}"),
        "twice.geojson" => Encoding.UTF8.GetBytes(Head + Level + Place("A", "[[0,0],[5,0],[5,5],[0,0]]") + "," + Place("A", "[[9,0],[12,0],[12,5],[9,0]]") + "]}"),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such file."),
    };

    private static string Place(string number, string ring) =>
        $"{{\"type\":\"Feature\",\"geometry\":{{\"type\":\"Polygon\",\"coordinates\":[{ring}]}},\"properties\":{{\"feature\":\"place\",\"number\":\"{number}\",\"name\":\"N\",\"kind\":\"corridor\",\"level\":\"1\"}}}}";

    private static byte[] Osm(Func<string, string> change) => Encoding.UTF8.GetBytes(change(Encoding.UTF8.GetString(OsmBuilding.Xml())));

    private static byte[] Whole() => WorkbookFile.Write(SmallBuilding.Sheets()).ToArray();

    private static byte[] Zip(params (string Name, Action<Stream> Write)[] entries)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, write) in entries)
            {
                using var entry = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                write(entry);
            }
        }

        return file.ToArray();
    }

    private static byte[] Replaced(string part, string xml)
    {
        using var file = WorkbookFile.Write(SmallBuilding.Sheets());
        using (var zip = new ZipArchive(file, ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.GetEntry(part)!.Delete();
            using var writer = new StreamWriter(zip.CreateEntry(part).Open());
            writer.Write(xml);
        }

        return file.ToArray();
    }
}
