using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Tests.Routing;

/// <summary>A client that has gone away is not searched for, and no plan that nobody has seen is kept.</summary>
public sealed class ClientGoneTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    private const int ClientClosedRequest = 499;

    // Seen to fail: where the endpoint of the ways passed on no token.
    [Theory]
    [InlineData("routes", RouteExamples.Request)]
    [InlineData("plans", PlanExamples.Request)]
    public async Task Its_request_ends_without_an_answer_and_nothing_is_kept(string address, string json)
    {
        await using var leaving = application.WithWebHostBuilder(builder => builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter, Leaving>()));
        using var client = leaving.CreateClient();
        var before = await CountAsync(leaving.Services);
        using var content = new StringContent(json, Encoding.UTF8, "application/json");

        var response = await client.PostAsync($"/api/v1/{address}", content, TestContext.Current.CancellationToken);

        Assert.Equal(ClientClosedRequest, (int)response.StatusCode);
        Assert.Equal(before, await CountAsync(leaving.Services));
    }

    private static async Task<int> CountAsync(IServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<PlannerContext>().Plans.CountAsync();
    }

    /// <summary>Puts the token of a connection that is closed already in place of the real one, once the body has been read.</summary>
    private sealed class Leaving : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Use(async (HttpContext context, RequestDelegate rest) =>
            {
                context.Request.EnableBuffering();
                await context.Request.Body.CopyToAsync(Stream.Null);
                context.Request.Body.Position = 0;
                context.RequestAborted = new CancellationToken(canceled: true);
                await rest(context);
            });
            next(app);
        };
    }
}
