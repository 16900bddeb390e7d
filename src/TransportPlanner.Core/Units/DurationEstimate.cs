namespace TransportPlanner.Core.Units;

/// <summary>A duration as minimum, likely and maximum seconds (a triangular distribution). 0 ≤ minimum ≤ likely ≤ maximum ≤ 24 h. Default: no time at all.</summary>
public readonly record struct DurationEstimate
{
    public const double MaxSeconds = 86_400;

    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, out of range, or the three are not in order.</exception>
    public DurationEstimate(double minimumSeconds, double likelySeconds, double maximumSeconds)
    {
        if (!(minimumSeconds >= 0 && minimumSeconds <= likelySeconds && likelySeconds <= maximumSeconds && maximumSeconds <= MaxSeconds))
        {
            throw new ArgumentOutOfRangeException(
                nameof(likelySeconds), FormattableString.Invariant(
                    $"Give minimum ≤ likely ≤ maximum seconds, from 0 to {MaxSeconds}; got {minimumSeconds}, {likelySeconds}, {maximumSeconds}."));
        }

        MinimumSeconds = minimumSeconds;
        LikelySeconds = likelySeconds;
        MaximumSeconds = maximumSeconds;
    }

    public double MinimumSeconds { get; }
    public double LikelySeconds { get; }
    public double MaximumSeconds { get; }

    /// <summary>Mean of the triangular distribution, (a + b + c) / 3.</summary>
    public double ExpectedSeconds => (MinimumSeconds + LikelySeconds + MaximumSeconds) / 3;

    /// <summary>Nine in ten take no longer: the 90th percentile of the triangular distribution.</summary>
    public double NearlyAlwaysSeconds
    {
        get
        {
            var (a, c, b) = (MinimumSeconds, LikelySeconds, MaximumSeconds);
            return b == a ? a
                : (c - a) / (b - a) >= 0.9 ? a + Math.Sqrt(0.9 * (b - a) * (c - a))
                : b - Math.Sqrt(0.1 * (b - a) * (b - c));
        }
    }

    public static DurationEstimate Zero => default;
    public static DurationEstimate Exactly(double seconds) => new(seconds, seconds, seconds);

    /// <summary>Sum of parts that share one pace: minima, likely values and maxima add up to one triangle.</summary>
    public static DurationEstimate operator +(DurationEstimate a, DurationEstimate b) =>
        new(a.MinimumSeconds + b.MinimumSeconds, a.LikelySeconds + b.LikelySeconds, a.MaximumSeconds + b.MaximumSeconds);

    public override string ToString() =>
        FormattableString.Invariant($"{MinimumSeconds:0.#}–{LikelySeconds:0.#}–{MaximumSeconds:0.#} s");
}
