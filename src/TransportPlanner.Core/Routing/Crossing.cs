using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>One place crossed on a way, with everything that its time and its exposure are computed from: the figures of a working.</summary>
public sealed record Crossing
{
    /// <summary>Number of the place; of an elevator its car.</summary>
    public required string Place { get; init; }

    /// <summary>Walking metres; 0 for a ride.</summary>
    public required double Metres { get; init; }

    /// <summary>Metres of them at the slow pace: a length of the conveyance for each turn and threshold, all of a slope.</summary>
    public required double SlowMetres { get; init; }
    public required TravelTime Time { get; init; }

    /// <summary>How the time of a ride comes about, with the numbers put in; null where nothing is ridden.</summary>
    public string? RideWorking { get; init; }

    /// <summary>When the team enters the place, in seconds after departure.</summary>
    public required Arrival Enters { get; init; }

    /// <summary>When it has left the place.</summary>
    public required Arrival Leaves { get; init; }

    /// <summary>Whether the place is one of the two ends, which count in the time and not in the exposure.</summary>
    public required bool IsEnd { get; init; }

    /// <summary>Air and people as the model takes them in the quarter-hour of departure.</summary>
    public required PlaceAir Air { get; init; }

    /// <summary>Shared air, close by and touches, with nobody held, the open door of a positive room included.</summary>
    public required ExposureFigures Exposure { get; init; }

    /// <summary>Part of the shared air that the open door of a positive room of departure lets into the next place.</summary>
    public required double OpenDoorMinutes { get; init; }

    internal static Crossing Of(PricedGraph priced, int arc, Arrival enters, Arrival leaves)
    {
        var (floor, place, exposure) = (priced.Floor, priced.Floor.ArcPlace[arc], priced.Exposure.Of(arc));
        return new()
        {
            Place = floor.Plan.Places[place].Number,
            Metres = floor.ArcLength[arc] / 1000.0,
            SlowMetres = priced.Travel.SlowMetresOf(arc),
            Time = priced.Travel.TimeOf(arc),
            RideWorking = priced.Travel.RideWorkingOf(arc),
            Enters = enters,
            Leaves = leaves,
            IsEnd = !floor.IsTraversal(floor.ArcSource[arc]) || !floor.IsTraversal(floor.ArcTarget[arc]),
            Air = priced.Exposure.Places[place],
            Exposure = exposure.NobodyHeld,
            OpenDoorMinutes = exposure.OpenDoorMinutes,
        };
    }
}
