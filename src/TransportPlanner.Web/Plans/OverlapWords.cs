using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>Two transports at once, in words for the sheet.</summary>
internal static class OverlapWords
{
    public static string Of(OverlapKind kind) => kind switch
    {
        OverlapKind.SameTime => "at the same time",
        OverlapKind.BeforeTheirsIsFree => "before it is free of the other",
        OverlapKind.BeforeOursIsFree => "the other, before it is free of this one",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No words for this kind of overlap."),
    };

    /// <summary>How many places, and the first of them by its number and name.</summary>
    public static string Places(TransportOverlapResponse other)
    {
        var places = other.Places.DistinctBy(place => place.Place).ToList();
        return $"{places[0].Place}{(places[0].Name is { } name ? $" ({name})" : "")}" + (places.Count == 1 ? "" : $" and {places.Count - 1} other {(places.Count == 2 ? "place" : "places")}");
    }

    /// <summary>One line for a card, short enough for a huddle of a minute: who crosses first, where and when, and how much more there is.</summary>
    public static string OnCard(RouteOverlapsResponse overlaps, string timeZone)
    {
        var (first, others) = (overlaps.Transports[0], overlaps.Transports.Count - 1);
        var (place, places) = (first.Places[0], first.Places.DistinctBy(met => met.Place).Count() - 1);
        var who = others == 0 ? first.CallSign : PackText.Of(PackTexts.OverlapOthers, first.CallSign, others);
        var when = PackText.Of(
            place.Theirs.FreeAt is null ? PackTexts.OverlapUntilLater : PackTexts.OverlapUntil,
            PackWords.Time(place.Theirs.From, timeZone), Free(place.Theirs.FreeAt ?? place.Theirs.To, timeZone));
        return places == 0 ? PackText.Of(PackTexts.Overlap, who, place.Place, when) : PackText.Of(PackTexts.OverlapMore, who, place.Place, when, places);
    }

    /// <summary>Leaving and, where it is later, when the place may be thought free.</summary>
    public static string Of(PlaceWindowResponse window, string timeZone)
    {
        string Time(DateTimeOffset instant) => Clock(instant, timeZone);
        var stay = $"{Time(window.From)} to {Time(window.To)}";
        return window.FreeAt is not { } free ? $"{stay}, free: unknown when"
            : window.FreeAtDoorsOpen is { } open && open != free ? $"{stay}, free {Free(open, timeZone)} with doors open, {Free(free, timeZone)} shut"
            : free > window.To ? $"{stay}, free {Free(free, timeZone)}"
            : stay;
    }

    /// <summary>What may be done, one sentence each.</summary>
    public static IEnumerable<string> WhatMayBeDone(RouteOverlapsResponse overlaps)
    {
        yield return overlaps.LeaveLaterMinutes is { } minutes
            ? $"Leave {minutes} min later by way {overlaps.Route}: then it comes upon no other transport. Make the plan again for that departure."
            : $"Leaving later, up to 3 h: way {overlaps.Route} comes upon another transport at every minute.";
        yield return overlaps.ClearRoutes.Count > 0
            ? $"Take way {string.Join(" or ", overlaps.ClearRoutes)}: it comes upon no other transport."
            : "Every other way of this plan meets them too.";
        yield return "Or let the other wait. Who goes first, a person decides.";
    }

    /// <summary>Seconds count where two teams meet at a door.</summary>
    private static string Clock(DateTimeOffset instant, string timeZone) => TimeOfDay.Of(instant, timeZone, "HH:mm:ss");

    /// <summary>Rounded up to the minute: never free too early.</summary>
    private static string Free(DateTimeOffset instant, string timeZone) =>
        TimeOfDay.Of(instant.AddSeconds(59).AddTicks(TimeSpan.TicksPerSecond - 1), timeZone);
}
