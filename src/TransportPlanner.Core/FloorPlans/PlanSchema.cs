using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Every property of the exchange format, once, with its range. <c>docs/floor-plans.md</c> is the same list in words.</summary>
internal static class PlanSchema
{
    internal enum FeatureKind
    {
        Level,
        ElevatorGroup,
        Elevator,
        Place,
        Passage,
    }

    internal static readonly Level BlankLevel = new("", "", 0);
    internal static readonly ElevatorGroup BlankGroup = new("", "", null, default);
    internal static readonly Elevator BlankElevator = new() { Id = "", Name = "", Group = "", Car = "", Stops = [] };
    internal static readonly Place BlankPlace = new() { Number = "", Name = "", Kind = default, Level = null, Outline = new([]) };
    internal static readonly Passage BlankPassage = new() { Id = "", Kind = default, From = "", To = "", Line = default };

    private static readonly ElevatorStop BlankStop = new("", "", "");
    private static readonly Facility BlankFacility = new(default, null, default, null);

    internal static FloorPlan Site(PlanFields f, FloorPlan plan) => plan with
    {
        SiteId = f.Required("siteId", plan.SiteId, FieldTypes.Slug),
        Name = f.Required("name", plan.Name, FieldTypes.Text),
        TimeZone = f.Required("timeZone", plan.TimeZone, FieldTypes.TimeZone),
        Version = f.Required("version", plan.Version, FieldTypes.Count),
        Notice = f.Optional("notice", plan.Notice, FieldTypes.TextOrNull, null),
    };

    internal static Level Level(PlanFields f, Level level)
    {
        f.Geometry(false, FieldTypes.NoGeometry);
        return new(
            f.Required("number", level.Id, FieldTypes.Text),
            f.Required("name", level.Name, FieldTypes.Text),
            f.Required("elevationMetres", level.ElevationMetres, FieldTypes.Number(-1_000, 1_000, "metres")));
    }

    internal static ElevatorGroup Group(PlanFields f, ElevatorGroup group)
    {
        f.Geometry(false, FieldTypes.NoGeometry);
        var id = f.Required("number", group.Id, FieldTypes.Text);
        var name = f.Required("name", group.Name, FieldTypes.Text);
        var (wait, source) = f.Profile("meanCallWaitSeconds", group.MeanCallWaitSeconds, group.WaitSource, DurationEstimate.MaxSeconds);
        return new(id, name, wait, source);
    }

    internal static Elevator Elevator(PlanFields f, Elevator elevator)
    {
        f.Geometry(false, FieldTypes.NoGeometry);
        return elevator with
        {
            Id = f.Required("number", elevator.Id, FieldTypes.Text),
            Name = f.Required("name", elevator.Name, FieldTypes.Text),
            Group = f.Required("group", elevator.Group, FieldTypes.Text),
            Car = f.Required("car", elevator.Car, FieldTypes.Text),
            Stops = f.List("stops", elevator.Stops, BlankStop, Stop),
            CarLength = f.Metres("carLengthMetres", elevator.CarLength, 0.3, 20),
            CarWidth = f.Metres("carWidthMetres", elevator.CarWidth, 0.3, 20),
            DoorWidth = f.Metres("doorWidthMetres", elevator.DoorWidth, 0.1, 10),
            RatedLoadKilograms = f.Number("ratedLoadKilograms", elevator.RatedLoadKilograms, 50, 50_000, "kilograms"),
            RatedSpeedMetresPerSecond =
                f.Number("ratedSpeedMetresPerSecond", elevator.RatedSpeedMetresPerSecond, 0.05, 20, "metres per second"),
            AccelerationMetresPerSecondSquared = f.Number(
                "accelerationMetresPerSecondSquared", elevator.AccelerationMetresPerSecondSquared, 0.05, 5, "metres per second squared"),
            JerkMetresPerSecondCubed =
                f.Number("jerkMetresPerSecondCubed", elevator.JerkMetresPerSecondCubed, 0.05, 20, "metres per second cubed"),
            DoorOpening = f.Fact("doorOpeningSeconds", elevator.DoorOpening, FieldTypes.Seconds),
            DoorClosing = f.Fact("doorClosingSeconds", elevator.DoorClosing, FieldTypes.Seconds),
            AirChangesDoorsOpen = f.Fact("airChangesPerHourDoorsOpen", elevator.AirChangesDoorsOpen, FieldTypes.AirChanges),
            PriorityControl = f.Optional("priorityControl", elevator.PriorityControl, FieldTypes.Word<AccessControl>(), default),
            CanBeHeld = f.Required("canBeHeld", elevator.CanBeHeld, FieldTypes.Flag),
            StallProbability = f.Number("stallProbability", elevator.StallProbability, 0, 1, ""),
            StallDuration = f.Fact("stallSeconds", elevator.StallDuration, FieldTypes.Seconds),
        };
    }

