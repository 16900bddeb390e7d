using System.Text.RegularExpressions;
using System.Xml.Linq;
using TransportPlanner.Core.Tests.Architecture;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Plans;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Every text of the pack and of the binder stands in two files, its own and the words that it shares with other pages, and a translation is those files once more.</summary>
public sealed partial class PackTextsTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "src", "TransportPlanner.Web");

    /// <summary>The files, by the classes that are made of them.</summary>
    internal static readonly IReadOnlyList<Type> Files = [typeof(PackTexts), typeof(WordTexts)];

    /// <summary>Texts by their names; no name stands in two files.</summary>
    internal static readonly IReadOnlyDictionary<string, string> Neutral = Files.SelectMany(file => Read(PathOf(file))).ToDictionary();

    /// <summary>Pages and parts that hold no word of their own.</summary>
    private static readonly string[] Templates =
        ["_Pack*.cshtml", "_PostCard.cshtml", "_OtherWay.cshtml", "Officers.cshtml", "_OfficersHead.cshtml", "_Posts.cshtml", "_StandingSheet.cshtml", "_PrintHead.cshtml", "_LaterGo.cshtml", "_Calls.cshtml", "_BinderContents.cshtml", "_PlanB.cshtml", "_LookFirst.cshtml", "Pack.cshtml", "Binder*.cshtml"];

    // A name that is not in the file breaks the build already. Seen to fail: with a text that nothing uses, and with one whose place a string had taken.
    [Fact]
    public void Every_text_of_the_file_is_used_and_every_text_that_is_used_is_in_the_file()
    {
        var sources = new[] { "*.cs", "*.cshtml" }.SelectMany(kind => Directory.EnumerateFiles(Folder, kind, SearchOption.AllDirectories))
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
        var used = sources.SelectMany(file => Use().Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value)).ToHashSet();
        used.Remove(nameof(PackTexts.ResourceManager));
        used.Remove("resx");
        used.UnionWith(Enum.GetValues<StatementText>().Select(StatementWords.NameOf));

        Assert.True(used.Count > 300, $"{used.Count} texts");
        Assert.Equal(Neutral.Keys.Order(StringComparer.Ordinal), used.Order(StringComparer.Ordinal));
    }

    // Core says it to the API and to every page but the paper.
    [Fact]
    public void English_of_what_Core_says_is_that_of_the_file() => Assert.Equal(
        Enum.GetValues<StatementText>().ToDictionary(text => text, Statement.English), Enum.GetValues<StatementText>().ToDictionary(text => text, text => Neutral[StatementWords.NameOf(text)]));

    // Seen to fail: with a text without a comment.
    [Fact]
    public void A_text_with_a_place_to_fill_says_what_is_put_in() =>
        Findings.None(
            from file in Files
            from data in XDocument.Load(PathOf(file)).Descendants("data")
            where Place().IsMatch(data.Element("value")!.Value) && string.IsNullOrWhiteSpace(data.Element("comment")?.Value)
            select data.Attribute("name")!.Value);

    // Seen to fail: with a line written into the head of the sheets.
    [Fact]
    public void A_template_holds_no_word_of_its_own()
    {
        var files = Templates.SelectMany(kind => Directory.EnumerateFiles(Path.Combine(Folder, "Plans"), kind)).ToList();

        Assert.True(files.Count >= 20, $"{files.Count} templates");
        Findings.None(files.SelectMany(file => RazorWords.Of(File.ReadAllText(file)).Select(words => $"{Path.GetFileName(file)}: {words}")));
    }

    [Theory]
    [InlineData("<p>Words here</p>", "Words here")]
    [InlineData("<p><b>@Model.Id</b> min</p>", "min")]
    [InlineData("<p>@(a ? \"(\" : b(\")\")) left</p>", "left")]
    [InlineData("<p>\n  Words on a line\n</p>", "Words on a line")]
    [InlineData("@if (a)\n{\n  <text>plain</text>\n}", "plain")]
    [InlineData("<li>@PackText.Html(PackTexts.A, x[0], f(1)) too</li>", "too")]
    [InlineData("<p>@if (a) {<b>@b</b>} else {<i>other</i>}</p>", "other")]
    [InlineData("<div role=\"region\" aria-label=\"Table of times\"></div>", "Table of times")]
    [InlineData("<td data-label=\"from @x\"></td>", "from")]
    [InlineData("@{\n  var a = 1;\n}\n@foreach (var a in b)\n{\n  if (a)\n  {\n    <p class=\"say\">@PackTexts.A</p>\n  }\n  else if (c)\n  {\n    @PackTexts.B\n  }\n}", "")]
    public void A_word_in_a_template_is_found(string template, string words) =>
        Assert.Equal(words.Length == 0 ? [] : [words], RazorWords.Of(template));

    // A translation that loses a place would lose a figure on a sheet. There is none yet: the pseudo-translation of the page tests goes through the same check.
    [Fact]
    public void Each_translation_has_the_texts_the_places_and_the_tags_of_English() =>
        Findings.None(
            from file in Files
            from translation in Directory.EnumerateFiles(Path.GetDirectoryName(PathOf(file))!, $"{file.Name}.*.resx")
            from finding in Compare(Read(translation), Read(PathOf(file)))
            select $"{Path.GetFileName(translation)}: {finding}");

    [Fact]
    public void The_pseudo_translation_has_the_texts_the_places_and_the_tags_of_English() => Findings.None(Compare(PseudoTranslation.Texts));

    [Theory]
    [InlineData("Mark", "{0} · {1} · {2} · {3}", "Mark: {0} {1} {2} {3}, not {0} {1} {2} {3} {4}")]
    [InlineData("GasUnknown", "Gas unbekannt.", "GasUnknown: , not </b> <b>")]
    [InlineData("ByHand", "", "ByHand: is empty")]
    public void A_translation_that_loses_something_is_found(string name, string text, string finding) =>
        Assert.Equal([finding], Compare(new Dictionary<string, string>(PseudoTranslation.Texts) { [name] = text }));

    [Fact]
    public void A_translation_that_leaves_a_text_out_is_found() =>
        Assert.Equal(["ByHand: is missing"], Compare(PseudoTranslation.Texts.Where(text => text.Key != "ByHand").ToDictionary()));

    private static IEnumerable<string> Compare(IReadOnlyDictionary<string, string> translation, IReadOnlyDictionary<string, string>? english = null)
    {
        static string Marks(string text) => string.Join(' ', Mark().Matches(text).Select(match => match.Value).Distinct().Order(StringComparer.Ordinal));
        foreach (var (name, neutral) in english ??= Neutral)
        {
            if (!translation.TryGetValue(name, out var text))
            {
                yield return $"{name}: is missing";
            }
            else if (string.IsNullOrWhiteSpace(text))
            {
                yield return $"{name}: is empty";
            }
            else if (Marks(text) != Marks(neutral))
            {
                yield return $"{name}: {Marks(text)}, not {Marks(neutral)}";
            }
        }

        foreach (var name in translation.Keys.Except(english.Keys))
        {
            yield return $"{name}: is no text of the pack";
        }
    }

    /// <summary>Texts of one file by their names.</summary>
    internal static Dictionary<string, string> Read(Type file) => Read(PathOf(file));

    private static string PathOf(Type file) => Path.Combine(Folder, file.Namespace!.Split('.')[^1], $"{file.Name}.resx");

    private static Dictionary<string, string> Read(string file) =>
        XDocument.Load(file).Descendants("data").ToDictionary(data => data.Attribute("name")!.Value, data => data.Element("value")!.Value);

    [GeneratedRegex(@"\b(?:Pack|Word)Texts\.(\w+)")]
    private static partial Regex Use();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"\{\d\}|<[^>]*>")]
    private static partial Regex Mark();
}
