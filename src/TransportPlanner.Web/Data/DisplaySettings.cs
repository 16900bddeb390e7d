using static TransportPlanner.Web.Data.SettingKinds;

namespace TransportPlanner.Web.Data;

/// <summary>Scale of the gauges that a site reads.</summary>
internal enum GaugeUnit
{
    Psi,
    Bar,
    KPa,
}

/// <summary>In which unit a site shows how far it is.</summary>
internal enum WayUnit
{
    Metres,
    Feet,
}

/// <summary>What a site calls what carries people between levels.</summary>
internal enum ElevatorWord
{
    Elevator,
    Lift,
}

/// <summary>Units and words in which a site reads: nothing is computed with them, and the API's members keep theirs.</summary>
internal static class DisplaySettings
{
    public static readonly Setting<GaugeUnit> PressureUnit = Choice(
        "pressureUnit", GaugeUnit.Psi, "Unit of pressure on pages, prints and the terminal. A gauge that was given in another unit is shown as given, with this one beside it.");
    public static readonly Setting<WayUnit> LengthUnit = Choice(
        "lengthUnit", WayUnit.Metres, "Unit in which pages, prints and the terminal show how far it is. Clear widths and the incubator stay in metres, as they are measured.");
    public static readonly Setting<ElevatorWord> ElevatorWord = Choice(
        "elevatorWord", Data.ElevatorWord.Elevator, "What pages, prints, calls and the terminal call it.");

    /// <summary>Every setting of this page, in the order in which it is shown.</summary>
    public static readonly IReadOnlyList<Setting> All = [PressureUnit, LengthUnit, ElevatorWord];
}
