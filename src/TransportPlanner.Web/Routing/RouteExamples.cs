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
              "exposure": { "sharedAirMinutes": 0.292, "closeByMinutes": 0.116, "touches": 0, "ifPostsHold": { "sharedAirMinutes": 0.292, "closeByMinutes": 0.116, "touches": 0 } },
              "doors": [{ "passage": "LD-P2.4", "kind": "landingDoor", "access": "none", "clearWidthMillimetres": 1100 }],
              "elevator": { "elevator": "P2", "name": "Public elevator 2", "fromLevel": "2", "toLevel": "4", "isHeld": false },
              "bailOut": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
              "nearestOxygenOutlet": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
              "waysOut": {
                "bailOutOnward": { "place": "N-4.03", "level": "4", "metres": 41.2, "seconds": 77.6 },
                "bailOutBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
                "oxygenOnward": { "place": "N-4.03", "level": "4", "metres": 41.2, "seconds": 77.6 },
                "oxygenBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 30.6 },
                "destinationSeconds": 77.6,
                "fireCompartment": "2C",
                "fireDoorOnward": null,
                "fireDoorBack": { "passage": "DR-2.013", "compartment": "2W", "metres": 12.4, "seconds": 14.1 },
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
              "exposure": { "sharedAirMinutes": 0.301, "closeByMinutes": 0.105, "touches": 0, "ifPostsHold": { "sharedAirMinutes": 0, "closeByMinutes": 0, "touches": 0 } },
              "doors": [{ "passage": "DR-4.011", "kind": "automaticDoor", "access": "none", "clearWidthMillimetres": 1600 }],
              "elevator": null,
              "bailOut": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
              "nearestOxygenOutlet": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
              "waysOut": {
                "bailOutOnward": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
                "bailOutBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 68.9 },
                "oxygenOnward": { "place": "N-4.03", "level": "4", "metres": 26, "seconds": 57.8 },
                "oxygenBack": { "place": "C-2.43", "level": "2", "metres": 17.3, "seconds": 68.9 },
                "destinationSeconds": 57.8,
                "fireCompartment": "4C",
                "fireDoorOnward": { "passage": "DR-4.011", "compartment": "4E", "metres": 0, "seconds": 0 },
                "fireDoorBack": { "passage": "DR-4.010", "compartment": "4W", "metres": 13.1, "seconds": 15.2 },
                "isDestinationNearest": true
              }
            } ],
            "planB": [ {
              "failed": "P2", "failedKind": "elevator", "discoveredAt": "L-2.P", "discoveredSeconds": 68.4, "leg": 2, "arrivalSeconds": 251.6,
              "via": ["L-2.P", "P1", "L-4.P"], "throughRooms": [], "rejoinsAt": "H-4.05"
            } ],
            "worstPlanBSeconds": 402.9,
            "paths": [{ "level": "2", "points": [{ "x": 28.839, "y": 19.162 }, { "x": 31.505, "y": 18.2 }] }],
            "throughRooms": [],
            "hasUnknown": false,
            "unknowns": [],
            "assumed": ["place L-2.P: air changes", "place L-4.P: air changes"]
          } ],
          "paretoSize": 7,
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
