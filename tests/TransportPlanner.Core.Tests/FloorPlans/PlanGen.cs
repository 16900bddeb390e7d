using System.Collections.Immutable;
using CsCheck;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>Random plans of every feature and fact: right by themselves, not as a building.</summary>
internal static class PlanGen
{
    private static readonly Gen<string> Text = Gen.Char["abcXYZ 09-.äß漢\"\\/<&"].Array[1, 8].Select(c => "n" + new string(c) + "z");
    private static readonly Gen<DateOnly?> Date = Gen.Int[0, 3000].Select(days => days % 3 == 0 ? (DateOnly?)null : new DateOnly(2020, 1, 1).AddDays(days));
    private static readonly Gen<PlanPoint> Point = Gen.Select(Gen.Int[-90_000, 90_000], Gen.Int[-90_000, 90_000], (x, y) => new PlanPoint(x / 1000.0, y / 1000.0));
    private static readonly Gen<DurationEstimate> Seconds =
        Gen.Select(Gen.Double[0, 9], Gen.Double[0, 9], Gen.Double[0, 9], (a, b, c) => new DurationEstimate(a, a + b, a + b + c));

    private static readonly Gen<QuarterHourProfile?> Profile = Gen.OneOf<QuarterHourProfile?>(
        Gen.Const((QuarterHourProfile?)null),
        Gen.Int[0, 3].Select(n => (QuarterHourProfile?)QuarterHourProfile.Constant(n)),
        Gen.Int[0, 2].Select(n => (QuarterHourProfile?)QuarterHourProfile.FromHours([.. Enumerable.Range(0, 24).Select(h => h * 0.5 + n)])),
        Gen.Double[0, 50].Array[168].Select(v => (QuarterHourProfile?)QuarterHourProfile.FromHours(v)),
        Gen.Double[0, 50].Array[96].Select(v => (QuarterHourProfile?)new QuarterHourProfile([.. Enumerable.Range(0, 672).Select(i => v[i % 96])])),
        Gen.Double[0, 50].Array[672].Select(v => (QuarterHourProfile?)new QuarterHourProfile([.. v])));

    private static readonly Gen<Facility> Facility = Gen.Select(
        Gen.Enum<FacilityKind>(), Gen.Bool, Text, Gen.Enum<FactSource>(), Date, (kind, named, text, source, date) => new Facility(kind, named ? text : null, source, date));

    private static readonly Gen<Place> Place = Gen.Select(
        Gen.Select(Text, Text, Gen.Enum<PlaceKind>(), Gen.Bool, Point.Array[3, 7]),
        Gen.Select(Gen.Enum<CorridorClass>(), Fact(Metres(500, 9_000)), Fact(Gen.Int[0, 9_999].Select(n => AirChangeRate.FromPerHour(n / 100.0))), Fact(Gen.Enum<PressureRelation>())),
        Gen.Select(Fact(Gen.Double[-50, 50]), Profile, Gen.Enum<FactSource>(), Gen.Int[0, 15], Facility.Array[0, 3], Point, Gen.Bool),
        (a, b, c) => new Place
        {
            Number = a.Item1,
            Name = a.Item2,
            Kind = a.Item3,
            Level = a.Item4 ? "L" : null,
            Outline = new([.. a.Item5]),
            CorridorClass = b.Item1,
            Height = b.Item2,
            AirChanges = b.Item3,
            Pressure = b.Item4,
            GradientPercent = c.Item1,
            Occupancy = c.Item2,
            OccupancySource = c.Item2 is null ? default : c.Item3,
            Flags = (PlaceFlags)c.Item4,
            Facilities = [.. c.Item5],
            StandingPoint = c.Item7 ? c.Item6 : null,
        });

