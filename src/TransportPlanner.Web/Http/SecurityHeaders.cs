namespace TransportPlanner.Web.Http;

/// <summary>What a browser may do with our answers: load from here only, frame nothing, guess no type, keep no API answer.</summary>
internal static class SecurityHeaders
{
    private const string Common = "default-src 'none'; img-src 'self' data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
        + "worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; ";

    private const string Strict = Common + "script-src 'self'; style-src 'self'";

    /// <summary>The interactive API page writes its own styles and one inline start script; it still reaches no other host.</summary>
    private const string ApiPage = Common + "script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'";

    public static void UseSecurityHeaders(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        var path = context.Request.Path;
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = path.StartsWithSegments(OpenApi.PagePath) ? ApiPage : Strict;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "no-referrer";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=()";
            if (path.StartsWithSegments(OpenApi.BasePath))
            {
                headers.CacheControl = "no-store";
            }

            return Task.CompletedTask;
        });
        return next(context);
    });
}
