using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Web.Routing;

/// <summary>A part of a time as a triangle: least, likely and most seconds, to 0.01 s. Its mean is their third.</summary>
public sealed record TriangleResponse(double LeastSeconds, double LikelySeconds, double MostSeconds)
{
    internal static TriangleResponse? From(DurationEstimate part) => part == DurationEstimate.Zero ? null : new(
        Math.Round(part.MinimumSeconds, 2), Math.Round(part.LikelySeconds, 2), Math.Round(part.MaximumSeconds, 2));
}

/// <summary>One place crossed, with everything that its time and its exposure are computed from.</summary>
public sealed record CrossingResponse
{
    /// <summary>Number of the place; of an elevator its car.</summary>
    public required string Place { get; init; }

    /// <summary>Walking metres, to 0.01 m; 0 for a ride.</summary>
    public required double Metres { get; init; }

    /// <summary>Metres of them at the slow pace: a length of the conveyance for each turn and threshold, all of a slope.</summary>
    public required double SlowMetres { get; init; }

    /// <summary>Shares one pace with all other walking of the way: least values, likely values and most values add up to one triangle. Null: none.</summary>
    public required TriangleResponse? Walking { get; init; }

    /// <summary>Opening and passing the door at its end. Null: none.</summary>
    public required TriangleResponse? Door { get; init; }

    /// <summary>Call of an elevator, on the landing. Null: none.</summary>
    public required TriangleResponse? Wait { get; init; }

    /// <summary>Loading, doors, flight and unloading. Null: none.</summary>
    public required TriangleResponse? Ride { get; init; }

    /// <summary>How the ride's least, likely and most seconds come about, with the numbers put in. Null: none, and in plans of earlier releases.</summary>
    public string? RideWorking { get; init; }

    /// <summary>Chance, 0 to 1, that the ride stalls.</summary>
    public required double StallProbability { get; init; }

    /// <summary>How long a stall lasts. Null: none.</summary>
    public required TriangleResponse? Stall { get; init; }

    /// <summary>Mean seconds in the place without a stall, to 0.01 s: τ of the exposure.</summary>
    public required double DwellSeconds { get; init; }

    /// <summary>When the team enters the place, in seconds after departure. Null in plans of earlier releases.</summary>
    public Arrival? Enters { get; init; }

    /// <summary>When it has left the place, in seconds after departure. Null in plans of earlier releases.</summary>
    public Arrival? Leaves { get; init; }

    /// <summary>True for the rooms at both ends, which count in the time and not in the exposure.</summary>
    public required bool IsEnd { get; init; }

    /// <summary>N: mean number of people in the quarter-hour of departure, the team excluded, to 0.001.</summary>
    public required double People { get; init; }

    /// <summary>The mean of the floor plan, without the crowds of the quarter-hour, to 0.001; null in plans of earlier releases.</summary>
    public double? UsualPeople { get; init; }

    /// <summary>Entries of the site's crowd calendar in force then, in words.</summary>
    public IReadOnlyList<string> Crowds { get; init; } = [];

    /// <summary>λ per hour: air changes, decay, deposition.</summary>
    public required double LossPerHour { get; init; }

    /// <summary>V, to 0.01 m³.</summary>
    public required double VolumeCubicMetres { get; init; }

    /// <summary>A, to 0.01 m².</summary>
    public required double AreaSquareMetres { get; init; }

    /// <summary>Person-minutes with nobody held, to 0.0001: N · τ · 300 m³/h ÷ (λ · V), and what an open door adds.</summary>
    public required double SharedAirMinutes { get; init; }

    /// <summary>Part of it that the open door of a positive room of departure lets into the next place, to 0.0001.</summary>
    public required double OpenDoorMinutes { get; init; }

    /// <summary>Person-minutes within 2 m with nobody held, to 0.0001: N · τ · the lesser of 1 and 4π m² ÷ A.</summary>
    public required double CloseByMinutes { get; init; }

    internal static CrossingResponse From(Crossing crossing) => new()
    {
        Place = crossing.Place,
        Metres = Math.Round(crossing.Metres, 2),
        SlowMetres = Math.Round(crossing.SlowMetres, 2),
        Walking = TriangleResponse.From(crossing.Time.Walking),
        Door = TriangleResponse.From(crossing.Time.Door),
        Wait = TriangleResponse.From(crossing.Time.Wait),
        Ride = TriangleResponse.From(crossing.Time.Ride),
        RideWorking = crossing.RideWorking,
        StallProbability = Math.Round(crossing.Time.StallProbability, 6),
        Stall = TriangleResponse.From(crossing.Time.StallDuration),
        DwellSeconds = Math.Round(crossing.Time.DwellSeconds, 2),
        Enters = crossing.Enters,
        Leaves = crossing.Leaves,
        IsEnd = crossing.IsEnd,
        People = Math.Round(crossing.Air.People, 3),
        UsualPeople = Math.Round(crossing.Air.UsualPeople, 3),
        Crowds = [.. crossing.Air.Crowds.Select(time => time.Words())],
        LossPerHour = Math.Round(crossing.Air.LossPerHour, 3),
        VolumeCubicMetres = Math.Round(crossing.Air.VolumeCubicMetres, 2),
        AreaSquareMetres = Math.Round(crossing.Air.AreaSquareMetres, 2),
        SharedAirMinutes = Math.Round(crossing.Exposure.SharedAirMinutes, 4),
        OpenDoorMinutes = Math.Round(crossing.OpenDoorMinutes, 4),
        CloseByMinutes = Math.Round(crossing.Exposure.CloseByMinutes, 4),
    };
}
