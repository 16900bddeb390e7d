using System.Collections.Immutable;
using System.Numerics;
using System.Runtime.InteropServices;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>
/// The distribution of a journey's time on a grid of whole seconds. Walking parts share one pace: their minima, likely values and maxima
/// add up to one triangle. Doors, waits and rides are independent triangles; each stall is a rare branch beside zero. The sum is their
/// numerical convolution: deterministic, no sampling.
/// </summary>
/// <remarks>
/// The mass of a triangle is split linearly between neighbouring seconds, so the mean is kept (to 0.1 s and better). The split widens
/// the variance by at most 1/4 s² for each part.
/// </remarks>
public sealed class JourneyTime
{
    private const double Rounding = 1e-12;

    private readonly double[] _chance;

    internal JourneyTime(double[] chance, double minimumSeconds, double stallProbability) =>
        (_chance, MinimumSeconds, StallProbability) = (chance, minimumSeconds, stallProbability);

    /// <summary>Every part at its minimum, no stall.</summary>
    public double MinimumSeconds { get; }

    /// <summary>Chance that at least one ride stalls.</summary>
    public double StallProbability { get; }

    /// <summary>Half of such journeys take no longer: P50, in whole seconds rounded up.</summary>
    public int UsuallySeconds => SecondsAt(0.5);

    /// <summary>Nine in ten take no longer: P90, in whole seconds rounded up.</summary>
    public int NearlyAlwaysSeconds => SecondsAt(0.9);

    /// <summary>Chance that the journey takes so many whole seconds, from 0; they add up to 1.</summary>
    public IReadOnlyList<double> ChanceBySecond => _chance;

    public double ExpectedSeconds => _chance.Select((chance, second) => chance * second).Sum();

    public static JourneyTime Of(IEnumerable<TravelTime> parts)
    {
        var all = parts.ToImmutableArray();
        var walking = all.Aggregate(DurationEstimate.Zero, (sum, part) => sum + part.Walking);
        var chance = all.SelectMany(part => new[] { part.Door, part.Wait, part.Ride })
            .Where(part => part != DurationEstimate.Zero)
            .Select(Grid)
            .Concat(all.Where(part => part.StallProbability > 0).Select(Stall))
            .Aggregate(Grid(walking), Convolve);
        return new(chance, all.Sum(part => part.MinimumSeconds), 1 - all.Aggregate(1.0, (none, part) => none * (1 - part.StallProbability)));
    }

    /// <summary>The least whole second that a share of journeys does not exceed; never below the minimum.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The share is not between 0 and 1.</exception>
    public int SecondsAt(double share)
    {
        if (!(share is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "Give a share between 0 and 1.");
        }

        var (sum, second) = (0.0, -1);
        while (second < _chance.Length - 1 && sum < share - Rounding)
        {
            sum += _chance[++second];
        }

        return Math.Max(second, (int)Math.Ceiling(MinimumSeconds - 1e-9));
    }

    /// <summary>Chance, 0 to 1, that the journey takes longer.</summary>
    public double ChanceToExceed(TimeSpan limit)
    {
        var first = Math.Max(0, (long)Math.Floor(limit.TotalSeconds) + 1);
        return first >= _chance.Length ? 0 : Math.Clamp(_chance.AsSpan((int)first).ToArray().Sum(), 0, 1);
    }

    /// <summary>Weight of second k: ∫ density(x) · max(0, 1 − |x − k|) dx, the second difference of the integrated distribution function.</summary>
    internal static double[] Grid(DurationEstimate part)
    {
        var weights = new double[(int)Math.Ceiling(part.MaximumSeconds) + 1];
        for (var second = (int)Math.Floor(part.MinimumSeconds); second < weights.Length; second++)
        {
            weights[second] = Math.Max(0, Integral(part, second + 1) - 2 * Integral(part, second) + Integral(part, second - 1));
        }

        return weights;
    }

    internal static double[] Stall(TravelTime part)
    {
        var weights = Grid(part.StallDuration);
        for (var second = 0; second < weights.Length; second++)
        {
            weights[second] *= part.StallProbability;
        }

        weights[0] += 1 - part.StallProbability;
        return weights;
    }

    /// <summary>Integral of the triangular distribution function from minus infinity to x.</summary>
    private static double Integral(DurationEstimate part, double x)
    {
        var (a, b, c) = (part.MinimumSeconds, part.LikelySeconds, part.MaximumSeconds);
        return c - a < 1e-6 ? Math.Max(0, x - part.ExpectedSeconds)
            : x <= a ? 0
            : x >= c ? x - part.ExpectedSeconds
            : x <= b ? (x - a) * (x - a) * (x - a) / (3 * (c - a) * (b - a))
            : x - part.ExpectedSeconds + (c - x) * (c - x) * (c - x) / (3 * (c - a) * (c - b));
    }

    internal static double[] Convolve(double[] a, double[] b)
    {
        var sum = new double[a.Length + b.Length - 1];
        for (var j = 0; j < b.Length; j++)
        {
            if (b[j] == 0)
            {
                continue;
            }

            AddScaled(a, b[j], sum.AsSpan(j, a.Length));
        }

        return sum;
    }

    /// <summary>Two stalls in one journey make millions of products: take as many at once as the machine does.</summary>
    private static void AddScaled(ReadOnlySpan<double> values, double scale, Span<double> sum)
    {
        var many = MemoryMarshal.Cast<double, Vector<double>>(values);
        var sums = MemoryMarshal.Cast<double, Vector<double>>(sum);
        for (var i = 0; i < many.Length; i++)
        {
            sums[i] += many[i] * scale;
        }

        for (var i = many.Length * Vector<double>.Count; i < values.Length; i++)
        {
            sum[i] += values[i] * scale;
        }
    }
}
