using CsCheck;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

public sealed class FloorPlanGeoJsonTests
{
    private const string Room =
        """{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[0,0],[4,0],[4,5],[0,5],[0,0]]]},"properties":{"feature":"place","number":"D-1","name":"Delivery 1","kind":"deliveryRoom","level":"1","heightMetres":2.8,"airChangesPerHour":12,"occupancy":2,"sources":{"airChangesPerHour":"measured 2026-03-31","heightMetres":"drawing"}}}""";

    private const string Door =
        """{"type":"Feature","geometry":{"type":"LineString","coordinates":[[4,1],[4,2]]},"properties":{"feature":"passage","number":"1","kind":"hingedDoor","joins":["D-1","C-1"],"clearWidthMetres":0.9}}""";

    [Fact]
    public void Any_plan_comes_back_as_it_was_after_canonical_ordering() =>
        PlanGen.Plan.Sample(
            plan =>
            {
                var text = FloorPlanGeoJson.Write(plan);

                var reading = FloorPlanGeoJson.Read(text);

                Assert.Empty(reading.Findings);
                AssertSame(CanonicalOrder.Of(plan), reading.Plan!);
                Assert.Equal(text, FloorPlanGeoJson.Write(reading.Plan!));
            },
            iter: 300);

    [Fact]
    public void The_order_of_the_features_and_of_an_outline_makes_no_difference_to_the_text() =>
        PlanGen.Plan.Sample(
            plan =>
            {
                var turned = plan with
                {
                    Levels = [.. plan.Levels.Reverse()],
                    Places = [.. plan.Places.Reverse().Select(p => p with
                    {
                        Outline = new([.. p.Outline.Corners.Skip(1), p.Outline.Corners[0]]),
                        Facilities = [.. p.Facilities.Reverse()],
                    })],
                    Passages = [.. plan.Passages.Reverse()],
                    Elevators = [.. plan.Elevators.Reverse()],
                };

                Assert.Equal(FloorPlanGeoJson.Write(plan), FloorPlanGeoJson.Write(turned));
            },
            iter: 100);

