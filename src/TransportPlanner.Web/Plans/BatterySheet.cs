using TransportPlanner.Web.Batteries;

namespace TransportPlanner.Web.Plans;

/// <summary>The batteries of a plan on one of its ways.</summary>
/// <param name="Batteries">In the order given.</param>
/// <param name="OfWay">Null in a version that was made before batteries were planned.</param>
internal sealed record BatterySheet(IReadOnlyList<BatteryResponse> Batteries, RouteBatteriesResponse? OfWay)
{
    /// <summary>The weakest that is known.</summary>
    public BatteryResponse? First => Batteries.FirstOrDefault(battery => battery.Number == OfWay?.FirstToDie);

    public IEnumerable<BatteryResponse> Unknown => Batteries.Where(battery => battery.Minutes is null);
}
