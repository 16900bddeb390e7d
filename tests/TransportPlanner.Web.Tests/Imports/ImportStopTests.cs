using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using static TransportPlanner.Web.Tests.Imports.ImportFlow;

namespace TransportPlanner.Web.Tests.Imports;

/// <summary>A file that takes seconds to read is stopped by a person, or by the limit of five minutes on the planner's own clock.</summary>
public sealed class ImportStopTests
{
    // Read once: writing it takes longer than anything else here.
    private static readonly Lazy<byte[]> Long = new(() => WorkbookFile.Write(
        [
            .. SmallBuilding.Sheets(),
            ("Components", [["Name", "Category", "SheetName", "RowName", "X", "Y", "Z"], .. Enumerable.Range(0, 190_000).Select(i => new object?[] { i, "a", "b", "c", 1.5, 2.5, 3.5 })]),
        ]).ToArray());

    private static async Task<string> ReadingAsync(HttpClient client)
    {
        var id = await BringAsync(client, "long", "cobie", Long.Value);
        for (var tries = 0; tries < 6_000; tries++)
        {
            var import = (await client.GetFromJsonAsync<JsonNode>($"/api/v1/imports/{id}"))!["import"]!;
            Assert.Equal("reading", $"{import["state"]}");
            if ($"{import["step"]}".StartsWith("reading sheet Components", StringComparison.Ordinal))
            {
                return id;
            }

            await Task.Delay(10, TestContext.Current.CancellationToken);
        }

        throw new TimeoutException("The sheet was not reached within a minute.");
    }

    [Fact]
    public async Task Reading_is_stopped_by_a_person_and_the_file_is_gone()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var id = await ReadingAsync(client);

        var answer = await client.PostAsync($"/api/v1/imports/{id}/cancel", null);
        var import = await ReadAsync(client, id);

        Assert.True(answer.IsSuccessStatusCode, $"{answer.StatusCode}");
        Assert.Equal("cancelled", $"{import["import"]!["state"]}");
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sites/long")).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await client.PostAsync($"/api/v1/imports/{id}/cancel", null)).StatusCode);
        await GoneAsync(application, id);
    }

    [Fact]
    public async Task After_five_minutes_reading_ends_with_a_finding_that_says_so()
    {
        await using var application = new PlannerApplication();
        using var client = application.CreateClient();
        var id = await ReadingAsync(client);

        application.Time.Advance(TimeSpan.FromMinutes(5));
        var import = await ReadAsync(client, id);

        Assert.Equal("refused", $"{import["import"]!["state"]}");
        Assert.Contains("not read within 5 minutes", $"{import["findings"]![0]!["text"]}");
        await GoneAsync(application, id);
    }

    /// <summary>The upload is deleted just after the state is kept.</summary>
    private static async Task GoneAsync(PlannerApplication application, string id)
    {
        var file = Path.Combine(application.DataFolder, "uploads", id);
        for (var tries = 0; tries < 100 && File.Exists(file); tries++)
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }

        Assert.False(File.Exists(file));
    }
}
