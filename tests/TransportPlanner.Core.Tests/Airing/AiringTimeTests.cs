using CsCheck;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Airing;

public sealed class AiringTimeTests
{
    /// <summary>Kinds of air-clearance-cases.csv that the product has a function for; docs/airing.md says why not the others.</summary>
    private static readonly string[] Kinds = ["mixing_factor", "custom_removal", "fraction_left", "loss_rate_from_time", "time_for_fold"];

    /// <summary>Of these two kinds the product uses the slow end, for a car with doors shut and open.</summary>
    private static readonly string[] FastEnd = ["AK-12", "AK-14"];

    public static TheoryData<string> TableRows() => ReferenceRow.Ids("air-clearance.csv", _ => true);
    public static TheoryData<string> CaseRows() => ReferenceRow.Ids("air-clearance-cases.csv", row => Kinds.Contains(row["kind"]) && !FastEnd.Contains(row["id"]));

    // CDC/HICPAC 2003, Appendix B, Table B.1, and the table of CCDR 22S1, 1996: each row names its own.
    [Theory]
    [MemberData(nameof(TableRows))]
    public void Minutes_are_those_of_the_published_table_rounded_up(string id)
    {
        var row = ReferenceRow.Find("air-clearance.csv", id);

        var time = AiringTime.For(AirChangeRate.FromPerHour((double)row.Exact("ach")), (double)row.Exact("removal_percent"));

        Assert.Equal((double)row.Exact("minutes_exact"), time.ExactMinutes, (double)row.Exact("tolerance_minutes"));
        Assert.Equal((long)row.Exact("minutes_ceiling"), time.Minutes);
        Assert.True(row.ExactOrNull("minutes_published") is not { } printed || Math.Abs(printed - time.Minutes) <= 1);
    }

    // air-clearance-cases.csv: each row carries its source.
    [Theory]
    [MemberData(nameof(CaseRows))]
    public void The_formulas_give_the_value_of_the_reference_row(string id)
    {
        var row = ReferenceRow.Find("air-clearance-cases.csv", id);
        var inputs = row.ExactInputs();
        double Input(string name) => (double)inputs[name];

        var value = row["kind"] switch
        {
            "mixing_factor" => AiringTime.For(AirChangeRate.FromPerHour(Input("ach")), Input("removal_percent"), Input("mixing_factor")).ExactMinutes,
            "custom_removal" => AiringTime.For(AirChangeRate.FromPerHour(Input("ach")), Input("removal_percent")).ExactMinutes,
            "fraction_left" => AiringTime.FractionLeft(AirChangeRate.FromPerHour(Input("ach")), Input("minutes")),
            "loss_rate_from_time" => CarRate(Input("minutes")).PerHour,
            "time_for_fold" => AiringTime.ForElevatorCar(Input("minutes_for_100_fold") < 10, null, 99.9).ExactMinutes,
            var kind => throw new NotSupportedException($"No function for {kind}."),
        };

        var expected = (double)row.Exact("expected");
        Assert.InRange(Math.Abs(value / expected - 1), 0, (double)row.Exact("tolerance_relative"));

        static AirChangeRate CarRate(double minutes) => minutes switch
        {
            18 => ElevatorCarRates.DoorsShut,
            4 => ElevatorCarRates.DoorsOpen,
            _ => throw new NotSupportedException($"{minutes} min is not the slow end."),
        };
    }

    // The example of the API: 12 air changes, 99.9 percent.
    [Fact]
    public void The_example_of_the_API_holds_to_the_last_digit()
    {
        var time = AiringTime.For(AirChangeRate.FromPerHour(12), 99.9);

        Assert.Equal((34.539, 35L), (time.ExactMinutes, time.Minutes));
        Assert.Equal("−ln(0.001) ÷ 12 per h × 60 min/h × 1 = 34.539 min; rounded up: 35 min", time.Working);
    }

    // CCDR 22S1, 1996, Appendix F prints 3 min for 13 air changes and 99.9 percent: a digit was lost (published-errors.csv PE-14).
    [Fact]
    public void A_digit_lost_in_a_published_table_is_not_repeated() =>
        Assert.Equal(32, AiringTime.For(AirChangeRate.FromPerHour(13), 99.9).Minutes);

    [Fact]
    public void A_fixed_time_says_what_share_of_a_corridors_air_would_be_left()
    {
        var time = AiringTime.ByPolicy(new(30, "site default", IsAssumed: true), AirChangeRate.FromPerHour(2));

        Assert.Equal((AiringBasis.Policy, 30L), (time.Basis, time.Minutes));
        Assert.Equal(1, WorkingReader.Recompute(time.Working));
        Assert.Contains(time.Assumptions, text => text.Contains("assumed until the site confirms"));
    }

    [Fact]
    public void Unknown_air_changes_say_unknown_and_take_the_fixed_time()
    {
        var time = AiringTime.ByPolicy(new(60, "infection prevention, 2026-05-01", IsAssumed: false), null);

        Assert.Equal(60, time.Minutes);
        Assert.Contains("unknown", time.Working);
    }

    [Fact]
    public void A_car_with_its_doors_open_airs_faster_and_says_that_the_rate_is_assumed()
    {
        var open = AiringTime.ForElevatorCar(doorsOpen: true, null, 99);
        var shut = AiringTime.ForElevatorCar(doorsOpen: false, null, 99);

        Assert.True(open.Minutes < shut.Minutes);
        Assert.Contains(open.Assumptions, text => text.Contains("assumed"));
        Assert.Contains(open.Assumptions, text => text.Contains("held open"));
    }

    [Theory]
    [InlineData(0, 99, 1, "airChanges")]
    [InlineData(12, 100, 1, "removalPercent")]
    [InlineData(12, 49, 1, "removalPercent")]
    [InlineData(12, double.NaN, 1, "removalPercent")]
    [InlineData(12, 99, 0.9, "mixingFactor")]
    [InlineData(12, 99, 11, "mixingFactor")]
    public void A_figure_out_of_range_is_refused_by_name(double airChanges, double removal, double mixing, string name) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => AiringTime.For(AirChangeRate.FromPerHour(airChanges), removal, mixing)).ParamName);

    [Fact]
    public void Every_working_recomputes_and_more_air_never_takes_longer() =>
        Gen.Select(Gen.Int[1, 4000], Gen.Int[50_0000, 99_9999], Gen.Int[100_000, 1_000_000]).Sample((rate, removal, mixing) =>
        {
            AiringTime At(int tenths) => AiringTime.For(AirChangeRate.FromPerHour(tenths / 10.0), removal / 10_000.0, mixing / 100_000.0);

            var time = At(rate);
            Assert.Equal(1, WorkingReader.Recompute(time.Working));
            Assert.True(time.Minutes >= time.ExactMinutes - 0.001 && time.Minutes < time.ExactMinutes + 1);
            Assert.True(At(rate + 1).ExactMinutes <= time.ExactMinutes);
        }, iter: 500);
}
