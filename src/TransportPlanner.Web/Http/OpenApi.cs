using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using Scalar.AspNetCore;

namespace TransportPlanner.Web.Http;

/// <summary>The base path of the API, its OpenAPI 3.1 document, and the page to try it, served by the application itself.</summary>
internal static class OpenApi
{
    public const string BasePath = "/api/v1";
    public const string DocumentName = "v1";
    private const string IfMatch = "If-Match";
    public const string PagePath = "/api-reference";

    public static IServiceCollection AddOpenApiDocument(this IServiceCollection services) => services.AddOpenApi(DocumentName, options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer(Introduce);
        options.AddOperationTransformer(AddExample);
        options.AddOperationTransformer(AddProblems);
        options.AddOperationTransformer(DescribeParameters);
    });

    public static RouteGroupBuilder MapApi(this IEndpointRouteBuilder app)
    {
        app.MapOpenApi("/openapi/{documentName}.json");
        app.MapScalarApiReference(PagePath, page => page
            .WithTitle("Transport Planner API")
            .WithOpenApiRoutePattern("/openapi/{documentName}.json")
            .DisableDefaultFonts()
            .HideDeveloperTools()
            .HideClientButton()
            .DisableTelemetry()
            .DisableAgent()
            .DisableMcp());
        return app.MapGroup(BasePath);
    }

    /// <summary>
    /// The one example of an operation, as JSON text: what is sent (null where there is no body) and what comes back. Every operation
    /// has one. A test posts each request as it stands and with each of its members spoilt, so the example must be a valid request.
    /// </summary>
    public static RouteHandlerBuilder WithExample(this RouteHandlerBuilder endpoint, string? request, string? response) =>
        endpoint.WithMetadata(new OperationExample(request, response));

    private static Task Introduce(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellationToken)
    {
        document.Info = new()
        {
            Title = "Transport Planner",
            Version = "1",
            Description = "Plans an intra-hospital transport of a newborn on breathing support under precautions. A planning aid: local policy and "
                + "licensed practice decide, check the flow at the patient end, an incubator does not isolate. Numbers carry their unit in the name, "
                + "instants are UTC, unknown members are refused. Errors are problem details (RFC 9457) with a stable `code`; `errors` is keyed by the "
                + "path of the field. Changes need `If-Match`; `Idempotency-Key` makes a POST repeatable for 24 hours.",
            License = new() { Name = "MIT", Identifier = "MIT" },
        };
        document.Servers = [new() { Url = "/" }];
        return Task.CompletedTask;
    }

    private static Task AddExample(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        if (context.Description.ActionDescriptor.EndpointMetadata.OfType<OperationExample>().LastOrDefault() is not { } example)
        {
            return Task.CompletedTask;
        }

        foreach (var media in operation.RequestBody?.Content?.Values ?? [])
        {
            media.Example = Parse(example.Request);
        }

        var answer = operation.Responses?.FirstOrDefault(r => r.Key.StartsWith('2')).Value;
        foreach (var media in answer?.Content?.Values ?? [])
        {
            media.Example = Parse(example.Response);
        }

        return Task.CompletedTask;
    }

    private static Task AddProblems(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        operation.Responses ??= [];
        operation.Responses.TryAdd("400", new OpenApiResponse
        {
            Description = "Malformed or out of range: problem details whose `errors` name each field and the fix.",
            Content = new Dictionary<string, OpenApiMediaType> { ["application/problem+json"] = new() },
        });
        return Task.CompletedTask;
    }

    /// <summary>What a parameter means is the same everywhere, so it is said once.</summary>
    private static readonly Dictionary<string, string> ParameterTexts = new()
    {
        ["siteId"] = "Slug of the site.",
        ["by"] = "The role that does it, never a person's name.",
        ["taskId"] = "Id of the map task.",
        ["closureId"] = "Id of the closure.",
        ["sizeId"] = "Id of a size that the site added.",
        ["cylinderId"] = "Id of a cylinder on the shelf.",
        ["importId"] = "Id of the import.",
        ["version"] = "Number of the version, from 1.",
        ["id"] = "Random id that names the transport.",
        ["item"] = "Id of an item of the plan's kit list, such as oxygen-cylinder.",
        ["Idempotency-Key"] = "1 to 100 characters, new for each new request. The same key with the same body within 24 hours gets the same answer and makes nothing twice.",
        [IfMatch] = "The ETag that was read, so that nobody else's change is lost; `*` to overwrite whatever is there.",
    };

    private static Task DescribeParameters(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        if (operation.Responses?.ContainsKey("428") == true)
        {
            operation.Parameters = [.. operation.Parameters ?? [], new OpenApiParameter
            {
                Name = IfMatch,
                In = ParameterLocation.Header,
                Schema = new OpenApiSchema { Type = JsonSchemaType.String },
            }];
        }

        foreach (var parameter in operation.Parameters?.OfType<OpenApiParameter>() ?? [])
        {
            parameter.Description ??= ParameterTexts.GetValueOrDefault(parameter.Name ?? "");
        }

        return Task.CompletedTask;
    }

    private static JsonNode? Parse(string? json) => json is null ? null : JsonNode.Parse(json);
}

/// <param name="Request">JSON that is sent, or null.</param>
/// <param name="Response">JSON that comes back, or null.</param>
internal sealed record OperationExample(string? Request, string? Response);
