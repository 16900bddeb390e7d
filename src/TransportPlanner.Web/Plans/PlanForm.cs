using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;

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
    public string? OxygenGauge { get; set; }
    public string? OxygenSize { get; set; }
    public string? AirGauge { get; set; }
    public string? AirSize { get; set; }

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
    public bool HeldElevators { get; set; } = true;
    public bool WithHelper { get; set; } = true;
    public bool AvoidUnknown { get; set; }
}
