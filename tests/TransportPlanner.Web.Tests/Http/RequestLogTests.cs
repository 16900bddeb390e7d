using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Http;

public sealed class RequestLogTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task A_request_leaves_a_line_with_its_trace_id_and_nothing_from_its_query_or_body()
    {
        using var client = application.CreateClient();

        var response = await client.PostAsJsonAsync("/api/v1/nowhere?gestationWeeks=31", new { weightGrams = 1847 });
        var problem = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
        var log = ReadLog();

        Assert.Contains("/api/v1/nowhere", log);
        Assert.Contains($"{problem["traceId"]}", log);
        Assert.DoesNotContain("gestation", log, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("1847", log);
    }

    private string ReadLog() => string.Concat(Directory.GetFiles(Path.Combine(application.DataFolder, "logs")).Select(file =>
    {
        using var reader = new StreamReader(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd();
    }));
}
