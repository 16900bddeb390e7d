using Microsoft.AspNetCore.Http.HttpResults;

namespace TransportPlanner.Web.Gas;

/// <summary>Problems of the API in the words of the pages.</summary>
internal static class LibraryWords
{
    /// <summary>The words of each field, or the one sentence.</summary>
    public static string Of(ProblemHttpResult problem)
    {
        var errors = problem.ProblemDetails is HttpValidationProblemDetails validation
            ? validation.Errors
            : problem.ProblemDetails.Extensions.TryGetValue("errors", out var given) && given is IDictionary<string, string[]> named ? named : null;
        return errors is null ? problem.ProblemDetails.Detail ?? "It could not be kept." : string.Join(" ", errors.SelectMany(error => error.Value).Distinct());
    }

    public static string Of(CylinderSizeStatus status) => status switch
    {
        CylinderSizeStatus.Listed => "listed",
        CylinderSizeStatus.Entered => "entered once: not used yet",
        _ => "confirmed",
    };
}
