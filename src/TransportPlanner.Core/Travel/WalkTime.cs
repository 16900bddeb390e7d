using System.Globalization;

namespace TransportPlanner.Core.Travel;

/// <summary>One place crossed straight on with the loaded incubator, timed from its first door to its last.</summary>
public sealed record WalkTime
{
    /// <summary>Shorter walks are not timed: on 5 m a finger that is half a second late is a tenth of the time. The project's own figure.</summary>
    public const double MinMetres = 5;
    public const double MaxMetres = 500;

    /// <summary>Slower is a stop on the way and no walk: the lowest speed that a site may set.</summary>
    public const double MinMetresPerSecond = 0.1;

    /// <summary>Nobody pushes an incubator faster: the highest speed that a site may set.</summary>
    public const double MaxMetresPerSecond = 3;

    /// <summary>Number of the place crossed.</summary>
    public required string Place { get; init; }

    /// <summary>Number of the place before it.</summary>
    public required string From { get; init; }

    /// <summary>Number of the place behind it.</summary>
    public required string To { get; init; }

    /// <summary>Walking metres of the way through it, 5 to 500.</summary>
    public required double Metres { get; init; }

    /// <summary>From passing the first door to reaching the last.</summary>
    public required double Seconds { get; init; }

    /// <summary>The role that timed it, never a person's name.</summary>
    public required string By { get; init; }

    /// <summary>Day at the site.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>What cannot be so, with the member it is about; null where all is in range.</summary>
    public (string Member, string Why)? WhyRefused()
    {
        static bool IsText(string? text, int longest) => text is { Length: > 0 } && text.Length <= longest && !text.Any(char.IsControl);
        return !IsText(Place, 100) || !IsText(From, 100) || !IsText(To, 100) ? (nameof(Place), "Give the numbers of the place, the one before and the one behind.")
            : Metres is not (>= MinMetres and <= MaxMetres) ? (nameof(Metres), "Give a straight walk of 5 to 500 m.")
            : !(Seconds > 0 && double.IsFinite(Seconds)) ? (nameof(Seconds), "Give the seconds from the first door to the last, such as 18.5.")
            : Speed() > MaxMetresPerSecond ? (nameof(Seconds), Text($"{Seconds:0.#} s over {Metres:0.0} m is faster than 3 m/s, which nobody walks with an incubator: time it again."))
            : Speed() < MinMetresPerSecond ? (nameof(Seconds), Text($"{Seconds:0.#} s over {Metres:0.0} m is slower than 0.1 m/s, which is a stop and no walk: time it again."))
            : !IsText(By, 80) ? (nameof(By), "Say who times: a role of at most 80 characters, never a name.")
            : null;
    }

    /// <summary>Metres per second. A method, so that it is not written beside what it follows from.</summary>
    public double Speed() => Metres / Seconds;

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>What the walks timed at a site say of its speed straight on.</summary>
/// <param name="Count">Walks timed.</param>
/// <param name="Slowest">m/s, rounded down to 0.01, as the other two: a speed that is rounded up makes a journey short.</param>
/// <param name="Median">m/s; of an even number of walks the mean of the two in the middle.</param>
/// <param name="Fastest">m/s.</param>
/// <param name="First">Day of the first.</param>
/// <param name="Last">Day of the last.</param>
public sealed record MeasuredPace(int Count, double Slowest, double Median, double Fastest, DateOnly First, DateOnly Last)
{
    /// <summary>Fewer walks are shown and not proposed. The project's own figure: the median of five stands even if one of them was held up.</summary>
    public const int MinCount = 5;

    /// <summary>From so many walks on, one that is not between half and double their median is refused. The project's own figures.</summary>
    public const int CountToJudge = 3;

    /// <summary>Null where nothing was timed.</summary>
    public static MeasuredPace? Of(IReadOnlyCollection<WalkTime> walks)
    {
        ArgumentNullException.ThrowIfNull(walks);
        if (walks.Count == 0)
        {
            return null;
        }

        List<double> speeds = [.. walks.Select(walk => walk.Speed()).Order()];
        return new(
            speeds.Count, Down(speeds[0]), Down(MedianOf(speeds)), Down(speeds[^1]), walks.Min(walk => walk.Date), walks.Max(walk => walk.Date));
    }

    /// <summary>Why a further walk does not belong to those kept: it is outside of half to double their median. Null where it does, and while fewer than three are kept.</summary>
    public static string? WhyOutlier(WalkTime walk, IReadOnlyCollection<WalkTime> kept)
    {
        ArgumentNullException.ThrowIfNull(walk);
        ArgumentNullException.ThrowIfNull(kept);
        if (kept.Count < CountToJudge)
        {
            return null;
        }

        var median = MedianOf([.. kept.Select(other => other.Speed()).Order()]);
        return walk.Speed() >= median / 2 && walk.Speed() <= median * 2 ? null
            : WalkTime.Text($"{walk.Seconds:0.#} s over {walk.Metres:0.0} m is {walk.Speed():0.00} m/s; the median of the {kept.Count} walks kept is {median:0.00} m/s. Less than half or more than double is not taken: time it again, or take away what is wrong below.");
    }

    /// <summary>Whether the figures can be: enough walks, speeds in order and in range, days in order.</summary>
    public bool IsPossible() =>
        Count >= MinCount && Slowest >= WalkTime.MinMetresPerSecond && Slowest <= Median && Median <= Fastest && Fastest <= WalkTime.MaxMetresPerSecond && First <= Last;

    /// <summary>As a page and a plan write it.</summary>
    public string Words() => WalkTime.Text($"{Slowest:0.00} to {Fastest:0.00} m/s, median {Median:0.00}, {Count} {(Count == 1 ? "walk" : "walks")} timed {(First == Last ? $"{First:yyyy-MM-dd}" : $"{First:yyyy-MM-dd} to {Last:yyyy-MM-dd}")}");

    private static double MedianOf(List<double> ordered) => (ordered[(ordered.Count - 1) / 2] + ordered[ordered.Count / 2]) / 2;

    // A whole hundredth may come out of the division a hair below itself.
    private static double Down(double speed) => Math.Floor(speed * 100 + 1e-9) / 100;
}
