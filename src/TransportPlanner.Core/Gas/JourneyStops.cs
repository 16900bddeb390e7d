namespace TransportPlanner.Core.Gas;

/// <summary>A stretch and the minute at which it is entered.</summary>
internal sealed record JourneyStop(Rational At, JourneyStretch Stretch);

/// <summary>The journey with the minutes at which its stretches are entered.</summary>
internal sealed record JourneyStops(Rational Minutes, IReadOnlyList<JourneyStop> Stretches)
{
    internal IEnumerable<JourneyStop> Rides => Stretches.Where(stop => stop.Stretch.IsElevator);

    internal static JourneyStops Of(IReadOnlyList<JourneyStretch> stretches)
    {
        var (at, stops) = (Rational.Zero, new List<JourneyStop>());
        foreach (var stretch in stretches)
        {
            stops.Add(new(at, stretch));
            at += stretch.Minutes;
        }

        return new(at, stops);
    }

    /// <summary>The latest stop of one kind after one minute and up to another; null where there is none.</summary>
    internal JourneyStop? LatestOf(ChangeOverPlace least, Rational after, Rational upTo) =>
        Stretches.LastOrDefault(stop => stop.Stretch.ChangeOver >= least && stop.At > after && stop.At <= upTo && stop.At < Minutes);
}
