using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>A stretch of the journey: its time, and whether a cylinder can be changed over on entering it.</summary>
public sealed record JourneyStretchRequest : IValidatableObject
{
    /// <summary>What a person calls it; it stands in the words of the answer.</summary>
    [StringLength(100, MinimumLength = 1, ErrorMessage = "Give the stretch a name of 1 to 100 characters.")]
    public required string Name { get; init; }

    /// <summary>Minutes, 0 to 1,440; 0 is a stop on the way whose own time is not counted.</summary>
    [Range(0, 1_440.0, ErrorMessage = "Give 0 to 1440 min.")]
    public required decimal Minutes { get; init; }

    /// <summary>best: an outlet is at hand; possible: the team can stand still, clear of the door; impossible: an elevator, a doorway, a slope.</summary>
    public required ChangeOverPlace ChangeOver { get; init; }

    /// <summary>True for a ride; nothing is ever changed over in it. Default false.</summary>
    public bool Elevator { get; init; }

    /// <summary>A ride is no place to change a cylinder.</summary>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Elevator && ChangeOver != ChangeOverPlace.Impossible)
            yield return new("A cylinder is never changed in an elevator: give impossible.", [nameof(ChangeOver)]);
    }

    internal JourneyStretch ToStretch() => new(Name, Minutes, ChangeOver, Elevator);
}

/// <summary>Contents of every cylinder over the journey, changed over in the order of the request.</summary>
/// <param name="JourneyMinutes">Sum of the stretches, min.</param>
/// <param name="Gases">Oxygen, then air.</param>
/// <param name="ChangeOvers">When and where to change, in order of time.</param>
/// <param name="Stalls">What is left on reaching each elevator, should it stall.</param>
/// <param name="Events">What ends when and what then happens, in words.</param>
public sealed record GasTimelineResponse(
    decimal JourneyMinutes, IReadOnlyList<GasContentsResponse> Gases, IReadOnlyList<ChangeOverResponse> ChangeOvers,
    IReadOnlyList<ElevatorStallResponse> Stalls, IReadOnlyList<string> Events)
{
    internal static GasTimelineResponse From(GasTimeline timeline) => new(
        timeline.JourneyMinutes,
        [.. timeline.Gases.Select(GasContentsResponse.From)],
        [.. timeline.ChangeOvers.Select(change => new ChangeOverResponse(
            change.Gas, change.From, change.To, change.AtMinute, change.Where, change.Place, change.Working) { PlaceNumber = change.PlaceNumber })],
        [.. timeline.Stalls.Select(stall => new ElevatorStallResponse(
            stall.Where, stall.AtMinute, stall.Minutes, stall.MinutesLow, stall.MinutesWithReserve, stall.Working)
        { Counted = stall.Counted, ReachedMinute = stall.ReachedMinute, Figures = stall.Figures })],
        timeline.Events);
}

/// <summary>One gas along the journey.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="Cylinders">In the order in which they are connected.</param>
/// <param name="EndsAtMinute">When the last of them is empty, min after leaving; null where the gas is not drawn from cylinders.</param>
/// <param name="EndsAtMinuteLow">The same with the gauge too high and the flowmeter too low by their permissible errors at once.</param>
/// <param name="LastsTheJourney">Whether even the low end reaches the end of the journey.</param>
public sealed record GasContentsResponse(
    GasKind Gas, IReadOnlyList<CylinderInUseResponse> Cylinders, decimal? EndsAtMinute, decimal? EndsAtMinuteLow, bool LastsTheJourney)
{
    internal static GasContentsResponse From(GasContents gas) => new(
        gas.Gas,
        [
            .. gas.Cylinders.Select(use => new CylinderInUseResponse(
                use.Number, use.FromMinute, use.UntilMinute, use.EmptyAtMinute, use.EmptyAtMinuteLow,
                [.. use.Contents.Select(point => new ContentsResponse(point.Minute, point.Litres))])),
        ],
        gas.EndsAtMinute, gas.EndsAtMinuteLow, gas.LastsTheJourney);
}

/// <summary>One cylinder while it is connected.</summary>
/// <param name="Cylinder">Its place in the request, from 1.</param>
/// <param name="FromMinute">When it is connected, min after leaving.</param>
/// <param name="UntilMinute">When it is changed over, is empty, or the journey ends, whichever is first.</param>
/// <param name="EmptyAtMinute">When it is empty if nobody changes it; null where it is not drawn.</param>
/// <param name="EmptyAtMinuteLow">The same at the low end of the band.</param>
/// <param name="Contents">From the first minute to the last, a straight line between neighbours.</param>
public sealed record CylinderInUseResponse(
    int Cylinder, decimal FromMinute, decimal UntilMinute, decimal? EmptyAtMinute, decimal? EmptyAtMinuteLow, IReadOnlyList<ContentsResponse> Contents);

/// <summary>What a cylinder still gives.</summary>
/// <param name="Minute">Min after leaving.</param>
/// <param name="Litres">L above the residual.</param>
public sealed record ContentsResponse(decimal Minute, decimal Litres);

/// <summary>When and where one cylinder takes over from another.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="FromCylinder">The one that is shut, by its place in the request, from 1.</param>
/// <param name="ToCylinder">The one that is opened.</param>
/// <param name="AtMinute">Min after leaving; 0: before leaving.</param>
/// <param name="Where">Name of the stretch that is entered, or before leaving.</param>
/// <param name="ChangeOver">What the place offers.</param>
/// <param name="Working">Why there, with the numbers put in.</param>
public sealed record ChangeOverResponse(
    GasKind Gas, int FromCylinder, int ToCylinder, decimal AtMinute, string Where, ChangeOverPlace ChangeOver, string Working)
{
    /// <summary>Number of the place; null before leaving, for a stretch that a question gave, and in plans of earlier releases.</summary>
    public string? PlaceNumber { get; init; }
}

/// <summary>What is left when the team reaches an elevator that then stalls.</summary>
/// <param name="Where">Name of the ride.</param>
/// <param name="AtMinute">When it is reached, min after leaving.</param>
/// <param name="Minutes">With the connected cylinders, rounded down: the lesser of the supply and oxygen alone; null where nothing is drawn.</param>
/// <param name="MinutesLow">The same at the low end of the band.</param>
/// <param name="MinutesWithReserve">With the unopened cylinders that are carried in too.</param>
/// <param name="Working">Which figure is the lesser, with the numbers put in.</param>
public sealed record ElevatorStallResponse(string Where, decimal AtMinute, long? Minutes, long? MinutesLow, long? MinutesWithReserve, string Working)
{
    /// <summary>The lesser figure's gas; null where nothing is drawn, and in plans of earlier releases.</summary>
    public StallGas? Counted { get; init; }

    /// <summary>When it is reached, min to the nearest tenth, as the working says.</summary>
    public decimal ReachedMinute { get; init; }

    /// <summary>The lesser figure in numbers; empty where nothing is drawn, and in plans of earlier releases.</summary>
    public string Figures { get; init; } = "";
}
