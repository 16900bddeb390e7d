using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Exposure;

/// <summary>Exposure of every arc for one transport: shared air, close by, touches, people met, and the integer cost that ranks ways. Immutable.</summary>
/// <remarks>
/// Per arc with dwell τ, the expected time without a stall: shared air N τ Q_ref / (λV), close by N · min(1, 4π/A) · τ. People are the mean
/// of the local quarter-hour of departure. The rooms at both ends add time but no exposure; only the open door of a positive room of
/// departure adds its equivalent dwell to the place outside. Ways are ranked with nobody held.
/// </remarks>
public sealed class ExposureProfile
{
    private const double MicroPerMinute = 1_000_000;

    private readonly TravelProfile _travel;
    private readonly FloorGraph _graph;
    private readonly ExposureSettings _settings;

    private ExposureProfile(TravelProfile travel, PrecautionSet precautions, ExposureSettings settings)
    {
        (_travel, _graph, _settings, Precautions) = (travel, travel.Graph, settings, precautions);
        var elevators = _graph.Plan.Elevators.ToDictionary(elevator => elevator.Car);
        Places = [.. _graph.Plan.Places.Select(place =>
        {
            var elevator = elevators.GetValueOrDefault(place.Number);
            var isHeld = elevator is null
                ? settings.Holds(place.CorridorClass, precautions)
                : travel.Query.HeldElevators && elevator.CanBeHeld && (settings.HeldCars & precautions) != PrecautionSet.None;
            return PlaceAir.Of(place, elevator, travel.Quarter.Index, isHeld, precautions, settings);
        })];
    }

    public PrecautionSet Precautions { get; }

    /// <summary>Air and people of each place, in the order of the plan: what a working shows.</summary>
    public ImmutableArray<PlaceAir> Places { get; }

    public static ExposureProfile For(TravelProfile travel, PrecautionSet precautions, ExposureSettings settings)
    {
        ArgumentNullException.ThrowIfNull(travel);
        ArgumentNullException.ThrowIfNull(settings);
        return new(travel, precautions, settings);
    }

    public ArcExposure Of(int arc)
    {
        var dwell = _travel.TimeOf(arc).DwellSeconds / 60;
        var (handles, plates, buttons) = TouchPointsOf(arc);
        var touches = _travel.Query.WithHelper ? 0 : handles + buttons;
        var nobodyHeld = new ExposureFigures(0, 0, touches);
        var ifPostsHold = nobodyHeld;
        var people = 0.0;
        if (!IsEndRoom(arc))
        {
            var place = Places[_graph.ArcPlace[arc]];
            people = place.People;
            var closeBy = ExposureModel.CloseByMinutes(place.People, place.AreaSquareMetres, dwell);
            nobodyHeld += new ExposureFigures(SharedAir(place, dwell), closeBy, 0);
            ifPostsHold += new ExposureFigures(SharedAirIfHeld(place, dwell), place.IsHeld ? 0 : closeBy, 0);
        }

        var openDoor = 0.0;
        if (OpenDoorOf(arc) is { } door)
        {
            openDoor = SharedAir(door.Outside, door.EquivalentMinutes);
            nobodyHeld += new ExposureFigures(openDoor, 0, 0);
            ifPostsHold += new ExposureFigures(SharedAirIfHeld(door.Outside, door.EquivalentMinutes), 0, 0);
        }

        return new(nobodyHeld, ifPostsHold, people, handles + plates + buttons, openDoor);
    }

    /// <summary>
    /// What ranks ways, in 10⁻⁶ person-minutes, nobody held: airborne counts shared air and close by, droplet close by; contact alone counts
    /// 10⁶ for each touch point; without precautions nothing counts.
    /// </summary>
    public long CostOf(int arc)
    {
        var exposure = Of(arc);
        var minutes = Precautions.HasFlag(PrecautionSet.Airborne) ? exposure.NobodyHeld.SharedAirMinutes + exposure.NobodyHeld.CloseByMinutes
            : Precautions.HasFlag(PrecautionSet.Droplet) ? exposure.NobodyHeld.CloseByMinutes
            : Precautions.HasFlag(PrecautionSet.Contact) ? exposure.TouchPoints
            : 0;
        return (long)Math.Round(minutes * MicroPerMinute, MidpointRounding.AwayFromZero);
    }

    private double SharedAir(PlaceAir place, double minutes) =>
        ExposureModel.AllTimeMinutes(place.People, minutes, place.LossPerHour, place.VolumeCubicMetres, _settings.ReferenceFlow);

    private double SharedAirIfHeld(PlaceAir place, double minutes) => place.IsHeld
        ? ExposureModel.HeldMinutes(
            place.People, minutes, place.LossPerHour, place.VolumeCubicMetres, place.EmptyMinutes, place.HeldLossPerHour, _settings.ReferenceFlow)
        : SharedAir(place, minutes);

    private bool IsEndRoom(int arc) => !_graph.IsTraversal(_graph.ArcSource[arc]) || !_graph.IsTraversal(_graph.ArcTarget[arc]);

    private (int Handles, int Plates, int Buttons) TouchPointsOf(int arc)
    {
        var kind = _travel.PassageAtEnd(arc) is { } passage ? _graph.Plan.Passages[passage].Kind : PassageKind.Opening;
        var called = _travel.ElevatorCalled(arc);
        var pressesCall = called is not null && !(_travel.Query.HeldElevators && called.CanBeHeld);
        return (
            kind is PassageKind.HingedDoor or PassageKind.DoubleDoor or PassageKind.SlidingDoor ? 1 : 0,
            kind == PassageKind.AutomaticDoor ? 1 : 0,
            pressesCall || _graph.ArcElevator[arc] >= 0 ? 1 : 0);
    }

    /// <summary>The place outside and the equivalent dwell in it, where a journey departs from a positive room through a door.</summary>
    private (PlaceAir Outside, double EquivalentMinutes)? OpenDoorOf(int arc)
    {
        var air = Places[_graph.ArcPlace[arc]];
        if (_graph.IsTraversal(_graph.ArcSource[arc]) || !_graph.IsTraversal(_graph.ArcTarget[arc]) || !air.IsPositive)
        {
            return null;
        }

        var passage = _graph.Plan.Passages[FloorGraph.PassageOf(_graph.ArcTarget[arc])];
        var flow = ExposureModel.DoorwayFlow(
            passage.ClearWidth.IsKnown ? passage.ClearWidth.Value.Metres : _settings.DoorWidth,
            passage.ClearHeight.IsKnown ? passage.ClearHeight.Value.Metres : _settings.DoorHeight,
            _settings.DoorTemperatureDifference, _settings.MeanTemperature, _settings.DischargeCoefficient);
        var open = _travel.TimeOf(arc).Door.ExpectedSeconds / 60;
        return (
            Places[_graph.PlaceEntered(_graph.ArcTarget[arc])],
            ExposureModel.EquivalentDwellMinutes(flow, open, air.LossPerHour, air.VolumeCubicMetres));
    }
}
