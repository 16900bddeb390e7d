using System.Numerics;

namespace TransportPlanner.Core.Gas;

/// <summary>An exact fraction. Litres and minutes are rounded once, at the end: a duration of exactly 77 min must not floor to 76.</summary>
internal readonly struct Rational : IComparable<Rational>, IEquatable<Rational>
{
    private readonly BigInteger _numerator;

    // One less than the denominator, so that the default is a valid zero.
    private readonly BigInteger _denominatorLessOne;

    private Rational(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.IsZero)
            throw new DivideByZeroException("A gas that is not drawn has no duration.");
        var divisor = BigInteger.GreatestCommonDivisor(numerator, denominator) * denominator.Sign;
        _numerator = numerator / divisor;
        _denominatorLessOne = denominator / divisor - 1;
    }

    public static Rational Zero => default;

    public bool IsPositive => _numerator.Sign > 0;

    private BigInteger Denominator => _denominatorLessOne + 1;

    public static implicit operator Rational(decimal value)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(value, bits);
        // The three parts are unsigned; this project's arithmetic is checked.
        var mantissa = unchecked(((BigInteger)(uint)bits[2] << 64) + ((BigInteger)(uint)bits[1] << 32) + (uint)bits[0]);
        return new(bits[3] < 0 ? -mantissa : mantissa, BigInteger.Pow(10, (bits[3] >> 16) & 0xFF));
    }

    public static Rational operator +(Rational a, Rational b) => new(a._numerator * b.Denominator + b._numerator * a.Denominator, a.Denominator * b.Denominator);
    public static Rational operator -(Rational a, Rational b) => new(a._numerator * b.Denominator - b._numerator * a.Denominator, a.Denominator * b.Denominator);
    public static Rational operator *(Rational a, Rational b) => new(a._numerator * b._numerator, a.Denominator * b.Denominator);
    public static Rational operator /(Rational a, Rational b) => new(a._numerator * b.Denominator, a.Denominator * b._numerator);
    public static bool operator <(Rational a, Rational b) => a.CompareTo(b) < 0;
    public static bool operator >(Rational a, Rational b) => a.CompareTo(b) > 0;
    public static bool operator <=(Rational a, Rational b) => a.CompareTo(b) <= 0;
    public static bool operator >=(Rational a, Rational b) => a.CompareTo(b) >= 0;
    public static bool operator ==(Rational a, Rational b) => a.Equals(b);
    public static bool operator !=(Rational a, Rational b) => !a.Equals(b);

    public static Rational Min(Rational a, Rational b) => b < a ? b : a;
    public static Rational Max(Rational a, Rational b) => b > a ? b : a;

    public int CompareTo(Rational other) => (_numerator * other.Denominator).CompareTo(other._numerator * Denominator);
    public bool Equals(Rational other) => _numerator == other._numerator && _denominatorLessOne == other._denominatorLessOne;
    public override bool Equals(object? obj) => obj is Rational other && Equals(other);
    public override int GetHashCode() => HashCode.Combine(_numerator, _denominatorLessOne);

    /// <summary>The whole part, rounded down.</summary>
    public long Floor() => (long)FloorScaled(0);

    /// <summary>Rounded down to so many decimals.</summary>
    public decimal Down(int decimals) => Unscale(FloorScaled(decimals), decimals);

    /// <summary>Rounded up to so many decimals.</summary>
    public decimal Up(int decimals) => Unscale(-new Rational(-_numerator, Denominator).FloorScaled(decimals), decimals);

    /// <summary>Rounded to the nearest of so many decimals, a half upward.</summary>
    public decimal Nearest(int decimals) => Unscale((this + new Rational(1, 2 * BigInteger.Pow(10, decimals))).FloorScaled(decimals), decimals);

    public double ToDouble() => (double)Nearest(12);

    private BigInteger FloorScaled(int decimals)
    {
        var quotient = BigInteger.DivRem(_numerator * BigInteger.Pow(10, decimals), Denominator, out var remainder);
        return remainder.Sign < 0 ? quotient - 1 : quotient;
    }

    private static decimal Unscale(BigInteger scaled, int decimals) => (decimal)scaled / (decimal)BigInteger.Pow(10, decimals);
}
