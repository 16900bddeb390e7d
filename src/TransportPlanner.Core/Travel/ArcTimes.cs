using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>Times of walks, doors, waits and rides for one query, and which of them rest on a default.</summary>
internal sealed class ArcTimes(FloorPlan plan, TravelQuery query, LocalQuarterHour quarter)
{
    private readonly TravelSettings _settings = query.Settings;
    private readonly Dictionary<string, ElevatorGroup> _groups = plan.ElevatorGroups.ToDictionary(group => group.Id);

    /// <summary>Slow for one length of the conveyance at each turn and at a threshold at the end, and all along a slope or a ramp of unknown slope.</summary>
    internal DurationEstimate Walking(Place place, int millimetres, int turns, Passage? end)
    {
        var (metres, slow) = (millimetres / 1_000.0, SlowMetres(place, millimetres, turns, end));
        return _settings.Walking.TimeFor(metres - slow) + _settings.Slow.TimeFor(slow);
    }

    internal double SlowMetres(Place place, int millimetres, int turns, Passage? end)
    {
        var metres = millimetres / 1_000.0;
        var slope = place.GradientPercent.Or(place.Kind == PlaceKind.Ramp ? double.PositiveInfinity : 0);
        var events = turns + (end is { Threshold: { IsKnown: true } threshold } && threshold.Value > Distance.Zero ? 1 : 0);
        return slope > _settings.SlowGradientPercent ? metres : Math.Min(metres, events * query.Conveyance.Length.Metres);
    }

    internal DurationEstimate Door(Passage passage) => passage.Kind is PassageKind.LandingDoor or PassageKind.StairFlight
        ? DurationEstimate.Zero
        : OpeningOf(passage).Or(
            !passage.IsDoor ? DurationEstimate.Zero
            : query.WithHelper ? _settings.DoorWithHelper
            : passage.Kind == PassageKind.AutomaticDoor ? _settings.AutomaticDoorAlone
            : _settings.ManualDoorAlone);

    /// <summary>
    /// A mean m becomes the triangle 0, m/2, 5m/2: its mean is m and nine in ten waits stay below 1.79 m, as for evenly spaced cars
    /// (uniform between 0 and 2m: 1.8 m).
    /// </summary>
    internal DurationEstimate Wait(Elevator elevator)
    {
        if (query.HeldElevators && elevator.CanBeHeld)
        {
            return DurationEstimate.Zero;
        }

        return WaitUnheld(elevator);
    }

    /// <summary>The same for a car that nobody keeps yet: what it takes to capture one.</summary>
    internal DurationEstimate WaitUnheld(Elevator elevator)
    {
        var mean = MeanCallWaitSeconds(elevator);
        return new(0, mean / 2, mean * 5 / 2);
    }

    /// <summary>From the landing door until the doors are shut behind the team: into the car, and the doors close.</summary>
    internal DurationEstimate Boarding(Elevator elevator) => _settings.Loading + elevator.DoorClosing.Or(_settings.CarDoorClosing);

    /// <summary>Mean wait for a car that nobody keeps.</summary>
    internal double MeanCallWaitSeconds(Elevator elevator) => MeanWait(elevator)?.Values[quarter.Index] ?? _settings.MeanCallWaitSeconds;

    internal DurationEstimate Ride(Elevator elevator, double riseMetres)
    {
        var flight = ElevatorFlight.Seconds(
            riseMetres,
            elevator.RatedSpeedMetresPerSecond.Or(_settings.CarSpeed),
            elevator.AccelerationMetresPerSecondSquared.Or(_settings.CarAcceleration),
            elevator.JerkMetresPerSecondCubed.Or(_settings.CarJerk));
        return _settings.Loading + _settings.Loading + ElevatorFlight.PerformanceTime(
            flight, elevator.DoorOpening.Or(_settings.CarDoorOpening), elevator.DoorClosing.Or(_settings.CarDoorClosing),
            _settings.StartDelaySeconds, _settings.AdvanceOpeningSeconds);
    }

    /// <summary>The parts of <see cref="Ride"/> with the numbers put in: least, likely, most seconds each, or one where they are the same.</summary>
    internal string RideWorking(Elevator elevator, double riseMetres)
    {
        var (closing, opening) = (elevator.DoorClosing.Or(_settings.CarDoorClosing), elevator.DoorOpening.Or(_settings.CarDoorOpening));
        var flight = ElevatorFlight.Working(
            riseMetres,
            elevator.RatedSpeedMetresPerSecond.Or(_settings.CarSpeed),
            elevator.AccelerationMetresPerSecondSquared.Or(_settings.CarAcceleration),
            elevator.JerkMetresPerSecondCubed.Or(_settings.CarJerk));
        var early = Math.Min(_settings.AdvanceOpeningSeconds, opening.MinimumSeconds);
        return $"into the car {Seconds(_settings.Loading)}; doors close {Seconds(closing)}; start {Number(_settings.StartDelaySeconds)}; flight {flight}; "
            + $"doors open {Seconds(opening)}{(early > 0 ? $", begun {Number(early)} before the stop" : "")}; out of the car {Seconds(_settings.Loading)}; "
            + $"together {Seconds(Ride(elevator, riseMetres))} s";

        static string Number(double seconds) => seconds.ToString("0.##", CultureInfo.InvariantCulture);
        static string Seconds(DurationEstimate part) => part.MinimumSeconds == part.MaximumSeconds
            ? Number(part.MinimumSeconds)
            : $"{Number(part.MinimumSeconds)}, {Number(part.LikelySeconds)}, {Number(part.MaximumSeconds)}";
    }

    internal IEnumerable<string> Assumed(Passage passage)
    {
        if (passage.IsDoor && passage.Kind != PassageKind.LandingDoor && !OpeningOf(passage).IsKnown)
        {
            yield return $"door {passage.Id}: opening time";
        }
    }

    internal IEnumerable<string> AssumedWait(Elevator elevator)
    {
        if (!(query.HeldElevators && elevator.CanBeHeld) && MeanWait(elevator) is null)
        {
            yield return $"elevator {elevator.Id}: call wait";
        }
    }

    internal static IEnumerable<string> Assumed(Elevator elevator)
    {
        (string What, bool IsKnown)[] facts =
        [
            ("rated speed", elevator.RatedSpeedMetresPerSecond.IsKnown),
            ("acceleration", elevator.AccelerationMetresPerSecondSquared.IsKnown),
            ("jerk", elevator.JerkMetresPerSecondCubed.IsKnown),
            ("door opening time", elevator.DoorOpening.IsKnown),
            ("door closing time", elevator.DoorClosing.IsKnown),
            ("stall probability", elevator.StallProbability.IsKnown),
            ("stall duration", elevator.StallDuration.IsKnown),
        ];
        return facts.Where(fact => !fact.IsKnown).Select(fact => $"elevator {elevator.Id}: {fact.What}");
    }

    private Fact<DurationEstimate> OpeningOf(Passage passage) => query.WithHelper ? passage.OpeningWithHelper : passage.OpeningAlone;

    private QuarterHourProfile? MeanWait(Elevator elevator) =>
        _groups.TryGetValue(elevator.Group, out var group) ? group.MeanCallWaitSeconds : null;
}
