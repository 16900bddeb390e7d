using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TransportPlanner.Web.Plans;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Two transports on one radio channel must not be taken for each other.</summary>
public sealed class CallSignTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // 44 tones: forty draws at random, with no regard to each other, share no word once in millions of runs.
    // Seen to fail: with signs drawn without regard to those taken.
    [Fact]
    public void Signs_share_no_word_as_long_as_words_last()
    {
        var taken = new HashSet<string>();
        for (var i = 0; i < 40; i++)
        {
            taken.Add(CallSign.Choose(taken));
        }

        Assert.Equal(80, taken.SelectMany(sign => sign.Split(' ')).Distinct().Count());
    }

    // Seen to fail: with signs drawn without regard to those taken.
    [Fact]
    public void A_sign_that_is_taken_comes_again_only_when_none_is_left()
    {
        var taken = new HashSet<string>();
        for (var i = 0; i < 44 * 48; i++)
        {
            Assert.True(taken.Add(CallSign.Choose(taken)));
        }

        Assert.Contains(CallSign.Choose(taken), taken);
    }

    // Seen to fail: with signs drawn without regard to those taken.
    [Fact]
    public async Task Plans_of_one_night_share_no_word()
    {
        var client = application.CreateClient();
        var words = new List<string>();
        for (var i = 0; i < 12; i++)
        {
            var response = await client.PostAsJsonAsync("/api/v1/plans", new { siteId = "demonstration", from = "D-2.14", to = "N-4.03", support = "cpap", precautions = new[] { "contact" } });
            var plan = JsonNode.Parse(await response.EnsureSuccessStatusCode().Content.ReadAsStringAsync())!;
            words.AddRange($"{plan["callSign"]}".Split(' '));
        }

        Assert.Equal(24, words.Distinct().Count());
    }
}
