namespace TransportPlanner.Web.Plans;

/// <summary>The one example of the plan's operations, at the invented demonstration hospital.</summary>
internal static class PlanExamples
{
    public const string Request = """
        { "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "invasiveVentilation", "precautions": ["airborne"],
          "cylinders": [ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500, "residualPsi": 200 } ],
          "batteries": [ { "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 },
                         { "device": "infusionPump", "chargePercent": 100, "testedMinutes": 200, "testedOn": "2026-03-01" } ],
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
          "timeline": [ { "route": "A", "tempo": "urgent", "leadSeconds": 1575, "shortSeconds": 1095, "earliestGo": "2026-05-04T02:29:00+00:00",
                          "late": ["call", "huddle", "kit", "handHygiene", "donning", "loading", "trial"] } ],
          "wearByRoute": [ { "route": "A", "rule": "keptOn", "ruleAssumed": true, "donningPlace": null, "changePlace": null, "doffingPlace": "N-4.03A",
                             "stretches": [ { "firstLeg": 0, "lastLeg": 0, "careGivers": "wholeSet", "helper": "helperSet", "receiver": null } ] } ],
          "overlaps": [ { "route": "A", "leaveLaterMinutes": 22, "clearRoutes": [],
            "transports": [ { "planId": "7d793037a0760186574b0282f2f435e7", "callSign": "amber finch", "version": 2, "departAt": "2026-05-04T02:05:00+00:00",
              "places": [ { "place": "P2", "name": "Car of Public elevator 2", "kind": "beforeTheirsIsFree",
                "ours": { "from": "2026-05-04T02:09:22+00:00", "to": "2026-05-04T02:12:10+00:00", "freeAt": "2026-05-04T02:36:10+00:00", "freeAtDoorsOpen": "2026-05-04T02:22:10+00:00" },
                "theirs": { "from": "2026-05-04T02:04:22+00:00", "to": "2026-05-04T02:07:10+00:00", "freeAt": "2026-05-04T02:31:10+00:00", "freeAtDoorsOpen": "2026-05-04T02:17:10+00:00" },
                "theirRoutes": ["A", "B"] } ] } ] } ],
          "cautions": ["Check the flow at the patient end. Full is not flowing."] }
        """;
}
