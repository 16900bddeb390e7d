using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Posts;

/// <summary>
/// What a site decides about posts, beside what it holds (<see cref="Exposure.ExposureSettings"/>). Every default is the project's own
/// proposal without a source and stands for <i>assumed</i> until the site gives its own; where a published value was near, it is named.
/// </summary>
public sealed record PostSettings
{
    /// <summary>On the level. Source: Boyce, Shields and Silcock 1999 (MV-11, memory).</summary>
    public WalkingSpeed OfficerSpeed { get; init; } = WalkingSpeed.FromMetresPerSecond(1.25);

    /// <summary>On stairs, along the flight. Source: able adult down stairs, supplier's page (MV-02).</summary>
    public WalkingSpeed OfficerStairSpeed { get; init; } = WalkingSpeed.FromMetresPerSecond(0.75);

    /// <summary>An officer stands this many seconds before the team can be there at the earliest.</summary>
    public int LeadSeconds { get; init; } = 30;

    /// <summary>So many seconds more where people are asked to leave the place first.</summary>
    public int ClearSeconds { get; init; } = 30;

    /// <summary>Kept free between arriving at the next post and its beginning: doors, a word with somebody.</summary>
    public int MarginSeconds { get; init; } = 15;

    /// <summary>
    /// A car is called for the capture this many seconds before the team can be on the landing at the earliest, or as many as nine in ten waits for
    /// it take at that hour, whichever is more.
    /// </summary>
    public int CaptureSeconds { get; init; } = 60;

    /// <summary>One officer watches the doors of one place that lie this far in a straight line from where the officer stands. 0: each door is a post.</summary>
    public double SightMetres { get; init; } = 15;

    /// <summary>A door needs no post where the mean number of people in everything behind it is known and at most this.</summary>
    public double EmptyPeople { get; init; } = 0.05;

    /// <summary>Mean minutes that somebody stays in a place that one walks through, or in a car.</summary>
    public double WalkedThroughStayMinutes { get; init; } = 1;

    /// <summary>Mean minutes that somebody stays in any other place.</summary>
    public double RoomStayMinutes { get; init; } = 30;

    /// <summary>Precautions under which people are asked to leave a held place before the team comes.</summary>
    public PrecautionSet ClearedFor { get; init; } = PrecautionSet.Airborne;

    /// <summary>Precautions under which held places are cleaned before they are used again.</summary>
    public PrecautionSet PlacesCleanedFor { get; init; }

    /// <summary>Precautions under which a captured car is cleaned before it is given back.</summary>
    public PrecautionSet CarsCleanedFor { get; init; } = PrecautionSet.Contact | PrecautionSet.Droplet | PrecautionSet.Airborne;

    /// <summary>Minutes that cleaning a car takes.</summary>
    public double CarCleaningMinutes { get; init; } = 10;
}
