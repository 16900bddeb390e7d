namespace TransportPlanner.Web.Sites;

/// <summary>The examples of the OpenAPI document.</summary>
internal static class SiteExamples
{
    public const string Site = """
        { "id": "demonstration", "name": "Demonstration hospital (invented)", "timeZone": "Europe/Lisbon", "notice": "Demonstration data: this hospital is invented.",
          "floorPlanVersion": 1, "levels": [ { "number": "1", "name": "Level 1, entrance", "elevationMetres": 0 } ], "places": 426, "passages": 481, "elevators": 6 }
        """;

    public const string Sites = $$"""{ "sites": [ {{Site}} ] }""";

    public const string NewClosure = """
        { "target": "elevator", "targetId": "C1", "from": "2026-05-04T06:00:00+00:00", "to": "2026-05-04T08:30:00+00:00",
          "reason": "Yearly inspection", "source": "Facilities, duty engineer" }
        """;

    public const string Closure = """
        { "id": "5b1f0c9a7d3e42868f60a1b2c3d4e5f6", "target": "elevator", "targetId": "C1", "from": "2026-05-04T06:00:00+00:00", "to": "2026-05-04T08:30:00+00:00",
          "reason": "Yearly inspection", "source": "Facilities, duty engineer", "version": 1,
          "touches": [ { "planId": "0f3a9c1e5b7d42868f60a1b2c3d4e5f6", "callSign": "amber heron", "planVersion": 1, "departAt": "2026-05-04T06:10:00+00:00",
            "ways": [ { "way": "A", "leg": 3, "legBegins": "2026-05-04T06:11:40+00:00" } ] } ] }
        """;

    public const string Closures = $$"""{ "closures": [ {{Closure}} ] }""";

    public const string NewMapTask = """
        { "target": "passage", "targetId": "DR-2.013", "text": "did not open", "by": "Transport nurse" }
        """;

    public const string MapTask = """
        { "id": "7c1f0c9a7d3e42868f60a1b2c3d4e5f6", "target": "passage", "targetId": "DR-2.013", "text": "did not open", "reportedBy": "Transport nurse",
          "reportedAt": "2026-05-04T02:25:00+00:00", "floorPlanVersion": 1, "doneAt": null, "doneBy": null, "doneHow": null, "version": 1 }
        """;

    public const string MapTasks = $$"""{ "tasks": [ {{MapTask}} ] }""";

    public const string MapTaskDone = """{ "by": "Facilities", "how": "Closer adjusted" }""";

    public const string DoneMapTask = """
        { "id": "7c1f0c9a7d3e42868f60a1b2c3d4e5f6", "target": "passage", "targetId": "DR-2.013", "text": "did not open", "reportedBy": "Transport nurse",
          "reportedAt": "2026-05-04T02:25:00+00:00", "floorPlanVersion": 1, "doneAt": "2026-05-04T07:10:00+00:00", "doneBy": "Facilities",
          "doneHow": "Closer adjusted", "version": 2 }
        """;

    public const string NewSettings = """
        { "settings": [ { "name": "crew", "value": 5, "owner": "Neonatal transport lead", "date": "2026-04-01" } ] }
        """;

    public const string Settings = """
        { "settings": [ { "name": "crew", "value": 5, "unit": "people", "assumed": false, "owner": "Neonatal transport lead", "date": "2026-04-01", "default": 4,
          "allowed": "a whole number from 1 to 12 people", "description": "People who walk beside the incubator." } ] }
        """;
}
