using System.Collections.Immutable;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>What a place is for.</summary>
public enum PlaceKind
{
    Room,
    DeliveryRoom,
    OperatingRoom,
    IsolationRoom,
    Anteroom,
    NeonatalIntensiveCare,
    WardRoom,
    Imaging,
    Corridor,
    Ramp,
    LinkBridge,
    Lobby,
    WaitingArea,
    ElevatorLanding,
    /// <summary>The inside of an elevator car: a place without a level.</summary>
    ElevatorCar,
    /// <summary>One storey of a stairwell; storeys are joined by stair-flight passages.</summary>
    Stairwell,
    Utility,
    Sanitary,
    Office,
    Outdoors,
}

/// <summary>Whose corridor it is. <see cref="None"/> for rooms and cars.</summary>
public enum CorridorClass
{
    None,
    Clean,
    /// <summary>The trade also says dirty.</summary>
    Soiled,
    Public,
    Restricted,
}

/// <summary>Pressure of a place against the space outside its door.</summary>
public enum PressureRelation
{
    Neutral,
    Negative,
    Positive,
}

/// <summary>What forbids or burdens a crossing.</summary>
[Flags]
public enum PlaceFlags
{
    None = 0,
    /// <summary>People who must be kept apart from the transport stay here.</summary>
    VulnerablePeople = 1,
    /// <summary>Steel cylinders may not enter (magnet zone).</summary>
    NoCylinders = 2,
    NoEntry = 4,
    /// <summary>Unheated or open to the outside: its minutes count as cold minutes.</summary>
    Cold = 8,
    /// <summary>Handheld radios do not reach out of here.</summary>
    NoRadio = 16,
    /// <summary>No wireless network here: what is sent arrives later.</summary>
    NoWifi = 32,
}

public enum FacilityKind
{
    OxygenOutlet,
    AirOutlet,
    Suction,
    Power,
    HandHygiene,
    Donning,
    Doffing,
    /// <summary>A planned place to stop and treat: a door that shuts, power, an oxygen outlet.</summary>
    BailOut,
}

/// <summary>Something of use in a place. <paramref name="Connector"/> is the outlet's standard or type as the site writes it, null when unknown.</summary>
public sealed record Facility(FacilityKind Kind, string? Connector, FactSource Source, DateOnly? AsOf);

/// <summary>A part of a storey that walls and doors keep fire out of for a time, by the name it has in the hospital's fire plan.</summary>
public readonly record struct FireCompartment(string Name)
{
    public override string ToString() => Name;
}

/// <summary>A storey. Elevation in metres above the site's own datum.</summary>
public sealed record Level(string Id, string Name, double ElevationMetres);

/// <summary>A room, corridor, landing, car, stairwell storey or anteroom. Known by its number, unique in its site.</summary>
public sealed record Place
{
    public required string Number { get; init; }
    public required string Name { get; init; }
    public required PlaceKind Kind { get; init; }

    /// <summary>Level id; null for an elevator car only.</summary>
    public required string? Level { get; init; }
    public required Outline Outline { get; init; }
    public CorridorClass CorridorClass { get; init; }
    public Fact<Distance> Height { get; init; }
    public Fact<AirChangeRate> AirChanges { get; init; }
    public Fact<PressureRelation> Pressure { get; init; }

    /// <summary>Unknown in a car, which is in none.</summary>
    public Fact<FireCompartment> FireCompartment { get; init; }

    /// <summary>Slope in percent; unknown on a ramp means <i>unknown</i>, elsewhere level floor is taken.</summary>
    public Fact<double> GradientPercent { get; init; }

    /// <summary>Mean number of people, transport team excluded; for a car its mean riders. Null: unknown.</summary>
    public QuarterHourProfile? Occupancy { get; init; }
    public FactSource OccupancySource { get; init; }
    public PlaceFlags Flags { get; init; }
    public ImmutableArray<Facility> Facilities { get; init; } = [];

    /// <summary>Where the incubator stands when the place is an end of the journey; null: an interior point is computed.</summary>
    public PlanPoint? StandingPoint { get; init; }

    public bool Has(FacilityKind kind) => Facilities.Any(f => f.Kind == kind);
}
