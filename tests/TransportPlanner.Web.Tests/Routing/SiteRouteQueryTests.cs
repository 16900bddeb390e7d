using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Tests.Routing;

public sealed class SiteRouteQueryTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    [Fact]
    public async Task A_site_that_asks_for_half_a_metre_on_each_side_is_obeyed()
    {
        using var client = application.CreateClient();
        using (var scope = application.Services.CreateScope())
        {
            var context = scope.ServiceProvider.GetRequiredService<PlannerContext>();
            context.Add(new SettingValue { SiteId = "demonstration", Name = SiteSettings.ClearanceEachSide.Name, Value = "500", Owner = "Facilities", Date = new(2026, 5, 1) });
            await context.SaveChangesAsync();
        }

        using var content = new StringContent(RouteExamples.Request, Encoding.UTF8, "application/json");
        var response = await client.PostAsync("/api/v1/routes", content);
        var problem = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;

        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        Assert.Contains("1.75 m", $"{problem["detail"]}", StringComparison.Ordinal);
    }
}