    internal static Place Place(PlanFields f, Place place)
    {
        var placed = place with
        {
            Outline = f.Geometry(place.Outline, FieldTypes.Polygon),
            Number = f.Required("number", place.Number, FieldTypes.Text),
            Name = f.Required("name", place.Name, FieldTypes.Text),
            Kind = f.Required("kind", place.Kind, FieldTypes.Word<PlaceKind>()),
            Level = f.Optional("level", place.Level, FieldTypes.TextOrNull, null),
            CorridorClass = f.Optional("corridorClass", place.CorridorClass, FieldTypes.Word<CorridorClass>(), default),
            Height = f.Metres("heightMetres", place.Height, 0.5, 200),
            AirChanges = f.Fact("airChangesPerHour", place.AirChanges, FieldTypes.AirChanges),
            Pressure = f.Fact("pressure", place.Pressure, FieldTypes.Word<PressureRelation>()),
            FireCompartment = f.Fact("fireCompartment", place.FireCompartment, FieldTypes.Compartment),
            GradientPercent = f.Number("gradientPercent", place.GradientPercent, -50, 50, "percent"),
        };
        var (occupancy, source) = f.Profile("occupancy", place.Occupancy, place.OccupancySource, 100_000);
        return placed with
        {
            Occupancy = occupancy,
            OccupancySource = source,
            Flags = f.Optional("flags", place.Flags, FieldTypes.Flags, default),
            Facilities = f.List("facilities", place.Facilities, BlankFacility, Facility),
            StandingPoint = f.Optional("standingPoint", place.StandingPoint, FieldTypes.PointOrNull, null),
        };
    }

    internal static Passage Passage(PlanFields f, Passage passage)
    {
        var line = f.Geometry(passage.Line, FieldTypes.Line);
        var id = f.Required("number", passage.Id, FieldTypes.Text);
        var kind = f.Required("kind", passage.Kind, FieldTypes.Word<PassageKind>());
        var (from, to) = f.Required("joins", (passage.From, passage.To), FieldTypes.TwoPlaces);
        return new()
        {
            Id = id,
            Kind = kind,
            From = from,
            To = to,
            Line = line,
            ClearWidth = f.Metres("clearWidthMetres", passage.ClearWidth, 0.1, 50),
            ClearHeight = f.Metres("clearHeightMetres", passage.ClearHeight, 0.5, 50),
            Threshold = f.Metres("thresholdMetres", passage.Threshold, 0, 1),
            Access = f.Optional("access", passage.Access, FieldTypes.Word<AccessControl>(), default),
            Direction = f.Optional("direction", passage.Direction, FieldTypes.Word<PassageDirection>(), default),
            OpeningWithHelper = f.Fact("openingWithHelperSeconds", passage.OpeningWithHelper, FieldTypes.Seconds),
            OpeningAlone = f.Fact("openingAloneSeconds", passage.OpeningAlone, FieldTypes.Seconds),
            FlightLength = kind == PassageKind.StairFlight
                ? f.Metres("flightLengthMetres", passage.FlightLength, 0.1, 500)
                : default,
        };
    }

    private static ElevatorStop Stop(PlanFields f, ElevatorStop stop) => new(
        f.Required("level", stop.Level, FieldTypes.Text),
        f.Required("landing", stop.Landing, FieldTypes.Text),
        f.Required("landingDoor", stop.LandingDoor, FieldTypes.Text));

    private static Facility Facility(PlanFields f, Facility facility)
    {
        var kind = f.Required("kind", facility.Kind, FieldTypes.Word<FacilityKind>());
        var connector = f.Optional("connector", facility.Connector, FieldTypes.TextOrNull, null);
        var (source, asOf) = f.Optional("source", (facility.Source, facility.AsOf), FieldTypes.Source, (FactSource.Assumed, null));
        return new(kind, connector, source, asOf);
    }
}
