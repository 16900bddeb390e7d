using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Six cars in three groups, and the flights of three stairs. docs/demonstration-hospital.md lists the rows behind the figures.</summary>
internal static class Elevators
{
    /// <param name="West">West wall of the car, in the site's metres.</param>
    /// <param name="DoorAt">Where north the landing door's line lies.</param>
    private sealed record Car(
        string Id, string Name, string Group, string Landing, string[] Levels, double West, double South, double Width, double Length, double DoorAt)
    {
        public int DoorMillimetres { get; init; } = 1_300;
        public double LoadKilograms { get; init; } = 1_600;
        public double Speed { get; init; } = 1.6;
        public int SillMillimetres { get; init; } = 6;
        public double BusiestRiders { get; init; }
        public Rhythm Riders { get; init; } = Rhythm.PublicWay;
        public DurationEstimate Opening { get; init; } = new(3, 3.5, 4.5);
        public DurationEstimate Closing { get; init; } = new(4, 4.5, 6);
        public double OpenAirChanges { get; init; } = 100;
        public AccessControl Priority { get; init; } = AccessControl.Key;
        public bool CanBeHeld { get; init; } = true;
        public double StallProbability { get; init; } = .001;
    }

    private static readonly string[] Public = ["1", "2", "3", "4", "5"];
    private static readonly string[] Service = ["0", "1", "2", "3", "4"];

    private static readonly Car[] Cars =
    [
        new("P1", "Public elevator 1", "P", "P", Public, 59.3, 23, 1.4, 2.4, 23) { BusiestRiders = 5, CanBeHeld = false, StallProbability = .002 },
        new("P2", "Public elevator 2", "P", "P", Public, 63.4, 23, 1.2, 2.3, 23)
        {
            DoorMillimetres = 1_100, LoadKilograms = 1_275, BusiestRiders = 4, CanBeHeld = false, StallProbability = .002,
            Opening = new(2.5, 3, 4), Closing = new(3.5, 4, 5),
        },
        new("P3", "Small elevator", "P", "P3", Public, 56.4, 11, 1.1, 1.4, 12.4)
        {
            DoorMillimetres = 900, LoadKilograms = 630, Speed = 1, BusiestRiders = 2, CanBeHeld = false, StallProbability = .003,
            Opening = new(2, 2.5, 3.5), Closing = new(2.5, 3, 4),
        },
        new("S1", "Service elevator", "S", "S", Service, 2.2, 27, 1.5, 2.7, 27)
        {
            LoadKilograms = 2_000, Speed = 1, SillMillimetres = 14, BusiestRiders = .8, Riders = Rhythm.Service, StallProbability = .003,
            OpenAirChanges = 70, Closing = new(4, 5, 7),
        },
        new("C1", "Clean bed elevator 1", "C", "C", Service, 91, 6.7, 1.8, 2.7, 9.4)
        {
            DoorMillimetres = 1_400, LoadKilograms = 2_500, SillMillimetres = 5, BusiestRiders = 1.5, Riders = Rhythm.Clean, OpenAirChanges = 130,
        },
        new("C2", "Clean bed elevator 2", "C", "C", Service, 94.2, 7, 1.4, 2.4, 9.4)
        {
            SillMillimetres = 5, BusiestRiders = 1.5, Riders = Rhythm.Clean, OpenAirChanges = 130, Priority = AccessControl.Badge,
        },
    ];

    public static ImmutableArray<ElevatorGroup> Groups { get; } =
    [
        new("P", "Public elevators", Rhythm.PublicWay.Between(5, 60), FactSource.Assumed),
        new("S", "Service elevator", Rhythm.Service.Between(12, 80), FactSource.Assumed),
        new("C", "Clean elevators", Rhythm.Clean.Between(8, 35), FactSource.Assumed),
    ];

    /// <summary>Adds the cars, which have no level, and their landing doors, floor by floor.</summary>
    public static ImmutableArray<Elevator> Add(Draft draft)
    {
        foreach (var car in Cars)
        {
            var inside = Area.Rectangle(car.West, car.South, car.West + car.Width, car.South + car.Length);
            draft.Add(car.Id, $"Car of {car.Name}", RoomType.Car with { People = car.Riders, Most = car.BusiestRiders }, null, inside);
            var (middle, half) = (car.West + car.Width / 2, car.DoorMillimetres / 2_000.0);
            var line = new PlanSegment(new(Math.Round(middle - half, 3), car.DoorAt), new(Math.Round(middle + half, 3), car.DoorAt));
            var door = DoorType.Landing.Wide(car.DoorMillimetres).Sill(car.SillMillimetres);
            foreach (var level in car.Levels)
            {
                draft.Join(LandingDoor(car, level), $"L-{level}.{car.Landing}", car.Id, door, line);
            }
        }

        return [.. Cars.Select(ToElevator)];
    }

    /// <summary>Each flight leaves the lower storey of its stair at the far end from the door.</summary>
    public static void AddFlights(Draft draft, string stair, string[] levels)
    {
        foreach (var (below, above) in levels.Zip(levels.Skip(1)))
        {
            var far = draft.AreaOf($"{stair}-{below}").ToOutline().Corners.Max(c => c.Y);
            var west = draft.AreaOf($"{stair}-{below}").ToOutline().Corners.Min(c => c.X);
            var line = new PlanSegment(new(west + .2, far), new(west + 1.6, far));
            draft.Join($"SF-{stair}.{below}", $"{stair}-{below}", $"{stair}-{above}", DoorType.Flight, line);
        }
    }

    private static string LandingDoor(Car car, string level) => $"LD-{car.Id}.{level}";

    private static Elevator ToElevator(Car car)
    {
        var day = Variation.Day(car.Id);
        return new()
        {
            Id = car.Id,
            Name = car.Name,
            Group = car.Group,
            Car = car.Id,
            Stops = [.. car.Levels.Select(level => new ElevatorStop(level, $"L-{level}.{car.Landing}", LandingDoor(car, level)))],
            CarLength = Fact.Measured(Distance.FromMetres(car.Length), day),
            CarWidth = Fact.Measured(Distance.FromMetres(car.Width), day),
            DoorWidth = Fact.Measured(Distance.FromMillimetres(car.DoorMillimetres), day),
            RatedLoadKilograms = Fact.Drawing(car.LoadKilograms, day),
            RatedSpeedMetresPerSecond = Fact.Drawing(car.Speed, day),
            AccelerationMetresPerSecondSquared = Fact.Assumed(.8, day),
            JerkMetresPerSecondCubed = Fact.Assumed(1.2, day),
            DoorOpening = Fact.Measured(car.Opening, day),
            DoorClosing = Fact.Measured(car.Closing, day),
            AirChangesDoorsOpen = Fact.Assumed(AirChangeRate.FromPerHour(car.OpenAirChanges), day),
            PriorityControl = car.Priority,
            CanBeHeld = car.CanBeHeld,
            StallProbability = Fact.Assumed(car.StallProbability, day),
            StallDuration = Fact.Assumed(new DurationEstimate(300, 1_800, 3_000), day),
        };
    }
}
