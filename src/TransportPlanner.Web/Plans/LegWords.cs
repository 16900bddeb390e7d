using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>Where to go from a leg, in words for the sheet and the terminal.</summary>
internal static class LegWords
{
    /// <summary>Bail-out points and wall oxygen, each onward and back, or on this leg where nobody turns back for it: <c>bail-out, oxygen: on N-4.03, 23 m, 0:31; back D-2.14, 3 m, 0:03</c>.</summary>
    public static string WaysOut(LegResponse leg, SiteDisplay show)
    {
        if (leg.WaysOut is not { } ways)
        {
            return $"{Nearest("bail-out", leg.BailOut, show)} · {Nearest("oxygen outlet", leg.NearestOxygenOutlet, show)}";
        }

        // A bail-out point usually has the nearest oxygen too: then one entry says both.
        var isOne = (ways.BailOutOnward, ways.BailOutBack) == (ways.OxygenOnward, ways.OxygenBack);
        var destination = ways is { DestinationSeconds: > 0, IsDestinationNearest: true } ? $" · destination nearer, {PlanWords.Clock(ways.DestinationSeconds)} on" : "";
        return BothWays(isOne ? "bail-out, oxygen" : "bail-out", ways.BailOutOnward, ways.BailOutBack, ways.IsBailOutBackOnLeg, leg, show)
            + (isOne ? "" : $" · {BothWays("oxygen", ways.OxygenOnward, ways.OxygenBack, ways.IsOxygenBackOnLeg, leg, show)}") + destination;
    }

    /// <summary>What to do if the fire alarm sounds now: <c>fire alarm (2W): DR-2.013 to 2C, 12 m on</c>. Empty in plans of earlier releases.</summary>
    public static string FireAlarm(LegResponse leg, SiteDisplay show)
    {
        if (leg.WaysOut is not { } ways)
        {
            return "";
        }

        if (ways.FireCompartment is not { } compartment)
        {
            return PackTexts.FireUnknown;
        }

        // One door at the leg itself lies on and back: it is said once.
        List<string> doors = (ways.FireDoorOnward, ways.FireDoorBack) is ({ } on, { } back) && on.Passage == back.Passage && show.Whole(on.Metres) == show.Whole(back.Metres)
            ? [Door(PackTexts.FireDoorHere, PackTexts.FireDoorAt, on, on.Compartment == back.Compartment ? on.Compartment : PackText.Of(PackTexts.ListOr, on.Compartment, back.Compartment), show)]
            :
            [
                .. ways.FireDoorOnward is { } onward ? [Door(PackTexts.FireDoorHereOn, PackTexts.FireDoorOn, onward, onward.Compartment, show)] : Array.Empty<string>(),
                .. ways.FireDoorBack is { } behind ? [Door(ways.IsFireDoorBackOnLeg ? PackTexts.FireDoorHere : PackTexts.FireDoorHereBack, ways.IsFireDoorBackOnLeg ? PackTexts.FireDoorOnLeg : PackTexts.FireDoorBack, behind, behind.Compartment, show)] : Array.Empty<string>(),
            ];
        var what = doors.Count == 0 ? PackTexts.FireNoDoor : PackText.List(PackTexts.FireOr, doors);
        return leg.Elevator is { } ride ? PackText.Of(PackTexts.FireInCar, compartment, ride.FromLevel, what) : PackText.Of(PackTexts.Fire, compartment, what);
    }

    /// <summary>Where on a leg nobody can call: <c>no radio in C-2.03; no Wi-Fi in C-2.03, L-2.01</c>. Empty where there is no such place.</summary>
    /// <param name="leg">The leg.</param>
    /// <param name="flags">Flags of places by their numbers; a place without any counts as none.</param>
    public static string DeadSpots(LegResponse leg, IReadOnlyDictionary<string, PlaceFlags> flags)
    {
        (PlaceFlags Flag, string Words)[] kinds = [(PlaceFlags.NoRadio, PackTexts.NoRadio), (PlaceFlags.NoWifi, PackTexts.NoWifi)];
        return string.Join("; ",
            from kind in kinds
            let spots = leg.Places.Distinct().Where(place => flags.GetValueOrDefault(place).HasFlag(kind.Flag)).ToList()
            where spots.Count > 0
            select PackText.Of(kind.Words, string.Join(", ", spots)));
    }

    private static string BothWays(string what, NearbyPlace? onward, NearbyPlace? back, bool isBackOnLeg, LegResponse leg, SiteDisplay show) => (onward, back) switch
    {
        (null, null) => $"{what}: none known",
        ({ Seconds: 0 }, _) when onward == back => $"{what}: here, {onward.Place}",
        _ => $"{what}: {string.Join("; ", [.. One("on", onward, leg, show), .. One(isBackOnLeg ? "on this leg" : "back", back, leg, show)])}",
    };

    private static IEnumerable<string> One(string direction, NearbyPlace? place, LegResponse leg, SiteDisplay show) => place is null
        ? []
        : [string.Create(CultureInfo.InvariantCulture, $"{direction} {place.Place}{(place.Level == leg.Level ? "" : $" (level {place.Level})")}, {show.Length(place.Metres)}, {PlanWords.Clock(place.Seconds)}")];

    private static string Door(string here, string away, FireDoor door, string compartments, SiteDisplay show) =>
        show.Whole(door.Metres) == 0 ? PackText.Of(here, door.Passage, compartments) : PackText.Of(away, door.Passage, compartments, show.Length(door.Metres));

    private static string Nearest(string what, NearbyPlace? place, SiteDisplay show) => place is null ? $"no {what} known" : $"{what} {place.Place}, {show.Length(place.Metres)}";
}
