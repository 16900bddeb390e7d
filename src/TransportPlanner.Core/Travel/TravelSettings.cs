using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>
/// How a conveyance moves at a site. Every default is the project's own proposal and stands for <i>assumed</i> until the site gives its
/// own; where a published value was near, it is named. Times are minimum, likely, maximum.
/// </summary>
public sealed record TravelSettings
{
    /// <summary>Free on each side of the conveyance in a door, a corner and a car. No source.</summary>
    public Distance ClearanceEachSide { get; init; } = Distance.FromMillimetres(50);

    /// <summary>Floor of a car that one member of the crew needs. Source: MIL-HDBK-1191, 17.5.3.1, upper value (MV-40).</summary>
    public double CrewAreaSquareMetres { get; init; } = 0.325;

    /// <summary>Mass counted for one member of the crew. No source.</summary>
    public double CrewMassKilograms { get; init; } = 80;

    /// <summary>Highest threshold or floor gap a caster is pushed over. No source.</summary>
    public Distance MaxThreshold { get; init; } = Distance.FromMillimetres(30);

    /// <summary>Steepest slope in percent. Source: 2010 ADA Standards 405, 1:12 (MV-54, quoted).</summary>
    public double MaxGradientPercent { get; init; } = 8.33;

    /// <summary>Above this slope in percent the conveyance walks slowly all the way. Source: MIL-HDBK-1191, 17.4, 1:20 (MV-57).</summary>
    public double SlowGradientPercent { get; init; } = 5;

    /// <summary>Controls for which nobody with the transport carries the means. A key is taken to be elsewhere. No source.</summary>
    public ImmutableHashSet<AccessControl> CannotOpen { get; init; } = [AccessControl.Key];

    /// <summary>Straight and level. Likely 0.9 m/s; range 0.8–1.0 after MV-14 (project proposal: measure on site).</summary>
    public Pace Walking { get; init; } = Pace.FromMetresPerSecond(0.8, 0.9, 1.0);

    /// <summary>In turns over 45°, over thresholds, on slopes. Likely 0.45 m/s; range 0.4–0.5 after MV-15 (project proposal).</summary>
    public Pace Slow { get; init; } = Pace.FromMetresPerSecond(0.4, 0.45, 0.5);

    /// <summary>A door worked by hand by the team, where the plan has no time. Range after Kalliomaki 2021, 3–8 s (MV-27).</summary>
    public DurationEstimate ManualDoorAlone { get; init; } = new(3, 5, 8);

    /// <summary>A powered door, where the plan has no time. At least 3 s after ANSI/BHMA A156.19 (MV-29, memory).</summary>
    public DurationEstimate AutomaticDoorAlone { get; init; } = new(3, 4, 5);

    /// <summary>A door that the clean helper opened ahead, where the plan has no time. No source.</summary>
    public DurationEstimate DoorWithHelper { get; init; } = new(0, 1, 3);

    /// <summary>Mean wait where a group's is unknown: random arrivals at an interval of 40 s (MIL-HDBK-1191, MV-94; LW-31).</summary>
    public double MeanCallWaitSeconds { get; init; } = 40;

    /// <summary>Into the car, and again out of it. Source: MIL-HDBK-1191, 17.5.3.2, stretcher trolley 7.5–12.0 s (MV-22); likely is the middle.</summary>
    public DurationEstimate Loading { get; init; } = new(7.5, 9.75, 12);

    /// <summary>Opening of car and landing door, where unknown: CIBSE Guide D, bed car with side opening (MV-98, memory).</summary>
    public DurationEstimate CarDoorOpening { get; init; } = DurationEstimate.Exactly(3.5);

    /// <summary>Closing, where unknown: 4–5 s, same source.</summary>
    public DurationEstimate CarDoorClosing { get; init; } = new(4, 4.5, 5);

    /// <summary>From doors shut to motion. As in the reference rows LW-11 to LW-21 (derived).</summary>
    public double StartDelaySeconds { get; init; } = 0.5;

    /// <summary>How long before the stop the doors begin to open. None: the careful figure.</summary>
    public double AdvanceOpeningSeconds { get; init; }

    /// <summary>Rated speed in m/s where unknown; after MV-91 (1.015 m/s for four to five floors).</summary>
    public double CarSpeed { get; init; } = 1.0;

    /// <summary>Acceleration in m/s² where unknown; as in the reference rows LF-08 to LF-14.</summary>
    public double CarAcceleration { get; init; } = 0.6;

    /// <summary>Jerk in m/s³ where unknown; as in the reference rows LF-08 to LF-14.</summary>
    public double CarJerk { get; init; } = 0.9;

    /// <summary>Chance that one ride stalls, where unknown: 1 in 2,000. An invented figure; ask the maintainer of the elevator.</summary>
    public double StallProbability { get; init; } = 0.0005;

    /// <summary>How long a stall lasts, where unknown: 10 to 50 min, likely 30. Reported single cases of 30 and 50 min; no distribution is known.</summary>
    public DurationEstimate StallDuration { get; init; } = new(600, 1_800, 3_000);

    /// <summary>A closure that touches this span from departure forbids.</summary>
    public TimeSpan ClosureWindow { get; init; } = TimeSpan.FromMinutes(60);
}

/// <summary>Slowest, likely and fastest speed of one walk.</summary>
public readonly record struct Pace
{
    /// <exception cref="ArgumentException">A speed is zero, or they are not in order.</exception>
    public Pace(WalkingSpeed slowest, WalkingSpeed likely, WalkingSpeed fastest)
    {
        if (slowest == WalkingSpeed.Zero || slowest > likely || likely > fastest)
        {
            throw new ArgumentException($"Give 0 < slowest ≤ likely ≤ fastest; got {slowest}, {likely}, {fastest}.", nameof(likely));
        }

        (Slowest, Likely, Fastest) = (slowest, likely, fastest);
    }

    public WalkingSpeed Slowest { get; }
    public WalkingSpeed Likely { get; }
    public WalkingSpeed Fastest { get; }

    public static Pace FromMetresPerSecond(double slowest, double likely, double fastest) =>
        new(WalkingSpeed.FromMetresPerSecond(slowest), WalkingSpeed.FromMetresPerSecond(likely), WalkingSpeed.FromMetresPerSecond(fastest));

    /// <summary>Time for a length: fastest speed gives the minimum, slowest the maximum.</summary>
    public DurationEstimate TimeFor(double metres) =>
        new(metres / Fastest.MetresPerSecond, metres / Likely.MetresPerSecond, metres / Slowest.MetresPerSecond);
}
