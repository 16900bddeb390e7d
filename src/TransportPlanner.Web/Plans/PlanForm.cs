using System.Globalization;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>What the start page asks. Everything is text as typed, so that nothing is lost when a value is refused.</summary>
public sealed class PlanForm
{
    public string? From { get; set; }
    public string? To { get; set; }
    public RespiratorySupport? Support { get; set; }
    public bool Airborne { get; set; }
    public bool Droplet { get; set; }
    public bool Contact { get; set; }

    /// <summary><c>psi</c>, <c>bar</c> or <c>kPa</c>, for every pressure of the form.</summary>
    public string PressureUnit { get; set; } = "psi";
    public CylinderEntry Oxygen { get; set; } = new();
    public CylinderEntry Air { get; set; } = new();

    /// <summary>Further cylinders, in the order in which those of a gas are changed over; an empty row is left out.</summary>
    public IList<CylinderEntry> More { get; set; } = [];

    public AirSource AirSource { get; set; }
    public FlowKind FlowIs { get; set; }
    public string? DriveFlow { get; set; }
    public GasKind DriveGas { get; set; }
    public string? Bleed { get; set; }

    /// <summary>Rows of batteries; a row without a device is left out.</summary>
    public IList<BatteryEntry> Batteries { get; set; } = [];
    public string? Flow { get; set; }
    public string? OxygenFraction { get; set; }
    public string? WeightGrams { get; set; }
    public string? GestationWeeks { get; set; }

    /// <summary>Local date and time at the site, as a browser's date field writes it; empty: leave now.</summary>
    public string? DepartAt { get; set; }
    public string? LengthMetres { get; set; }
    public string? WidthMetres { get; set; }
    public string? HeightMetres { get; set; }
    public string? MassKilograms { get; set; }
    public string? Crew { get; set; }
    public string? Officers { get; set; }
    public bool HeldElevators { get; set; } = true;
    public bool WithHelper { get; set; } = true;
    public bool AvoidUnknown { get; set; }

    /// <summary>The form as it would have been filled in for an earlier request.</summary>
    internal static PlanForm Of(PlanRequest given, int? weightGrams, int? gestationWeeks, string timeZone)
    {
        static string? Text(double? value) => value?.ToString("0.####", CultureInfo.InvariantCulture);
        static string? Flow(double? value) => value is > 0 ? Text(value) : null;
        var unit = given.Cylinders is [{ GaugeBar: not null }, ..] ? "bar" : given.Cylinders is [{ GaugeKpa: not null }, ..] ? "kPa" : "psi";
        var cylinders = PlanCylinders.Fields(given.Cylinders).Select(pair => (pair.Field, Entry: CylinderEntry.Of(pair.Cylinder, unit))).ToList();
        CylinderEntry First(GasKind gas) => cylinders.Find(pair => pair.Field == $"{gas}").Entry ?? new();
        return new()
        {
            From = given.From,
            To = given.To,
            Support = given.Support,
            Airborne = given.Precautions.Contains(Precaution.Airborne),
            Droplet = given.Precautions.Contains(Precaution.Droplet),
            Contact = given.Precautions.Contains(Precaution.Contact),
            PressureUnit = unit,
            Oxygen = First(GasKind.Oxygen),
            Air = First(GasKind.Air),
            More = [.. cylinders.Where(pair => pair.Field.StartsWith("More", StringComparison.Ordinal)).Select(pair => pair.Entry)],
            AirSource = given.Demand?.AirSource ?? AirSource.Cylinder,
            FlowIs = given.Demand?.FlowIs ?? FlowKind.SetFlow,
            DriveFlow = Flow(given.Demand?.DriveGasLitresPerMinute),
            DriveGas = given.Demand?.DriveGas ?? GasKind.Oxygen,
            Bleed = Flow(given.Demand?.BleedLitresPerMinute),
            Batteries = [.. given.Batteries.Select(BatteryEntry.Of)],
            Flow = Text(given.Demand?.FlowLitresPerMinute),
            OxygenFraction = Text(given.Demand?.OxygenFraction),
            WeightGrams = weightGrams?.ToString(CultureInfo.InvariantCulture),
            GestationWeeks = gestationWeeks?.ToString(CultureInfo.InvariantCulture),
            DepartAt = given.DepartAt is { } departAt
                ? TimeZoneInfo.ConvertTime(departAt, TimeZoneInfo.FindSystemTimeZoneById(timeZone)).ToString("yyyy-MM-ddTHH:mm", CultureInfo.InvariantCulture)
                : null,
            LengthMetres = Text(given.Conveyance?.LengthMetres),
            WidthMetres = Text(given.Conveyance?.WidthMetres),
            HeightMetres = Text(given.Conveyance?.HeightMetres),
            MassKilograms = Text(given.Conveyance?.MassKilograms),
            Crew = given.Conveyance?.Crew?.ToString(CultureInfo.InvariantCulture),
            Officers = given.Officers?.Count.ToString(CultureInfo.InvariantCulture),
            HeldElevators = given.HeldElevators ?? true,
            WithHelper = given.WithHelper ?? true,
            AvoidUnknown = given.AvoidUnknown,
        };
    }
}
