using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Exposure;

/// <summary>
/// What a site decides about air, people and holding. Every default is the project's own proposal and stands for <i>assumed</i> until the
/// site gives its own; where a published value was near, it is named.
/// </summary>
public sealed record ExposureSettings
{
    private static readonly CorridorClass[] Classes = [CorridorClass.Clean, CorridorClass.Soiled, CorridorClass.Public, CorridorClass.Restricted];

    /// <summary>Clean air of the reference place, m³/h.</summary>
    public double ReferenceFlow { get; init; } = ExposureModel.ReferenceFlow;

    /// <summary>Air changes per hour of a room or landing where they are unknown. Source: ASHRAE 170, patient room (VD-13, quoted).</summary>
    public double RoomAirChanges { get; init; } = 4;

    /// <summary>Air changes per hour of a corridor of a class where they are unknown. Source: ASHRAE 170, patient corridor (VD-14, quoted).</summary>
    public ImmutableDictionary<CorridorClass, double> CorridorAirChanges { get; init; } = ImmutableDictionary.CreateRange(
        Classes.Select(corridor => KeyValuePair.Create(corridor, 2.0)));

    /// <summary>Of a car with its doors shut. Source: van Rijn et al., Indoor Air 2020, normal use, slow end (DW-16).</summary>
    public double CarAirChanges { get; init; } = 15.35;

    /// <summary>Of a car parked with its doors open. Source: van Rijn et al., slow end: 100-fold in 4 min (DW-17).</summary>
    public double CarAirChangesDoorsOpen { get; init; } = 69.08;

    /// <summary>Decay and deposition per hour, added to the air changes.</summary>
    public double DecayPerHour { get; init; }
    public double DepositionPerHour { get; init; }

    /// <summary>Least loss rate per hour that any place is given: still air loses by deposition. Source: Buonanno et al. 2020 (LM-03, quoted).</summary>
    public double LeastLossPerHour { get; init; } = 0.24;

    /// <summary>Height in metres where it is unknown. No source.</summary>
    public double Height { get; init; } = 2.7;

    /// <summary>Height of a car in metres where it is unknown; as in MV-88.</summary>
    public double CarHeight { get; init; } = 2.4;

    /// <summary>People in a place, or riders of a car, where the number is unknown. No source: count them.</summary>
    public double People { get; init; } = 2;

    /// <summary>Times of the week at which places hold more or fewer people than their mean.</summary>
    public CrowdCalendar Crowds { get; init; } = CrowdCalendar.Empty;

    /// <summary>Precautions under which the corridors, landings and lobbies of a class are held. No source: local policy.</summary>
    public ImmutableDictionary<CorridorClass, PrecautionSet> HeldClasses { get; init; } = ImmutableDictionary.CreateRange(
        Classes.Select(corridor => KeyValuePair.Create(corridor, PrecautionSet.Airborne)));

    /// <summary>Precautions under which a car that can be held is held. No source: local policy.</summary>
    public PrecautionSet HeldCars { get; init; } = PrecautionSet.Airborne | PrecautionSet.Droplet | PrecautionSet.Contact;

    /// <summary>Minutes that nobody enters a held place after the team has left it. No source: local policy.</summary>
    public double HoldMinutes { get; init; }

    /// <summary>
    /// Precautions under which a held place stays closed until it has been aired: a sign keeps people out, no officer. No source: local
    /// policy, contested between published guidance.
    /// </summary>
    public PrecautionSet ClosedFor { get; init; } = PrecautionSet.Airborne;

    /// <summary>Minutes of airing that follow the hold where the place is closed: a policy figure, since the formula would give hours at two air changes.</summary>
    public double AiringMinutes { get; init; } = 30;

    /// <summary>Minutes that a held car is parked with its doors open before others ride. 0: it is not.</summary>
    public double CarParkMinutes { get; init; }

    /// <summary>For the open door of a positive room. Source: Kiel and Wilson, 0.4 (DW-15, memory).</summary>
    public double DischargeCoefficient { get; init; } = 0.4;

    /// <summary>Kelvin between a positive room and the space outside its door. No source.</summary>
    public double DoorTemperatureDifference { get; init; } = 1;

    /// <summary>Kelvin; as in the reference rows ZC-70 to ZC-75.</summary>
    public double MeanTemperature { get; init; } = 295;

    /// <summary>Metres, where the size of a positive room's door is unknown; as in ZC-70.</summary>
    public double DoorWidth { get; init; } = 1.2;
    public double DoorHeight { get; init; } = 2.1;

    /// <summary>Minutes that a held place stands empty after the team: the hold, and the airing where the place is closed for it.</summary>
    internal double EmptyMinutes(PrecautionSet precautions) => HoldMinutes + (Closes(precautions) ? AiringMinutes : 0);

    internal bool Closes(PrecautionSet precautions) => (ClosedFor & precautions) != PrecautionSet.None;

    internal double AirChangesOf(CorridorClass corridor) => CorridorAirChanges.GetValueOrDefault(corridor, RoomAirChanges);

    internal bool Holds(CorridorClass corridor, PrecautionSet precautions) =>
        (HeldClasses.GetValueOrDefault(corridor) & precautions) != PrecautionSet.None;
}
