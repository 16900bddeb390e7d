using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace TransportPlanner.Web.Http;

/// <summary>Codes of problems that any operation may answer; a feature's own codes are an enumeration beside the feature.</summary>
internal enum ProblemCode
{
    /// <summary>The request is malformed or out of range; <c>errors</c> names each field and the fix.</summary>
    InvalidRequest,
    /// <summary>No such address, site or id.</summary>
    NotFound,
    /// <summary>The method does not exist at this address.</summary>
    MethodNotAllowed,
    /// <summary>The body is not <c>application/json</c>, or not the type this operation reads.</summary>
    UnsupportedMediaType,
    /// <summary>The body is larger than this operation reads.</summary>
    TooLarge,
    /// <summary>The version in <c>If-Match</c> is not the current one: read again, then repeat the change.</summary>
    Stale,
    /// <summary>A change needs <c>If-Match</c> with the version that was read.</summary>
    PreconditionRequired,
    /// <summary>The <c>Idempotency-Key</c> was used before with another body.</summary>
    IdempotencyKeyReused,
    /// <summary>A fault of the planner; the log holds it under the trace id.</summary>
    Fault,
}

/// <summary>
/// The one place where an outcome becomes an HTTP problem (RFC 9457). A code is the kebab-case name of an enumeration member, so that a
/// feature's codes are one closed, explained list; the type is <c>urn:transport-planner:problem:</c> and the code.
/// </summary>
internal static class Problems
{
    public const string TypePrefix = "urn:transport-planner:problem:";

    /// <summary>400 for what only the handler can see; <paramref name="path"/> is the camelCase JSON path of the field.</summary>
    public static ProblemHttpResult Invalid(string path, string fix) => Invalid(new Dictionary<string, string[]> { [path] = [fix] });

    public static ProblemHttpResult Invalid(IDictionary<string, string[]> errors) =>
        TypedResults.Problem(new HttpValidationProblemDetails(errors) { Status = StatusCodes.Status400BadRequest });

    public static ProblemHttpResult NotFound(string detail) => Problem(StatusCodes.Status404NotFound, ProblemCode.NotFound, detail);

    public static ProblemHttpResult NoSite(string siteId) => NotFound($"There is no site {siteId}. GET {OpenApi.BasePath}/sites lists them.");

    /// <summary>409: the thing is in a state that refuses this.</summary>
    public static ProblemHttpResult Conflict(Enum code, string detail, params (string Name, object? Value)[] members) =>
        Problem(StatusCodes.Status409Conflict, code, detail, members);

    /// <summary>412: somebody else changed it meanwhile.</summary>
    public static ProblemHttpResult Stale(long currentVersion) =>
        Problem(
            StatusCodes.Status412PreconditionFailed, ProblemCode.Stale,
            $"It was changed meanwhile and is at version {currentVersion}. Read it again, then repeat the change.", ("currentVersion", currentVersion));

    /// <summary>412 where the tag that holds now was not read.</summary>
    public static ProblemHttpResult Stale() =>
        Problem(StatusCodes.Status412PreconditionFailed, ProblemCode.Stale, "It was changed meanwhile. Read it again, then repeat the change.");

    /// <summary>422: well formed but impossible. Name the field, the figure that fails and the fix in <paramref name="detail"/>.</summary>
    public static ProblemHttpResult Impossible(Enum code, string detail, params (string Name, object? Value)[] members) =>
        Problem(StatusCodes.Status422UnprocessableEntity, code, detail, members);

    /// <summary>422 that belongs to one field; <paramref name="path"/> is its camelCase JSON path.</summary>
    public static ProblemHttpResult ImpossibleField(Enum code, string path, string fix) =>
        Impossible(code, fix, ("errors", new Dictionary<string, string[]> { [path] = [fix] }));

    /// <summary>428: a change without <c>If-Match</c>.</summary>
    public static ProblemHttpResult PreconditionRequired() =>
        Problem(
            StatusCodes.Status428PreconditionRequired, ProblemCode.PreconditionRequired,
            "Send If-Match with the ETag that was read, so that nobody else's change is lost.");

    public static ProblemHttpResult IdempotencyKeyReused() =>
        Problem(
            StatusCodes.Status422UnprocessableEntity, ProblemCode.IdempotencyKeyReused,
            "This Idempotency-Key was used before with another body. Use a new key for a new request.");

    public static string CodeText(Enum code) => JsonNamingPolicy.KebabCaseLower.ConvertName(code.ToString());

    /// <summary>Gives every problem, the framework's own included, its type, code, trace id and camelCase paths.</summary>
    public static void Complete(ProblemDetailsContext context)
    {
        var problem = context.ProblemDetails;
        if (problem is HttpValidationProblemDetails validation)
        {
            problem.Title = "The request is malformed or out of range.";
            problem.Detail ??= "See errors: each names a field and the fix.";
            validation.Errors = validation.Errors.ToDictionary(
                e => e.Key.Length == 0 ? JsonErrors.Root : JsonErrors.CamelCase(e.Key), e => Rename(e.Key, e.Value));
        }

        var code = problem.Extensions.TryGetValue("code", out var given) ? $"{given}" : CodeText(CodeOf(problem.Status));
        problem.Type = TypePrefix + code;
        problem.Extensions["code"] = code;
        problem.Extensions["traceId"] = RequestLog.TraceId(context.HttpContext);
    }

    private static ProblemHttpResult Problem(int status, Enum code, string detail, params (string Name, object? Value)[] members)
    {
        var problem = new ProblemDetails { Status = status, Detail = detail };
        problem.Extensions["code"] = CodeText(code);
        foreach (var (name, value) in members)
        {
            problem.Extensions[name] = value;
        }

        return TypedResults.Problem(problem);
    }

    private static ProblemCode CodeOf(int? status) => status switch
    {
        StatusCodes.Status404NotFound => ProblemCode.NotFound,
        StatusCodes.Status405MethodNotAllowed => ProblemCode.MethodNotAllowed,
        StatusCodes.Status413PayloadTooLarge => ProblemCode.TooLarge,
        StatusCodes.Status415UnsupportedMediaType => ProblemCode.UnsupportedMediaType,
        >= 400 and < 500 => ProblemCode.InvalidRequest,
        _ => ProblemCode.Fault,
    };

    /// <summary>The framework's sentences name the CLR member; the reader knows the JSON one.</summary>
    private static string[] Rename(string key, string[] messages)
    {
        var member = key[(key.LastIndexOf('.') + 1)..];
        return member.Length == 0 ? messages : [.. messages.Select(m => m.Replace(member, JsonNamingPolicy.CamelCase.ConvertName(member), StringComparison.Ordinal))];
    }
}
