namespace TransportPlanner.Web.Gas;

/// <summary>The documented examples: exactly what the planner answers, as a test says.</summary>
internal static class GasExamples
{
    internal const string Request = """
        { "journeyMinutes": 9,
          "demand": { "flowLitresPerMinute": 10, "oxygenFraction": 0.30, "driveGasLitresPerMinute": 0, "bleedLitresPerMinute": 0 },
          "cylinders": [ { "gas": "oxygen", "litresPerPsi": 0.28, "gaugePsi": 1100, "residualPsi": 200 },
                         { "gas": "air", "waterCapacityLitres": 2, "gaugeBar": 150, "residualBar": 14 } ] }
        """;

    internal const string Response = """
        {
          "gases": [
            {
              "gas": "oxygen",
              "flowLitresPerMinute": 1.139,
              "usableLitres": 252,
              "tradeMinutes": 221.2,
              "realGasMinutes": null,
              "basis": "trade",
              "exactMinutes": 221.2,
              "minutes": 221,
              "minutesLow": 184,
              "flowWorking": "10 L/min × (0.3 − 0.21) ÷ 0.79 = 1.139 L/min",
              "working": "(1100 − 200) psi × 0.28 L/psi = 252 L; 252 L ÷ 1.139 L/min = 221 min",
              "workingLow": "(1100 − 200 − 75) psi × 0.28 L/psi = 231 L; 231 L ÷ (1.139 L/min × 1.1) = 184 min",
              "cylinders": 1
            },
            {
              "gas": "air",
              "flowLitresPerMinute": 8.861,
              "usableLitres": 267.778,
              "tradeMinutes": 30.697,
              "realGasMinutes": 30.22,
              "basis": "real-gas",
              "exactMinutes": 30.22,
              "minutes": 30,
              "minutesLow": 25,
              "flowWorking": "10 L/min × (1 − 0.3) ÷ 0.79 = 8.861 L/min",
              "working": "(150 − 14) bar × 2 L/bar = 272 L; real gas at 20 °C: 2 L × (151.01325 bar ÷ 1.0013975 − 15.01325 bar ÷ 0.9950177) × 0.9996238 ÷ 1.01325 bar = 267.778 L; 267.778 L ÷ 8.861 L/min = 30 min",
              "workingLow": "(150 − 14 − 7.875) bar × 2 L/bar = 256.25 L; real gas at 20 °C: 2 L × (143.13825 bar ÷ 0.9984923 − 15.01325 bar ÷ 0.9950177) × 0.9996238 ÷ 1.01325 bar = 253.082 L; 253.082 L ÷ (8.861 L/min × 1.1) = 25 min",
              "cylinders": 1
            }
          ],
          "limitingGas": "air",
          "minutes": 30,
          "oxygenAlone": {
            "flowLitresPerMinute": 10,
            "exactMinutes": 25.2,
            "minutes": 25,
            "working": "(1100 − 200) psi × 0.28 L/psi = 252 L; 252 L ÷ 10 L/min = 25 min"
          },
          "adultFormula": null,
          "oxygenOnceAirEnds": {
            "airMinutes": 30.22,
            "exactMinutes": 51.977,
            "minutes": 51,
            "minutesLow": 44,
            "working": "air ends first: 30.221 min + (252 L − 30.221 min × 1.139 L/min) ÷ 10 L/min = 51 min"
          },
          "cylinderTemperatureCelsius": 20,
          "rules": [
            {
              "rule": "twice-the-journey",
              "requiredMinutes": 18,
              "availableMinutes": 25,
              "met": true,
              "working": "2 × 9 min = 18 min; the lesser is oxygen alone: 25 min ≥ 18 min",
              "source": "in-hospital transfer teaching, UK"
            },
            {
              "rule": "journey-plus-30-minutes",
              "requiredMinutes": 39,
              "availableMinutes": 25,
              "met": false,
              "working": "9 min + 30 min = 39 min; the lesser is oxygen alone: 25 min < 39 min",
              "source": "Warren et al., Crit Care Med 2004;32:256-262 (from memory; adults)"
            }
          ],
          "cautions": [
            "Planning aid: local policy and licensed practice decide.",
            "Check the flow at the patient end: a full cylinder that is shut gives nothing.",
            "The cylinders' temperature is assumed: 20 °C.",
            "Blender bleed counts as 0 L/min; some let several go: take the maker's figure."
          ],
          "timeline": {
            "journeyMinutes": 9,
            "gases": [
              {
                "gas": "oxygen",
                "cylinders": [
                  { "cylinder": 1, "fromMinute": 0, "untilMinute": 9, "emptyAtMinute": 51.977, "emptyAtMinuteLow": 44.007,
                    "contents": [ { "minute": 0, "litres": 252 }, { "minute": 9, "litres": 241.746 } ] }
                ],
                "endsAtMinute": 51.977,
                "endsAtMinuteLow": 44.007,
                "lastsTheJourney": true
              },
              {
                "gas": "air",
                "cylinders": [
                  { "cylinder": 2, "fromMinute": 0, "untilMinute": 9, "emptyAtMinute": 30.22, "emptyAtMinuteLow": 25.965,
                    "contents": [ { "minute": 0, "litres": 267.777 }, { "minute": 9, "litres": 188.031 } ] }
                ],
                "endsAtMinute": 30.22,
                "endsAtMinuteLow": 25.965,
                "lastsTheJourney": true
              }
            ],
            "changeOvers": [],
            "stalls": [],
            "events": [
              "Air ends at minute 30.2, at the low end of the band at minute 25.9, after the journey: a blender then passes oxygen alone at the full flow, 10 L/min at fraction 1.0, counted from there; without a blender only the oxygen's own flow is left.",
              "Oxygen ends at minute 51.9, at the low end of the band at minute 44, after the journey: then nothing flows."
            ]
          }
        }
        """;

