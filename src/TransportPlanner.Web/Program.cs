using Microsoft.AspNetCore.DataProtection;
using TransportPlanner.Web.Airing;
using TransportPlanner.Web.Commands;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Exposure;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Imports;
using TransportPlanner.Web.Kits;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;
using TransportPlanner.Web.Sites;

return await PlannerCommands.RunAsync(args, Console.Out, Console.Error);

/// <summary>Entry point; public so that the tests can host the application.</summary>
public sealed partial class Program
{
    /// <summary>The whole application, in the order in which a request meets it.</summary>
    internal static WebApplication Build(string[] args)
    {
        var builder = WebApplication.CreateBuilder(args);
        builder.WebHost.ConfigureKestrel(server => server.AddServerHeader = false);
        var folder = new DataFolder(builder.Configuration);
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton(folder);
        builder.Services.AddSingleton(new SearchDeadline(builder.Configuration));
        builder.Services.AddSingleton(new PackLanguage(builder.Configuration));
        builder.Services.AddRequestLog();
        builder.Services.AddStrictJson();
        builder.Services.AddProblems();
        builder.Services.AddOpenApiDocument();
        builder.AddDatabase(folder);
        builder.Services.AddImports();
        builder.Services.AddSingleton<TouchedTransports>(ClosedWays.TouchedAsync);
        builder.Services.AddBinders();
        builder.Services.AddScoped<DisplayOfRequest>();
        builder.Services.AddScoped(services => services.GetRequiredService<DisplayOfRequest>().Display);
        builder.Services.AddDataProtection().SetApplicationName("transport-planner").PersistKeysToFileSystem(new(folder.Keys));
        builder.Services.AddRazorPages(options => options.RootDirectory = "/");

        var app = builder.Build();
        app.UseRequestLog();
        app.UseSecurityHeaders();
        app.UseProblems();
        app.UseStaticFiles();

        // After the problems, so that a page for a missing address can be routed to.
        app.UseRouting();
        app.Use(DisplayOfRequest.InvokeAsync);
        app.Use(PackLanguage.InvokeAsync);
        app.MapHealth();
        app.MapRazorPages();

        var api = app.MapApi();
        api.MapSites();
        api.MapFloorPlans();
        api.MapImports();
        api.MapExposure();
        api.MapGas();
        api.MapAiring();
        api.MapKits();
        api.MapRoutes();
        api.MapPlans();
        api.MapChecklist();
        api.MapBinders();
        api.MapGo();
        api.MapCalls();
        api.MapTransports();
        return app;
    }
}
