namespace TransportPlanner.Core.Airing;

/// <summary>A site's fixed airing minutes for places that are not computed.</summary>
/// <param name="Minutes">Whole minutes, 0 to 1,440.</param>
/// <param name="Source">Who set it and when, in words.</param>
/// <param name="IsAssumed">True where it is the planner's default and the site has not confirmed it.</param>
public sealed record AiringPolicy(int Minutes, string Source, bool IsAssumed)
{
    public const int MaxMinutes = 1_440;
}
