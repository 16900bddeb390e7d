using TransportPlanner.Core.FloorPlans;
using static TransportPlanner.Core.FloorPlans.FacilityKind;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>
/// What rooms of one use have in common. Air changes are design values of ventilation-design.csv, whose row stands beside each;
/// null is unknown. People are a mean between the quietest and the busiest hour, per room or, for corridors, per square metre.
/// </summary>
internal sealed record RoomType(PlaceKind Kind, DoorType Door)
{
    public CorridorClass Class { get; init; }
    public double Height { get; init; } = 2.7;
    public double? AirChanges { get; init; }
    public FactSource AirSource { get; init; } = FactSource.Drawing;
    public PressureRelation? Pressure { get; init; }
    public Rhythm People { get; init; } = Rhythm.Steady;
    public double Least { get; init; }
    public double Most { get; init; }
    public bool PerSquareMetre { get; init; }
    public PlaceFlags Flags { get; init; }
    public FacilityKind[] Facilities { get; init; } = [];

    private static readonly FacilityKind[] BedHead = [OxygenOutlet, AirOutlet, Suction, Power, HandHygiene];

    public RoomType With(params FacilityKind[] more) => this with { Facilities = [.. Facilities, .. more] };

    // Circulation. 2 air changes: VD-14, patient corridor.
    public static readonly RoomType PublicCorridor = new(PlaceKind.Corridor, DoorType.Opening)
    {
        Class = CorridorClass.Public,
        AirChanges = 2,
        People = Rhythm.PublicWay,
        Least = .001,
        Most = .055,
        PerSquareMetre = true,
        Facilities = [HandHygiene],
    };

    public static readonly RoomType CleanCorridor = PublicCorridor with
    {
        Class = CorridorClass.Clean,
        AirChanges = 4,
        People = Rhythm.Clean,
        Least = .001,
        Most = .022,
    };

    public static readonly RoomType SoiledCorridor = PublicCorridor with
    {
        Class = CorridorClass.Soiled,
        People = Rhythm.Service,
        Least = .0005,
        Most = .025,
        Facilities = [],
    };

    public static readonly RoomType RestrictedCorridor = PublicCorridor with
    {
        Class = CorridorClass.Restricted,
        People = Rhythm.Ward,
        Least = .001,
        Most = .02,
    };

    public static readonly RoomType Concourse = PublicCorridor with
    {
        Kind = PlaceKind.Lobby,
        Height = 3.2,
        AirChanges = 4,
        AirSource = FactSource.Assumed,
        People = Rhythm.Lobby,
        Least = 0,
        Most = .07,
    };

    public static readonly RoomType PublicLanding = PublicCorridor with
    {
        Kind = PlaceKind.ElevatorLanding,
        AirChanges = null,
        People = Rhythm.PublicWay,
        Least = .003,
        Most = .11,
    };

    public static readonly RoomType ServiceLanding = PublicLanding with
    {
        Class = CorridorClass.Soiled,
        People = Rhythm.Service,
        Least = .001,
        Most = .05,
        Facilities = [],
    };

    public static readonly RoomType CleanLanding = PublicLanding with
    {
        Class = CorridorClass.Clean,
        AirChanges = 4,
        People = Rhythm.Clean,
        Least = .001,
        Most = .03,
    };

    public static readonly RoomType Stair = new(PlaceKind.Stairwell, DoorType.Leaf with { Widths = [900, 950, 900] })
    {
        People = Rhythm.PublicWay,
        Most = .6,
    };

    // 9 air changes: VD-32, naturally ventilated corridors; the bridge has louvres along both sides.
    public static readonly RoomType Bridge = RestrictedCorridor with
    {
        Kind = PlaceKind.LinkBridge,
        Height = 2.6,
        AirChanges = 9,
        AirSource = FactSource.Assumed,
        People = Rhythm.Service,
        Least = 0,
        Most = .004,
        Flags = PlaceFlags.Cold,
        Facilities = [],
    };

    // Birth and newborn. 6: VD-07 and VD-08. 20, positive: VD-06. 12, negative: VD-01. 10: VD-02. 6, positive: VD-10.
    public static readonly RoomType Delivery = new(PlaceKind.DeliveryRoom, DoorType.Bed)
    {
        AirChanges = 6,
        Pressure = PressureRelation.Neutral,
        Least = 2.5,
        Most = 4,
        People = Rhythm.Ward,
        Facilities = [.. BedHead, BailOut],
    };

    public static readonly RoomType Operating = new(PlaceKind.OperatingRoom, DoorType.Automatic.Behind(AccessControl.Badge))
    {
        Height = 3,
        AirChanges = 20,
        Pressure = PressureRelation.Positive,
        Most = 7,
        People = Rhythm.Clean,
        Facilities = BedHead,
    };

