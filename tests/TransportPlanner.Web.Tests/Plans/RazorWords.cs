using System.Text.RegularExpressions;

namespace TransportPlanner.Web.Tests.Plans;

/// <summary>Words that a template shows or has read aloud and that no expression puts there. Reads the few forms that our templates use, not all of Razor.</summary>
internal static partial class RazorWords
{
    public static IReadOnlyList<string> Of(string template)
    {
        var rest = WithoutExpressions(Directive().Replace(Comment().Replace(template, ""), ""));
        var aloud = Aloud().Matches(rest).Select(match => match.Groups[1].Value.Trim());
        var shown = Tag().Replace(rest, "\u0001").Split('\u0001').SelectMany(Lines);
        return [.. aloud.Concat(shown).Where(words => words.Any(char.IsLetter))];
    }

    /// <summary>Of what stands between two tags: the ends of the line of each tag are text, the lines between are text unless they are code.</summary>
    private static IEnumerable<string> Lines(string between)
    {
        var lines = between.Split('\n');
        return lines.Select((line, i) => (Text: line.Trim(), IsWhole: i > 0 && i < lines.Length - 1)).Select(line => line.IsWhole && Code().IsMatch(line.Text) ? "" : Inline().Replace(line.Text, "").Trim());
    }

    /// <summary>Without code blocks, expressions and the heads of statements, whatever stands in their brackets.</summary>
    private static string WithoutExpressions(string text)
    {
        for (var at = Start().Match(text); at.Success; at = Start().Match(text, at.Index))
        {
            var end = at.Index + at.Length;
            if (IsOpen(text[end - 1]))
            {
                end = Close(text, end - 1);
            }
            else
            {
                while (end < text.Length && text[end] is ('(' or '['))
                {
                    end = Close(text, end);
                    var more = Member().Match(text, end);
                    end = more.Index + more.Length;
                }
            }

            text = text.Remove(at.Index, end - at.Index);
        }

        return text;
    }

    /// <summary>Behind the bracket that closes the one at an index; brackets in strings of C# do not count.</summary>
    private static int Close(string text, int open)
    {
        var depth = 0;
        for (var i = open; i < text.Length; i++)
        {
            if (text[i] == '"')
            {
                // What stands between two quotation marks is left out; in a string within a string that is the outer part, whose brackets are even.
                i = text.IndexOf('"', i + 1);
                if (i < 0)
                {
                    break;
                }
            }

            depth += IsOpen(text[i]) ? 1 : text[i] is ')' or ']' or '}' ? -1 : 0;
            if (depth == 0)
            {
                return i + 1;
            }
        }

        throw new FormatException($"No end of {text[open..Math.Min(open + 40, text.Length)]}");
    }

    private static bool IsOpen(char character) => character is '(' or '[' or '{';

    [GeneratedRegex(@"@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"^@(page|using|model|inject)\b.*$|^\s*@?section \w+ ", RegexOptions.Multiline)]
    private static partial Regex Directive();

    // A code block, an expression in brackets, the head of a statement, or an expression up to its first bracket.
    [GeneratedRegex(@"@\{|@\(|@(?:if|foreach|switch) ?\(|@\w+(?:[!?]?\.\w+)*")]
    private static partial Regex Start();

    [GeneratedRegex(@"\G(?:!?\.\w+)*")]
    private static partial Regex Member();

    [GeneratedRegex("""</?[a-zA-Z!](?:"[^"]*"|'[^']*'|[^<>"'])*>""")]
    private static partial Regex Tag();

    [GeneratedRegex("""\s(?:aria-label|title|alt|placeholder|data-label)=["']([^"']*)["']""")]
    private static partial Regex Aloud();

    [GeneratedRegex(@"^(?:[{}]|foreach \(|if \(|else\b|switch\b|case .*:$|default:$|break;$|(?:var|string|bool|int) .*;$)")]
    private static partial Regex Code();

    [GeneratedRegex(@"\} else \{|\} else if \(.*\) \{|^else$|[{}]")]
    private static partial Regex Inline();
}
