using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Airing;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using static TransportPlanner.Web.Data.SettingKinds;

namespace TransportPlanner.Web.Data;

/// <summary>Which reserve rule a supply of gas must meet at a site.</summary>
internal enum ReservePolicy
{
    TwiceTheJourney,
    JourneyPlus30Minutes,
    Both,
}

/// <summary>The settings of one site: what it said, else the default, which is marked <i>assumed</i> wherever it is used.</summary>
internal sealed class SiteSettings
{
    // Speeds: project proposals of design (0.9 and 0.45 m/s), ranges MV-14 and MV-15; officers MV-11 (Boyce 1999, memory) and MV-02.
    public static readonly Setting<double> IncubatorSpeedMinimum = Number("incubatorSpeedMinimum", "m/s", 0.8, 0.1, 3, "Slowest speed of the occupied incubator, straight on.");
    public static readonly Setting<double> IncubatorSpeedLikely = Number("incubatorSpeedLikely", "m/s", 0.9, 0.1, 3, "Likely speed of the occupied incubator, straight on.");
    public static readonly Setting<double> IncubatorSpeedMaximum = Number("incubatorSpeedMaximum", "m/s", 1.0, 0.1, 3, "Highest speed of the occupied incubator, straight on.");
    public static readonly Setting<double> IncubatorSlowSpeedMinimum = Number("incubatorSlowSpeedMinimum", "m/s", 0.4, 0.1, 3, "Slowest speed in turns over 45° and over thresholds.");
    public static readonly Setting<double> IncubatorSlowSpeedLikely = Number("incubatorSlowSpeedLikely", "m/s", 0.45, 0.1, 3, "Likely speed in turns over 45° and over thresholds.");
    public static readonly Setting<double> IncubatorSlowSpeedMaximum = Number("incubatorSlowSpeedMaximum", "m/s", 0.5, 0.1, 3, "Highest speed in turns over 45° and over thresholds.");
    public static readonly Setting<double> OfficerSpeed = Number("officerSpeed", "m/s", 1.25, 0.1, 5, "Walking speed of an officer on the level.");
    public static readonly Setting<double> OfficerStairSpeed = Number("officerStairSpeed", "m/s", 0.75, 0.1, 5, "Walking speed of an officer on stairs.");
    public static readonly Setting<int> ClearanceEachSide = Count("clearanceEachSideMillimetres", "mm", 50, 0, 500, "Free on each side of the conveyance in a door, a corner and a car. No source.");
    public static readonly Setting<int> Crew = Count("crew", "people", 4, 1, 12, "People who walk beside the incubator. No source.");

    public static readonly Setting<ReservePolicy> ReserveRule = Choice("reserveRule", ReservePolicy.Both, "The rule that the gas must meet: twice the journey, the journey plus 30 minutes, or both.");
    public static readonly Setting<int> GaugeStaleMinutes = Count("gaugeStaleMinutes", "min", 15, 1, 240, "A gauge reading older than this is shown as old. Source: input limit IL-01 (project proposal).");
    public static readonly Setting<string?> PresetOxygenCylinder = Text("presetOxygenCylinder", null, "Id from the cylinder library that stands in, marked assumed, where an oxygen gauge is given without its cylinder; null: none, the cylinder is asked for.");
    public static readonly Setting<string?> PresetAirCylinder = Text("presetAirCylinder", null, "Id from the cylinder library that stands in, marked assumed, where an air gauge is given without its cylinder; null: none, the cylinder is asked for.");
    public static readonly Setting<string?> OxygenHose = Text("oxygenHose", null, "Connector at the end of the oxygen hose that travels, as the floor plan writes its outlets; null: unknown, and no wall is said to fit.");
    public static readonly Setting<string?> AirHose = Text("airHose", null, "Connector at the end of the air hose that travels, as the floor plan writes its outlets; null: unknown, and no wall is said to fit.");

    public static readonly Setting<double> BatteryMarginPercent = Number("batteryMarginPercent", "%", 20, 0, 90, "Share of a battery's time that is never counted. Source: reserve rule RR-18 (project proposal).");
    public static readonly Setting<double> BatteryLossPercentPerYear = Number("batteryLossPercentPerYear", "%", 20, 0, 100, "Share of a new battery's time that is taken off for each year of its age. Common practice, unverified: the site's own policy decides. That old ones die early: Tatman et al., Anaesthesia 1996;51:1041.");

    // World Health Organization, Guidelines on hand hygiene in health care, 2009: rub 20–30 s, wash 40–60 s (from memory).
    public static readonly Setting<int> HandHygieneSeconds = Count(
        "handHygieneSeconds", "s", 15, ProtectiveWear.MinHandHygieneSeconds, ProtectiveWear.MaxHandHygieneSeconds,
        "Seconds of each hand-hygiene step of the protective wear. 15 s is common practice; World Health Organization guidance asks for longer (rub 20 to 30 s, wash 40 to 60 s).");

