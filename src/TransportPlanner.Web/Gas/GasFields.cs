using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>A list of cylinder sizes of one gas to choose from, and the one that the site presets.</summary>
public sealed record SizeField(string Field, string Label, string? Value, GasKind Gas, string? Preset, IReadOnlyList<EntryProblem> Problems)
{
    /// <summary>Words of the problems of this field.</summary>
    public IEnumerable<string> Wrong => Problems.Where(problem => problem.Field == Field).Select(problem => problem.Words);
}

/// <summary>The fields of one cylinder.</summary>
public sealed record CylinderFields(string Prefix, string Name, CylinderEntry Typed, GasKind Gas, string Unit, string? Preset, IReadOnlyList<EntryProblem> Problems)
{
    public NumberField Number(string field, string label, string? value, string hint) => new($"{Prefix}.{field}", $"{Name} {label}", value, hint, Problems);
}
