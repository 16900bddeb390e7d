using System.Globalization;

namespace TransportPlanner.Web.Shared;

/// <summary>Fills the texts of <c>WordTexts.resx</c>, words that the pack shares with other pages. Figures are written the same in every language.</summary>
internal static class WordText
{
    public static string Of(string text, params object?[] values) => string.Format(CultureInfo.InvariantCulture, text, values);

    /// <summary>All of them, joined two by two. Empty for none.</summary>
    /// <param name="text">How two are joined.</param>
    /// <param name="items">In their order.</param>
    public static string List(string text, IEnumerable<string> items) => items.DefaultIfEmpty("").Aggregate((before, next) => Of(text, before, next));
}
