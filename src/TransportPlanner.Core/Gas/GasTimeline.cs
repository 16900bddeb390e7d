namespace TransportPlanner.Core.Gas;

/// <summary>How much a cylinder still gives at a minute of the journey, above its residual, to a thousandth of a litre.</summary>
public sealed record ContentsAt(decimal Minute, decimal Litres);

/// <summary>One cylinder while it is connected.</summary>
/// <param name="Number">Its place in the request, from 1.</param>
/// <param name="FromMinute">When it is connected; 0: from leaving.</param>
/// <param name="UntilMinute">When it is changed over, is empty, or the journey ends, whichever is first; rounded down to a thousandth.</param>
/// <param name="EmptyAtMinute">When it is empty if nobody changes it, rounded down to a thousandth; null: it is not drawn.</param>
/// <param name="EmptyAtMinuteLow">The same with the gauge too high and the flowmeter too low by their permissible errors at once.</param>
/// <param name="Contents">From the first minute to the last, a straight line between neighbours.</param>
public sealed record CylinderInUse(
    int Number, decimal FromMinute, decimal UntilMinute, decimal? EmptyAtMinute, decimal? EmptyAtMinuteLow, IReadOnlyList<ContentsAt> Contents);

/// <summary>One gas along the journey.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="Cylinders">In the order in which they are connected.</param>
/// <param name="EndsAtMinute">When the last of them is empty, rounded down to a thousandth; null: the gas is not drawn from cylinders.</param>
/// <param name="EndsAtMinuteLow">The same at the low end of the band.</param>
/// <param name="LastsTheJourney">Whether even the low end reaches the end of the journey.</param>
public sealed record GasContents(
    GasKind Gas, IReadOnlyList<CylinderInUse> Cylinders, decimal? EndsAtMinute, decimal? EndsAtMinuteLow, bool LastsTheJourney);

/// <summary>When and where one cylinder takes over from another.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="From">The cylinder that is shut, by its place in the request, from 1.</param>
/// <param name="To">The cylinder that is opened.</param>
/// <param name="AtMinute">Minutes after leaving; 0: before leaving.</param>
/// <param name="Where">Name of the stretch, or <c>before leaving</c>.</param>
/// <param name="Place">What the place offers.</param>
/// <param name="Working">Why there, in words with the numbers put in.</param>
public sealed record ChangeOver(GasKind Gas, int From, int To, decimal AtMinute, string Where, ChangeOverPlace Place, string Working)
{
    /// <summary>Number of the place where the stretch begins; null before leaving, and where the stretch has none.</summary>
    public string? PlaceNumber { get; init; }
}

/// <summary>Of which gas a figure speaks. Closed list.</summary>
public enum StallGas
{
    Oxygen,
    /// <summary>Oxygen, which flows alone since air has ended.</summary>
    OxygenSinceAirEnded,
    Air,
    /// <summary>Oxygen at the full flow and fraction 1.0.</summary>
    OxygenAlone,
}

/// <summary>What is left when the team reaches an elevator that then stalls. Nothing is changed over inside it.</summary>
/// <param name="Where">Name of the ride.</param>
/// <param name="AtMinute">When it is reached.</param>
/// <param name="Minutes">With the cylinders that are connected, rounded down: the lesser of the supply and oxygen alone; null: nothing is drawn.</param>
/// <param name="MinutesLow">The same at the low end of the band.</param>
/// <param name="MinutesWithReserve">With the cylinders that are carried in unopened too.</param>
/// <param name="Working">Which figure is the lesser, with the numbers put in.</param>
public sealed record ElevatorStall(string Where, decimal AtMinute, long? Minutes, long? MinutesLow, long? MinutesWithReserve, string Working)
{
    /// <summary>The lesser figure's gas; null where nothing is drawn.</summary>
    public StallGas? Counted { get; init; }

    /// <summary>When it is reached, min to the nearest tenth, as <see cref="Working"/> says.</summary>
    public decimal ReachedMinute { get; init; }

    /// <summary>The lesser figure without a word: <c>252 L ÷ 10 L/min = 25 min</c>; empty where nothing is drawn.</summary>
    public string Figures { get; init; } = "";
}

