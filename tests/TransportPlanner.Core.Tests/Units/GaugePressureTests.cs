using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Units;

public sealed class GaugePressureTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-0.001)]
    [InlineData(300.001)]
    [InlineData(double.PositiveInfinity)]
    public void A_reading_outside_the_range_is_refused(double bar) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GaugePressure.FromBar(bar));
}
