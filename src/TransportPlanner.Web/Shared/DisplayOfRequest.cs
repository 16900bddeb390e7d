using System.Text;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Shared;

/// <summary>Finds out once a page whose words and units it is in, and puts the words in on the way out: a text of a new page cannot be missed.</summary>
internal sealed class DisplayOfRequest
{
    public SiteDisplay Display { get; private set; } = SiteDisplay.Default;

    public static async Task InvokeAsync(HttpContext http, RequestDelegate next)
    {
        // Pages only: the API answers as it is documented, whoever asks. Those of an import quote the columns of a file.
        if (http.GetEndpoint()?.Metadata.GetMetadata<PageActionDescriptor>() is null || http.Request.Path.StartsWithSegments("/imports"))
        {
            await next(http);
            return;
        }

        var display = http.RequestServices.GetRequiredService<DisplayOfRequest>().Display = await FindAsync(http);
        if (!display.IsLift)
        {
            await next(http);
            return;
        }

        var (body, written) = (http.Response.Body, new MemoryStream());
        http.Response.Body = written;
        try
        {
            await next(http);
        }
        finally
        {
            http.Response.Body = body;
        }

        if (http.Response.ContentType?.StartsWith("text/html", StringComparison.OrdinalIgnoreCase) == true)
        {
            await http.Response.WriteAsync(display.Page(Encoding.UTF8.GetString(written.GetBuffer(), 0, (int)written.Length)), http.RequestAborted);
        }
        else
        {
            await body.WriteAsync(written.GetBuffer().AsMemory(0, (int)written.Length), http.RequestAborted);
        }
    }

    private static async Task<SiteDisplay> FindAsync(HttpContext http)
    {
        var (context, store) = (http.RequestServices.GetRequiredService<PlannerContext>(), http.RequestServices.GetRequiredService<FloorPlanStore>());
        var plan = http.Request.Query["again"].FirstOrDefault() ?? http.Request.RouteValues["id"] as string;
        var site = http.Request.RouteValues["site"] as string ?? http.Request.Query["site"].FirstOrDefault();
        site = (plan is null ? null : await context.Plans.Where(stored => stored.Id == plan).Select(stored => stored.SiteId).SingleOrDefaultAsync(http.RequestAborted))
            ?? site ?? store.Default?.Plan.SiteId;
        return site is null ? SiteDisplay.Default : SiteDisplay.Of(await SiteSettings.ReadAsync(context, site, http.RequestAborted));
    }
}
