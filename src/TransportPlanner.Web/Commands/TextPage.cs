using System.Text;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Commands;

/// <summary>Plain text of at most <see cref="Width"/> columns, for a terminal or a line printer.</summary>
internal sealed class TextPage(SiteDisplay show)
{
    public const int Width = 96;

    /// <summary>How the site reads; its word is put in here, so that no text is missed.</summary>
    public SiteDisplay Show => show;

    private readonly StringBuilder _text = new();

    public void Heading(string words)
    {
        _text.Append(_text.Length == 0 ? "" : "\n").Append(show.Words(words).ToUpperInvariant()).Append('\n');
    }

    public void Line(string words = "") => _text.Append(show.Words(words).TrimEnd()).Append('\n');

    /// <summary>Wraps at spaces; every line after the first stands under the text, past the mark.</summary>
    public void Item(string words, string mark = "- ", int indent = 0)
    {
        var (lead, rest) = (new string(' ', indent) + mark, new string(' ', indent + mark.Length));
        var line = new StringBuilder(lead);
        var isEmpty = true;
        foreach (var word in show.Words(words).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!isEmpty && line.Length + 1 + word.Length > Width)
            {
                Line(line.ToString());
                line.Clear().Append(rest);
                isEmpty = true;
            }

            line.Append(isEmpty ? "" : " ").Append(word);
            isEmpty = false;
        }

        Line(line.ToString());
    }

    public void Paragraph(string words, int indent = 0) => Item(words, "", indent);

    /// <summary>Columns as wide as their widest cell; the first to the left, the others to the right.</summary>
    public void Table(IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var widths = Enumerable.Range(0, rows[0].Count).Select(column => rows.Max(row => show.Words(row[column]).Length)).ToList();
        foreach (var row in rows)
        {
            Line("  " + string.Join("   ", row.Select(show.Words).Select((cell, column) => column == 0 ? cell.PadRight(widths[0]) : cell.PadLeft(widths[column]))));
        }
    }

    public override string ToString() => _text.ToString().TrimEnd();
}
