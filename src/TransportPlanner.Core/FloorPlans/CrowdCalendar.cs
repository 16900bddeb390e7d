using System.Collections.Immutable;
using System.Globalization;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Why there are more or fewer people for a time.</summary>
public enum CrowdKind
{
    Visiting,
    Meals,
    ShiftChange,
    Linen,
    Teaching,
    Other,
}

/// <summary>A time of the week at which the number of people in some places is another one than the mean of the floor plan.</summary>
public sealed record CrowdTime
{
    public const int MinutesOfQuarter = 15;
    public const int MinutesOfDay = 24 * 60;
    public const double MaxTimes = 100;
    public const double MaxAdds = 10_000;

    public required CrowdKind Kind { get; init; }

    /// <summary>Numbers of the places, each once.</summary>
    public required ImmutableArray<string> Places { get; init; }

    /// <summary>Days of the week on which it begins, each once.</summary>
    public required ImmutableArray<DayOfWeek> Days { get; init; }

    /// <summary>Local minutes after midnight, a multiple of 15, 0 to 1,425.</summary>
    public required int FromMinute { get; init; }

    /// <summary>First minute after it, a multiple of 15, to 1,440 and later than the begin: what goes on over midnight is two entries.</summary>
    public required int ToMinute { get; init; }

    /// <summary>The mean counts so many times, 0 to 100; 1 leaves it.</summary>
    public double Times { get; init; } = 1;

    /// <summary>So many people are added then, 0 to 10,000.</summary>
    public double Adds { get; init; }

    /// <summary>The role that answers for it, never a person's name.</summary>
    public required string Owner { get; init; }

    /// <summary>Day since which it is known.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>What cannot be so, in words; null where all is in range.</summary>
    public string? WhyRefused() =>
        Places.IsDefaultOrEmpty || Places.Any(string.IsNullOrWhiteSpace) || Places.Distinct().Count() != Places.Length ? "Give the numbers of the places, each once."
        : Days.IsDefaultOrEmpty || Days.Distinct().Count() != Days.Length || Days.Any(day => !Enum.IsDefined(day)) ? "Give the days of the week, each once."
        : !Enum.IsDefined(Kind) ? "Give the kind of time."
        : FromMinute % MinutesOfQuarter != 0 || ToMinute % MinutesOfQuarter != 0 || FromMinute < 0 || ToMinute > MinutesOfDay || ToMinute <= FromMinute
            ? "Give a begin and a later end on the same day, in quarter-hours: 14:00 to 16:00."
        : !(Times is >= 0 and <= MaxTimes) ? "Give a factor from 0 to 100."
        : !(Adds is >= 0 and <= MaxAdds) ? "Give 0 to 10,000 people to add."
        : Times == 1 && Adds == 0 ? "Give a factor or people to add: this changes nothing."
        : Owner is not { Length: > 0 and <= 80 } || Owner.Any(char.IsControl) ? "Give the role that answers for it, 1 to 80 characters."
        : null;

    /// <summary>As the working writes it: <c>visiting 14:00 to 16:00 × 2 + 3 (Charge nurse, since 2026-03-01)</c>.</summary>
    public string Words() => string.Create(CultureInfo.InvariantCulture,
        $"{PlaceWords.Spaced(Kind)} {Clock(FromMinute)} to {Clock(ToMinute)}{(Times == 1 ? "" : FormattableString.Invariant($" × {Times:0.##}"))}{(Adds == 0 ? "" : FormattableString.Invariant($" + {Adds:0.##}"))} ({Owner}, since {Date:yyyy-MM-dd})");

    /// <summary>A time of day from minutes: <c>14:00</c>, at the end of the day <c>24:00</c>.</summary>
    public static string Clock(int minutes) => string.Create(CultureInfo.InvariantCulture, $"{minutes / 60:00}:{minutes % 60:00}");
}

/// <summary>
/// What a site knows of its weeks beside the mean occupancy of each place. People = mean of the floor plan × every factor in force + every addition in
/// force, so that the order of entries does not matter.
/// </summary>
public sealed class CrowdCalendar
{
    public static readonly CrowdCalendar Empty = new([]);

    private readonly ILookup<(string Place, int Quarter), CrowdTime> _times;

    public CrowdCalendar(IEnumerable<CrowdTime> times) => _times =
    (
        from time in times
        from place in time.Places
        from day in time.Days
        from quarter in Enumerable.Range(time.FromMinute / CrowdTime.MinutesOfQuarter, (time.ToMinute - time.FromMinute) / CrowdTime.MinutesOfQuarter)
        select (Key: (place, ((int)day + 6) % 7 * QuarterHourProfile.QuartersPerDay + quarter), time)
    ).ToLookup(pair => pair.Key, pair => pair.time);

    /// <summary>Entries in force in a place.</summary>
    /// <param name="place">Its number.</param>
    /// <param name="quarter">Quarter-hour of the week, Monday 00:00 is 0.</param>
    public ImmutableArray<CrowdTime> In(string place, int quarter) => [.. _times[(place, quarter)]];

    /// <summary>People in a place, from the mean of the floor plan.</summary>
    public double People(string place, int quarter, double mean)
    {
        var (times, adds) = (1.0, 0.0);
        foreach (var entry in _times[(place, quarter)])
        {
            (times, adds) = (times * entry.Times, adds + entry.Adds);
        }

        return mean * times + adds;
    }
}
