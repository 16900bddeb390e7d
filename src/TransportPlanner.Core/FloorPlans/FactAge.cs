namespace TransportPlanner.Core.FloorPlans;

/// <summary>How old a fact is. A fact fades by its day: the building goes on changing after somebody measured it.</summary>
public static class FactAge
{
    /// <summary>Whole months from a day to today, rounded down; negative where the day lies ahead.</summary>
    public static int Months(DateOnly day, DateOnly today) =>
        (today.Year - day.Year) * 12 + today.Month - day.Month - (today.Day < day.Day ? 1 : 0);

    /// <summary>Whether a fact has a day, and that day lies a number of whole months back or more.</summary>
    public static bool IsOld<T>(Fact<T> fact, DateOnly today, int limitMonths)
        where T : struct => fact is { IsKnown: true, AsOf: { } day } && Months(day, today) >= limitMonths;

    /// <summary>A warning for each place whose air changes were measured or drawn a number of months ago or more. What is assumed or has no day does not age.</summary>
    public static IEnumerable<Finding> OldAirChanges(FloorPlan plan, DateOnly today, int limitMonths)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return
            from place in plan.Places
            where place.AirChanges.Source != FactSource.Assumed && IsOld(place.AirChanges, today, limitMonths)
            select FloorPlanCheck.Warning($"place {place.Number}", "airChangesAge",
                $"The air changes of {place.Number} ({place.AirChanges.Value.PerHour:0.##} per hour) are as of {place.AirChanges.AsOf:yyyy-MM-dd}, which is beyond the site's limit of {limitMonths} months: have them measured again.");
    }
}
