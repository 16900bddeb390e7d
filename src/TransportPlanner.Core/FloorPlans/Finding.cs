namespace TransportPlanner.Core.FloorPlans;

public enum FindingSeverity
{
    /// <summary>The plan may be published; somebody should look.</summary>
    Warning,
    /// <summary>The file is not read, or the plan must not be published, before this is mended.</summary>
    Error,
}

/// <summary>One thing found in a file or in a plan, in words for the person who mends it.</summary>
/// <param name="Severity">Whether it stops the work.</param>
/// <param name="Subject">What it is about: <c>place D-2.14</c>, <c>passage 17</c>, <c>the file</c>.</param>
/// <param name="Path">Where: <c>features[12].properties.clearWidthMetres</c> in a file, the property's name in a plan.</param>
/// <param name="Text">What is wrong, with the figure, and what to do.</param>
public sealed record Finding(FindingSeverity Severity, string Subject, string Path, string Text)
{
    public override string ToString() => $"{Severity}: {Subject}, {Path}: {Text}";
}