/// <summary>
/// Contents of every cylinder over the journey, changed over in the order of the request. A change-over is planned at the latest outlet that is
/// reached before the low end of the cylinder in use, else at the latest other place to stand still; where no stop is reached in time, a cylinder
/// that lasts longer is connected before leaving. Once one gas of a blend has ended, the blender passes the other at full flow.
/// </summary>
/// <param name="JourneyMinutes">Sum of the stretches.</param>
/// <param name="Gases">Oxygen, then air.</param>
/// <param name="ChangeOvers">In order of time.</param>
/// <param name="Stalls">One for each ride.</param>
/// <param name="Events">What ends when, and what then happens, in words.</param>
public sealed record GasTimeline(
    decimal JourneyMinutes, IReadOnlyList<GasContents> Gases, IReadOnlyList<ChangeOver> ChangeOvers, IReadOnlyList<ElevatorStall> Stalls,
    IReadOnlyList<string> Events)
{
    /// <summary>Where nothing is known about stops: one stretch in which nothing is changed over.</summary>
    internal static IReadOnlyList<JourneyStretch> WithoutStops(decimal journeyMinutes) => [new("the journey", journeyMinutes, ChangeOverPlace.Impossible)];

    internal static GasTimeline For(GasRequest request, IReadOnlyList<JourneyStretch> stretches)
    {
        var journey = JourneyStops.Of(stretches);
        var (oxygen, air) = (GasTrack.Of(GasKind.Oxygen, request, journey), GasTrack.Of(GasKind.Air, request, journey));
        // Whichever ends first leaves the other alone; the other is then planned again with its full flow from there.
        var (oxygenAfter, airAfter) = (oxygen.AfterTheOtherEnds(air), air.AfterTheOtherEnds(oxygen));
        GasTrack[] tracks = [oxygenAfter, airAfter];
        return new(
            journey.Minutes.Nearest(3),
            [.. tracks.Select(track => track.Contents)],
            [.. tracks.SelectMany(track => track.ChangeOvers).OrderBy(change => change.AtMinute)],
            [.. journey.Rides.Select(ride => StallAt(ride, request.Demand, oxygenAfter, airAfter))],
            GasEvents.Of(request, tracks, journey.Minutes));
    }

    private static ElevatorStall StallAt(JourneyStop ride, GasDemand demand, GasTrack oxygen, GasTrack air)
    {
        var (alone, aloneLow) = (demand.OxygenAloneFlow, demand.OxygenAloneFlow * ErrorBand.FlowFactor(demand));
        var connected = Least(false, false);
        var figures = connected is { } one ? GasText.Division(one.Litres, one.Flow, 1m) : "";
        var reached = ride.At.Nearest(1);
        // Air that has ended by the low end alone leaves oxygen, which may last longer than the last of the air.
        var atLeast = connected is { } typed && Least(true, false) is { } worst ? Rational.Min(worst.Minutes, typed.Minutes).Floor() : (long?)null;
        return new(
            ride.Stretch.Name, ride.At.Nearest(3), connected?.Minutes.Floor(), atLeast, Least(false, true)?.Minutes.Floor(),
            connected is { } least ? $"on reaching it at minute {GasText.Number(reached)}: {figures}: {NameOf(least.Gas)}" : "no cylinder is drawn")
        {
            Counted = connected?.Gas,
            ReachedMinute = reached,
            Figures = figures,
        };

        (Rational Minutes, Rational Litres, Rational Flow, StallGas Gas)? Least(bool low, bool withReserve)
        {
            (StallGas Gas, GasTrack Track, Rational Flow)[] all =
            [
                (HasEnded(air, low) ? StallGas.OxygenSinceAirEnded : StallGas.Oxygen, oxygen, oxygen.FlowAt(ride.At, low)),
                (StallGas.Air, air, air.FlowAt(ride.At, low)),
                (StallGas.OxygenAlone, oxygen, low ? aloneLow : alone),
            ];
            return all.Where(figure => figure.Track.IsFromCylinders && figure.Flow.IsPositive && !(figure.Track == air && HasEnded(air, low)))
                .Select(figure => (Litres: figure.Track.LitresAt(ride.At, low, withReserve), figure.Flow, figure.Gas))
                .Select(left => ((Rational, Rational, Rational, StallGas)?)(left.Litres / left.Flow, left.Litres, left.Flow, left.Gas))
                .MinBy(left => left!.Value.Item1);
        }

        static string NameOf(StallGas gas) => gas switch
        {
            StallGas.OxygenSinceAirEnded => "oxygen, which flows alone since air has ended",
            StallGas.OxygenAlone => "oxygen alone at fraction 1.0",
            StallGas.Air => "air",
            _ => "oxygen",
        };

        // Once air has ended the blender passes oxygen: what counts is the oxygen then.
        bool HasEnded(GasTrack track, bool low) => (low ? track.EndLow : track.End) is { } end && end <= ride.At;
    }
}
