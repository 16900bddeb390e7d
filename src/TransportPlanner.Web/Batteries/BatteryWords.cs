using TransportPlanner.Core.Batteries;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Batteries;

/// <summary>Batteries in the words of the sheet.</summary>
public static class BatteryWords
{
    // Made anew each time: the pack reads the words in its own language.
    public static IReadOnlyList<(BatteryDevice Value, string Words)> Devices =>
    [
        (BatteryDevice.Ventilator, WordTexts.DeviceVentilator),
        (BatteryDevice.Monitor, WordTexts.DeviceMonitor),
        (BatteryDevice.InfusionPump, WordTexts.DeviceInfusionPump),
        (BatteryDevice.Incubator, WordTexts.DeviceIncubator),
        (BatteryDevice.Suction, WordTexts.DeviceSuction),
        (BatteryDevice.Humidifier, WordTexts.DeviceHumidifier),
        (BatteryDevice.Other, WordTexts.DeviceOther),
    ];

    public static string Of(BatteryDevice device) => Devices.First(d => d.Value == device).Words;

    /// <summary><c>infusion pump (battery 2)</c>: two of a kind are told apart by their number.</summary>
    public static string Of(BatteryResponse battery) => WordText.Of(WordTexts.DeviceBattery, Of(battery.Device), battery.Number);
}
