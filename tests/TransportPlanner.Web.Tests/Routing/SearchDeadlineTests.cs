using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Configuration;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Tests.Routing;

public sealed class SearchDeadlineTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task Past_its_deadline_the_answer_has_ways_states_its_epsilon_and_keeps_it()
    {
        await using var hurried = new PlannerApplication { SearchDeadlineMilliseconds = 0 };

        var cut = await Post(hurried, "routes", RouteExamples.Request);
        var exact = await Post(application, "routes", RouteExamples.Request);

        Assert.True((bool)exact["isExact"]!);
        Assert.Equal(0, (double)exact["epsilon"]!);
        Assert.False((bool)cut["isExact"]!);
        var epsilon = (double)cut["epsilon"]!;
        Assert.InRange(epsilon, 0, 10);
        Assert.NotEmpty(cut["routes"]!.AsArray());
        foreach (var missing in Front(exact))
        {
            Assert.Contains(Front(cut), kept => kept.Zip(missing).All(pair => pair.First <= (1 + epsilon) * pair.Second + 1e-6));
        }

        Assert.Contains(cut["cautions"]!.AsArray(), caution => $"{caution}".Contains($"up to {Math.Ceiling(epsilon * 100 - 1e-9)} % better", StringComparison.Ordinal));
        Assert.DoesNotContain(exact["cautions"]!.AsArray(), caution => $"{caution}".Contains("deadline", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_sheet_says_in_plain_words_that_a_better_way_may_exist()
    {
        await using var hurried = new PlannerApplication { SearchDeadlineMilliseconds = 0 };

        var cut = await Page(hurried);
        var exact = await Page(application);

        Assert.Contains("Not exact.", cut, StringComparison.Ordinal);
        Assert.Matches("A way up to [0-9]+ % better in each of time, exposure and handling may exist", cut);
        Assert.Contains("found.", cut, StringComparison.Ordinal);
        Assert.DoesNotContain("Not exact.", exact, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, 0.0, "")]
    [InlineData(false, 0.0151, "up to 2 % better")]
    [InlineData(false, 0.02, "up to 2 % better")]
    [InlineData(false, null, "is not known")]
    public void Epsilon_is_rounded_up_and_never_left_out(bool isExact, double? epsilon, string words)
    {
        var said = SearchDeadline.NotExact(isExact, epsilon).ToList();

        Assert.Equal(isExact ? 0 : 1, said.Count);
        Assert.All(said, sentence => Assert.Contains(words, sentence, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(null, 10_000)]
    [InlineData("0", 0)]
    [InlineData("60000", 60_000)]
    public void The_deadline_is_a_setting_with_a_default(string? given, int milliseconds) =>
        Assert.Equal(TimeSpan.FromMilliseconds(milliseconds), Read(given).Within);

    [Theory]
    [InlineData("-1")]
    [InlineData("60001")]
    [InlineData("1 s")]
    public void Another_deadline_is_refused_with_its_name_and_the_fix(string given)
    {
        var refused = Assert.Throws<InvalidOperationException>(() => Read(given));

        Assert.Contains(SearchDeadline.Setting, refused.Message, StringComparison.Ordinal);
        Assert.Contains("0 to 60000", refused.Message, StringComparison.Ordinal);
    }

    private static SearchDeadline Read(string? given) => new(new ConfigurationBuilder().AddInMemoryCollection([new(SearchDeadline.Setting, given)]).Build());

    private static IEnumerable<double[]> Front(JsonNode answer) =>
        answer["front"]!.AsArray().Select(point => new[] { (double)point!["expectedSeconds"]!, (double)point["exposureCost"]!, (double)point["handling"]! });

    private static async Task<JsonNode> Post(PlannerApplication host, string address, string json)
    {
        using var client = host.CreateClient();
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        var response = await client.PostAsync($"/api/v1/{address}", content);
        Assert.True(response.IsSuccessStatusCode, await response.Content.ReadAsStringAsync());
        return (await response.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    private static async Task<string> Page(PlannerApplication host)
    {
        var plan = await Post(host, "plans", PlanExamples.Request);
        using var client = host.CreateClient();
        return await client.GetStringAsync($"/plans/{plan["id"]}");
    }
}
