using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Exposure;

/// <summary>Air and people of a place in one quarter-hour, as the model takes them.</summary>
public sealed record PlaceAir
{
    private PlaceAir()
    {
    }

    public required double AreaSquareMetres { get; init; }
    public required double VolumeCubicMetres { get; init; }

    /// <summary>λ: air changes, decay and deposition, never below the least loss rate.</summary>
    public required double LossPerHour { get; init; }

    /// <summary>λ while the place is held empty: that of open doors for a car, else the same.</summary>
    public required double HeldLossPerHour { get; init; }

    /// <summary>N: mean number of people, the team excluded, with the crowds of the quarter-hour.</summary>
    public required double People { get; init; }

    /// <summary>The mean of the floor plan, or what is taken for it, without the crowds.</summary>
    public required double UsualPeople { get; init; }

    /// <summary>Entries of the crowd calendar that are in force.</summary>
    public required ImmutableArray<CrowdTime> Crowds { get; init; }

    /// <summary>True where posts, or the holder of the car, keep people out.</summary>
    public required bool IsHeld { get; init; }

    /// <summary>Minutes from the team's leaving until others enter, where it is held.</summary>
    public required double EmptyMinutes { get; init; }

    /// <summary>
    /// True where an open door lets air out. Operating rooms and neonatal intensive care count as positive where nobody says otherwise:
    /// ASHRAE 170 designs them so (VD-05, VD-06, VD-10, quoted).
    /// </summary>
    public required bool IsPositive { get; init; }

    /// <summary>What was taken for an unknown, in words: <i>air changes</i>, <i>height</i>, <i>people</i>, <i>pressure</i>.</summary>
    public required ImmutableArray<string> Assumed { get; init; }

    internal static PlaceAir Of(Place place, Elevator? elevator, int quarter, bool isHeld, PrecautionSet precautions, ExposureSettings settings)
    {
        var (isCar, area) = (elevator is not null, place.Outline.AreaSquareMetres);
        var isPositiveByDesign = place.Kind is PlaceKind.OperatingRoom or PlaceKind.NeonatalIntensiveCare;
        double Loss(double airChanges) => Math.Max(settings.LeastLossPerHour, airChanges + settings.DecayPerHour + settings.DepositionPerHour);
        var usual = place.Occupancy?.Values[quarter] ?? settings.People;
        var shut = Loss(place.AirChanges.IsKnown ? place.AirChanges.Value.PerHour : isCar ? settings.CarAirChanges : settings.AirChangesOf(place.CorridorClass));
        return new()
        {
            AreaSquareMetres = area,
            VolumeCubicMetres = area * (place.Height.IsKnown ? place.Height.Value.Metres : isCar ? settings.CarHeight : settings.Height),
            LossPerHour = shut,
            HeldLossPerHour = elevator is null ? shut
                : Loss(elevator.AirChangesDoorsOpen.IsKnown ? elevator.AirChangesDoorsOpen.Value.PerHour : settings.CarAirChangesDoorsOpen),
            People = settings.Crowds.People(place.Number, quarter, usual),
            UsualPeople = usual,
            Crowds = settings.Crowds.In(place.Number, quarter),
            IsHeld = isHeld,
            EmptyMinutes = isCar ? settings.CarParkMinutes : settings.EmptyMinutes(precautions),
            IsPositive = place.Pressure.IsKnown ? place.Pressure.Value == PressureRelation.Positive : isPositiveByDesign,
            Assumed =
            [
                .. place.AirChanges.IsKnown ? [] : new[] { "air changes" },
                .. place.Height.IsKnown ? [] : new[] { "height" },
                .. place.Occupancy is null ? new[] { "people" } : [],
                .. isPositiveByDesign && !place.Pressure.IsKnown ? new[] { "pressure" } : [],
            ],
        };
    }
}
