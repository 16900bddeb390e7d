using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>
/// What a handover file says about a building, in metres, before any of it is believed: the same record whatever the file's format.
/// What the file leaves out is null. <c>Origin</c> says where a row stands, as a person would look it up: <c>Space, row 12</c>.
/// </summary>
public sealed record BuildingRecord
{
    public required string Name { get; init; }
    public required ImmutableArray<RecordedLevel> Levels { get; init; }
    public required ImmutableArray<RecordedSpace> Spaces { get; init; }
    public required ImmutableArray<RecordedDoor> Doors { get; init; }
    public required ImmutableArray<RecordedElevator> Elevators { get; init; }
}

/// <summary>A storey. Elevation in metres from the file's own datum, which may be another one than that of its points.</summary>
public sealed record RecordedLevel(string Name, double? ElevationMetres, string Origin);

/// <summary>A room, corridor, shaft or storey of a stairwell.</summary>
public sealed record RecordedSpace
{
    public required string Number { get; init; }
    public required string Name { get; init; }

    /// <summary>Class as the file writes it, for example by OmniClass table 13; empty when it gives none.</summary>
    public required string Category { get; init; }

    /// <summary>Name of the level as the file writes it.</summary>
    public required string Level { get; init; }
    public ImmutableArray<string> Zones { get; init; } = [];
    public Outline? Outline { get; init; }

    /// <summary>True where the outline is only the box around the space, not its walls.</summary>
    public bool IsBox { get; init; }
    public double? NetAreaSquareMetres { get; init; }
    public double? HeightMetres { get; init; }

    /// <summary>Elevation of the box's lower and upper corner, by the datum of the points.</summary>
    public double? BottomMetres { get; init; }

    /// <inheritdoc cref="BottomMetres"/>
    public double? TopMetres { get; init; }
    public DateOnly? AsOf { get; init; }
    public required string Origin { get; init; }
}

/// <summary>A door and the spaces it lies between.</summary>
public sealed record RecordedDoor
{
    public required string Id { get; init; }
    public required string Description { get; init; }

    /// <summary>Numbers of spaces; a number that no space has is kept as the file writes it.</summary>
    public required ImmutableArray<string> Spaces { get; init; }
    public PlanPoint? Point { get; init; }

    /// <summary>Elevation of the point by the datum of the points.</summary>
    public double? PointMetres { get; init; }

    /// <summary>Width and height of leaf or frame as ordered; the clear opening is less.</summary>
    public double? NominalWidthMetres { get; init; }

    /// <inheritdoc cref="NominalWidthMetres"/>
    public double? NominalHeightMetres { get; init; }
    public DateOnly? AsOf { get; init; }
    public required string Origin { get; init; }
}

/// <summary>An elevator and the space its file puts it in, most often its shaft.</summary>
public sealed record RecordedElevator(string Name, string? Space, double? RatedLoadKilograms, DateOnly? AsOf, string Origin);
