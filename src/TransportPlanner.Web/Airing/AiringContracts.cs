using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Web.Airing;

/// <summary>One empty place and its ventilation.</summary>
public sealed record AiringRequest
{
    /// <summary>Air changes per hour, 0.1 to 1,000, kept to a hundredth. Where they are unknown there is nothing to compute: the site's fixed time decides.</summary>
    [Range(AiringTime.MinAirChangesPerHour, AirChangeRate.MaxPerHour, ErrorMessage = "Give 0.1 to 1000 air changes per hour; where they are unknown the site's fixed time decides.")]
    public required double AirChangesPerHour { get; init; }

    /// <summary>Share of what was in the air that is to be removed, percent, 50 to 99.9999.</summary>
    [Range(AiringTime.MinRemovalPercent, AiringTime.MaxRemovalPercent, ErrorMessage = "Give a removal of 50 to 99.9999 percent: 99.9, not 0.999.")]
    public required double RemovalPercent { get; init; }

    /// <summary>1 for perfect mixing, up to 10 for poor. Default 1.</summary>
    [Range(AiringTime.MinMixingFactor, AiringTime.MaxMixingFactor, ErrorMessage = "Give a mixing factor of 1 (perfect) to 10 (poor).")]
    public double MixingFactor { get; init; } = AiringTime.MinMixingFactor;
}

/// <summary>How long nobody enters. It opens no place: a person does.</summary>
/// <param name="ExactMinutes">Minutes, rounded up to a thousandth.</param>
/// <param name="Minutes">Whole minutes, rounded up.</param>
/// <param name="Working">The formula with the numbers put in.</param>
/// <param name="Assumptions">What must hold for the figure to mean anything.</param>
public sealed record AiringResponse(double ExactMinutes, long Minutes, string Working, IReadOnlyList<string> Assumptions)
{
    internal static AiringResponse From(AiringTime time) => new(time.ExactMinutes, time.Minutes, time.Working, time.Assumptions);
}
