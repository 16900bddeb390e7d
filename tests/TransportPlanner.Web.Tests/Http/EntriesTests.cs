namespace TransportPlanner.Web.Tests.Http;

public sealed class EntriesTests
{
    [Theory]
    [InlineData("1500", 1500)]
    [InlineData("1500.5", 1500.5)]
    [InlineData("0,4", 0.4)]
    [InlineData("0,125", 0.125)]
    [InlineData("12,5", 12.5)]
    public void A_number_is_read_as_it_is_meant(string typed, double expected)
    {
        var entries = new Entries();

        Assert.Equal((decimal)expected, entries.Number("Gauge", "Gauge", typed, 0, 3300, "psi"));
        Assert.Empty(entries.Problems);
    }

    // 1,500 psi read as one and a half made a plan with no oxygen.
    [Theory]
    [InlineData("1,500")]
    [InlineData("1,850")]
    [InlineData("15,000")]
    public void A_comma_that_may_mean_thousands_is_not_guessed(string typed)
    {
        var entries = new Entries();

        Assert.Null(entries.Number("Gauge", "Gauge", typed, 0, 3300, "psi"));
        Assert.Contains("Type it without the comma", Assert.Single(entries.Problems).Words, StringComparison.Ordinal);
    }
}
