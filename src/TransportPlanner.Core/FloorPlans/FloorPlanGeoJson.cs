using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Either a whole plan, or everything that keeps the file from being read; never half a plan.</summary>
public sealed record FloorPlanReading
{
    private FloorPlanReading(FloorPlan? plan, ImmutableArray<Finding> findings) => (Plan, Findings) = (plan, findings);

    public FloorPlan? Plan { get; }

    /// <summary>Empty when the plan was read.</summary>
    public ImmutableArray<Finding> Findings { get; }

    [MemberNotNullWhen(true, nameof(Plan))]
    public bool IsRead => Plan is not null;

    internal static FloorPlanReading Read(FloorPlan plan) => new(plan, []);
    internal static FloorPlanReading Refused(IEnumerable<Finding> findings) => new(null, [.. findings]);
}

/// <summary>
/// The exchange format of a floor plan: one GeoJSON FeatureCollection (RFC 7946) per site, in local metres. The page
/// <c>docs/floor-plans.md</c> describes every property.
/// </summary>
public static class FloorPlanGeoJson
{
    /// <summary>Stands in every file, since GeoJSON's own coordinates are longitude and latitude and these are not.</summary>
    public const string CoordinateSystem = "local metres, x to the east, y to the north; not longitude and latitude";

    /// <summary>
    /// Reads a file strictly: an unknown member, a figure out of range or a missing member is a finding with its path, and no plan.
    /// What the parts say about each other (a passage to a place that does not exist, say) is the business of <c>FloorPlanCheck</c>.
    /// </summary>
    /// <returns>The plan in canonical order with coordinates rounded to 1 mm, or the findings. No exception for bad data.</returns>
    public static FloorPlanReading Read(string geoJson)
    {
        ArgumentNullException.ThrowIfNull(geoJson);
        return GeoJsonReader.Read(geoJson);
    }

    /// <summary>
    /// Writes the canonical text: levels by elevation, everything else by number (ordinal), outlines anticlockwise from their
    /// lowest x, whole millimetres, one feature a line. Equal plans give equal text.
    /// </summary>
    public static string Write(FloorPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return GeoJsonWriter.Write(CanonicalOrder.Of(plan));
    }
}
