namespace TransportPlanner.Web.Routing;

/// <summary>The example of the operation, on the demonstration hospital.</summary>
internal static class RouteExamples
{
    internal const string Request = """
        {
          "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "departAt": "2026-05-04T01:12:00+00:00", "precautions": ["airborne"],
          "conveyance": { "lengthMetres": 1.5, "widthMetres": 0.75, "heightMetres": 1.6, "massKilograms": 140, "crew": 4 },
          "heldElevators": true, "withHelper": true, "departureWindowMinutes": 30, "avoidUnknown": false
        }
        """;

    /// <summary>The answer to the request, shortened to one way, one leg, two points and one sentence.</summary>
    internal const string Response = """
        {
          "floorPlanVersion": 1,
          "departAt": "2026-05-04T01:12:00+00:00",
          "routes": [ {
            "id": "A",
            "reasons": ["quickest"],
            "usualSeconds": 212,
            "nearlyAlwaysSeconds": 223,
            "expectedSeconds": 215.3,
            "stallProbability": 0.002,
            "metres": 111.1,
            "exposure": { "sharedAirMinutes": 1.29, "closeByMinutes": 0.381, "touches": 0, "ifPostsHold": { "sharedAirMinutes": 0.63, "closeByMinutes": 0.116, "touches": 0 } },
            "peopleLikelyMet": 4.02,
            "nextQuarter": { "from": "2026-05-04T01:15:00+00:00", "peopleLikelyMet": 4.02 },
            "handling": 6,
            "coldMinutes": 0,
            "thresholds": 0,
            "doorsByKind": { "hingedDoor": 2, "doubleDoor": 3, "slidingDoor": 1, "automaticDoor": 3, "landingDoor": 2 },
            "elevators": [{ "elevator": "P2", "name": "Public elevator 2", "fromLevel": "2", "toLevel": "4", "isHeld": false }],
            "legs": [ {
              "fromPlace": "L-2.P",
              "toPlace": "L-4.P",
              "passage": "LD-P2.2",
              "kind": "elevatorRide",
              "level": "2",
              "places": ["P2"],
              "metres": 0,
              "expectedSeconds": 38.3,
              "ends": { "earliestSeconds": 85, "usuallySeconds": 107, "nearlyAlwaysSeconds": 119 },
              "exposure": { "sharedAirMinutes": 0.292, "closeByMinutes": 0.116, "touches": 0, "ifPostsHold": { "sharedAirMinutes": 0.292, "closeByMinutes": 0.116, "touches": 0 } },
              "doors": [{ "passage": "LD-P2.4", "kind": "landingDoor", "access": "none", "clearWidthMillimetres": 1100 }],
              "elevator": { "elevator": "P2", "name": "Public elevator 2", "fromLevel": "2", "toLevel": "4", "isHeld": false },
              "bailOut": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
              "nearestOxygenOutlet": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
              "waysOut": {
                "bailOutOnward": { "place": "N-4.03", "level": "4", "metres": 41.2, "seconds": 77.6 },
                "bailOutBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
                "isBailOutBackOnLeg": false,
                "oxygenOnward": { "place": "N-4.03", "level": "4", "metres": 41.2, "seconds": 77.6 },
                "oxygenBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
                "isOxygenBackOnLeg": false,
                "destinationSeconds": 77.6,
                "fireCompartment": "2C",
                "fireDoorOnward": null,
                "fireDoorBack": { "passage": "DR-2.013", "compartment": "2W", "metres": 12.4, "seconds": 14.1 },
                "isFireDoorBackOnLeg": false,
                "isDestinationNearest": false
              }
            }, {
              "fromPlace": "L-4.P",
              "toPlace": "H-4.10",
              "passage": "LD-P2.4",
              "kind": "publicCorridor",
              "level": "4",
              "places": ["L-4.P", "H-4.10"],
              "metres": 15.2,
              "expectedSeconds": 19.8,
              "ends": { "earliestSeconds": 103, "usuallySeconds": 127, "nearlyAlwaysSeconds": 140 },
              "exposure": { "sharedAirMinutes": 0.301, "closeByMinutes": 0.105, "touches": 0, "ifPostsHold": { "sharedAirMinutes": 0, "closeByMinutes": 0, "touches": 0 } },
              "doors": [{ "passage": "DR-4.011", "kind": "automaticDoor", "access": "none", "clearWidthMillimetres": 1600 }],
              "elevator": null,
              "bailOut": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
              "nearestOxygenOutlet": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
              "waysOut": {
                "bailOutOnward": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
                "bailOutBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 68.9 },
                "isBailOutBackOnLeg": false,
                "oxygenOnward": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
                "oxygenBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 68.9 },
                "isOxygenBackOnLeg": false,
                "destinationSeconds": 57.8,
                "fireCompartment": "4C",
                "fireDoorOnward": { "passage": "DR-4.011", "compartment": "4E", "metres": 0, "seconds": 0 },
                "fireDoorBack": { "passage": "DR-4.010", "compartment": "4W", "metres": 13.1, "seconds": 15.2 },
                "isFireDoorBackOnLeg": false,
                "isDestinationNearest": true
              }
            } ],
            "crossings": [ {
              "place": "D-2.14", "metres": 2.83, "slowMetres": 1.5, "walking": { "leastSeconds": 4.4, "likelySeconds": 4.81, "mostSeconds": 5.4 },
              "door": { "leastSeconds": 2, "likelySeconds": 3, "mostSeconds": 6 }, "wait": null, "ride": null, "rideWorking": null, "stallProbability": 0, "stall": null,
              "dwellSeconds": 8.54,
              "enters": { "earliestSeconds": 0, "usuallySeconds": 0, "nearlyAlwaysSeconds": 0 },
              "leaves": { "earliestSeconds": 6, "usuallySeconds": 9, "nearlyAlwaysSeconds": 11 }, "isEnd": true, "people": 2, "usualPeople": 2, "crowds": [], "lossPerHour": 6, "volumeCubicMetres": 61.56, "areaSquareMetres": 22.8,
              "sharedAirMinutes": 0, "openDoorMinutes": 0, "closeByMinutes": 0
            }, {
              "place": "L-2.P", "metres": 6.1, "slowMetres": 1.5, "walking": { "leastSeconds": 7.7, "likelySeconds": 8.44, "mostSeconds": 9.5 },
              "door": null, "wait": { "leastSeconds": 0, "likelySeconds": 15, "mostSeconds": 75 }, "ride": null, "rideWorking": null, "stallProbability": 0, "stall": null,
              "dwellSeconds": 38.55,
              "enters": { "earliestSeconds": 22, "usuallySeconds": 31, "nearlyAlwaysSeconds": 36 },
              "leaves": { "earliestSeconds": 29, "usuallySeconds": 66, "nearlyAlwaysSeconds": 93 }, "isEnd": false, "people": 0.4, "usualPeople": 0.4, "crowds": [], "lossPerHour": 2, "volumeCubicMetres": 90.72, "areaSquareMetres": 33.6,
              "sharedAirMinutes": 0.425, "openDoorMinutes": 0, "closeByMinutes": 0.096
            }, {
              "place": "P2", "metres": 0, "slowMetres": 0, "walking": null, "door": null, "wait": null,
              "ride": { "leastSeconds": 29.04, "likelySeconds": 34.54, "mostSeconds": 41.04 },
              "rideWorking": "into the car 7.5, 9.75, 12; doors close 3.5, 4, 5; start 0.5; flight 7.8 m at 1.6 m/s, 0.8 m/s², 1.2 m/s³: 7.8 ÷ 1.6 + 1.6 ÷ 0.8 + 0.8 ÷ 1.2 ≈ 7.54 s; doors open 2.5, 3, 4; out of the car 7.5, 9.75, 12; together 29.04, 34.54, 41.04 s", "stallProbability": 0.002,
              "stall": { "leastSeconds": 300, "likelySeconds": 600, "mostSeconds": 1800 }, "dwellSeconds": 34.87,
              "enters": { "earliestSeconds": 29, "usuallySeconds": 66, "nearlyAlwaysSeconds": 93 },
              "leaves": { "earliestSeconds": 60, "usuallySeconds": 103, "nearlyAlwaysSeconds": 130 }, "isEnd": false, "people": 0.19, "usualPeople": 0.19, "crowds": [],
              "lossPerHour": 18, "volumeCubicMetres": 6.67, "areaSquareMetres": 2.9, "sharedAirMinutes": 0.2759, "openDoorMinutes": 0, "closeByMinutes": 0.1104
            } ],
            "planB": [ {
              "failed": "P2", "failedKind": "elevator", "discoveredAt": "L-2.P", "discoveredSeconds": 68.4, "leg": 2, "arrivalSeconds": 251.6,
              "via": ["L-2.P", "P1", "L-4.P"], "throughRooms": [], "rejoinsAt": "H-4.05", "bailOuts": null
            }, {
              "failed": "DR-4.096", "failedKind": "passage", "discoveredAt": "N-4.03A", "discoveredSeconds": 210.8, "leg": 5, "arrivalSeconds": null,
              "via": [], "throughRooms": [], "rejoinsAt": null, "bailOuts": [ { "place": "N-4.02", "level": "4", "metres": 12.2, "seconds": 23.3 } ]
            } ],
            "worstPlanBSeconds": 402.9,
            "paths": [{ "level": "2", "points": [{ "x": 28.839, "y": 19.162 }, { "x": 31.505, "y": 18.2 }] }],
            "throughRooms": [],
            "hasUnknown": false,
            "unknowns": [],
            "unmeasured": [],
            "assumed": ["place L-2.P: air changes", "place L-4.P: air changes"]
          } ],
          "isExact": true, "epsilon": 0, "paretoSize": 7,
          "front": [{ "expectedSeconds": 215.3, "exposureCost": 1.671445, "handling": 6 }, { "expectedSeconds": 227.9, "exposureCost": 0.783509, "handling": 5 }],
          "departures": [
            { "departAt": "2026-05-04T01:12:00+00:00", "quickestSeconds": 215.3, "exposureCost": 0.784, "seconds": 227.9, "peopleLikelyMet": 2.1 },
            { "departAt": "2026-05-04T01:15:00+00:00", "quickestSeconds": 215.3, "exposureCost": 0.784, "seconds": 227.9, "peopleLikelyMet": 2.1 },
            { "departAt": "2026-05-04T01:30:00+00:00", "quickestSeconds": 215.3, "exposureCost": 0.784, "seconds": 227.9, "peopleLikelyMet": 2.1 }
          ],
          "bestDeparture": null,
          "notChosen": [{ "way": "DR-4.077", "sentence": "Door DR-4.077 is 3 cm too narrow (0.82 m clear, 0.85 m needed, measured 2025-09-08): the way through it is 16 s quicker than A." }],
          "assumed": [],
          "cautions": ["Planning aid: local policy and licensed practice decide."]
        }
        """;
}