    public static readonly RoomType Isolation = new(PlaceKind.IsolationRoom, DoorType.Bed)
    {
        AirChanges = 12,
        AirSource = FactSource.Measured,
        Pressure = PressureRelation.Negative,
        Least = 1,
        Most = 1.5,
        People = Rhythm.Ward,
        Facilities = [.. BedHead, BailOut],
    };

    public static readonly RoomType Anteroom = new(PlaceKind.Anteroom, DoorType.Bed)
    {
        AirChanges = 10,
        Pressure = PressureRelation.Negative,
        Facilities = [HandHygiene, Donning, Doffing],
    };

    public static readonly RoomType IntensiveCare = new(PlaceKind.NeonatalIntensiveCare, DoorType.Sliding.Behind(AccessControl.Badge))
    {
        AirChanges = 6,
        Pressure = PressureRelation.Positive,
        Least = 8,
        Most = 16,
        People = Rhythm.Ward,
        Flags = PlaceFlags.VulnerablePeople,
        Facilities = [.. BedHead, BailOut],
    };

    public static readonly RoomType Nursery = new(PlaceKind.WardRoom, DoorType.Bed)
    {
        AirChanges = 6,
        Least = 3,
        Most = 6,
        People = Rhythm.Ward,
        Facilities = BedHead,
    };

    // Wards and treatment. 4: VD-13. 6: VD-12. 20, positive: VD-05.
    public static readonly RoomType Ward = new(PlaceKind.WardRoom, DoorType.Bed)
    {
        AirChanges = 4,
        Least = 1.5,
        Most = 4,
        People = Rhythm.Ward,
        Facilities = BedHead,
    };

    public static readonly RoomType Treatment = new(PlaceKind.Room, DoorType.Bed)
    {
        AirChanges = 6,
        Most = 2,
        People = Rhythm.Clinic,
        Facilities = [.. BedHead, BailOut],
    };

    public static readonly RoomType Recovery = Treatment with { Kind = PlaceKind.WardRoom, Most = 5, People = Rhythm.Clean };

    // Imaging and waiting. 12, negative: VD-16.
    public static readonly RoomType Imaging = new(PlaceKind.Imaging, DoorType.Bed)
    {
        AirChanges = 6,
        Most = 3,
        People = Rhythm.Clinic,
        Facilities = [OxygenOutlet, Suction, Power, HandHygiene],
    };

    public static readonly RoomType Waiting = new(PlaceKind.WaitingArea, DoorType.Leaf)
    {
        AirChanges = 6,
        AirSource = FactSource.Assumed,
        Most = 9,
        People = Rhythm.Clinic,
        Facilities = [HandHygiene],
    };

    public static readonly RoomType ImagingWaiting = Waiting with
    {
        AirChanges = 12,
        AirSource = FactSource.Drawing,
        Pressure = PressureRelation.Negative,
    };

    // Everything else. 10, negative: VD-18.
    public static readonly RoomType Clinic = new(PlaceKind.Room, DoorType.Leaf)
    {
        AirChanges = 6,
        AirSource = FactSource.Assumed,
        Most = 2.5,
        People = Rhythm.Clinic,
        Facilities = [HandHygiene],
    };

    public static readonly RoomType Office = new(PlaceKind.Office, DoorType.Leaf) { Most = 2, People = Rhythm.Clinic };

    public static readonly RoomType Staff = Office with { Kind = PlaceKind.Room, Least = .3, Most = 3, People = Rhythm.Ward };

    public static readonly RoomType Store = new(PlaceKind.Utility, DoorType.Leaf) { Most = .4, People = Rhythm.Service };

    public static readonly RoomType Utility = Store with
    {
        Door = DoorType.Leaf with { Widths = [800, 820] },
        AirChanges = 10,
        Pressure = PressureRelation.Negative,
        Facilities = [HandHygiene],
    };

    public static readonly RoomType Toilet = new(PlaceKind.Sanitary, DoorType.Sanitary)
    {
        AirChanges = 10,
        Pressure = PressureRelation.Negative,
        Most = .3,
        People = Rhythm.PublicWay,
        Facilities = [HandHygiene],
    };

    public static readonly RoomType Plant = new(PlaceKind.Utility, DoorType.Leaf.Behind(AccessControl.Key))
    {
        Most = .1,
        People = Rhythm.Clinic,
        Flags = PlaceFlags.NoEntry,
    };

    // The car's air: 18 with doors shut lies inside DW-16 (15.4 to 23.0).
    public static readonly RoomType Car = new(PlaceKind.ElevatorCar, DoorType.Landing)
    {
        Height = 2.4,
        AirChanges = 18,
        AirSource = FactSource.Assumed,
    };

    public static readonly RoomType Forecourt = new(PlaceKind.Outdoors, DoorType.Automatic)
    {
        Height = 4,
        People = Rhythm.Lobby,
        Most = 8,
        Flags = PlaceFlags.Cold,
    };
}
