using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>
/// What a kind of passage has in common. Widths are clear millimetres, thresholds millimetres; 0 in <see cref="Widths"/> stands for
/// one that nobody has measured. Times are project estimates inside the published ranges that docs/demonstration-hospital.md lists.
/// </summary>
internal sealed record DoorType(PassageKind Kind, int[] Widths)
{
    public int[] Thresholds { get; init; } = [0];
    public AccessControl Access { get; init; }
    public PassageDirection Direction { get; init; }
    public DurationEstimate? WithHelper { get; init; }
    public DurationEstimate? Alone { get; init; }
    public FactSource? WidthSource { get; init; }

    /// <summary>Where the two places simply meet; as wide as the wall they share.</summary>
    public static readonly DoorType Opening = new(PassageKind.Opening, []);

    public static readonly DoorType Bed = new(PassageKind.HingedDoor, [1_100, 1_150, 1_200, 1_120, 1_180, 1_250])
    {
        Thresholds = [0, 0, 4, 0, 6],
        WithHelper = new(1, 2, 4),
        Alone = new(3, 5, 8),
    };

    public static readonly DoorType Leaf = new(PassageKind.HingedDoor, [800, 850, 900, 0, 820, 950, 900])
    {
        Thresholds = [0, 5, 0, 12],
        WithHelper = new(1, 2, 4),
        Alone = new(3, 5, 8),
    };

    public static readonly DoorType Sanitary = Leaf with { Widths = [800, 820, 900, 800, 850], Thresholds = [0, 12, 15, 8] };

    /// <summary>Smoke doors across a corridor, both leaves needed for a bed.</summary>
    public static readonly DoorType Double = new(PassageKind.DoubleDoor, [1_400, 1_600, 1_500, 1_350])
    {
        Thresholds = [0, 4, 12],
        WithHelper = new(1, 3, 6),
        Alone = new(4, 7, 12),
    };

    public static readonly DoorType Sliding = new(PassageKind.SlidingDoor, [1_200, 1_300, 1_250, 1_400])
    {
        WithHelper = new(1, 2, 3),
        Alone = new(2, 4, 6),
    };

    public static readonly DoorType Automatic = new(PassageKind.AutomaticDoor, [1_400, 1_500, 1_350])
    {
        WithHelper = new(1, 2, 4),
        Alone = new(3, 4, 6),
    };

    public static readonly DoorType Landing = new(PassageKind.LandingDoor, []);

    public static readonly DoorType Flight = new(PassageKind.StairFlight, []);

    /// <summary>The same door behind a reader or a lock: the card has to be found and the latch has to answer.</summary>
    public DoorType Behind(AccessControl access) => this with
    {
        Access = access,
        WithHelper = WithHelper is { } helper ? helper + new DurationEstimate(0, 1, 2) : null,
        Alone = Alone is { } alone ? alone + new DurationEstimate(2, 3, 6) : null,
    };

    public DoorType Wide(int clearMillimetres, FactSource source = FactSource.Measured) =>
        this with { Widths = [clearMillimetres], WidthSource = source };

    public DoorType Sill(int millimetres) => this with { Thresholds = [millimetres] };

    /// <summary>From the first place to the second only.</summary>
    public DoorType OneWay() => this with { Direction = PassageDirection.Forward };
}
