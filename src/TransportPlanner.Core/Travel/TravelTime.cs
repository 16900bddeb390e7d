using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>Time of one crossing, or of one stretch, by its parts. A stall stands apart from all of them.</summary>
/// <param name="Walking">Shares one pace with all other walking of the journey.</param>
/// <param name="Door">Opening and passing of the door at its end.</param>
/// <param name="Wait">Call of an elevator, spent on the landing.</param>
/// <param name="Ride">Loading, doors, flight and unloading.</param>
/// <param name="StallProbability">0 to 1: chance that the ride stalls.</param>
/// <param name="StallDuration">How long it then lasts, in addition.</param>
public readonly record struct TravelTime(
    DurationEstimate Walking, DurationEstimate Door, DurationEstimate Wait, DurationEstimate Ride, double StallProbability, DurationEstimate StallDuration)
{
    /// <summary>Mean without a stall: how long one is in the place.</summary>
    public double DwellSeconds => Walking.ExpectedSeconds + Door.ExpectedSeconds + Wait.ExpectedSeconds + Ride.ExpectedSeconds;

    /// <summary>Mean with the chance of a stall; the mean of <see cref="JourneyTime"/> is the sum of these.</summary>
    public double ExpectedSeconds => DwellSeconds + StallProbability * StallDuration.ExpectedSeconds;

    public double MinimumSeconds => Walking.MinimumSeconds + Door.MinimumSeconds + Wait.MinimumSeconds + Ride.MinimumSeconds;
}
