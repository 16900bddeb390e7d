namespace TransportPlanner.Web.Plans;

/// <summary>The one example of the plan's operations, at the invented demonstration hospital.</summary>
internal static class PlanExamples
{
    public const string Request = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne"],
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500, "residualPsi": 200 } ],
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.30, "airSource": "compressor" },
          "weightGrams": 1850, "gestationWeeks": 32, "departAt": "2026-05-04T02:10:00+00:00",
          "conveyance": { "lengthMetres": 1.5, "widthMetres": 0.75, "heightMetres": 1.6, "massKilograms": 140, "crew": 4 },
          "heldElevators": true, "withHelper": true, "avoidUnknown": false }
        """;

    /// <summary>Shortened: the lists of ways, items and places are those of the other operations.</summary>
    public const string Response = """
        { "id": "5d41402abc4b2a76b9719d911017c592", "callSign": "silver heron", "version": 1, "siteId": "demonstration",
          "madeAt": "2026-05-04T02:02:00+00:00", "voidAfter": "2026-05-04T02:40:00+00:00", "from": "D-2.14", "to": "N-4.03",
          "support": "invasiveVentilation", "precautions": ["airborne"], "assumed": ["reserveRule: both"],
          "gasByRoute": [ { "route": "A", "journeyMinutes": 4.2, "answer": "computed", "minutesIfStuck": 32 } ],
          "airing": [ { "place": "D-2.14", "minutes": 70, "working": "−ln(0.001) ÷ 6 per h × 60 min/h × 1 = 69.078 min; rounded up: 70 min" } ],
          "posts": [ { "route": "A", "fewestOfficers": 5, "unmanned": [], "peopleLikelyMet": 0,
                       "officers": [ { "number": 1, "start": null, "duties": [ { "post": "P1", "walkSeconds": 0 } ] } ] } ],
          "cautions": ["Check the flow at the patient end. Full is not flowing."] }
        """;
}
