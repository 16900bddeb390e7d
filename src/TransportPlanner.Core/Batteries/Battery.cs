namespace TransportPlanner.Core.Batteries;

/// <summary>A device that runs on its own battery under way. A closed list: nothing about an infant can be typed into it.</summary>
public enum BatteryDevice
{
    Ventilator,
    Monitor,
    InfusionPump,
    Incubator,
    Suction,
    Humidifier,
    Other,
}

/// <summary>One battery as somebody read it. What nobody gave is null and stays unknown: no figure here has a default.</summary>
public sealed record Battery
{
    public const int MaxMinutes = 2_880;
    public const int MaxAgeYears = 30;

    public required BatteryDevice Device { get; init; }

    /// <summary>Minutes that its maker gives for a new, full battery, above 0 and up to 2,880.</summary>
    public decimal? RatedMinutes { get; init; }

    /// <summary>Charge as the device shows it, 0 to 100 percent.</summary>
    public decimal? ChargePercent { get; init; }

    /// <summary>Months since the battery was new, 0 to 360.</summary>
    public decimal? AgeMonths { get; init; }

    /// <summary>What it really ran, once; null: nobody timed it.</summary>
    public BatteryTest? Test { get; init; }

    /// <summary>Months from one day to a later one, a month that has begun counted as a whole one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The second day lies before the first.</exception>
    public static int MonthsBetween(DateOnly from, DateOnly to)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        var whole = (to.Year - from.Year) * 12 + to.Month - from.Month;
        return from.AddMonths(whole) < to ? whole + 1 : whole;
    }

    internal void Validate()
    {
        Check(RatedMinutes is null or (> 0 and <= MaxMinutes), nameof(RatedMinutes));
        Check(ChargePercent is null or (>= 0 and <= 100), nameof(ChargePercent));
        Check(AgeMonths is null or (>= 0 and <= MaxAgeYears * 12), nameof(AgeMonths));
        Check(Test is null or { Minutes: >= 0 and <= MaxMinutes, AgeMonths: >= 0 and <= MaxAgeYears * 12 }, nameof(Test));
    }

    private static void Check(bool isFine, string name)
    {
        if (!isFine)
            throw new ArgumentOutOfRangeException(name);
    }
}

/// <summary>A run from full to empty that somebody timed.</summary>
/// <param name="Minutes">What it ran, 0 to 2,880.</param>
/// <param name="AgeMonths">Months since then, 0 to 360.</param>
public sealed record BatteryTest(decimal Minutes, decimal AgeMonths);

/// <summary>
/// How far a site trusts a battery. Both defaults are proposals of the project: the margin is RR-18; the yearly loss is common practice, unverified, beside the
/// finding that 40 percent of the oldest of 60 charged pumps died within 60 min (Tatman et al., Anaesthesia 1996;51:1041).
/// </summary>
/// <param name="MarginPercent">Never counted, 0 to 90 percent.</param>
/// <param name="LossPercentPerYear">Lost for each year of age, 0 to 100 percent of the new battery's time.</param>
public sealed record BatteryPolicy(decimal MarginPercent, decimal LossPercentPerYear)
{
    public static BatteryPolicy Proposed { get; } = new(20, 20);
}
