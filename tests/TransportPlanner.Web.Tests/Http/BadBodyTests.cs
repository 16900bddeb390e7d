using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Tests.Http;

/// <summary>
/// Finds every operation that reads a body, takes its documented example, and spoils each of its members in turn: so a new
/// operation is tested without a line here, and one without an example fails.
/// </summary>
public sealed class BadBodyTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private sealed record Operation(string Name, HttpMethod Method, string Address, JsonNode Example, bool IsGeoJson);

    [Fact]
    public void Every_operation_has_an_example() =>
        Assert.Empty(ApiEndpoints().Where(e => e.Metadata.GetMetadata<OperationExample>() is not { } example
            || (example.Request is null) == (e.Metadata.GetMetadata<IAcceptsMetadata>() is { IsOptional: false })).Select(e => e.DisplayName));

    [Fact]
    public async Task Every_documented_request_is_read()
    {
        foreach (var operation in Operations())
        {
            var (status, body) = await SendAsync(operation, operation.Example.ToJsonString());

            Assert.True((int)status is not (400 or 415 or >= 500), $"{operation.Name}: {(int)status} {body}");
        }
    }

    [Fact]
    public async Task Broken_json_is_refused_by_every_operation()
    {
        foreach (var operation in Operations())
        {
            var (status, body) = await SendAsync(operation, "{ \"");

            Assert.True(status == HttpStatusCode.BadRequest, $"{operation.Name}: {(int)status} {body}");
            Assert.NotNull(JsonNode.Parse(body)!["errors"]!["$"]);
        }
    }

    [Fact]
    public async Task A_bad_body_posted_to_every_operation_is_400_with_the_path_of_the_field()
    {
        var wrong = new List<string>();
        var tried = 0;
        foreach (var operation in Operations())
        {
            foreach (var (path, body) in Spoilt(operation.Example))
            {
                tried++;
                var (status, answer) = await SendAsync(operation, body);
                var errors = status == HttpStatusCode.BadRequest ? JsonNode.Parse(answer)!["errors"]?.AsObject().Select(e => e.Key).ToList() : null;
                if (errors is null || !errors.Any(e => e == path || (operation.IsGeoJson && Holds(e, path))))
                {
                    wrong.Add($"{operation.Name}: {path} spoilt gave {(int)status} {string.Join(", ", errors ?? [])}");
                }
            }
        }

        Assert.True(tried > Operations().Count, "nothing was spoilt");
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    /// <summary>Each member replaced by a value of a type that no member has, and an unknown member beside each.</summary>
    private static IEnumerable<(string Path, string Body)> Spoilt(JsonNode example)
    {
        foreach (var path in Paths(example, "").ToList())
        {
            var copy = example.DeepClone();
            Replace(copy, path);
            yield return (path, copy.ToJsonString());
        }

        foreach (var path in Paths(example, "").Where(p => Find(example, p) is JsonObject).Prepend("").ToList())
        {
            var copy = example.DeepClone();
            (path.Length == 0 ? copy : Find(copy, path))!.AsObject().Add("notAMember", 1);
            yield return (path.Length == 0 ? "notAMember" : $"{path}.notAMember", copy.ToJsonString());
        }
    }

    private static IEnumerable<string> Paths(JsonNode? node, string path) => node switch
    {
        JsonObject members => members.SelectMany(m => Paths(m.Value, path.Length == 0 ? m.Key : $"{path}.{m.Key}").Prepend(path.Length == 0 ? m.Key : $"{path}.{m.Key}")),
        JsonArray items => items.SelectMany((item, i) => Paths(item, $"{path}[{i}]").Prepend($"{path}[{i}]")),
        _ => [],
    };

    /// <summary>The reader of floor plans names a geometry or a list as a whole.</summary>
    private static bool Holds(string error, string path) =>
        path.StartsWith($"{error}[", StringComparison.Ordinal)
        || (error.EndsWith(".geometry", StringComparison.Ordinal) && path.StartsWith($"{error}.", StringComparison.Ordinal));

    private static void Replace(JsonNode root, string path)
    {
        JsonNode wrong = Find(root, path) is JsonObject ? 1 : new JsonObject { ["notAMember"] = 1 };
        var end = path.LastIndexOfAny(['.', '[']);
        var parent = end < 0 ? root : Find(root, path[..end])!;
        if (parent is JsonArray items)
        {
            items[int.Parse(path[(end + 1)..^1], null)] = wrong;
        }
        else
        {
            parent[path[(end + 1)..]] = wrong;
        }
    }

    private static JsonNode? Find(JsonNode root, string path) => path
        .Split('.', '[')
        .Aggregate((JsonNode?)root, (node, part) => part.EndsWith(']') ? node![int.Parse(part[..^1], null)] : node![part]);

    private List<RouteEndpoint> ApiEndpoints() =>
    [
        .. application.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.RoutePattern.RawText?.StartsWith(OpenApi.BasePath, StringComparison.Ordinal) == true),
    ];

    private List<Operation> Operations() =>
    [
        .. from endpoint in ApiEndpoints()
           where endpoint.Metadata.GetMetadata<IAcceptsMetadata>() is not null
           let method = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Single()
           let address = endpoint.RoutePattern.RawText!.Replace("{siteId}", "demonstration", StringComparison.Ordinal)
           select new Operation(
               $"{method} {endpoint.RoutePattern.RawText}", new(method), string.Join('/', address.Split('/').Select(part => part.StartsWith('{') ? "1" : part)),
               JsonNode.Parse(endpoint.Metadata.GetRequiredMetadata<OperationExample>().Request!)!,
               endpoint.Metadata.GetRequiredMetadata<IAcceptsMetadata>().ContentTypes.Contains("application/geo+json")),
    ];

    private async Task<(HttpStatusCode Status, string Body)> SendAsync(Operation operation, string body)
    {
        using var client = application.CreateClient();
        using var request = new HttpRequestMessage(operation.Method, operation.Address) { Content = new StringContent(body, Encoding.UTF8, "application/json") };
        request.Headers.TryAddWithoutValidation("If-Match", "*");
        using var response = await client.SendAsync(request);
        return (response.StatusCode, await response.Content.ReadAsStringAsync());
    }
}
