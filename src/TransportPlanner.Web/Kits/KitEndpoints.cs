using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Kits;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Kits;

/// <summary>What must travel, and the order of protective wear.</summary>
internal static class KitEndpoints
{
    internal const string ExampleRequest = """
        { "weightGrams": 1850, "gestationWeeks": 32, "support": "invasiveVentilation", "precautions": ["airborne"], "journeyMinutes": 9, "devices": [] }
        """;

    /// <summary>The answer to the request, shortened to one item, one step each way and no lists around them.</summary>
    internal const string ExampleResponse = """
        {
          "rulesVersion": "2026-11-26", "rulesDate": "2026-11-26", "rulesOwner": "the project; no clinical owner has signed these rules",
          "spans": [],
          "items": [ {
            "id": "tracheal-tube", "rule": "PR-017", "name": "Tracheal tube, internal diameter", "size": "3.0 mm", "spareSize": "2.5 and 3.5 mm",
            "sizes": [ { "rule": "KS-02", "text": "3.0 mm", "basis": "weight 1,850 g, gestation 32 weeks", "offered": true, "note": null, "recalled": null,
              "source": "American Academy of Pediatrics and American Heart Association, Textbook of Neonatal Resuscitation 6th ed., 2011, pp 162-163 (quoted)" } ],
            "quantity": 1, "quantityPer": "transport", "phase": "underWay", "carriedBy": "respiratoryTherapist",
            "why": "The tube for this infant with the half size below and the half size above: in 7,293 intubations the smaller of two sizes went with fewer severe desaturations near 1,000 g and near 2,000 g.",
            "source": "Endotracheal tube size adjustments within seven days of neonatal intubation, Pediatrics 2024 (published)",
            "safetyCritical": true, "twoPeople": false, "needsConfirmation": false, "asks": [] } ],
          "refused": [],
          "wearOn": [ { "order": 1, "rule": "PS-01", "action": "hand hygiene", "place": "clean area", "handHygieneSeconds": 15,
            "handHygieneGuidance": "World Health Organization guidance: rub 20 to 30 s, wash 40 to 60 s", "note": null, "source": "none (fact of the trade) (common practice)" } ],
          "wearOff": [ { "order": 1, "rule": "PS-07", "action": "gloves", "place": null, "handHygieneSeconds": null, "handHygieneGuidance": null,
            "note": "the respirator comes off last", "source": "none (fact of the trade) (common practice)" } ],
          "wear": { "sequence": "project-airborne",
            "roles": [ { "role": "doffingWatcher", "pieces": "fit-tested respirator and gloves; the rest by infection prevention's card",
              "size": "respirator: the model and size of the fit test", "why": "Stands where others undress.", "needsConfirmation": true,
              "source": "none: project proposal (common practice)" } ], "changes": [], "watcher": "doffingWatcher",
            "watcherTask": "Reads each step aloud, sees it done, and stops a wrong one. In a simulated emergency 21 percent were correctly protected, and of their buddies 27 percent.",
            "watcherSource": "Antimicrob Resist Infect Control 2024;13 (437 physicians) (published)", "durations": [] },
          "cautions": []
        }
        """;

    public static RouteGroupBuilder MapKits(this RouteGroupBuilder api)
    {
        api.MapPost("/kits", Post)
            .WithName("listKit")
            .WithTags("Kits")
            .WithSummary("What must travel")
            .WithDescription(
                "Items by phase, each with its reason, source and safety flag, and the order of protective wear on and off. Where weight or gestation is "
                + "missing, where a figure lies on the edge of a band, or where sources differ, an item keeps every value with its source and needs "
                + "confirmation. Devices that do not go together are refused with the reason: that is an answer, not an error. Names no drug and no dose.")
            .WithExample(ExampleRequest, ExampleResponse);
        return api;
    }

    private static Ok<KitResponse> Post(KitRequest request)
    {
        var precautions = request.Precautions.ToSet();
        var list = KitList.For(new KitQuery
        {
            WeightGrams = request.WeightGrams,
            GestationWeeks = request.GestationWeeks,
            Support = request.Support,
            Precautions = precautions,
            JourneyMinutes = request.JourneyMinutes,
            Devices = request.Devices,
        });
        return TypedResults.Ok(KitResponse.From(list, ProtectiveWear.For(precautions)));
    }
}
