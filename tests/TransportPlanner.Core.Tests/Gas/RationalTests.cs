using CsCheck;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Core.Tests.Gas;

public sealed class RationalTests
{
    private static readonly Gen<decimal> Number = Gen.Select(Gen.Int[-1_000_000, 1_000_000], Gen.Int[0, 6], (n, scale) => new decimal(n) / (decimal)Math.Pow(10, scale));

    [Fact]
    public void Arithmetic_agrees_with_decimals_where_those_are_exact() =>
        Gen.Select(Number, Number).Sample((a, b) =>
        {
            Rational x = a, y = b;
            Assert.Equal(a + b, (x + y).Nearest(12));
            Assert.Equal(a - b, (x - y).Nearest(12));
            Assert.Equal(a * b, (x * y).Nearest(12));
            Assert.Equal(a.CompareTo(b), x.CompareTo(y));
            Assert.Equal(Math.Floor(a), x.Floor());
            Assert.Equal(Math.Ceiling(a), x.Up(0));
            Assert.True(b == 0 || x / y * y == x);
        });

    [Fact]
    public void A_third_three_times_is_one() => Assert.Equal(1, ((Rational)1m / 3m * 3m).Floor());

    [Fact]
    public void The_default_is_zero_and_nothing_is_divided_by_it()
    {
        Assert.Equal((Rational)0m, default);
        Assert.Throws<DivideByZeroException>(() => (Rational)1m / Rational.Zero);
    }
}
