namespace TransportPlanner.Core.Gas;

/// <summary>Whether a cylinder can be changed over on entering a stretch of the journey.</summary>
public enum ChangeOverPlace
{
    /// <summary>Never: an elevator, a doorway, a slope, or a stretch about which nothing is known.</summary>
    Impossible,
    /// <summary>The team can stand still here, clear of the door, away from an outlet.</summary>
    Possible,
    /// <summary>A wall outlet is at hand.</summary>
    Best,
}

/// <summary>A stretch of the journey as gas sees it. A cylinder is changed on entering a stretch, never in the middle of it.</summary>
/// <param name="Name">What a person calls it, for the words of the answer.</param>
/// <param name="Minutes">0 to 1,440; 0 is a stop on the way whose own time is not counted.</param>
/// <param name="ChangeOver">Whether the cylinder can be changed on entering it.</param>
/// <param name="IsElevator">True for a ride: the minutes left on reaching it are given, and nothing can be changed in it.</param>
public sealed record JourneyStretch(string Name, decimal Minutes, ChangeOverPlace ChangeOver, bool IsElevator = false)
{
    /// <summary>Number of the place where it begins; null for a ride, and where nobody said.</summary>
    public string? PlaceNumber { get; init; }

    /// <summary>Most stretches of one journey.</summary>
    public const int Most = 100;

    /// <exception cref="ArgumentOutOfRangeException">Out of range, or a change-over in an elevator.</exception>
    internal void Validate()
    {
        if (Minutes is < 0 or > GasRequest.MaxJourneyMinutes)
            throw new ArgumentOutOfRangeException(nameof(Minutes), Minutes, $"Give a number from 0 to {GasRequest.MaxJourneyMinutes} min.");
        if (IsElevator && ChangeOver != ChangeOverPlace.Impossible)
            throw new ArgumentOutOfRangeException(nameof(ChangeOver), ChangeOver, "A cylinder is never changed in an elevator.");
    }
}
