using System.Globalization;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>How far the motion of a car gets between two stops.</summary>
public enum FlightBranch
{
    /// <summary>A: rated speed is reached.</summary>
    FullSpeed,
    /// <summary>B: full acceleration, but not rated speed.</summary>
    FullAcceleration,
    /// <summary>C: neither.</summary>
    Short,
    /// <summary>D: rated speed without ever reaching full acceleration (a slow car).</summary>
    SlowFullSpeed,
}

/// <summary>Time of a car between two stops with limited speed v (m/s), acceleration a (m/s²) and jerk j (m/s³).</summary>
/// <remarks>
/// Source: Peters, ideal lift kinematics, 1995, as used in CIBSE Guide D; re-derived, reference rows LF-01 to LF-42.
/// A: d/v + v/a + a/j. B: a/j + √(4d/a + (a/j)²). C: ∛(32 d/j). D: d/v + 2√(v/j).
/// </remarks>
public static class ElevatorFlight
{
    /// <summary>Seconds for a distance in metres; 0 for no distance.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative, or a limit is not above 0.</exception>
    public static double Seconds(double distance, double speed, double acceleration, double jerk) => Of(distance, speed, acceleration, jerk).Seconds;

    /// <summary>The branch that holds with the numbers put in; the seconds to a hundredth.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative, or a limit is not above 0.</exception>
    public static string Working(double distance, double speed, double acceleration, double jerk)
    {
        var (seconds, branch) = Of(distance, speed, acceleration, jerk);
        var (d, v, a, j) = (Text(distance), Text(speed), Text(acceleration), Text(jerk));
        var formula = branch switch
        {
            FlightBranch.FullSpeed => $"{d} ÷ {v} + {v} ÷ {a} + {a} ÷ {j}",
            FlightBranch.FullAcceleration => $"{a} ÷ {j} + √(4 × {d} ÷ {a} + ({a} ÷ {j})²)",
            FlightBranch.SlowFullSpeed => $"{d} ÷ {v} + 2 × √({v} ÷ {j})",
            _ => $"∛(32 × {d} ÷ {j})",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{d} m at {v} m/s, {a} m/s², {j} m/s³: {formula} ≈ {seconds:0.00} s");

        static string Text(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
    }

    public static FlightBranch BranchOf(double distance, double speed, double acceleration, double jerk) => Of(distance, speed, acceleration, jerk).Branch;

    /// <summary>Performance time: from doors that begin to close to doors that are open one flight on. Source: CIBSE Guide D; rows LW-11, LW-15.</summary>
    public static DurationEstimate PerformanceTime(
        double flightSeconds, DurationEstimate doorOpening, DurationEstimate doorClosing, double startDelaySeconds, double advanceOpeningSeconds)
    {
        // Doors that begin to open early cannot save more than the opening itself takes.
        var rest = flightSeconds + startDelaySeconds;
        var saved = Math.Min(advanceOpeningSeconds, doorOpening.MinimumSeconds);
        return doorClosing + new DurationEstimate(
            rest + doorOpening.MinimumSeconds - saved, rest + doorOpening.LikelySeconds - saved, rest + doorOpening.MaximumSeconds - saved);
    }

    private static (double Seconds, FlightBranch Branch) Of(double d, double v, double a, double j)
    {
        if (!(d >= 0 && double.IsFinite(d)))
        {
            throw new ArgumentOutOfRangeException(nameof(d), d, "Give a distance of 0 m or more.");
        }

        foreach (var limit in (ReadOnlySpan<double>)[v, a, j])
        {
            if (!(limit > 0 && double.IsFinite(limit)))
            {
                throw new ArgumentOutOfRangeException(nameof(v), limit, "Give speed, acceleration and jerk above 0.");
            }
        }

        var ramp = a / j;
        if (v < a * ramp)
        {
            return d >= 2 * v * Math.Sqrt(v / j)
                ? (d / v + 2 * Math.Sqrt(v / j), FlightBranch.SlowFullSpeed)
                : (Math.Cbrt(32 * d / j), FlightBranch.Short);
        }

        return d >= v * v / a + v * ramp ? (d / v + v / a + ramp, FlightBranch.FullSpeed)
            : d >= 2 * a * ramp * ramp ? (ramp + Math.Sqrt(4 * d / a + ramp * ramp), FlightBranch.FullAcceleration)
            : (Math.Cbrt(32 * d / j), FlightBranch.Short);
    }
}
