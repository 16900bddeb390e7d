using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>The week of a place as shares of its busiest hour: 24 values for a working day and 24 for a day of the weekend.</summary>
/// <remarks>Synthetic. Published hour-by-hour counts of corridors and elevators were not found (movement.csv, MV-A4).</remarks>
internal sealed record Rhythm(double[] WorkingDay, double[] Weekend)
{
    /// <summary>Shift changes at 07, 15 and 23; meals at 12 and 18; visiting from 14 to 20.</summary>
    public static readonly Rhythm PublicWay = new(
        [.08, .06, .05, .05, .06, .15, .55, .90, .70, .65, .65, .75, .95, .80, .90, 1.0, .85, .75, .80, .70, .40, .25, .30, .20],
        [.08, .06, .05, .05, .06, .12, .45, .70, .40, .40, .45, .55, .70, .70, .85, .95, .85, .75, .75, .65, .35, .22, .28, .18]);

    /// <summary>Empty at night, clinics and visitors by day, visitors only at the weekend.</summary>
    public static readonly Rhythm Lobby = new(
        [.03, .02, .02, .02, .03, .08, .35, .80, .95, 1.0, .95, .90, .85, .90, .95, .90, .80, .70, .65, .55, .25, .12, .10, .05],
        [.03, .02, .02, .02, .02, .04, .15, .30, .25, .28, .30, .32, .35, .45, .55, .55, .50, .45, .40, .35, .15, .08, .08, .04]);

    /// <summary>Open from 08 to 17 on working days only.</summary>
    public static readonly Rhythm Clinic = new(
        [0, 0, 0, 0, 0, 0, .02, .25, .85, 1.0, 1.0, .90, .50, .80, .95, .85, .60, .20, .05, 0, 0, 0, 0, 0],
        [0, 0, 0, 0, 0, 0, 0, 0, .02, .05, .05, .03, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);

    /// <summary>Patients and staff round the clock, visitors in the afternoon.</summary>
    public static readonly Rhythm Ward = new(
        [.55, .55, .55, .55, .55, .55, .60, .85, .75, .75, .70, .70, .75, .70, .95, 1.0, .95, .85, .90, .85, .65, .60, .60, .60],
        [.55, .55, .55, .55, .55, .55, .60, .80, .65, .65, .65, .65, .75, .75, 1.0, 1.0, 1.0, .90, .95, .90, .65, .60, .60, .60]);

    /// <summary>Carts in the morning, after meals and before the night; staff at the shift change.</summary>
    public static readonly Rhythm Service = new(
        [.05, .04, .04, .05, .15, .45, .80, 1.0, .75, .85, .70, .60, .65, .95, .70, .65, .45, .40, .50, .75, .40, .20, .25, .10],
        [.05, .04, .04, .05, .10, .35, .65, .80, .50, .55, .50, .45, .55, .75, .50, .45, .35, .35, .45, .65, .35, .20, .22, .10]);

    /// <summary>Sterile goods and surgical staff: lists by day, one on-call team at night.</summary>
    public static readonly Rhythm Clean = new(
        [.15, .10, .10, .10, .12, .20, .60, 1.0, .95, .85, .85, .80, .70, .80, .85, .75, .60, .45, .35, .40, .25, .20, .25, .18],
        [.12, .10, .10, .10, .12, .18, .40, .55, .35, .35, .35, .35, .35, .35, .35, .40, .30, .28, .28, .32, .22, .20, .22, .15]);

    public static readonly Rhythm Steady = new([.. Enumerable.Repeat(1.0, 24)], [.. Enumerable.Repeat(1.0, 24)]);

    /// <summary>Hourly means from the floor to the busiest hour, kept to a hundredth.</summary>
    public QuarterHourProfile Between(double least, double most)
    {
        var week = new double[7 * 24];
        for (var hour = 0; hour < week.Length; hour++)
        {
            var share = (hour < 5 * 24 ? WorkingDay : Weekend)[hour % 24];
            week[hour] = Math.Round(least + share * (most - least), 2);
        }

        return QuarterHourProfile.FromHours(week);
    }
}
