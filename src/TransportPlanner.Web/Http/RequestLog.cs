using System.Diagnostics;
using System.Globalization;
using Microsoft.AspNetCore.Connections;
using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Http;

/// <summary>
/// One structured line a request: method, path, status, time, trace id. Never a body, a query string or a clinical figure. To the console
/// in short, to a daily file of compact JSON lines in the data folder, kept for 14 days.
/// </summary>
internal static class RequestLog
{
    /// <summary>Set for a command whose answer stands on the console: the log then goes to its file alone.</summary>
    public const string QuietSetting = "Planner:Quiet";

    private const string ConsoleLine = "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj} {TraceId}{NewLine}{Exception}";

    /// <summary>The id that stands both in the log and in a problem.</summary>
    public static string TraceId(HttpContext context) => Activity.Current?.TraceId.ToString() ?? context.TraceIdentifier;

    public static IServiceCollection AddRequestLog(this IServiceCollection services) => services.AddSerilog(
        (provider, log) => log
            // The framework's own request lines carry the query string.
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("System", LogEventLevel.Warning)
            // Keys lie in a folder that only this user may read; there is no other secret here to wrap them with.
            .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection", LogEventLevel.Error)
            // The command line says in one sentence that a port is taken.
            .Filter.ByExcluding(e => e.Exception?.InnerException is AddressInUseException)
            .WriteTo.Conditional(
                _ => !provider.GetRequiredService<IConfiguration>().GetValue<bool>(QuietSetting),
                sink => sink.Console(outputTemplate: ConsoleLine, formatProvider: CultureInfo.InvariantCulture))
            .WriteTo.File(
                new CompactJsonFormatter(), Path.Combine(provider.GetRequiredService<DataFolder>().Logs, "planner-.log"),
                rollingInterval: RollingInterval.Day, retainedFileCountLimit: 14, shared: true),
        preserveStaticLogger: true);

    public static void UseRequestLog(this IApplicationBuilder app) => app.UseSerilogRequestLogging(options =>
    {
        options.Logger = app.ApplicationServices.GetRequiredService<Serilog.ILogger>();
        options.IncludeQueryInRequestPath = false;
        options.GetLevel = (context, _, exception) =>
            exception is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : context.Request.Path.StartsWithSegments("/health") ? LogEventLevel.Debug
            : LogEventLevel.Information;
    });
}
