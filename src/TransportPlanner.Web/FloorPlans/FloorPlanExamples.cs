namespace TransportPlanner.Web.FloorPlans;

/// <summary>The examples of the OpenAPI document.</summary>
internal static class FloorPlanExamples
{
    public const string Plan = """
        {"type":"FeatureCollection","coordinateSystem":"local metres, x to the east, y to the north; not longitude and latitude",
         "siteId":"demonstration","name":"Two rooms (invented)","timeZone":"Europe/Lisbon","version":1,"notice":"Invented.",
         "features":[
         {"type":"Feature","geometry":null,"properties":{"feature":"level","number":"1","name":"Level 1","elevationMetres":0}},
         {"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[0,0],[12,0],[12,2.4],[0,2.4],[0,0]]]},
          "properties":{"feature":"place","number":"H-1.01","name":"Corridor","kind":"corridor","level":"1","corridorClass":"clean","heightMetres":2.7,"airChangesPerHour":2,
          "pressure":null,"fireCompartment":null,"gradientPercent":null,"sources":{"heightMetres":"drawing 2026-01-15","airChangesPerHour":"drawing 2026-01-15"}}},
         {"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[0,2.4],[6,2.4],[6,7],[0,7],[0,2.4]]]},
          "properties":{"feature":"place","number":"R-1.01","name":"Delivery room","kind":"deliveryRoom","level":"1","heightMetres":2.7,"airChangesPerHour":6,
          "pressure":null,"fireCompartment":null,"gradientPercent":null,"sources":{"heightMetres":"drawing 2026-01-15","airChangesPerHour":"measured 2026-01-15"}}},
         {"type":"Feature","geometry":{"type":"LineString","coordinates":[[2,2.4],[3.2,2.4]]},
          "properties":{"feature":"passage","number":"DR-1.001","kind":"hingedDoor","joins":["R-1.01","H-1.01"],"clearWidthMetres":1.2,
          "clearHeightMetres":2.1,"thresholdMetres":0,"sources":{"clearWidthMetres":"measured 2026-01-15","clearHeightMetres":"drawing 2026-01-15","thresholdMetres":"measured 2026-01-15"}}}
         ]}
        """;

    /// <summary>The beginning of a document, as a JSON text.</summary>
    public const string IndoorGml = """
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<core:IndoorFeatures xmlns:core=\"http://www.opengis.net/indoorgml/1.1/core\" xmlns:gml=\"http://www.opengis.net/gml/3.2\" ..."
        """;

    public const string Published = """
        { "siteId": "demonstration", "version": 2, "publishedAt": "2026-05-04T02:10:00+00:00", "places": 2, "passages": 1, "elevators": 0,
          "warnings": [ { "subject": "place R-1.01", "path": "occupancy", "text": "The number of people is unknown." } ] }
        """;

    public const string Changes = """
        { "since": 1, "version": 2, "changes": [ { "kind": "changed", "feature": "passage", "number": "DR-1.001", "property": "clearWidthMetres",
          "before": "1.2 (drawing 2026-01-15)", "after": "1.15 (measured 2026-05-04)" } ] }
        """;

    public const string Versions = """
        { "versions": [ { "version": 1, "publishedAt": "2026-05-04T02:10:00+00:00", "notice": "Demonstration data: this hospital is invented." } ] }
        """;
}
