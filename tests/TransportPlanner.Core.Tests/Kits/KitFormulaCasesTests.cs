using System.Globalization;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Kits;

/// <summary>Check values of kit-formula-cases.csv; each row carries its own source and tolerance.</summary>
public sealed class KitFormulaCasesTests
{
    /// <summary>Kinds without a function in the product; docs/kits.md says why.</summary>
    private static readonly string[] NotInTheProduct = ["temperature_grade", "saturation_target"];

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Cases =
        ReferenceFile.Rows("kit-formula-cases.csv").ToDictionary(row => row["id"]);

    public static TheoryData<string> Ids() => [.. Cases.Values.Where(row => !NotInTheProduct.Contains(row["kind"])).Select(row => row["id"])];

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_rules_give_the_value_of_the_reference_row(string id)
    {
        var row = Cases[id];
        var inputs = row["inputs"].Split(';').Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => Parse(pair[1]));

        var values = row["kind"] switch
        {
            "depth_weight_plus_6" => [Formula("tubeDepthAtLip", "KS-17", inputs["weight_kg"])],
            "depth_nasal" => [Formula("nasalTubeDepth", "KS-19", inputs["weight_kg"])],
            "depth_regression_gestation" => [Formula("tubeDepthAtLip", "KS-28", inputs["gestation_weeks"])],
            "depth_regression_weight" => [Formula("tubeDepthAtLip", "KS-29", inputs["weight_kg"])],
            "umbilical_vein_shukla" => [Formula("umbilicalVeinDepth", "KS-38", inputs["weight_kg"])],
            "umbilical_vein_revised" => [Formula("umbilicalVeinDepth", "KS-39", inputs["weight_kg"])],
            "umbilical_artery_high" => [Formula("umbilicalArteryDepth", "KS-41", inputs["weight_kg"])],
            "depth_table_gestation" => Listed("oral-tube-depth", null, (int)inputs["gestation_weeks"], size => size.Source.Title.Contains("(table)")),
            "tube_by_weight" => Listed("tracheal-tube", (int)inputs["weight_g"], null, size => size.RuleId != "KS-06"),
            "dead_space_ratio" => [DeadSpaceRule.Percent(inputs["dead_space_mL"], inputs["weight_kg"], inputs["tidal_volume_mL_kg"])],
            var kind => throw new NotSupportedException($"No function for {kind}."),
        };

        var expected = row["expected"].Split(';').Select(Parse).ToList();
        Assert.Equal(expected.Count, values.Count);
        Assert.All(expected.Zip(values), pair => Assert.InRange(Math.Abs(pair.First - pair.Second), 0, Parse(row["tolerance"]) + 1e-9));
    }

    [Fact]
    public void Every_row_is_used_or_its_kind_is_named_as_not_in_the_product() =>
        Assert.Equal(46, Ids().Count + Cases.Values.Count(row => NotInTheProduct.Contains(row["kind"])));

    private static double Formula(string table, string id, double input) =>
        KitRules.BuiltIn.Sizes[table].Rows.First(row => row.Id == id && row.Formula is not null).Formula!.At(input);

    private static List<double> Listed(string item, int? grams, int? weeks, Func<KitSize, bool> from) =>
        [.. KitList.For(new KitQuery
        {
            WeightGrams = grams,
            GestationWeeks = weeks,
            Support = RespiratorySupport.InvasiveVentilation,
            Precautions = PrecautionSet.Airborne,
            JourneyMinutes = 9,
        }).Items.Single(listed => listed.Id == item).Sizes.Where(from).Select(size => size.Low!.Value).Distinct().Order()];

    private static double Parse(string number) => double.Parse(number, CultureInfo.InvariantCulture);
}
