using System.Diagnostics;

namespace TransportPlanner.Web.Http;

/// <summary>One structured line a request: method, route pattern, status, time, trace id. Never a body, a query string or a clinical figure.</summary>
internal static class RequestLog
{
    /// <summary>The id that stands both in the log and in a problem.</summary>
    public static string TraceId(HttpContext context) => Activity.Current?.TraceId.ToString() ?? context.TraceIdentifier;
}
