namespace TransportPlanner.Core.Units;

/// <summary>The one place where a number from outside becomes a whole count of the unit a type keeps.</summary>
internal static class Guard
{
    /// <summary>Scales and rounds half away from zero; refuses what is not finite or outside [<paramref name="min"/>, <paramref name="max"/>].</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite, or outside the range; the message gives both.</exception>
    internal static long ToLong(double value, double min, double max, double scale, string unit) =>
        double.IsFinite(value) && value >= min && value <= max
            ? (long)Math.Round(value * scale, MidpointRounding.AwayFromZero)
            : throw new ArgumentOutOfRangeException(
                nameof(value), value, FormattableString.Invariant($"Give a number from {min} to {max} {unit}."));
}
