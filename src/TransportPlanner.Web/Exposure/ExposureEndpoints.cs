using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Exposure;

/// <summary>Shared air of one place.</summary>
internal static class ExposureEndpoints
{
    internal const string ExampleRequest = """
        { "volumeCubicMetres": 120, "lossRatePerHour": 2.5, "dwellSeconds": 40, "bystanders": 6, "heldDuring": false, "holdMinutes": 0, "stayMinutes": 30 }
        """;

    internal const string ExampleResponse = """
        {
          "doseDuringPerQuantum": 5.097e-7, "doseAfterPerQuantum": 2.606e-5, "totalPersonDose": 1.594e-4,
          "withinStayPersonMinutes": 2.870, "allTimePersonMinutes": 4.000,
          "working": "60 × 300 m³/h × 6 × (5.097e-7 + 2.606e-5) h²/m³ = 2.87 person-minutes within the stay; 6 × 0.6667 min × 300 m³/h ÷ (2.5 per h × 120 m³) = 4 person-minutes over all time"
        }
        """;

    public static RouteGroupBuilder MapExposure(this RouteGroupBuilder api)
    {
        api.MapPost("/exposure", Post)
            .WithName("estimateExposure")
            .WithTags("Exposure")
            .WithSummary("Shared air of one place")
            .WithDescription(
                "A well-mixed place with a source of strength one for the dwell: the dose of a bystander meanwhile, the dose of whoever stays after a hold, "
                + "and both as person-minutes in a reference place that receives 300 m³/h of clean air. The figures compare places and ways. They predict "
                + "nothing about a person: the strength of a source is unknown, and an incubator does not isolate.")
            .WithExample(ExampleRequest, ExampleResponse);
        return api;
    }

    private static Ok<ExposureResponse> Post(ExposureRequest request) =>
        TypedResults.Ok(ExposureResponse.From(ExposureEstimate.For(
            request.VolumeCubicMetres, request.LossRatePerHour, TimeSpan.FromSeconds(request.DwellSeconds), request.Bystanders,
            request.HeldDuring, TimeSpan.FromMinutes(request.HoldMinutes), TimeSpan.FromMinutes(request.StayMinutes))));
}
