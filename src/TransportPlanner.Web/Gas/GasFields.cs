using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>A list of cylinder sizes to choose from, of one gas or, where that is asked beside it, of both; and the one that the site presets.</summary>
internal sealed record SizeField(string Field, string Label, string? Value, GasKind? Gas, CylinderChoice Choice, IReadOnlyList<EntryProblem> Problems)
{
    public string? Preset => Gas is { } gas ? Choice.Preset(gas) : null;

    public IEnumerable<IGrouping<string, CylinderSize>> Regions => Gas is { } one
        ? Choice.Sizes(one).GroupBy(size => GasWords.Region(size.Region))
        : Enum.GetValues<GasKind>().SelectMany(Choice.Sizes).GroupBy(size => $"{GasWords.Capital(size.Gas)}, {GasWords.Region(size.Region)}");

    /// <summary>Words of the problems of this field.</summary>
    public IEnumerable<string> Wrong => Problems.Where(problem => problem.Field == Field).Select(problem => problem.Words);
}

/// <summary>The fields of one cylinder.</summary>
internal sealed record CylinderFields(string Prefix, string Name, CylinderEntry Typed, GasKind? Gas, string Unit, CylinderChoice Choice, IReadOnlyList<EntryProblem> Problems)
{
    public NumberField Number(string field, string label, string? value, string hint) => new($"{Prefix}.{field}", $"{Name} {label}", value, hint, Problems);
}

/// <summary>What a device draws beside the flow, and what that flow is.</summary>
internal sealed record DeviceFields(FlowKind FlowIs, string? DriveFlow, GasKind DriveGas, string? Bleed, IReadOnlyList<EntryProblem> Problems);

/// <summary>One cylinder of the shelf page, and the page it stands on.</summary>
internal sealed record ShelfCard(ShelfCylinderResponse Cylinder, ShelfModel Page)
{
    /// <summary>True where what was typed for this cylinder was refused.</summary>
    public bool IsHere => Page.CylinderId == Cylinder.Id;
}

/// <summary>What is read from a label, in a form of which there may be several on a page.</summary>
/// <param name="Suffix">Makes the ids of this form its own.</param>
/// <param name="Typed">As typed.</param>
/// <param name="Problems">What was refused.</param>
internal sealed record LabelFields(string Suffix, SizeForm Typed, IReadOnlyList<EntryProblem> Problems);
