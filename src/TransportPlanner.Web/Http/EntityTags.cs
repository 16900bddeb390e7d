using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;

namespace TransportPlanner.Web.Http;

/// <summary>Versions as entity tags: <c>"3"</c> is version 3. A change names the version that was read.</summary>
internal static class EntityTags
{
    public static void SetEntityTag(this HttpResponse response, long version) =>
        response.Headers.ETag = string.Create(CultureInfo.InvariantCulture, $"\"{version}\"");

    /// <summary>Null where the change may go on: <c>If-Match</c> names <paramref name="current"/>, or is <c>*</c>. Else 428, 412 or 400.</summary>
    public static ProblemHttpResult? RefuseUnlessCurrent(this HttpRequest request, long current) =>
        request.RefuseUnlessCurrent(string.Create(CultureInfo.InvariantCulture, $"\"{current}\""), () => Problems.Stale(current));

    /// <summary>The same for a tag that is more than one number, quotes included.</summary>
    public static ProblemHttpResult? RefuseUnlessCurrent(this HttpRequest request, string current) =>
        request.RefuseUnlessCurrent(current, Problems.Stale);

    private static ProblemHttpResult? RefuseUnlessCurrent(this HttpRequest request, string current, Func<ProblemHttpResult> stale)
    {
        var given = request.Headers.IfMatch;
        if (given.Count == 0)
        {
            return Problems.PreconditionRequired();
        }

        var tags = given.ToString().Split(',', StringSplitOptions.TrimEntries);
        if (tags.Any(t => t != "*" && !(t.Length > 2 && t[0] == '"' && t[^1] == '"')))
        {
            return Problems.Invalid("If-Match", "Give an ETag as it was read, in double quotes: If-Match: \"3\".");
        }

        return tags.Contains("*") || tags.Contains(current) ? null : stale();
    }
}
