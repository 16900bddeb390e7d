using TransportPlanner.Web.Http;
using TransportPlanner.Web.Kits;

var app = Build(args);
await app.RunAsync();

/// <summary>Entry point; public so that the tests can host the application.</summary>
public sealed partial class Program
{
    /// <summary>The whole application, in the order in which a request meets it.</summary>
    internal static WebApplication Build(string[] args)
    {
        var builder = WebApplication.CreateBuilder(args);
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddStrictJson();
        builder.Services.AddProblems();
        builder.Services.AddOpenApiDocument();
        builder.Services.AddHealthChecks();
        builder.Services.AddRazorPages(options => options.RootDirectory = "/");

        var app = builder.Build();
        app.UseSecurityHeaders();
        app.UseProblems();
        app.UseStaticFiles();
        app.MapHealth();
        app.MapRazorPages();

        var api = app.MapApi();
        api.MapKits();
        return app;
    }
}
