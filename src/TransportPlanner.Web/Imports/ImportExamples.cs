namespace TransportPlanner.Web.Imports;

/// <summary>The examples of the OpenAPI document; all invented.</summary>
internal static class ImportExamples
{
    public const string Request = """
        { "siteId": "annex", "siteName": "Annex (invented)", "timeZone": "Europe/Lisbon", "fileName": "annex.xlsx", "format": "cobie", "by": "Facilities" }
        """;

    public const string Summary = """
        { "id": "5b1f0c9a7d3e42868f60a1b2c3d4e5f6", "siteId": "annex", "fileName": "annex.xlsx", "format": "cobie", "state": "reading", "by": "Facilities",
          "createdAt": "2026-05-04T02:10:00+00:00", "step": "reading sheet Space" }
        """;

    public const string List = $$"""{ "imports": [ {{Summary}} ] }""";

    public const string Import = $$"""
        { "import": {{Summary}}, "comparedWithVersion": 0, "errors": 0, "openWarnings": 1,
          "findings": [ { "key": "0f1e2d3c4b5a", "severity": "warning", "subject": "door D7", "path": "doorPoint",
            "text": "Component, row 9: door D7 has no coordinate row and is left out: add its point, or draw it." } ],
          "joins": [ { "id": "O 1C1~1C2", "kind": "opening", "from": "1C1", "to": "1C2", "why": "The outlines of 1C1 (Corridor) and 1C2 (Corridor) share 2.00 m of edge.", "state": "open" } ],
          "steps": [], "changes": [] }
        """;

    public const string Decisions = """
        { "by": "Facilities", "decisions": [ { "key": "0f1e2d3c4b5a", "answer": "accepted", "reason": "Door walled up in 2019" }, { "key": "O 1C1~1C2", "answer": "confirmed" } ] }
        """;

    public const string Publish = """{ "by": "Facilities", "comparedWithVersion": 0 }""";

    public const string Published = """{ "siteId": "annex", "version": 1, "publishedAt": "2026-05-04T02:40:00+00:00" }""";

    public const string Plan = """
        { "type": "FeatureCollection", "coordinateSystem": "local metres, x to the east, y to the north; not longitude and latitude", "siteId": "annex", "name": "Annex (invented)",
          "timeZone": "Europe/Lisbon", "version": 0, "features": [] }
        """;

    public const string Facts = """
        "number,airChangesPerHour,airChangesPerHour known\r\nN-4.03,12,measured 2026-04-30\r\n"
        """;
}
