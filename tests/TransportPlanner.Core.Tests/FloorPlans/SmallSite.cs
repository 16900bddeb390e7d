using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>
/// The small invented site that many tests use: two levels, elevators A (large) and B (too small for an incubator), the L-shaped
/// corridor C-1.01, door 102 that is 0.70 m wide, door 202 of unknown width, delivery room D-1.01, isolation nursery I-2.01 behind its anteroom.
/// </summary>
internal static class SmallSite
{
    internal static string Text { get; } = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "FloorPlans", "small-site.geojson"));
    internal static FloorPlan Plan { get; } = FloorPlanGeoJson.Read(Text) is { IsRead: true } reading
        ? reading.Plan : throw new InvalidDataException(string.Join('\n', FloorPlanGeoJson.Read(Text).Findings));
    internal static FloorGraph Graph { get; } = FloorGraphBuilder.Build(Plan);
}
