using System.Text.Json.Serialization;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>What a fact that a person corrects belongs to.</summary>
public enum PlanFeature
{
    Place,
    Passage,
    Elevator,
    ElevatorGroup,
}

/// <summary>One step of a draft that a person makes by hand on the plan in force. Steps are replayed in their order; any may be taken back.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "what")]
[JsonDerivedType(typeof(FactCorrection), "fact")]
[JsonDerivedType(typeof(DrawnPassage), "drawnPassage")]
[JsonDerivedType(typeof(RemovedPassage), "removedPassage")]
[JsonDerivedType(typeof(AddedStop), "addedStop")]
[JsonDerivedType(typeof(RemovedStop), "removedStop")]
public abstract record PlanCorrection
{
    private protected PlanCorrection()
    {
    }

    /// <summary>The step in words.</summary>
    public abstract string Words();

    /// <summary>What it is about: a place, a passage or an elevator with its number; null for a group.</summary>
    public (ClosureTarget Target, string Number)? About => this switch
    {
        FactCorrection { Feature: PlanFeature.Place } fact => (ClosureTarget.Place, fact.Number),
        FactCorrection { Feature: PlanFeature.Passage } fact => (ClosureTarget.Passage, fact.Number),
        FactCorrection { Feature: PlanFeature.Elevator } fact => (ClosureTarget.Elevator, fact.Number),
        DrawnPassage drawn => (ClosureTarget.Passage, drawn.Number),
        RemovedPassage removed => (ClosureTarget.Passage, removed.Number),
        AddedStop stop => (ClosureTarget.Elevator, stop.Elevator),
        RemovedStop stop => (ClosureTarget.Elevator, stop.Elevator),
        _ => null,
    };
}

/// <summary>Another value of one property.</summary>
/// <param name="Feature">What the property belongs to.</param>
/// <param name="Number">Number of that.</param>
/// <param name="Property">Its name in the exchange format, such as <c>clearWidthMetres</c>.</param>
/// <param name="Value">The value as in the table of facts, see <see cref="FactsTable"/>; empty: it becomes unknown, or none.</param>
/// <param name="Known">How a fact is known: <c>measured 2026-05-04</c>; null for what is no fact.</param>
/// <param name="Before">What stood there for the person who corrected it, as in the table of facts; null: nothing. Where something else stands there now, that is a warning.</param>
public sealed record FactCorrection(PlanFeature Feature, string Number, string Property, string Value, string? Known, string? Before) : PlanCorrection
{
    public override string Words() =>
        $"{Property} of {PlaceWords.Spaced(Feature)} {Number}: {(Value.Length == 0 ? "unknown" : Value)}{(Known is null || Value.Length == 0 ? "" : $", {Known}")}; before: {Before ?? "unknown"}";
}

/// <summary>A way between two places of one level that nothing joined: an opening over the whole stretch where they meet, or a door on it.</summary>
/// <param name="Number">Number that the passage gets, see <see cref="PlanCorrections.NumberOf"/>.</param>
/// <param name="Kind">An opening or a door.</param>
/// <param name="From">Number of the first place.</param>
/// <param name="To">Number of the second place.</param>
/// <param name="WidthMetres">Clear width, 0.1 to 50 m; null: unknown, and a door is drawn 0.9 m wide.</param>
/// <param name="AlongMetres">Middle of the door from the western end of the shared wall (of a wall that runs north, from its southern end); null: its middle.</param>
/// <param name="Known">How the width is known: <c>measured 2026-05-04</c>; null where it is unknown.</param>
public sealed record DrawnPassage(string Number, PassageKind Kind, string From, string To, double? WidthMetres, double? AlongMetres, string? Known) : PlanCorrection
{
    public override string Words() => FormattableString.Invariant(
        $"{PlaceWords.Spaced(Kind)} drawn between {From} and {To}, clear width {(WidthMetres is { } width ? FormattableString.Invariant($"{width:0.###} m, {Known}") : "unknown")}");
}

/// <summary>A door or an opening that is not there (any more).</summary>
public sealed record RemovedPassage(string Number) : PlanCorrection
{
    public override string Words() => $"passage {Number} taken out: there is no way";
}

/// <summary>An elevator stops at a landing: its landing door is drawn in the middle of the stretch where the landing runs along the shaft.</summary>
/// <param name="Elevator">Number of the elevator.</param>
/// <param name="Landing">Number of the place outside.</param>
public sealed record AddedStop(string Elevator, string Landing) : PlanCorrection
{
    public override string Words() => $"elevator {Elevator} stops at {Landing}";
}

/// <summary>An elevator does not stop at a landing; the landing door goes with the stop.</summary>
/// <param name="Elevator">Number of the elevator.</param>
/// <param name="Landing">Number of the place outside.</param>
public sealed record RemovedStop(string Elevator, string Landing) : PlanCorrection
{
    public override string Words() => $"elevator {Elevator} does not stop at {Landing}";
}