    private static readonly Gen<Passage> Passage = Gen.Select(
        Gen.Select(Text, Gen.Enum<PassageKind>(), Text, Text, Point, Point),
        Gen.Select(Fact(Metres(100, 3_000)), Fact(Metres(500, 3_000)), Fact(Metres(0, 900)), Fact(Metres(100, 20_000))),
        Gen.Select(Gen.Enum<AccessControl>(), Gen.Enum<PassageDirection>(), Fact(Seconds), Fact(Seconds)),
        (a, b, c) => new Passage
        {
            Id = a.Item1,
            Kind = a.Item2,
            From = a.Item3,
            To = a.Item4,
            Line = new(a.Item5, a.Item6),
            ClearWidth = b.Item1,
            ClearHeight = b.Item2,
            Threshold = b.Item3,
            FlightLength = a.Item2 == PassageKind.StairFlight ? b.Item4 : default,
            Access = c.Item1,
            Direction = c.Item2,
            OpeningWithHelper = c.Item3,
            OpeningAlone = c.Item4,
        });

    private static readonly Gen<Elevator> Elevator = Gen.Select(
        Gen.Select(Text, Text, Text, Text, Gen.Select(Text, Text, Text, (a, b, c) => new ElevatorStop(a, b, c)).Array[0, 4]),
        Gen.Select(Fact(Metres(300, 4_000)), Fact(Metres(300, 4_000)), Fact(Metres(100, 3_000)), Fact(Gen.Double[50, 5_000]), Fact(Gen.Double[0.05, 20]), Fact(Gen.Double[0.05, 5])),
        Gen.Select(Fact(Gen.Double[0.05, 20]), Fact(Seconds), Fact(Seconds), Gen.Enum<AccessControl>(), Gen.Bool, Fact(Gen.Double[0, 1]), Fact(Seconds)),
        (a, b, c) => new Elevator
        {
            Id = a.Item1,
            Name = a.Item2,
            Group = a.Item3,
            Car = a.Item4,
            Stops = [.. a.Item5],
            CarLength = b.Item1,
            CarWidth = b.Item2,
            DoorWidth = b.Item3,
            RatedLoadKilograms = b.Item4,
            RatedSpeedMetresPerSecond = b.Item5,
            AccelerationMetresPerSecondSquared = b.Item6,
            JerkMetresPerSecondCubed = c.Item1,
            DoorOpening = c.Item2,
            DoorClosing = c.Item3,
            AirChangesDoorsOpen = Core.FloorPlans.Fact.Measured(AirChangeRate.FromPerHour(30.25)),
            PriorityControl = c.Item4,
            CanBeHeld = c.Item5,
            StallProbability = c.Item6,
            StallDuration = c.Item7,
        });

    internal static readonly Gen<FloorPlan> Plan = Gen.Select(
        Gen.Select(Text, Text, Gen.Int[-9_000, 9_000], (id, name, mm) => new Level(id, name, mm / 1000.0)).Array[0, 3],
        Place.Array[0, 5],
        Passage.Array[0, 5],
        Gen.Select(Text, Text, Profile, Gen.Enum<FactSource>(), (id, name, wait, source) => new ElevatorGroup(id, name, wait, wait is null ? default : source)).Array[0, 2],
        Elevator.Array[0, 2],
        Gen.Bool,
        (levels, places, passages, groups, elevators, notice) => new FloorPlan
        {
            SiteId = "generated",
            Name = "Generated \"plan\"",
            TimeZone = "Etc/UTC",
            Version = places.Length,
            Notice = notice ? "Invented." : null,
            Levels = Distinct(levels, level => level.Id),
            Places = Distinct(places, place => place.Number),
            Passages = Distinct(passages, passage => passage.Id),
            ElevatorGroups = Distinct(groups, group => group.Id),
            Elevators = Distinct(elevators, elevator => elevator.Id),
        });

    private static ImmutableArray<T> Distinct<T>(T[] items, Func<T, string> key) => [.. items.DistinctBy(key)];

    private static Gen<Distance> Metres(int min, int max) => Gen.Int[min, max].Select(mm => Distance.FromMillimetres(mm));

    private static Gen<Fact<T>> Fact<T>(Gen<T> value) where T : struct => Gen.Select(
        value, Gen.Enum<FactSource>(), Date, Gen.Int[0, 2], (v, source, date, known) => known == 0 ? default : new Fact<T>(v, source, date));
}
