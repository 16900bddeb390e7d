using System.Text.RegularExpressions;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed partial class FloorPlanPageTests
{
    private static readonly string Page = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", "floor-plans.md"));
    private static readonly string[] Examples = [.. JsonBlock().Matches(Page).Select(match => match.Groups[1].Value)];

    [Fact]
    public void Every_example_of_the_page_is_read_and_together_they_are_a_building_without_errors()
    {
        var file = Assert.Single(Examples, example => example.Contains("FeatureCollection", StringComparison.Ordinal));
        var features = Examples.Where(example => example != file).ToArray();

        var empty = FloorPlanGeoJson.Read(file);
        var whole = FloorPlanGeoJson.Read(file.Replace("\"features\":[]", $"\"features\":[{string.Join(',', features)}]", StringComparison.Ordinal));

        Assert.Empty(empty.Findings);
        Assert.Empty(whole.Findings);
        Assert.Equal(14, features.Length);
        Assert.DoesNotContain(FloorPlanCheck.Run(whole.Plan!), finding => finding.Severity == FindingSeverity.Error);
        Assert.Equal(1, FloorGraphBuilder.Build(whole.Plan!).ArcElevator.Distinct().Count(elevator => elevator >= 0));
    }

    [Fact]
    public void The_page_names_every_property_that_is_written()
    {
        var written = Regex.Matches(SmallSite.Text, "\"([a-zA-Z]+)\":").Select(match => match.Groups[1].Value).Distinct();

        // Keys of "sources" are the facts themselves; type, geometry and coordinates are GeoJSON's own words.
        Assert.All(written, name => Assert.Contains(name, Page, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(typeof(PlaceKind))]
    [InlineData(typeof(PassageKind))]
    [InlineData(typeof(FacilityKind))]
    [InlineData(typeof(PressureRelation))]
    [InlineData(typeof(FactSource))]
    public void The_page_names_every_word_of_a_list(Type words) =>
        Assert.All(Enum.GetNames(words), name => Assert.Contains($"`{char.ToLowerInvariant(name[0])}{name[1..]}`", Page, StringComparison.Ordinal));

    [GeneratedRegex("```json\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex JsonBlock();
}