    // Holding is contested between published guidance, so each class is a setting of its own; the defaults are the project's proposals.
    public static readonly Setting<PrecautionSet> CleanCorridorsHeldFor = Precautions("cleanCorridorsHeldFor", PrecautionSet.Airborne, "Precautions for which clean corridors are held.");
    public static readonly Setting<PrecautionSet> SoiledCorridorsHeldFor = Precautions("soiledCorridorsHeldFor", PrecautionSet.Airborne, "Precautions for which soiled corridors are held.");
    public static readonly Setting<PrecautionSet> PublicCorridorsHeldFor = Precautions("publicCorridorsHeldFor", PrecautionSet.Airborne, "Precautions for which public corridors are held.");
    public static readonly Setting<PrecautionSet> RestrictedCorridorsHeldFor = Precautions("restrictedCorridorsHeldFor", PrecautionSet.Airborne, "Precautions for which restricted corridors are held.");
    public static readonly Setting<PrecautionSet> ElevatorCarsHeldFor = Precautions(
        "elevatorCarsHeldFor", PrecautionSet.Contact | PrecautionSet.Droplet | PrecautionSet.Airborne, "Precautions for which the elevator car is held for the transport alone.");
    public static readonly Setting<int> HoldMinutes = Count("holdMinutes", "min", 0, 0, 240, "Minutes that nobody enters a held place after the transport has left it, before its air is counted. No source: local policy.");

    // Clear, close and clean beside hold: four settings, because guidance disagrees. Posts: every figure is the project's own proposal.
    public static readonly Setting<PrecautionSet> PlacesClearedFor = Precautions("placesClearedFor", PrecautionSet.Airborne, "Precautions for which people are asked to leave a held place before the team comes. No source: local policy.");
    public static readonly Setting<PrecautionSet> PlacesClosedFor = Precautions("placesClosedFor", PrecautionSet.Airborne, "Precautions for which a sign keeps people out of a held place until corridorAiringMinutes have passed. No source: local policy.");
    public static readonly Setting<PrecautionSet> PlacesCleanedFor = Precautions("placesCleanedFor", PrecautionSet.None, "Precautions for which held places are cleaned before they are used again. No source: local policy.");
    public static readonly Setting<PrecautionSet> ElevatorCarsCleanedFor = Precautions(
        "elevatorCarsCleanedFor", PrecautionSet.Contact | PrecautionSet.Droplet | PrecautionSet.Airborne, "Precautions for which a captured car is cleaned before it is given back. No source: local policy.");
    public static readonly Setting<double> ElevatorCarCleaningMinutes = Number("elevatorCarCleaningMinutes", "min", 10, 0, 240, "Minutes that cleaning a car takes. No source: time it.");
    public static readonly Setting<double> ElevatorCarParkMinutes = Number("elevatorCarParkMinutes", "min", 0, 0, 240, "Minutes that a captured car is parked with its doors open before others ride; 0: it is not. No source: local policy.");
    public static readonly Setting<int> PostLeadSeconds = Count("postLeadSeconds", "s", 30, 0, 1800, "An officer stands this long before the team can be there at the earliest. No source.");
    public static readonly Setting<int> PostClearSeconds = Count("postClearSeconds", "s", 30, 0, 1800, "So much longer where people are asked to leave first. No source.");
    public static readonly Setting<int> PostMarginSeconds = Count("postMarginSeconds", "s", 15, 0, 600, "Kept free between arriving at the next post and its beginning. No source.");
    public static readonly Setting<int> ElevatorCaptureSeconds = Count("elevatorCaptureSeconds", "s", 60, 0, 1800, "A car is captured this long before the team can be on the landing at the earliest. No source.");
    public static readonly Setting<double> OfficerSightMetres = Number("officerSightMetres", "m", 15, 0, 100, "One officer watches the doors of one place within this straight line; 0: each door is a post. No source: walk it.");

    public static readonly Setting<double> RemovalPercent = Number("removalPercent", "%", 99.9, 50, 99.9999, "Share of airborne matter that must be gone before a place is aired. Source: CDC/HICPAC 2003, Appendix B, Table B.1, the longer of its two columns.");
    public static readonly Setting<double> MixingFactor = Number("mixingFactor", "times", 1, 1, 10, "1 for perfect mixing, as Table B.1 of CDC/HICPAC 2003 assumes, up to 10 for poor (range from memory); airing takes that many times as long.");
    public static readonly Setting<int> CorridorAiringMinutes = Count("corridorAiringMinutes", "min", 30, 0, AiringPolicy.MaxMinutes, "Fixed airing time of corridors, where the formula gives hours that nobody waits. No source (project proposal): infection prevention decides.");
    public static readonly Setting<double> SiteDecayPerHour = Number("siteDecayPerHour", "per hour", 0, 0, 10, "Loss of infectious matter by decay, added to the air changes. None is counted without a source.");

