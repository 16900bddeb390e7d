namespace TransportPlanner.Web;

/// <summary>A refused entry: the field's id on the page, and what is wrong with the fix, in words.</summary>
public sealed record EntryProblem(string Field, string Words);

/// <summary>A number somebody types, kept as text so that a refused value stays on the page.</summary>
public sealed record NumberField(string Field, string Label, string? Value, string Hint, IReadOnlyList<EntryProblem> Problems)
{
    /// <summary>Words of the problems of this field.</summary>
    public IEnumerable<string> Wrong => Problems.Where(p => p.Field == Field).Select(p => p.Words);
}
