using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>What Core says about the floor plan, in the language of the page: English, and of paper that of the pack.</summary>
internal static class StatementWords
{
    /// <summary>As many unmeasured figures as one sheet of the pack names: with more, nobody looks at any before leaving.</summary>
    public const int MostOnStrip = 6;

    public static string Of(Statement statement) => statement.In(text => PackTexts.ResourceManager.GetString(NameOf(text))!);

    /// <summary>Name of a text of Core among those of the pack.</summary>
    public static string NameOf(StatementText text) => $"Statement{text}";

    /// <summary>What nobody has measured on a way, in order. A plan of an earlier release has the sentences only, which are English.</summary>
    public static IReadOnlyList<string> Unmeasured(RouteResponse way) =>
        way.Unmeasured.Count == 0 ? way.Unknowns : [.. way.Unmeasured.Select(unmeasured => Of(unmeasured.ToLimit().Statement))];

    /// <summary>The same in one line, with how many more there are.</summary>
    public static string UnmeasuredOnStrip(RouteResponse way)
    {
        var all = Unmeasured(way);
        var line = string.Join(" · ", all.Take(MostOnStrip));
        return all.Count <= MostOnStrip ? line : PackText.Of(PackTexts.StripUnknownMore, line, all.Count - MostOnStrip);
    }
}
