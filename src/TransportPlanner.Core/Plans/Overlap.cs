using System.Collections.Immutable;

namespace TransportPlanner.Core.Plans;

/// <summary>From when to when one transport has one place, an elevator's car among them.</summary>
/// <param name="Place">Number of the place.</param>
/// <param name="From">Nobody of it is there before: the earliest arrival, or the capture of a car.</param>
/// <param name="To">It has nearly always (P90) left by then. Not before <paramref name="From"/>.</param>
/// <param name="FreeAt">
/// When the place may be thought free for the next: aired, and a captured car parked and cleaned as the site asks. Equal to
/// <paramref name="To"/> where nothing is waited for; null where it is unknown how long that takes. Of a car the longer time, with its doors shut.
/// </param>
/// <param name="FreeAtDoorsOpen">The same for a car parked with its doors open; null for every other place.</param>
public sealed record PlaceWindow(string Place, DateTimeOffset From, DateTimeOffset To, DateTimeOffset? FreeAt, DateTimeOffset? FreeAtDoorsOpen = null);

/// <summary>How two transports come upon each other in a place.</summary>
public enum OverlapKind
{
    /// <summary>Both may be there in the same moment.</summary>
    SameTime,

    /// <summary>This one enters after the other has left, before the place is free of it.</summary>
    BeforeTheirsIsFree,

    /// <summary>The other enters after this one has left, before the place is free of this one.</summary>
    BeforeOursIsFree,
}

/// <summary>One place in which two transports come upon each other.</summary>
/// <param name="Kind">How.</param>
/// <param name="Ours">The window of the transport that is looked at.</param>
/// <param name="Theirs">The window of the other.</param>
public sealed record Overlap(OverlapKind Kind, PlaceWindow Ours, PlaceWindow Theirs)
{
    /// <summary>Every place in which two transports come upon each other, in the order in which ours enters them, then by number.</summary>
    /// <param name="ours">One window for each place of our way.</param>
    /// <param name="theirs">One window for each place of their way.</param>
    /// <remarks>
    /// Windows that touch do not overlap: who enters at the instant at which the other has left, or at which the place is free, meets nothing. The
    /// answer to the two lists exchanged names the same places. Whose right of way it is, a person decides.
    /// </remarks>
    public static ImmutableArray<Overlap> Between(IEnumerable<PlaceWindow> ours, IEnumerable<PlaceWindow> theirs)
    {
        ArgumentNullException.ThrowIfNull(ours);
        ArgumentNullException.ThrowIfNull(theirs);
        return
        [
            .. from our in ours
            join their in theirs on our.Place equals their.Place
            let kind = KindOf(our, their)
            where kind is not null
            orderby our.From, our.Place
            select new Overlap(kind.Value, our, their)
        ];
    }

    /// <summary>The least whole number of minutes by which ours has to leave later, so that it comes upon none of the others in any place.</summary>
    /// <param name="ours">Our way.</param>
    /// <param name="others">Every way that another transport may take.</param>
    /// <param name="mostMinutes">How long a wait is looked at.</param>
    /// <returns>0 where nothing overlaps now; null where no such minute is free.</returns>
    public static int? MinutesLater(IReadOnlyList<PlaceWindow> ours, IReadOnlyList<IReadOnlyList<PlaceWindow>> others, int mostMinutes)
    {
        ArgumentNullException.ThrowIfNull(ours);
        ArgumentNullException.ThrowIfNull(others);
        // Later by d, ours meets theirs exactly while theirs.From − ours.FreeAt < d < theirs.FreeAt − ours.From; unknown is never over. Each pair
        // takes a stretch of minutes away: +1 where it begins, −1 behind its end.
        var taken = new int[mostMinutes + 2];
        var byPlace = ours.ToLookup(our => our.Place);
        foreach (var their in others.SelectMany(windows => windows))
        {
            foreach (var our in byPlace[their.Place])
            {
                var first = our.FreeAt is { } ourEnd ? Math.Max(0, Math.Floor((their.From - ourEnd).TotalMinutes) + 1) : 0;
                var last = their.FreeAt is { } theirEnd ? Math.Min(mostMinutes, Math.Ceiling((theirEnd - our.From).TotalMinutes) - 1) : mostMinutes;
                if (first <= last)
                {
                    taken[(int)first]++;
                    taken[(int)last + 1]--;
                }
            }
        }

        var meeting = 0;
        for (var minutes = 0; minutes <= mostMinutes; minutes++)
        {
            meeting += taken[minutes];
            if (meeting == 0)
            {
                return minutes;
            }
        }

        return null;
    }

    private static OverlapKind? KindOf(PlaceWindow ours, PlaceWindow theirs) =>
        ours.From < theirs.To && theirs.From < ours.To ? OverlapKind.SameTime
        : ours.From >= theirs.To ? IsBefore(ours.From, theirs.FreeAt) ? OverlapKind.BeforeTheirsIsFree : null
        : IsBefore(theirs.From, ours.FreeAt) ? OverlapKind.BeforeOursIsFree : null;

    /// <summary>What is unknown is never taken for over.</summary>
    private static bool IsBefore(DateTimeOffset entry, DateTimeOffset? freeAt) => freeAt is null || entry < freeAt;
}
