using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Tests.Architecture;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>The committed file is what the generator writes. docs/demonstration-hospital.md has the command that renews it.</summary>
public sealed class DemonstrationFileTests
{
    [Fact]
    public void The_committed_file_equals_what_the_generator_writes()
    {
        var path = Path.Combine(Repository.Root, "src", "TransportPlanner.Web", "FloorPlans", "demonstration.geojson");
        var written = FloorPlanGeoJson.Write(DemonstrationHospital.Build());
        var committed = File.Exists(path) ? File.ReadAllText(path) : "";

        if (written != committed)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path + ".actual", written);
            Assert.Fail(FirstDifference(committed.Split('\n'), written.Split('\n')));
        }
    }

    [Fact]
    public void The_file_read_back_is_the_plan()
    {
        var written = FloorPlanGeoJson.Write(DemonstrationHospital.Build());

        var reading = FloorPlanGeoJson.Read(written);

        Assert.Empty(reading.Findings);
        Assert.Equal(written, FloorPlanGeoJson.Write(reading.Plan!));
    }

    private static string FirstDifference(string[] committed, string[] written)
    {
        var line = Enumerable.Range(0, Math.Max(committed.Length, written.Length))
            .First(i => committed.ElementAtOrDefault(i) != written.ElementAtOrDefault(i));
        return $"Line {line + 1} differs.\ncommitted: {committed.ElementAtOrDefault(line)}\ngenerator: {written.ElementAtOrDefault(line)}";
    }
}
