var builder = WebApplication.CreateBuilder(args);
var app = builder.Build();
app.MapGet("/health/live", () => TypedResults.Ok(new { status = "alive" }));
app.Run();

/// <summary>Entry point; public so that the tests can host the application.</summary>
public sealed partial class Program;