    // Air changes that stand in where a place's are unknown. Corridors 2: ASHRAE 170-2017, Table 7.1 (VD-14, quoted); rooms 4, patient room (VD-13).
    public static readonly Setting<double> CleanCorridorAirChanges = Number("cleanCorridorAirChangesPerHour", "per hour", 2, 0, 100, "Air changes of a clean corridor where unknown.");
    public static readonly Setting<double> SoiledCorridorAirChanges = Number("soiledCorridorAirChangesPerHour", "per hour", 2, 0, 100, "Air changes of a soiled corridor where unknown.");
    public static readonly Setting<double> PublicCorridorAirChanges = Number("publicCorridorAirChangesPerHour", "per hour", 2, 0, 100, "Air changes of a public corridor where unknown.");
    public static readonly Setting<double> RestrictedCorridorAirChanges = Number("restrictedCorridorAirChangesPerHour", "per hour", 2, 0, 100, "Air changes of a restricted corridor where unknown.");
    public static readonly Setting<double> RoomAirChanges = Number("roomAirChangesPerHour", "per hour", 4, 0, 100, "Air changes of a room or landing where unknown.");

    /// <summary>Every setting, in the order in which it is shown.</summary>
    public static readonly IReadOnlyList<Setting> All =
    [
        IncubatorSpeedMinimum, IncubatorSpeedLikely, IncubatorSpeedMaximum, IncubatorSlowSpeedMinimum, IncubatorSlowSpeedLikely, IncubatorSlowSpeedMaximum,
        OfficerSpeed, OfficerStairSpeed, ClearanceEachSide, Crew, ReserveRule, GaugeStaleMinutes, PresetOxygenCylinder, PresetAirCylinder, OxygenHose, AirHose,
        BatteryMarginPercent, BatteryLossPercentPerYear, HandHygieneSeconds,
        CleanCorridorsHeldFor, SoiledCorridorsHeldFor, PublicCorridorsHeldFor, RestrictedCorridorsHeldFor, ElevatorCarsHeldFor, HoldMinutes,
        PlacesClearedFor, PlacesClosedFor, PlacesCleanedFor, ElevatorCarsCleanedFor, ElevatorCarCleaningMinutes, ElevatorCarParkMinutes,
        PostLeadSeconds, PostClearSeconds, PostMarginSeconds, ElevatorCaptureSeconds, OfficerSightMetres,
        RemovalPercent, MixingFactor, CorridorAiringMinutes, SiteDecayPerHour, CleanCorridorAirChanges, SoiledCorridorAirChanges,
        PublicCorridorAirChanges, RestrictedCorridorAirChanges, RoomAirChanges, .. TimelineSiteSettings.All, .. PackSettings.All, .. DisplaySettings.All, .. UpkeepSettings.All,
    ];

    /// <summary>Triples of minimum, likely and maximum that must stand in order.</summary>
    public static readonly IReadOnlyList<(Setting<double> Minimum, Setting<double> Likely, Setting<double> Maximum)> Paces =
    [
        (IncubatorSpeedMinimum, IncubatorSpeedLikely, IncubatorSpeedMaximum),
        (IncubatorSlowSpeedMinimum, IncubatorSlowSpeedLikely, IncubatorSlowSpeedMaximum),
    ];

    private readonly Dictionary<string, JsonElement> _given;

    public SiteSettings(IEnumerable<SettingValue> values) => _given = values.ToDictionary(v => v.Name, v => JsonElement.Parse(v.Value));

    public static async Task<SiteSettings> ReadAsync(PlannerContext context, string siteId, CancellationToken cancellationToken) =>
        new(await context.Settings.AsNoTracking().Where(v => v.SiteId == siteId).ToListAsync(cancellationToken));

    public T Get<T>(Setting<T> setting) =>
        _given.TryGetValue(setting.Name, out var json) && setting.Parse(json) is (true, var value) ? value : setting.Assumed;

    /// <summary>True where the site said nothing, so that the default stands.</summary>
    public bool IsAssumed(Setting setting) => !_given.ContainsKey(setting.Name);

    /// <summary>Whether a corridor of a class is held; other places are not.</summary>
    public bool IsHeld(CorridorClass corridor, PrecautionSet precautions) => (precautions & corridor switch
    {
        CorridorClass.Clean => Get(CleanCorridorsHeldFor),
        CorridorClass.Soiled => Get(SoiledCorridorsHeldFor),
        CorridorClass.Public => Get(PublicCorridorsHeldFor),
        CorridorClass.Restricted => Get(RestrictedCorridorsHeldFor),
        _ => PrecautionSet.None,
    }) != PrecautionSet.None;
}
