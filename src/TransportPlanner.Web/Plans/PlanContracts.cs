using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Five inputs are enough: from, to, support, precautions, and the cylinders with their readings. What is left out is assumed and marked, or unknown.</summary>
public sealed record PlanRequest
{
    /// <summary>Slug of the site, such as demonstration.</summary>
    [Length(1, 100, ErrorMessage = "Give the slug of a site, 1 to 100 characters.")]
    public required string SiteId { get; init; }

    /// <summary>Number of the place where the journey starts.</summary>
    [Length(1, 100, ErrorMessage = "Give the number of a place, 1 to 100 characters.")]
    public required string From { get; init; }

    /// <summary>Number of the place where it ends.</summary>
    [Length(1, 100, ErrorMessage = "Give the number of a place, 1 to 100 characters.")]
    public required string To { get; init; }

    /// <summary>How the infant's breathing is supported.</summary>
    public required RespiratorySupport Support { get; init; }

    /// <summary>Precautions in force, as infection prevention entered them: at least one.</summary>
    [MinLength(1, ErrorMessage = "Give at least one of contact, droplet, airborne.")]
    public required IReadOnlyList<Precaution> Precautions { get; init; }

    /// <summary>Cylinders with their readings, as for the gas supply. Empty or left out: the supply is unknown, and the answer gives the least gauge per size.</summary>
    [NoNullItems, MaxLength(12, ErrorMessage = "Give at most 12 cylinders.")]
    public IReadOnlyList<CylinderRequest> Cylinders { get; init; } = [];

    /// <summary>Devices that run on a battery under way. Empty or left out: the batteries are unknown.</summary>
    [NoNullItems, MaxLength(12, ErrorMessage = "Give at most 12 batteries.")]
    public IReadOnlyList<BatteryRequest> Batteries { get; init; } = [];

    /// <summary>Flow and oxygen fraction as set. Each figure left out stands at the worst of the support and is marked.</summary>
    public PlanDemandRequest? Demand { get; init; }

    /// <summary>Weight in grams. Left out: the kit spans the bands. Dropped after 24 hours.</summary>
    [Range(KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams, ErrorMessage = "Is this in grams? Give 300 to 6000 g: an infant of 1.85 kg is 1850. Or leave it out.")]
    public int? WeightGrams { get; init; }

    /// <summary>Gestation in completed weeks. Left out: the kit spans the bands. Dropped after 24 hours.</summary>
    [Range(KitQuery.MinGestationWeeks, KitQuery.MaxGestationWeeks, ErrorMessage = "Give completed weeks, 22 to 44, or leave it out.")]
    public int? GestationWeeks { get; init; }

    /// <summary>When the team leaves. Left out: now, assumed.</summary>
    public DateTimeOffset? DepartAt { get; init; }

    /// <summary>What moves. Left out: an incubator of 1.50 × 0.75 × 1.60 m, 140 kg, with the site's crew, assumed.</summary>
    public ConveyanceRequest? Conveyance { get; init; }

    /// <summary>Whether somebody keeps each car that can be held. Left out: yes, assumed.</summary>
    public bool? HeldElevators { get; init; }

    /// <summary>Whether a clean helper goes ahead. Left out: yes, assumed.</summary>
    public bool? WithHelper { get; init; }

    /// <summary>Officers of security. Left out: as many as it takes.</summary>
    public OfficersRequest? Officers { get; init; }

    /// <summary>Whether an unknown limit counts as an obstacle. Left out: no.</summary>
    public bool AvoidUnknown { get; init; }

    internal RouteRequest ToRouteRequest() => new()
    {
        SiteId = SiteId,
        From = From,
        To = To,
        DepartAt = DepartAt,
        Precautions = Precautions,
        Conveyance = Conveyance,
        HeldElevators = HeldElevators,
        WithHelper = WithHelper,
        AvoidUnknown = AvoidUnknown,
        DepartureWindowMinutes = DepartureWindowMinutes,
    };

    /// <summary>A plan is void half an hour after its departure, and so is what it would say about an hour that is further off.</summary>
    private const int DepartureWindowMinutes = 60;
}

/// <summary>What the device draws, as far as somebody read it.</summary>
public sealed record PlanDemandRequest
{
    internal const string MinuteVolumeNeeds = "A minute volume is given with its litres, for ventilation by tube alone: every other support draws its set flow.";

    /// <summary>Set flow in litres per minute. Left out: the highest listed flow of the support.</summary>
    [Range(GasDemand.MinLitresPerMinute, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give the set flow as 0.01 to 30 L/min, or leave it out.")]
    public double? FlowLitresPerMinute { get; init; }

    /// <summary>What that flow is. Default setFlow; minuteVolume with invasiveVentilation only, of a ventilator that gives gas breath by breath.</summary>
    public FlowKind FlowIs { get; init; }

    /// <summary>Oxygen fraction, 0.21 to 1. Left out: each gas counts at its worst, oxygen at 1.0 and air at 0.21.</summary>
    [Range(0.21, 1, ErrorMessage = "Give a fraction from 0.21 to 1, not percent, or leave it out.")]
    public double? OxygenFraction { get; init; }

    /// <summary>Gas that drives the device, litres per minute.</summary>
    [Range(0, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give 0 to 30 L/min.")]
    public double DriveGasLitresPerMinute { get; init; }

    /// <summary>Which gas drives the device.</summary>
    public GasKind DriveGas { get; init; } = GasKind.Oxygen;

    /// <summary>What the blender lets go, litres per minute.</summary>
    [Range(0, GasDemand.MaxLitresPerMinute, ErrorMessage = "Give 0 to 30 L/min.")]
    public double BleedLitresPerMinute { get; init; }

    /// <summary>Where the air comes from.</summary>
    public AirSource AirSource { get; init; } = AirSource.Cylinder;
}
