using System.Globalization;

namespace TransportPlanner.Web.Routing;

/// <summary>
/// How long one answer may search for ways before it is merged from what is there and states how far from exact it is. Set by
/// <c>Planner:SearchDeadlineMilliseconds</c>, 0 to 60,000.
/// </summary>
internal sealed class SearchDeadline
{
    public const string Setting = "Planner:SearchDeadlineMilliseconds";

    /// <summary>A hospital of five hundred places takes some thousandths of that; the first answer after a start on a busy machine took three seconds.</summary>
    public const int DefaultMilliseconds = 10_000;

    public const int MaxMilliseconds = 60_000;

    public SearchDeadline(IConfiguration configuration)
    {
        var milliseconds = DefaultMilliseconds;
        if (configuration[Setting] is { Length: > 0 } given
            && !(int.TryParse(given, NumberStyles.None, CultureInfo.InvariantCulture, out milliseconds) && milliseconds <= MaxMilliseconds))
        {
            throw new InvalidOperationException($"{Setting} is {given}. Give whole milliseconds from 0 to {MaxMilliseconds}, or leave it out for {DefaultMilliseconds}.");
        }

        Within = TimeSpan.FromMilliseconds(milliseconds);
    }

    public TimeSpan Within { get; }

    /// <summary>Starts the clock of one answer.</summary>
    public CancellationTokenSource Begin() => new(Within);

    /// <summary>What a search that was cut short may have missed, in plain words; nothing where it was not.</summary>
    public static IEnumerable<string> NotExact(bool isExact, double? epsilon) => isExact ? [] :
    [
        "The search for ways reached its deadline before it was complete. "
        + (epsilon is { } known
            ? string.Create(CultureInfo.InvariantCulture, $"A way up to {Math.Ceiling(known * 100 - 1e-9)} % better in each of time, exposure and handling may exist.")
            : "How much better a way that it missed may be is not known.")
        + " Later departures were not compared.",
    ];
}
