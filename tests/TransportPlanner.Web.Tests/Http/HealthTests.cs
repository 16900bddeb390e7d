using System.Net;

namespace TransportPlanner.Web.Tests.Http;

public sealed class HealthTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Theory]
    [InlineData("/health/live")]
    [InlineData("/health/ready")]
    public async Task The_application_says_that_it_is_alive_and_ready(string address)
    {
        using var client = application.CreateClient();

        var response = await client.GetAsync(address);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Contains("\"ready\"", await response.Content.ReadAsStringAsync());
    }
}
