using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Airing;

/// <summary>When the air of a place has been renewed.</summary>
internal static class AiringEndpoints
{
    internal const string ExampleRequest = """{ "airChangesPerHour": 12, "removalPercent": 99.9, "mixingFactor": 1 }""";

    internal const string ExampleResponse = """
        {
          "exactMinutes": 34.539, "minutes": 35,
          "working": "−ln(0.001) ÷ 12 per h × 60 min/h × 1 = 34.539 min; rounded up: 35 min",
          "assumptions": [
            "The place is empty, its source has left and its doors are shut; 99.9% of what was in the air is to be removed.",
            "Air mixes perfectly (mixing factor 1); still corners take longer.",
            "The ventilation gives 12 air changes per hour all the time.",
            "Settling and decay are not credited."
          ]
        }
        """;

    public static RouteGroupBuilder MapAiring(this RouteGroupBuilder api)
    {
        api.MapPost("/airing", Post)
            .WithName("computeAiring")
            .WithTags("Airing")
            .WithSummary("When has the air of a place been renewed")
            .WithDescription(
                "t = −ln(1 − removal) ÷ air changes × 60 × mixing factor, rounded up, for an empty place with perfect mixing unless a factor says otherwise. "
                + "Published tables round to nearest and may print a minute less. The planner opens no place again: a person does.")
            .WithExample(ExampleRequest, ExampleResponse);
        return api;
    }

    private static Ok<AiringResponse> Post(AiringRequest request) =>
        TypedResults.Ok(AiringResponse.From(AiringTime.For(AirChangeRate.FromPerHour(request.AirChangesPerHour), request.RemovalPercent, request.MixingFactor)));
}
