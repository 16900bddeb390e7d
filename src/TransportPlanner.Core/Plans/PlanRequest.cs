using System.Collections.Immutable;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.Batteries;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>Everything a plan is made from. Clinical inputs that nobody gave are null here, never a default.</summary>
public sealed record PlanRequest
{
    public required RouteQuery Route { get; init; }
    public required RespiratorySupport Support { get; init; }

    /// <summary>Null: the support draws no gas. Where a figure was not given it stands at its worst and the demand says so.</summary>
    public required GasDemand? Demand { get; init; }

    /// <summary>Empty: gas is unknown, and the plan gives the least gauge per size instead.</summary>
    public ImmutableArray<Cylinder> Cylinders { get; init; } = [];

    /// <summary>Devices that run on a battery under way. Empty: nobody said, and the plan says unknown.</summary>
    public ImmutableArray<Battery> Batteries { get; init; } = [];

    /// <summary>Grams, 300 to 6,000; null: the kit spans the bands.</summary>
    public int? WeightGrams { get; init; }

    /// <summary>Weeks, 22 to 44; null: the kit spans the bands.</summary>
    public int? GestationWeeks { get; init; }

    /// <summary>Null: as many as it takes. Every start is a place of the floor plan.</summary>
    public OfficersGiven? Officers { get; init; }

    /// <summary>When the plan is asked for, UTC: nothing of the timeline begins earlier. Null: at departure.</summary>
    public DateTimeOffset? MadeAt { get; init; }

    /// <summary>Nobody named a departure: what is left to do is counted at the urgent tempo.</summary>
    public bool LeavesNow { get; init; }
    public PlanSettings Settings { get; init; } = new();
}

/// <summary>What a site says about gas, airing, posts, protective wear and the time that steps take.</summary>
public sealed record PlanSettings
{
    /// <summary>Rules that are judged side by side.</summary>
    public ImmutableArray<ReserveRule> Rules { get; init; } = [.. ReserveRule.SideBySide];

    /// <summary>The strictest of these decides the least gauge; by default every rule that is judged.</summary>
    public ImmutableArray<ReserveRule> SiteRules { get; init; } = [.. ReserveRule.SideBySide];

    /// <summary>Sizes that the site added and confirmed; the least gauge is given for them too.</summary>
    public ImmutableArray<CylinderSize> AddedSizes { get; init; } = [];

    /// <summary>How far a battery is trusted.</summary>
    public BatteryPolicy BatteryPolicy { get; init; } = BatteryPolicy.Proposed;

    /// <summary>Connector at the end of the oxygen hose, as the floor plan writes outlets; null: not known.</summary>
    public string? OxygenHose { get; init; }

    /// <summary>Connector at the end of the air hose; null: not known.</summary>
    public string? AirHose { get; init; }

    /// <summary>50 to 99.9999 percent.</summary>
    public double RemovalPercent { get; init; } = 99.9;

    /// <summary>1 to 10.</summary>
    public double MixingFactor { get; init; } = AiringTime.MinMixingFactor;

    /// <summary>For corridors and where air changes are unknown.</summary>
    public AiringPolicy AiringPolicy { get; init; } = new(30, "project default", IsAssumed: true);
    public PostSettings Posts { get; init; } = new();

    /// <summary>1 to 120; null: the figure of the wear rules.</summary>
    public int? HandHygieneSeconds { get; init; }

    /// <summary>How long each step before go and after arrival lasts.</summary>
    public TimelineSettings Timeline { get; init; } = new();

    /// <summary>Shift changes around the departure, UTC; null: nobody said when shifts change.</summary>
    public ImmutableArray<DateTimeOffset>? ShiftChanges { get; init; }

    /// <summary>For so long before and after a shift change its people are busy with it.</summary>
    public TimeSpan ShiftChangeLasts { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>What those who give care do with their protective wear for the way.</summary>
    public WearOnWay WearOnWay { get; init; }
}
