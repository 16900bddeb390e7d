using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>A strip of a wing from south to north, in metres, before the wing's own shift.</summary>
internal readonly record struct Band(double South, double North)
{
    public static readonly Band SouthRooms = new(0, 6);
    public static readonly Band CleanCorridor = new(6, 8.4);
    public static readonly Band InnerSouth = new(8.4, 14.4);
    /// <summary>Where a storey has no clean corridor, its southern rooms reach to the façade.</summary>
    public static readonly Band DeepSouth = new(6, 14.4);
    public static readonly Band Spine = new(14.4, 17);
    public static readonly Band InnerNorth = new(17, 23);
    public static readonly Band SoiledCorridor = new(23, 25.4);
    public static readonly Band NorthRooms = new(25.4, 30);
}

/// <summary>A wing of nine bays of 6 m. The east wing stands 6 m further north, so that corridors bend where they cross the middle block.</summary>
internal sealed record Wing(double Start, double Shift)
{
    public static readonly Wing West = new(0, 0);
    public static readonly Wing East = new(78, 6);

    public double End => Start + 54;
    public Band At(Band band) => new(band.South + Shift, band.North + Shift);
}

internal enum Side
{
    South,
    North,
}

/// <summary>One room of a row. <see cref="Door"/> leads to the row's own corridor, <see cref="Back"/> to the one behind.</summary>
internal sealed record Bay(string Number, string Name, RoomType Type, double Width)
{
    public DoorType? Door { get; init; }
    public DoorType? Back { get; init; }

    /// <summary>A sanitary cell in the rear corner, which leaves the room L-shaped.</summary>
    public bool Cell { get; init; }

    /// <summary>The door stands back in an alcove of the corridor, so that beds can turn beside the flow.</summary>
    public bool Alcove { get; init; }
}

/// <summary>A piece of corridor; <see cref="Entry"/> is how one comes in from the piece before.</summary>
internal sealed record Stretch(string Number, string Name, double From, double To)
{
    public DoorType Entry { get; init; } = DoorType.Opening;
    public RoomType? Type { get; init; }
}

/// <summary>Draws one storey.</summary>
internal sealed class Storey(Draft draft, string level)
{
    private const double CellWidth = 2.2, CellDepth = 2, AlcoveWidth = 2, AlcoveDepth = 1.2;

    public string Level => level;

    public void Room(string number, string name, RoomType type, Area area) => draft.Add(number, name, type, level, area);

    public void Room(string number, string name, RoomType type, double west, double south, double east, double north) =>
        Room(number, name, type, Area.Rectangle(west, south, east, north));

    public void Door(string from, string to, DoorType type, double along = .5) => draft.Join(from, to, type, along);

    public void Open(string from, string to) => draft.Join(from, to, DoorType.Opening);

    public void Corridor(Wing wing, Band band, RoomType type, params Stretch[] stretches)
    {
        var (south, north) = wing.At(band);
        foreach (var (stretch, i) in stretches.Select((s, i) => (s, i)))
        {
            Room(stretch.Number, stretch.Name, stretch.Type ?? type, stretch.From, south, stretch.To, north);
            if (i > 0)
            {
                Door(stretches[i - 1].Number, stretch.Number, stretch.Entry);
            }
        }
    }

    /// <summary>Fills a band with rooms from west to east.</summary>
    /// <param name="front">Prefix of the corridor that the doors lead to, such as <c>H</c>; <c>back</c> likewise for rear doors.</param>
    public void Row(Wing wing, Band band, Side frontSide, string front, string? back, double west, params Bay[] bays)
    {
        var (south, north) = wing.At(band);
        foreach (var bay in bays)
        {
            var east = Math.Round(west + bay.Width, 3);
            Room(bay.Number, bay.Name, bay.Type, west, south, east, north);
            if (bay.Cell)
            {
                Cell(bay, west, frontSide == Side.South ? north - CellDepth : south);
            }

            var (corridor, near) = bay.Alcove
                ? Alcove(bay.Number, front, east, frontSide == Side.South ? south : north, frontSide)
                : (Any(front), null);
            draft.Join(bay.Number, corridor, bay.Door ?? bay.Type.Door, Along(bay), near);
            if (bay.Back is { } door)
            {
                draft.Join(bay.Number, Any(back ?? throw new InvalidOperationException($"{bay.Number} has nothing behind it.")), door, .6);
            }

            west = east;
        }
    }

    private string Any(string prefix) => Prefix(prefix) + "*";

    private string Prefix(string prefix) => $"{prefix}-{level}.";

    /// <summary>Doors of one corridor do not face each other exactly.</summary>
    private static double Along(Bay bay) => Variation.Pick([.35, .5, .65, .42], bay.Number);

    private void Cell(Bay bay, double west, double south)
    {
        var cell = Area.Rectangle(west, south, west + CellWidth, south + CellDepth);
        draft.Reshape(bay.Number, draft.AreaOf(bay.Number).Minus(cell));
        Room(bay.Number + "S", "Sanitary cell of " + bay.Number, RoomType.Toilet with { Most = .15 }, cell);
        draft.Join(bay.Number + "S", bay.Number, DoorType.Sanitary);
    }

    private (string Corridor, PlanPoint? Near) Alcove(string number, string corridorPrefix, double east, double wall, Side side)
    {
        var (south, north) = side == Side.South ? (wall, wall + AlcoveDepth) : (wall - AlcoveDepth, wall);
        var alcove = Area.Rectangle(east - AlcoveWidth, south, east, north);
        var corridor = draft.NeighbourOf(alcove, Prefix(corridorPrefix), level);
        draft.Reshape(number, draft.AreaOf(number).Minus(alcove));
        draft.Reshape(corridor, draft.AreaOf(corridor).Plus(alcove));
        return (corridor, new(east - AlcoveWidth / 2, side == Side.South ? north : south));
    }
}
