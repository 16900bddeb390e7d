using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Makes like things differ a little, always in the same way: the pick depends on the thing's own name, not on its order.</summary>
internal static class Variation
{
    private static readonly DateOnly[] Surveys =
    [
        new(2024, 2, 12), new(2024, 6, 3), new(2024, 11, 19), new(2025, 3, 27), new(2025, 9, 8), new(2025, 12, 15), new(2026, 3, 19),
    ];

    private static readonly FactSource[] HowKnown =
    [
        FactSource.Measured, FactSource.Measured, FactSource.Measured, FactSource.Drawing, FactSource.Measured,
        FactSource.Measured, FactSource.Measured, FactSource.Drawing, FactSource.Measured, FactSource.Measured, FactSource.Assumed,
    ];

    public static T Pick<T>(IReadOnlyList<T> table, string name)
    {
        var sum = 0u;
        foreach (var letter in name)
        {
            sum = unchecked(sum * 31 + letter);
        }

        return table[(int)(sum % 65_521 % (uint)table.Count)];
    }

    /// <summary>A day of survey, between February 2024 and March 2026.</summary>
    public static DateOnly Day(string name) => Pick(Surveys, name);

    /// <summary>Mostly measured, sometimes read from a drawing, seldom assumed.</summary>
    public static FactSource Source(string name) => Pick(HowKnown, name);
}
