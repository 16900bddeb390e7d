using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>The limit that a conveyance meets. Closed list.</summary>
public enum LimitKind
{
    /// <summary>Free width of a passage against the conveyance with clearance on both sides, in metres.</summary>
    ClearWidth,
    /// <summary>Free height of a passage or a place, in metres.</summary>
    ClearHeight,
    /// <summary>Longest box of that width that turns, in metres.</summary>
    Corner,
    /// <summary>Floor of a car for conveyance and crew, in square metres.</summary>
    CarArea,
    CarLength,
    CarWidth,
    /// <summary>Clear width of the car's door, in metres.</summary>
    CarDoor,
    /// <summary>Rated load against module and crew, in kilograms.</summary>
    RatedLoad,
    /// <summary>Height to roll over, in metres.</summary>
    Threshold,
    /// <summary>Slope in percent.</summary>
    Gradient,
    NoCylinders,
    NoEntry,
    StairFlight,
    /// <summary>A lock for which nobody with the transport has the means.</summary>
    Access,
    /// <summary>Out of use at some time in the window after departure.</summary>
    Closure,
    /// <summary>A room between two doors of the way, where people are cared for or work, while another way may lead there.</summary>
    ThroughRoom,
}

/// <summary>Why a conveyance cannot pass: the first hard limit that fails, where, and by how much.</summary>
/// <param name="Kind">The limit; its member says the unit of the figures.</param>
/// <param name="Element">What <paramref name="Id"/> names.</param>
/// <param name="Id">Place number, passage id or elevator id.</param>
/// <param name="Present">The figure that is there; null for a limit without a figure, and where it is unknown.</param>
/// <param name="Needed">The figure needed, or the highest allowed; null for a limit without a figure.</param>
/// <param name="Statement">The whole finding in parts, figures and provenance included.</param>
/// <param name="Closure">The closure, where <paramref name="Kind"/> is <see cref="LimitKind.Closure"/>.</param>
public sealed record Obstacle(
    LimitKind Kind, ClosureTarget Element, string Id, double? Present, double? Needed, Statement Statement, Closure? Closure = null)
{
    /// <summary>The statement in English; starts in lower case, ends without a full stop.</summary>
    public string Sentence => Statement.Sentence;

    /// <summary>By how much it fails, in the unit of the limit; null where a figure is missing.</summary>
    public double? By => Present is { } present && Needed is { } needed ? Math.Abs(present - needed) : null;
}

/// <summary>A check that could not be made because a fact is unknown: the way is not <i>passed</i> there.</summary>
/// <param name="Kind">The limit that was to be checked.</param>
/// <param name="Element">What <paramref name="Id"/> names.</param>
/// <param name="Id">Place number, passage id or elevator id.</param>
/// <param name="Passage">What kind of passage it is; null for a place and an elevator.</param>
public sealed record UnknownLimit(LimitKind Kind, ClosureTarget Element, string Id, PassageKind? Passage = null)
{
    /// <summary>What is unknown.</summary>
    public Statement Statement => Statement.Of(
        (Kind, Element) switch
        {
            (LimitKind.ClearWidth, _) => StatementText.UnknownClearWidth,
            (LimitKind.ClearHeight, ClosureTarget.Place) => StatementText.UnknownHeight,
            (LimitKind.ClearHeight, _) => StatementText.UnknownClearHeight,
            (LimitKind.Threshold, _) => StatementText.UnknownThreshold,
            (LimitKind.Gradient, _) => StatementText.UnknownGradient,
            (LimitKind.Corner, _) => StatementText.UnknownTurn,
            (LimitKind.CarLength, _) => StatementText.UnknownCarLength,
            (LimitKind.CarWidth, _) => StatementText.UnknownCarWidth,
            (LimitKind.CarDoor, _) => StatementText.UnknownCarDoor,
            (LimitKind.CarArea, _) => StatementText.UnknownCarArea,
            (LimitKind.RatedLoad, _) => StatementText.UnknownRatedLoad,
            _ => throw new InvalidOperationException($"{Kind} rests on no figure that could be unknown."),
        },
        Statement.NameOf(Element, Id, Passage));

    /// <summary>The statement in English; starts in lower case, ends without a full stop.</summary>
    public string Sentence => Statement.Sentence;
}
