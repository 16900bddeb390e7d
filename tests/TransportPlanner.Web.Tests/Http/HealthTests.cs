using System.Net;
using Microsoft.AspNetCore.Mvc.Testing;

namespace TransportPlanner.Web.Tests.Http;

public sealed class HealthTests(WebApplicationFactory<Program> application) : IClassFixture<WebApplicationFactory<Program>>
{
    [Fact]
    public async Task The_application_says_that_it_is_alive()
    {
        using var client = application.CreateClient();

        var response = await client.GetAsync(new Uri("/health/live", UriKind.Relative));

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }
}
