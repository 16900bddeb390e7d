using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>
/// Language of the pack and of the downtime binder, by the setting <c>Planner:PackLanguage</c>: English, or the tag of a translation
/// (<c>PackTexts.&lt;tag&gt;.resx</c> and <c>WordTexts.&lt;tag&gt;.resx</c>). One for the whole planner: paper is for who works here, not for whose browser printed it.
/// </summary>
internal sealed partial class PackLanguage
{
    public const string Setting = "Planner:PackLanguage";

    private const string English = "en";

    public PackLanguage(IConfiguration configuration)
    {
        if (configuration[Setting] is not { Length: > 0 } tag || tag == English)
        {
            return;
        }

        // Without its own texts a language would be English, text by text, and nobody would be told.
        if (!Tag().IsMatch(tag) || !IsThere(PackTexts.ResourceManager, Culture = CultureInfo.GetCultureInfo(tag)) || !IsThere(WordTexts.ResourceManager, Culture))
        {
            var named = tag.ToLowerInvariant();
            throw new InvalidOperationException($"{Setting} is {tag}, and there is no PackTexts.{named}.resx with a WordTexts.{named}.resx. Add them, or leave the setting out for English.");
        }

        static bool IsThere(ResourceManager texts, CultureInfo culture) => texts.GetResourceSet(culture, createIfNotExists: true, tryParents: false) is not null;
    }

    public CultureInfo Culture { get; } = CultureInfo.GetCultureInfo(English);

    /// <summary>Paper only: every other page is one language throughout, what they store is English, and the API answers as it is documented.</summary>
    public static Task InvokeAsync(HttpContext http, RequestDelegate next)
    {
        if (http.GetEndpoint()?.Metadata.GetMetadata<PageActionDescriptor>() is { ViewEnginePath: "/Plans/Pack" or "/Plans/Officers" or "/Plans/Binder" or "/Plans/BinderSet" })
        {
            CultureInfo.CurrentUICulture = http.RequestServices.GetRequiredService<PackLanguage>().Culture;
        }

        return next(http);
    }

    [GeneratedRegex("^[a-zA-Z]{2,3}(-[a-zA-Z0-9]{2,8})*$")]
    private static partial Regex Tag();
}
