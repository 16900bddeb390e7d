using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>A mean by weekday and local quarter-hour (people in a place, seconds of wait): 7 × 96 values ≥ 0, Monday 00:00 first. Hourly input fills four quarters.</summary>
public sealed record QuarterHourProfile
{
    public const int QuartersPerDay = 96;
    public const int Length = 7 * QuartersPerDay;

    /// <exception cref="ArgumentException">Not 672 values, or one that is negative or not finite.</exception>
    public QuarterHourProfile(ImmutableArray<double> values)
    {
        if (values.Length != Length || values.Any(v => !(v >= 0 && double.IsFinite(v))))
        {
            throw new ArgumentException($"Give {Length} finite values of 0 or more, Monday 00:00 first.", nameof(values));
        }

        Values = values;
    }

    public ImmutableArray<double> Values { get; }

    public static QuarterHourProfile Constant(double value) => new([.. Enumerable.Repeat(value, Length)]);

    /// <summary>The same 24 hourly means on each of the seven days, or seven days of 24 given Monday first.</summary>
    /// <exception cref="ArgumentException">Neither 24 nor 168 values.</exception>
    public static QuarterHourProfile FromHours(ReadOnlySpan<double> hours)
    {
        if (hours.Length is not (24 or 168))
        {
            throw new ArgumentException("Give 24 hourly values for every day, or 168 from Monday 00:00.", nameof(hours));
        }

        var values = ImmutableArray.CreateBuilder<double>(Length);
        for (var quarter = 0; quarter < Length; quarter++)
        {
            values.Add(hours[quarter / 4 % hours.Length]);
        }

        return new(values.MoveToImmutable());
    }

    /// <summary>Mean of the planning quarter-hour that holds the local time.</summary>
    public double At(DayOfWeek day, TimeOnly localTime) => Values[IndexOf(day, localTime)];

    public static int IndexOf(DayOfWeek day, TimeOnly localTime) =>
        ((int)day + 6) % 7 * QuartersPerDay + localTime.Hour * 4 + localTime.Minute / 15;

    public bool Equals(QuarterHourProfile? other) => other is not null && Values.AsSpan().SequenceEqual(other.Values.AsSpan());
    public override int GetHashCode() => HashCode.Combine(Values[0], Values[Length / 2], Values[^1]);
}
