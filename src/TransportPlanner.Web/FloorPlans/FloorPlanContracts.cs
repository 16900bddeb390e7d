using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>A floor plan that was published.</summary>
public sealed record PublishedResponse
{
    public required string SiteId { get; init; }
    public required int Version { get; init; }
    public required DateTimeOffset PublishedAt { get; init; }
    public required int Places { get; init; }
    public required int Passages { get; init; }
    public required int Elevators { get; init; }

    /// <summary>What somebody should look at or measure; nothing of it kept the plan from being published.</summary>
    public required IReadOnlyList<FindingResponse> Warnings { get; init; }
}

/// <summary>One thing found in a plan, in words.</summary>
/// <param name="Subject">What it is about: place D-2.14, passage 17.</param>
/// <param name="Path">Where: the property in the file or the plan.</param>
/// <param name="Text">What is wrong, with the figure, and what to do.</param>
public sealed record FindingResponse(string Subject, string Path, string Text)
{
    internal static FindingResponse From(Finding finding) => new(finding.Subject, finding.Path, finding.Text);
}

/// <summary>What a version changed.</summary>
/// <param name="Since">The earlier version.</param>
/// <param name="Version">The later version.</param>
/// <param name="Changes">Every difference.</param>
public sealed record FloorPlanChangesResponse(int Since, int Version, IReadOnlyList<PlanChange> Changes);

/// <summary>Published versions, the newest first.</summary>
public sealed record FloorPlanVersionsResponse(IReadOnlyList<FloorPlanVersionResponse> Versions);

/// <summary>One published version.</summary>
/// <param name="Version">1 for the first.</param>
/// <param name="PublishedAt">When it came into force.</param>
/// <param name="Notice">What a reader must know first.</param>
public sealed record FloorPlanVersionResponse(int Version, DateTimeOffset PublishedAt, string? Notice);
