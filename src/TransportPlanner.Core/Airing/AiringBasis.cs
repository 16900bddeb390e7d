namespace TransportPlanner.Core.Airing;

/// <summary>What an airing time comes from.</summary>
public enum AiringBasis
{
    /// <summary>Computed from air changes, removal and mixing.</summary>
    AirChanges,
    /// <summary>The site's fixed minutes: air changes unknown, or a corridor.</summary>
    Policy,
}
