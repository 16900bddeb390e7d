using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>What moves: the outer size of the incubator with everything hung on it, its mass, and the crew beside it.</summary>
public sealed record Conveyance
{
    /// <summary>Largest length, width or height accepted, in metres.</summary>
    public const double MaxMetres = 5;
    public const double MaxKilograms = 1_000;
    public const int MaxCrew = 12;

    /// <exception cref="ArgumentOutOfRangeException">A length is 0 or above 5 m, the mass is 0 or above 1,000 kg, or the crew is not 1 to 12.</exception>
    public Conveyance(Distance length, Distance width, Distance height, double massKilograms, int crew)
    {
        (Length, Width, Height) = (Checked(length, nameof(length)), Checked(width, nameof(width)), Checked(height, nameof(height)));
        MassKilograms = massKilograms is > 0 and <= MaxKilograms
            ? massKilograms
            : throw new ArgumentOutOfRangeException(nameof(massKilograms), massKilograms, $"Give a mass above 0 and up to {MaxKilograms} kg.");
        Crew = crew is >= 1 and <= MaxCrew
            ? crew
            : throw new ArgumentOutOfRangeException(nameof(crew), crew, $"Give a crew of 1 to {MaxCrew}.");
    }

    /// <summary>
    /// What callers take, marked <i>assumed</i>, when nobody measured: 1.50 × 0.75 × 1.60 m, 140 kg, crew of four. Source: project
    /// default; length after MV-61 (memory), mass after MV-72 (EN 13976, memory). Measure the real one.
    /// </summary>
    public static Conveyance AssumedIncubator { get; } =
        new(Distance.FromMetres(1.5), Distance.FromMetres(0.75), Distance.FromMetres(1.6), 140, 4);

    public Distance Length { get; }
    public Distance Width { get; }
    public Distance Height { get; }

    /// <summary>The module with everything on it, without the crew.</summary>
    public double MassKilograms { get; }

    /// <summary>People who ride and walk with it.</summary>
    public int Crew { get; }

    private static Distance Checked(Distance size, string name) =>
        size > Distance.Zero && size.Metres <= MaxMetres
            ? size
            : throw new ArgumentOutOfRangeException(name, size, $"Give a length above 0 and up to {MaxMetres} m.");
}
