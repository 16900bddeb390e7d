using TransportPlanner.Core.Gas;

namespace TransportPlanner.Core.Plans;

/// <summary>Which time of the way gas is judged on.</summary>
public enum JourneyTimeKind
{
    /// <summary>Half of such journeys take no longer.</summary>
    Usually,
    /// <summary>Nine in ten take no longer.</summary>
    NearlyAlways,
    /// <summary>The latest arrival when one element of the way fails and the fallback is taken.</summary>
    PlanBWorst,
}

/// <summary>Every rule against the supply for one time of the way.</summary>
/// <param name="Time">Which time.</param>
/// <param name="JourneyMinutes">That time, rounded up to a tenth of a minute.</param>
/// <param name="Rules">In the order of the settings.</param>
public sealed record GasVerdict(JourneyTimeKind Time, decimal JourneyMinutes, IReadOnlyList<RuleVerdict> Rules);