    [Fact]
    public void The_file_says_that_its_coordinates_are_metres_and_has_one_feature_a_line()
    {
        var text = FloorPlanGeoJson.Write(FloorPlanGeoJson.Read(File(Room, Door)).Plan!);

        Assert.Contains("\"coordinateSystem\":\"local metres, x to the east, y to the north; not longitude and latitude\"", text, StringComparison.Ordinal);
        Assert.Equal(2, text.Split('\n').Count(line => line.StartsWith("{\"type\":\"Feature\",", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_figure_keeps_its_source_and_date_and_an_unknown_stays_unknown()
    {
        var plan = FloorPlanGeoJson.Read(File(Room, Door)).Plan!;

        Assert.Equal(Fact.Measured(AirChangeRate.FromPerHour(12), new DateOnly(2026, 3, 31)), plan.Places[0].AirChanges);
        Assert.Equal(Fact.Drawing(Distance.FromMetres(2.8)), plan.Places[0].Height);
        Assert.Equal(Fact.Assumed(Distance.FromMetres(0.9)), plan.Passages[0].ClearWidth);
        Assert.False(plan.Places[0].Pressure.IsKnown);
        Assert.False(plan.Passages[0].Threshold.IsKnown);
        Assert.Contains("\"thresholdMetres\":null", FloorPlanGeoJson.Write(plan), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("clearWidthMetres\":0.9", "clearWidthMetres\":900", "features[1].properties.clearWidthMetres", "900", "from 0.1 to 50 metres")]
    [InlineData("clearWidthMetres\":0.9", "clearWidthMetres\":\"0.9\"", "features[1].properties.clearWidthMetres", "\"0.9\"", "a number")]
    [InlineData("clearWidthMetres\":0.9", "clearWidthMetres\":1e999", "features[1].properties.clearWidthMetres", "1e999", "a number")]
    [InlineData("clearWidthMetres", "clearWidth", "features[1].properties.clearWidth", "clearWidth", "remove it")]
    [InlineData("hingedDoor", "hatch", "features[1].properties.kind", "hatch", "hingedDoor, doubleDoor")]
    [InlineData("\"joins\":[\"D-1\",\"C-1\"],", "", "features[1].properties.joins", "missing", "two places")]
    [InlineData("[[4,1],[4,2]]", "[[4,1]]", "features[1].geometry", "[[4,1]]", "LineString of two points")]
    [InlineData("[4,5],[0,5],[0,0]]]", "[4,5],[0,5]]]", "features[0].geometry", "Polygon", "the first repeated at the end")]
    [InlineData("[4,5]", "[4,5,0]", "features[0].geometry", "Polygon", "[x, y]")]
    [InlineData("measured 2026-03-31", "measured 2026-02-31", "features[0].properties.sources.airChangesPerHour", "2026-02-31", "2026-03-31")]
    [InlineData("\"airChangesPerHour\":12", "\"airChangesPerHour\":null", "features[0].properties.sources.airChangesPerHour", "no value", "remove the source")]
    [InlineData("\"occupancy\":2", "\"occupancy\":[1,2,3]", "features[0].properties.occupancy", "[1,2,3]", "24 or 96")]
    [InlineData("\"occupancy\":2", "\"occupancy\":-2", "features[0].properties.occupancy", "-2", "from 0")]
    [InlineData("\"occupancy\":2", "\"occupancy\":\"ward\"", "features[0].properties.occupancy", "ward", "name of a profile")]
    [InlineData("\"feature\":\"place\"", "\"feature\":\"door\"", "features[0].properties.feature", "door", "level, elevatorGroup")]
    [InlineData("\"timeZone\":\"Etc/UTC\"", "\"timeZone\":\"Mars/Base\"", "timeZone", "Mars/Base", "IANA")]
    [InlineData("local metres", "degrees", "coordinateSystem", "degrees", "local metres")]
    [InlineData("\"version\":1", "\"version\":1,\"crs\":null", "crs", "crs", "remove it")]
    [InlineData("\"version\":1", "\"version\":1.5", "version", "1.5", "whole number")]
    [InlineData("\"number\":\"D-1\"", "\"number\":\" \"", "features[0].properties.number", "\" \"", "1 to 500 characters")]
    public void Bad_data_is_refused_with_its_place_its_figure_and_the_mending(string good, string bad, string path, string figure, string fix)
    {
        var text = File(Room, Door);
        Assert.Contains(good, text, StringComparison.Ordinal);

        var reading = FloorPlanGeoJson.Read(text.Replace(good, bad, StringComparison.Ordinal));

        Assert.False(reading.IsRead);
        var finding = Assert.Single(reading.Findings, finding => finding.Path == path);
        Assert.Contains(figure, finding.Text, StringComparison.Ordinal);
        Assert.Contains(fix, finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_finding_names_the_feature_by_its_number()
    {
        var reading = FloorPlanGeoJson.Read(File(Room.Replace("2.8", "28000", StringComparison.Ordinal), Door));

        Assert.Equal("place D-1", Assert.Single(reading.Findings).Subject);
    }

    [Fact]
    public void Every_fault_of_a_file_is_found_in_one_reading()
    {
        var reading = FloorPlanGeoJson.Read(File(
            Room.Replace("\"level\":\"1\"", "\"level\":1", StringComparison.Ordinal), Door.Replace("0.9", "-1", StringComparison.Ordinal)));

        Assert.Equal(2, reading.Findings.Length);
        Assert.Null(reading.Plan);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{\"type\":\"FeatureCollection\"}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"type\":\"FeatureCollection\"}")]
    [InlineData("{\"type\":\"FeatureCollection\",\"features\":[1,null,{}]}")]
    [InlineData("{\"features\":{},\"profiles\":[]}")]
    [InlineData("{\"type\":\"\\ud800\"}")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"type\":\"\ud800\"}")]
    public void A_broken_file_gives_findings_and_no_exception(string text)
    {
        var reading = FloorPlanGeoJson.Read(text);

        Assert.False(reading.IsRead);
        Assert.NotEmpty(reading.Findings);
    }

    [Fact]
    public void A_text_cut_or_changed_anywhere_gives_a_plan_or_findings_and_no_exception()
    {
        var text = File(Room, Door);

        Gen.Select(Gen.Int[0, text.Length - 1], Gen.Char[" \"{}[],:0x-n"], Gen.Bool).Sample(
            (at, letter, cut) =>
            {
                var reading = FloorPlanGeoJson.Read(cut ? text[..at] : text[..at] + letter + text[(at + 1)..]);

                Assert.Equal(reading.IsRead, reading.Findings.IsEmpty);
            },
            iter: 2_000);
    }

    [Fact]
    public void A_profile_that_several_places_share_stands_once_in_the_file()
    {
        var day = QuarterHourProfile.FromHours([.. Enumerable.Range(0, 24).Select(hour => hour / 2.0)]);
        var plan = FloorPlanGeoJson.Read(File(Room)).Plan!;
        var twice = plan with { Places = [plan.Places[0] with { Occupancy = day }, plan.Places[0] with { Number = "D-2", Occupancy = day }] };

        var text = FloorPlanGeoJson.Write(twice);

        Assert.Contains("\"profiles\":{\n\"p1\":[0,0.5,1,", text, StringComparison.Ordinal);
        Assert.Equal(2, text.Split("\"occupancy\":\"p1\"").Length - 1);
        Assert.All(FloorPlanGeoJson.Read(text).Plan!.Places, place => Assert.Equal(day, place.Occupancy));
    }

    internal static string File(params string[] features) =>
        "{\"type\":\"FeatureCollection\",\"coordinateSystem\":\"" + FloorPlanGeoJson.CoordinateSystem
        + "\",\"siteId\":\"small\",\"name\":\"Small\",\"timeZone\":\"Etc/UTC\",\"version\":1,\"features\":[" + string.Join(",\n", features) + "]}";

    private static void AssertSame(FloorPlan expected, FloorPlan actual)
    {
        Assert.Equal(expected with { Levels = [], Places = [], Passages = [], Elevators = [], ElevatorGroups = [] },
            actual with { Levels = [], Places = [], Passages = [], Elevators = [], ElevatorGroups = [] });
        Assert.Equal(expected.Levels.AsEnumerable(), actual.Levels);
        Assert.Equal(expected.Passages.AsEnumerable(), actual.Passages);
        Assert.Equal(expected.ElevatorGroups.AsEnumerable(), actual.ElevatorGroups);
        Assert.Equal(expected.Places.Select(place => place with { Facilities = [] }), actual.Places.Select(place => place with { Facilities = [] }));
        Assert.Equal(expected.Places.SelectMany(place => place.Facilities), actual.Places.SelectMany(place => place.Facilities));
        Assert.Equal(expected.Elevators.Select(car => car with { Stops = [] }), actual.Elevators.Select(car => car with { Stops = [] }));
        Assert.Equal(expected.Elevators.SelectMany(car => car.Stops), actual.Elevators.SelectMany(car => car.Stops));
    }
}
