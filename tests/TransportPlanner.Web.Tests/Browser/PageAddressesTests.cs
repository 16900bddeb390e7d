using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace TransportPlanner.Web.Tests.Browser;

public sealed class PageAddressesTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // Without it a new page would pass by every check in PageTests. Seen to fail: with a page that had no address here.
    [Fact]
    public void Every_page_of_the_application_has_an_address_to_be_checked_at()
    {
        var routes =
            from endpoint in application.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            where endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not null
            select "/" + endpoint.RoutePattern.RawText;

        Assert.Equal(PageAddresses.Own.Values.Select(state => state.Route).Distinct().Order(), routes.Distinct().Order());
    }
}
