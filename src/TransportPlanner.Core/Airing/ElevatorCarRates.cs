using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Airing;

/// <summary>
/// Air changes of an elevator car where the site has none of its own: the slow end of van Rijn et al., Indoor Air 2020;30:1065-1066,
/// a hundredfold fall in 18 min in normal use and in 4 min with doors held open, as 60 × ln(100) ÷ minutes.
/// </summary>
public static class ElevatorCarRates
{
    public const string Source = "slow end measured in hospital elevators (van Rijn et al., Indoor Air 2020;30:1065-1066)";

    public static AirChangeRate DoorsShut { get; } = FromHundredfoldFall(18);
    public static AirChangeRate DoorsOpen { get; } = FromHundredfoldFall(4);

    private static AirChangeRate FromHundredfoldFall(double minutes) =>
        AirChangeRate.FromPerHour(60 * Math.Log(100) / minutes);
}
