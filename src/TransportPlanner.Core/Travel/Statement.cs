using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>What a statement about the floor plan says. The places of its text are filled with the values of the <see cref="Statement"/>, in order.</summary>
public enum StatementText
{
    Door,
    Opening,
    LandingDoor,
    StairFlight,
    Place,
    Elevator,
    Assumed,
    AssumedOn,
    Drawing,
    DrawingOn,
    Measured,
    MeasuredOn,
    PercentagePoints,
    TooNarrow,
    TooLow,
    ThresholdTooHigh,
    TooSteep,
    CarTooShort,
    CarTooNarrow,
    CarDoorTooNarrow,
    CarTooSmall,
    TooWeak,
    TurnTooNarrow,
    TurnTooTight,
    OnStairs,
    NeedsBadge,
    NeedsCode,
    NeedsKey,
    NoEntry,
    NoCylinders,
    Closed,
    UnknownClearWidth,
    UnknownClearHeight,
    UnknownThreshold,
    UnknownGradient,
    UnknownHeight,
    UnknownCarLength,
    UnknownCarWidth,
    UnknownCarDoor,
    UnknownCarArea,
    UnknownRatedLoad,
    UnknownTurn,
    UnknownAvoided,
    ThroughRoom,
    Room,
    DeliveryRoom,
    OperatingRoom,
    IsolationRoom,
    NeonatalIntensiveCare,
    WardRoom,
    Imaging,
    Utility,
    Sanitary,
    Office,
    NoOrigin,
    NoDestination,
    SamePlace,
    NotConnected,
    Blocked,
    BlockedNarrow,
    BlockedTightest,
    WidthNeeded,
}

/// <summary>A finding about the floor plan as its parts, so that paper can say it in another language than the API.</summary>
/// <param name="Text">What is said.</param>
/// <param name="Values">What fills its places: a number or a name as it is written, or a statement inside this one.</param>
public sealed record Statement(StatementText Text, ImmutableArray<object> Values)
{
    /// <summary>In English. One that is about an element starts in lower case and ends without a full stop; why there is no way is whole sentences.</summary>
    public string Sentence => In(English);

    /// <summary>In any language.</summary>
    /// <param name="texts">Text of each member, with the places of <see cref="English"/>. Figures are written the same in every language.</param>
    public string In(Func<StatementText, string> texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        return string.Format(CultureInfo.InvariantCulture, texts(Text), [.. Values.Select(value => value is Statement inside ? inside.In(texts) : value)]);
    }

    internal static Statement Of(StatementText text, params object[] values) => new(text, [.. values]);

    /// <summary>Names an element of the floor plan: <c>landing door A2</c>.</summary>
    internal static Statement NameOf(ClosureTarget element, string id, PassageKind? passage = null) => Of(
        (element, passage) switch
        {
            (ClosureTarget.Place, _) => StatementText.Place,
            (ClosureTarget.Elevator, _) => StatementText.Elevator,
            (_, PassageKind.Opening) => StatementText.Opening,
            (_, PassageKind.LandingDoor) => StatementText.LandingDoor,
            (_, PassageKind.StairFlight) => StatementText.StairFlight,
            _ => StatementText.Door,
        },
        id);

