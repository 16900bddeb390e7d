using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Travel;

/// <summary>Walks timed at a site. Speeds are metres ÷ seconds, worked by hand; limits and counts are the project's own.</summary>
public sealed class WalkTimeTests
{
    private static readonly DateOnly Day = new(2026, 5, 4);

    [Theory]
    [InlineData(18, 6, null)]
    [InlineData(18, 5.9, "Seconds")]
    [InlineData(18, 180, null)]
    [InlineData(18, 180.1, "Seconds")]
    [InlineData(18, 0, "Seconds")]
    [InlineData(18, -20, "Seconds")]
    [InlineData(18, double.NaN, "Seconds")]
    [InlineData(18, double.PositiveInfinity, "Seconds")]
    [InlineData(5, 6, null)]
    [InlineData(4.9, 6, "Metres")]
    [InlineData(500, 600, null)]
    [InlineData(500.1, 600, "Metres")]
    [InlineData(double.NaN, 6, "Metres")]
    public void A_time_that_nobody_can_walk_is_refused_with_its_field(double metres, double seconds, string? member) =>
        Assert.Equal(member, Walk(metres, seconds).WhyRefused()?.Member);

    [Fact]
    public void A_walk_names_its_role_and_its_places()
    {
        Assert.Equal("By", (Walk(18, 20) with { By = "" }).WhyRefused()?.Member);
        Assert.Null((Walk(18, 20) with { By = new('r', 80) }).WhyRefused());
        Assert.Equal("By", (Walk(18, 20) with { By = new('r', 81) }).WhyRefused()?.Member);
        Assert.StartsWith("Give the seconds", Walk(18, 0).WhyRefused()?.Why);
        Assert.Equal("By", (Walk(18, 20) with { By = "Facilities\n" }).WhyRefused()?.Member);
        Assert.Equal("Place", (Walk(18, 20) with { To = "" }).WhyRefused()?.Member);
    }

    // 18 m in 20, 25, 18, 24 and 22 s: 0.9, 0.72, 1.0, 0.75, 0.8181… m/s. The middle one of five is 0.8181…, rounded down 0.81.
    [Fact]
    public void The_pace_is_slowest_median_and_fastest_rounded_down()
    {
        WalkTime[] walks = [Walk(18, 20), Walk(18, 25) with { Date = Day.AddDays(-3) }, Walk(18, 18), Walk(18, 24), Walk(18, 22)];

        Assert.Equal(new MeasuredPace(5, 0.72, 0.81, 1.0, Day.AddDays(-3), Day), MeasuredPace.Of(walks));
        // Of the first four: (0.75 + 0.9) ÷ 2 = 0.825.
        Assert.Equal(0.82, MeasuredPace.Of(walks[..4])!.Median);
        Assert.Equal("0.72 to 1.00 m/s, median 0.81, 5 walks timed 2026-05-01 to 2026-05-04", MeasuredPace.Of(walks)!.Words());
        Assert.Null(MeasuredPace.Of([]));
    }

    // Median of 0.9, 1.0 and 0.9 m/s is 0.9: from 0.45 to 1.8 m/s belongs to them.
    [Theory]
    [InlineData(40, false)]
    [InlineData(40.1, true)]
    [InlineData(10, false)]
    [InlineData(9.9, true)]
    public void Less_than_half_or_more_than_double_the_median_is_an_outlier(double seconds, bool outlier)
    {
        WalkTime[] kept = [Walk(18, 20), Walk(18, 18), Walk(18, 20)];

        Assert.Equal(outlier, MeasuredPace.WhyOutlier(Walk(18, seconds), kept) is not null);
        Assert.Null(MeasuredPace.WhyOutlier(Walk(18, seconds), kept[..2]));
    }

    [Fact]
    public void Figures_that_no_walks_give_are_not_possible()
    {
        MeasuredPace pace = new(5, 0.7, 0.8, 0.9, Day, Day);

        Assert.True(pace.IsPossible());
        Assert.True((pace with { Slowest = 0.8, Fastest = 0.8 }).IsPossible());
        Assert.False((pace with { Count = 4 }).IsPossible());
        Assert.False((pace with { Slowest = 0.05 }).IsPossible());
        Assert.False((pace with { Slowest = 0.81 }).IsPossible());
        Assert.False((pace with { Fastest = 0.79 }).IsPossible());
        Assert.False((pace with { Fastest = 3.01 }).IsPossible());
        Assert.False((pace with { First = Day.AddDays(1) }).IsPossible());
    }

    private static WalkTime Walk(double metres, double seconds) =>
        new() { Place = "H-2.03", From = "H-2.02", To = "H-2.10", Metres = metres, Seconds = seconds, By = "Facilities", Date = Day };
}
