namespace TransportPlanner.Core.Travel;

/// <summary>Does a rectangular box get around a sharp right-angle corner between two straight, long arms? Lengths in metres.</summary>
/// <remarks>
/// Source: the box of width w that touches the inner corner at angle θ and both outer walls has the length
/// (a cos θ + b sin θ − w) / (sin θ cos θ); the shortest of these over 0 &lt; θ &lt; 90° is the longest that turns. For equal arms that is
/// 2√2 a − 2w. Add clearance to the width first. Reference rows CF-01 to CF-27 (derived, confirmed there by brute force).
/// </remarks>
public static class CornerFit
{
    private const int Steps = 64;

    /// <summary>Longest box of that width that turns; 0 where it is wider than one of the arms. Symmetric in the arms.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A length is not above 0 or not finite.</exception>
    public static double LongestBox(double armA, double armB, double boxWidth)
    {
        Check(armA, nameof(armA));
        Check(armB, nameof(armB));
        Check(boxWidth, nameof(boxWidth));
        if (boxWidth > Math.Min(armA, armB))
        {
            return 0;
        }

        double Length(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            return (armA * cos + armB * sin - boxWidth) / (sin * cos);
        }

        // A coarse scan finds the valley, whatever the arms; thirds close in on it.
        const double step = Math.PI / 2 / Steps;
        var best = Enumerable.Range(1, Steps - 1).MinBy(i => Length(i * step));
        var (low, high) = (Math.Max((best - 1) * step, step / 1_000), Math.Min((best + 1) * step, Math.PI / 2 - step / 1_000));
        for (var i = 0; i < 60; i++)
        {
            var third = (high - low) / 3;
            (low, high) = Length(low + third) <= Length(high - third) ? (low, high - third) : (low + third, high);
        }

        return Length((low + high) / 2);
    }

    /// <summary>True when a box turns around the corner, longer side first.</summary>
    public static bool Passes(double armA, double armB, double boxLength, double boxWidth) =>
        Math.Max(boxLength, boxWidth) <= LongestBox(armA, armB, Math.Min(boxLength, boxWidth));

    /// <summary>True when a box gets through without turning, one side ahead in each arm: for casters that swivel all round only.</summary>
    public static bool PassesSideways(double armA, double armB, double boxLength, double boxWidth) =>
        (boxLength <= armA && boxWidth <= armB) || (boxLength <= armB && boxWidth <= armA);

    /// <summary>Diameter of the circle in which a box turns on the spot: its diagonal.</summary>
    public static double SpinCircle(double boxLength, double boxWidth) => Math.Sqrt(boxLength * boxLength + boxWidth * boxWidth);

    private static void Check(double metres, string name)
    {
        if (!(metres > 0 && double.IsFinite(metres)))
        {
            throw new ArgumentOutOfRangeException(name, metres, "Give a length above 0 m.");
        }
    }
}