    /// <summary>English text of a member, with numbered places.</summary>
    public static string English(StatementText text) => text switch
    {
        StatementText.Door => "door {0}",
        StatementText.Opening => "opening {0}",
        StatementText.LandingDoor => "landing door {0}",
        StatementText.StairFlight => "stair flight {0}",
        StatementText.Place => "place {0}",
        StatementText.Elevator => "elevator {0}",
        StatementText.Assumed => "assumed, no date",
        StatementText.AssumedOn => "assumed {0}",
        StatementText.Drawing => "drawing, no date",
        StatementText.DrawingOn => "drawing {0}",
        StatementText.Measured => "measured, no date",
        StatementText.MeasuredOn => "measured {0}",
        StatementText.PercentagePoints => "{0} percentage points",
        StatementText.TooNarrow => "{0} is {1} too narrow ({2} clear, {3} needed, {4})",
        StatementText.TooLow => "{0} is {1} too low ({2} high, {3} needed, {4})",
        StatementText.ThresholdTooHigh => "the threshold of {0} is {1} too high ({2} there, {3} allowed, {4})",
        StatementText.TooSteep => "the slope of {0} is {1} too steep ({2} there, {3} allowed, {4})",
        StatementText.CarTooShort => "the car of {0} is {1} too short ({2} long, {3} needed, {4})",
        StatementText.CarTooNarrow => "the car of {0} is {1} too narrow ({2} wide, {3} needed, {4})",
        StatementText.CarDoorTooNarrow => "the door of {0} is {1} too narrow ({2} clear, {3} needed, {4})",
        StatementText.CarTooSmall => "the car of {0} is {1} too small ({2} of floor for the incubator and a crew of {5}, {3} needed, {4})",
        StatementText.TooWeak => "{0} is {1} too weak ({2} rated, for {5} kg and a crew of {6}, {3} needed, {4})",
        StatementText.TurnTooNarrow => "{0} is {1} too narrow at a turn ({2} clear, {3} needed, from the outlines and doors)",
        StatementText.TurnTooTight => "the turn in {0} is {1} too tight ({2} is the longest box {3} wide that turns from {4} into {5}, {6} needed)",
        StatementText.OnStairs => "{0}: an incubator is not carried on stairs",
        StatementText.NeedsBadge => "{0} needs a badge that nobody with the transport carries",
        StatementText.NeedsCode => "{0} needs a code that nobody with the transport carries",
        StatementText.NeedsKey => "{0} needs a key that nobody with the transport carries",
        StatementText.NoEntry => "{0} is marked no entry",
        StatementText.NoCylinders => "{0} is a no-cylinder zone and cylinders travel along",
        StatementText.Closed => "{0} is closed from {1} to {2} ({3}; {4})",
        StatementText.UnknownClearWidth => "{0}: clear width unknown",
        StatementText.UnknownClearHeight => "{0}: clear height unknown",
        StatementText.UnknownThreshold => "the threshold of {0}: height unknown",
        StatementText.UnknownGradient => "the slope of {0}: gradient unknown",
        StatementText.UnknownHeight => "{0}: height unknown",
        StatementText.UnknownCarLength => "the car of {0}: length unknown",
        StatementText.UnknownCarWidth => "the car of {0}: width unknown",
        StatementText.UnknownCarDoor => "the door of {0}: clear width unknown",
        StatementText.UnknownCarArea => "the car of {0}: floor area unknown",
        StatementText.UnknownRatedLoad => "{0}: rated load unknown",
        StatementText.UnknownTurn => "a turn in {0} was not tested: its clear widths are unknown",
        StatementText.UnknownAvoided => "{0}, and unknown limits are avoided",
        StatementText.ThroughRoom => "{0} is {1}, which no way leads through while another is there",
        StatementText.Room => "a room",
        StatementText.DeliveryRoom => "a delivery room",
        StatementText.OperatingRoom => "an operating room",
        StatementText.IsolationRoom => "an isolation room",
        StatementText.NeonatalIntensiveCare => "a neonatal intensive care room",
        StatementText.WardRoom => "a ward room",
        StatementText.Imaging => "an imaging room",
        StatementText.Utility => "a utility room",
        StatementText.Sanitary => "a sanitary room",
        StatementText.Office => "an office",
        StatementText.NoOrigin => "There is no place {0} to start from.",
        StatementText.NoDestination => "There is no place {0} to go to.",
        StatementText.SamePlace => "Origin and destination are both {0}.",
        StatementText.NotConnected => "No passage of the floor plan leads from {0} to {1}.",
        StatementText.Blocked => "No way from {0} to {1}: {2}.",
        StatementText.BlockedNarrow => "No way from {0} to {1}: {2}. {3}",
        StatementText.BlockedTightest => "No way from {0} to {1}: {2}. It is the tightest of the {4} that are too narrow on the way with the fewest obstacles. {3}",
        StatementText.WidthNeeded => "Needed is the width of what moves and {0} of clearance on each side: {1} + 2 × {2} = {3}.",
        _ => throw new ArgumentOutOfRangeException(nameof(text), text, "There is no such text."),
    };
}
