using System.Net.Http.Json;
using System.Text.Json.Nodes;

namespace TransportPlanner.Web.Tests.Http;

public sealed class RequestLogTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task The_log_of_a_run_has_paths_and_trace_ids_and_nothing_from_queries_or_bodies()
    {
        using var client = application.CreateClient();

        var response = await client.PostAsJsonAsync("/api/v1/nowhere?gestationWeeks=31", new { weightGrams = 1847 });
        var problem = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
        var kit = new { weightGrams = 1847, gestationWeeks = 31, support = "cpap", precautions = new[] { "airborne" }, journeyMinutes = 9 };
        Assert.True((await client.PostAsJsonAsync("/api/v1/kits", kit)).IsSuccessStatusCode);
        await client.PostAsJsonAsync("/api/v1/kits", new { weightGrams = "1847", gestationWeeks = 31.5 });
        await client.GetAsync("/kit?WeightGrams=1847&GestationWeeks=31");
        await client.GetAsync("/kit?WeightGrams=1847g");
        var log = ReadLog();

        Assert.Contains("/api/v1/nowhere", log);
        Assert.Contains("/api/v1/kits", log);
        Assert.Contains($"{problem["traceId"]}", log);
        Assert.DoesNotContain("gestation", log, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("weight", log, StringComparison.OrdinalIgnoreCase);

        // Not within the hexadecimal digits of a trace id.
        Assert.DoesNotMatch("(?<![0-9a-f])1847", log);
    }

    private string ReadLog() => string.Concat(Directory.GetFiles(Path.Combine(application.DataFolder, "logs")).Select(file =>
    {
        using var reader = new StreamReader(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd();
    }));
}