    /// <summary>One row of the library.</summary>
    internal const string Sizes = """
        [
          {
            "sizeId": "UK-CD",
            "region": "UK",
            "size": "CD",
            "otherName": null,
            "gas": "oxygen",
            "waterCapacityLitres": 2,
            "fullPsi": null,
            "fullBar": 230,
            "litresMin": 460,
            "litresMax": 460,
            "litresPerPsi": null,
            "source": "Lutman and Petros, Emerg Med J 2006;23:703-704",
            "provenance": "published",
            "note": "nominal is plain bar x litre",
            "status": "listed",
            "entry": null
          }
        ]
        """;

    internal const string NewSize = """
        { "siteId": "demonstration", "sizeId": "DEMO-3L", "gas": "oxygen", "labelLitres": 630, "labelBar": 200, "waterCapacityLitres": 3,
          "testGauge": 100, "testLitres": 315, "source": "label of cylinder O-12, an invented example", "enteredBy": "Biomedical engineering" }
        """;

    internal const string SizeConfirmation = """
        { "gas": "oxygen", "labelLitres": 630, "labelBar": 200, "waterCapacityLitres": 3, "confirmedBy": "Respiratory care" }
        """;

    internal static readonly string EnteredSize = AddedSize("entered", "null", "null", 1);
    internal static readonly string ConfirmedSize = AddedSize("confirmed", "\"Respiratory care\"", "\"2026-05-04T02:10:00+00:00\"", 2);

    private const string ShelfCylinder = """
        { "id": "5b1f0c9a7d3e42868f60a1b2c3d4e5f6", "siteId": "demonstration", "tag": "O-12",
          "cylinder": { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, "gauge": "1500 psi", "readAt": "2026-05-04T02:10:00+00:00", "readBy": "Respiratory therapist",
          "ageMinutes": 5, "stale": false, "usableLitres": 364, "working": "(1500 − 200) psi × 616 L ÷ 2200 psi = 364 L", "problem": null,
          "flowChecks": [ { "at": "2026-05-04T02:12:00+00:00", "firstRole": "Respiratory therapist", "secondRole": "Nurse", "capOff": true, "valveOpen": true, "flowSet": true,
            "flowFeltAtPatientEnd": true } ],
          "flow": "flow felt once; a second check before leaving", "version": 1 }
        """;

    internal const string NewShelfCylinder = """
        { "siteId": "demonstration", "tag": "O-12", "cylinder": { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, "readBy": "Respiratory therapist" }
        """;

    internal const string GaugeReading = """{ "gaugePsi": 1450, "readBy": "Respiratory therapist" }""";

    internal const string FlowCheck = """
        { "firstRole": "Respiratory therapist", "secondRole": "Nurse", "capOff": true, "valveOpen": true, "flowSet": true, "flowFeltAtPatientEnd": true }
        """;

    internal const string OnShelf = ShelfCylinder;

    internal const string Shelf = $$"""{ "staleMinutes": 15, "staleMinutesAssumed": true, "cylinders": [ {{ShelfCylinder}} ], "cautions": [ "Full is not flowing." ] }""";

    internal const string SmallestSet = """
        { "siteId": "demonstration", "journeyMinutes": 9, "demand": { "flowLitresPerMinute": 8, "oxygenFraction": 1 } }
        """;

    internal const string SmallestSetAnswer = """
        { "found": false, "tags": [], "supply": null, "shortOf": "oxygen", "neededLitres": 312, "thereLitres": 0,
          "working": "9 min + 30 min = 39 min; 39 min × 8 L/min = 312 L", "leftOut": [ { "tag": "O-12", "why": "its reading is 47 min old" } ] }
        """;

    private static string AddedSize(string status, string confirmedBy, string confirmedAt, int version) => $$"""
        { "sizeId": "DEMO-3L", "region": "site", "size": "DEMO-3L", "otherName": null, "gas": "oxygen", "waterCapacityLitres": 3, "fullPsi": null, "fullBar": 200,
          "litresMin": 630, "litresMax": 630, "litresPerPsi": null, "source": "label of cylinder O-12, an invented example",
          "provenance": "label, entered twice at this site", "note": "The label on the cylinder decides.", "status": "{{status}}",
          "entry": { "siteId": "demonstration", "enteredBy": "Biomedical engineering", "enteredAt": "2026-05-04T02:10:00+00:00", "confirmedBy": {{confirmedBy}},
            "confirmedAt": {{confirmedAt}}, "testWorking": "100 bar × 630 L ÷ 200 bar = 315 L", "version": {{version}} } }
        """;
}
