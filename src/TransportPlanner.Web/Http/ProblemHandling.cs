using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;

namespace TransportPlanner.Web.Http;

/// <summary>Every failure leaves as problem details: bad requests with the field's path, bugs without detail.</summary>
internal static class ProblemHandling
{
    public static IServiceCollection AddProblems(this IServiceCollection services) => services
        .AddProblemDetails(options => options.CustomizeProblemDetails = Problems.Complete)
        .AddExceptionHandler<BadRequestHandler>()
        .Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true)
        .AddValidation();

    public static void UseProblems(this IApplicationBuilder app)
    {
        app.UseExceptionHandler().UseStatusCodePages();

        // Somebody who mistypes an address reads a page, a program reads a problem.
        app.UseWhen(
            context => context.Request.GetTypedHeaders().Accept.Any(accept => accept.MediaType == "text/html"),
            pages => pages.UseStatusCodePagesWithReExecute("/missing"));
    }

    private sealed class BadRequestHandler(IProblemDetailsService problems) : IExceptionHandler
    {
        public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
        {
            if (exception is not BadHttpRequestException bad)
            {
                return false;
            }

            httpContext.Response.StatusCode = bad.StatusCode;
            return await problems.TryWriteAsync(new()
            {
                HttpContext = httpContext,
                ProblemDetails = bad.StatusCode == StatusCodes.Status400BadRequest
                    ? new HttpValidationProblemDetails(JsonErrors.From(bad)) { Status = bad.StatusCode }
                    : new ProblemDetails { Status = bad.StatusCode, Detail = JsonErrors.From(bad).Values.First()[0] },
            });
        }
    }
}
