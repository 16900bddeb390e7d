using TransportPlanner.Core.Batteries;

namespace TransportPlanner.Web.Batteries;

/// <summary>Batteries in the words of the sheet.</summary>
public static class BatteryWords
{
    public static IReadOnlyList<(BatteryDevice Value, string Words)> Devices { get; } =
    [
        (BatteryDevice.Ventilator, "ventilator"),
        (BatteryDevice.Monitor, "monitor"),
        (BatteryDevice.InfusionPump, "infusion pump"),
        (BatteryDevice.Incubator, "incubator"),
        (BatteryDevice.Suction, "suction"),
        (BatteryDevice.Humidifier, "humidifier"),
        (BatteryDevice.Other, "other device"),
    ];

    public static string Of(BatteryDevice device) => Devices.First(d => d.Value == device).Words;

    /// <summary><c>infusion pump (battery 2)</c>: two of a kind are told apart by their number.</summary>
    public static string Of(BatteryResponse battery) => $"{Of(battery.Device)} (battery {battery.Number})";
}
