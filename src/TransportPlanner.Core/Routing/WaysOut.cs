namespace TransportPlanner.Core.Routing;

/// <summary>Something of use near a leg, the quickest to reach through what the conveyance passes.</summary>
/// <param name="Place">Number of its place.</param>
/// <param name="Level">Id of its level.</param>
/// <param name="Metres">Walking metres to it, to 0.1 m; 0 on the leg itself.</param>
/// <param name="Seconds">Expected seconds to it, doors and elevators included, to 0.1 s; 0 on the leg itself.</param>
public sealed record NearbyPlace(string Place, string Level, double Metres, double Seconds);

/// <summary>A door into another fire compartment of the same level.</summary>
/// <param name="Passage">Id of the door.</param>
/// <param name="Compartment">Name of the compartment behind it.</param>
/// <param name="Metres">Walking metres to it, to 0.1 m.</param>
/// <param name="Seconds">Expected seconds to it, to 0.1 s.</param>
public sealed record FireDoor(string Passage, string Compartment, double Metres, double Seconds);

/// <summary>
/// Where to go from a leg when something happens. <i>Onward</i> counts from the end of the leg, <i>back</i> from its start, turned round on
/// the spot or by a branch before its end; what lies on the leg itself counts as both, at 0 m (of fire doors the first). Null: nothing there, or a one-way passage is in the way.
/// </summary>
public sealed record WaysOut
{
    /// <summary>Nearest planned place to stop and treat, going on.</summary>
    public required NearbyPlace? BailOutOnward { get; init; }
    public required NearbyPlace? BailOutBack { get; init; }

    /// <summary>Whether the one named back is off a place that is entered on this leg: nobody turns round for it. False in plans of earlier releases.</summary>
    public bool IsBailOutBackOnLeg { get; init; }

    /// <summary>Nearest wall oxygen, going on.</summary>
    public required NearbyPlace? OxygenOnward { get; init; }
    public required NearbyPlace? OxygenBack { get; init; }

    /// <summary>The same of the wall oxygen.</summary>
    public bool IsOxygenBackOnLeg { get; init; }

    /// <summary>Expected seconds from the end of the leg to the destination.</summary>
    public required double DestinationSeconds { get; init; }

    /// <summary>Name of the fire compartment where the leg starts; null: unknown. For a ride that of the landing where the team boards.</summary>
    public required string? FireCompartment { get; init; }

    /// <summary>The door to go through if the alarm sounds now, going on; always null for a ride, since elevators are then out of use.</summary>
    public required FireDoor? FireDoorOnward { get; init; }

    /// <summary>The same, back; for a ride from the landing where the team boards.</summary>
    public required FireDoor? FireDoorBack { get; init; }

    /// <summary>The same of the fire door.</summary>
    public bool IsFireDoorBackOnLeg { get; init; }

    /// <summary>Whether no bail-out point is nearer, in time, than the destination itself.</summary>
    public bool IsDestinationNearest =>
        DestinationSeconds <= Math.Min(BailOutOnward?.Seconds ?? double.MaxValue, BailOutBack?.Seconds ?? double.MaxValue);
}
