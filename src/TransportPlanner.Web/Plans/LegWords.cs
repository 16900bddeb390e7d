using System.Globalization;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Where to go from a leg, in words for the sheet and the terminal.</summary>
internal static class LegWords
{
    /// <summary>Bail-out points and wall oxygen, each onward and back: <c>bail-out, oxygen: on N-4.03, 23 m, 0:31; back D-2.14, 3 m, 0:03</c>.</summary>
    public static string WaysOut(LegResponse leg)
    {
        if (leg.WaysOut is not { } ways)
        {
            return $"{Nearest("bail-out", leg.BailOut)} · {Nearest("oxygen outlet", leg.NearestOxygenOutlet)}";
        }

        // A bail-out point usually has the nearest oxygen too: then one entry says both.
        var isOne = (ways.BailOutOnward, ways.BailOutBack) == (ways.OxygenOnward, ways.OxygenBack);
        var destination = ways is { DestinationSeconds: > 0, IsDestinationNearest: true } ? $" · destination nearer, {PlanWords.Clock(ways.DestinationSeconds)} on" : "";
        return BothWays(isOne ? "bail-out, oxygen" : "bail-out", ways.BailOutOnward, ways.BailOutBack, leg)
            + (isOne ? "" : $" · {BothWays("oxygen", ways.OxygenOnward, ways.OxygenBack, leg)}") + destination;
    }

    /// <summary>What to do if the fire alarm sounds now: <c>fire alarm (2W): DR-2.013 to 2C, 12 m on</c>. Empty in plans of earlier releases.</summary>
    public static string FireAlarm(LegResponse leg)
    {
        if (leg.WaysOut is not { } ways)
        {
            return "";
        }

        if (ways.FireCompartment is not { } compartment)
        {
            return "fire alarm: the fire compartments are unknown here";
        }

        var head = $"fire alarm ({compartment}): {(leg.Elevator is { } ride ? $"stay on level {ride.FromLevel}, do not board; " : "")}";
        List<string> doors = [.. Door(ways.FireDoorOnward, "on"), .. Door(ways.FireDoorBack, "back")];
        return head + (doors.Count == 0 ? "no door to another compartment; bail-out point, call" : string.Join(", or ", doors));
    }

    private static string BothWays(string what, NearbyPlace? onward, NearbyPlace? back, LegResponse leg) => (onward, back) switch
    {
        (null, null) => $"{what}: none known",
        ({ Seconds: 0 }, _) when onward == back => $"{what}: here, {onward.Place}",
        _ => $"{what}: {string.Join("; ", [.. One("on", onward, leg), .. One("back", back, leg)])}",
    };

    private static IEnumerable<string> One(string direction, NearbyPlace? place, LegResponse leg) => place is null
        ? []
        : [string.Create(CultureInfo.InvariantCulture, $"{direction} {place.Place}{(place.Level == leg.Level ? "" : $" (level {place.Level})")}, {place.Metres:0} m, {PlanWords.Clock(place.Seconds)}")];

    private static IEnumerable<string> Door(FireDoor? door, string direction) => door is null
        ? []
        : [string.Create(CultureInfo.InvariantCulture, $"{door.Passage} to {door.Compartment}, {door.Metres:0} m {direction}")];

    private static string Nearest(string what, NearbyPlace? place) => place is null ? $"no {what} known" : $"{what} {place.Place}, {PlanWords.Count(place.Metres)} m";
}
