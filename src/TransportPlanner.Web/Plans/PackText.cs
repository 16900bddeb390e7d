using System.Globalization;
using Microsoft.AspNetCore.Html;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>
/// Fills the texts of <c>PackTexts.resx</c>. A text is HTML with numbered places, so that a translation can put them in another order and in other words; what
/// is put in is encoded, as on any page. Figures are written the same in every language: a decimal comma would change one.
/// </summary>
internal static class PackText
{
    /// <summary>A line to write on.</summary>
    public static readonly IHtmlContent Line = new HtmlString("""<span class="write"></span>""");

    /// <summary>A short line to write on: a time, a count, a letter.</summary>
    public static readonly IHtmlContent Short = new HtmlString("""<span class="write short"></span>""");

    public static IHtmlContent Html(string text, params object?[] values) => new HtmlContentBuilder().AppendFormat(CultureInfo.InvariantCulture, text, values!);

    /// <summary>For what is encoded later or read aloud: its text has no tags.</summary>
    public static string Of(string text, params object?[] values) => WordText.Of(text, values);

    /// <summary>One of two whole texts; in both, <c>{0}</c> is the count.</summary>
    public static IHtmlContent Count(int count, string one, string many, params object?[] more) => Html(count == 1 ? one : many, [count, .. more]);

    /// <summary>All of them, joined two by two. Empty for none.</summary>
    /// <param name="text">How two are joined.</param>
    /// <param name="items">In their order.</param>
    public static string List(string text, IEnumerable<string> items) => WordText.List(text, items);

    public static IHtmlContent CallSign(PlanResponse plan) => Html("""<span class="call-sign">{0}</span>""", plan.CallSign);

    /// <summary>A number to call, or a short line to write it on.</summary>
    public static IHtmlContent Contact(string? number) => number is null ? Short : Html("<b>{0}</b>", number);

    /// <summary>In brackets, beside what counts.</summary>
    public static IHtmlContent Quiet(string words) => Html("""<span class="quiet">({0})</span>""", words);
}
