using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Tests.Imports;

namespace TransportPlanner.Benchmarks;

/// <summary>
/// An invented hospital of any size on ten levels, always the same: on each level a spine of pieces 13 m long, from each piece a corridor with up to
/// forty rooms of 3 by 5 m, each with a door; two elevators of their own lobbies at the ends of the spine. As our GeoJSON, and as a COBie workbook,
/// which has boxes instead of outlines and no openings, landings or stops: the planner proposes those.
/// </summary>
internal sealed class GeneratedHospital(int rooms)
{
    public const int Levels = 10;

    private const int RoomsOfCorridor = 40;
    private const double Storey = 4;
    private const double Pitch = 13;
    private static readonly DateOnly Day = new(2026, 5, 4);

    private readonly List<Box> _boxes = [];
    private readonly List<Door> _doors = [];

    /// <summary>A place on one level, a car on all.</summary>
    private sealed record Box(string Number, string Name, PlaceKind Kind, int Level, double X1, double Y1, double X2, double Y2);

    private sealed record Door(string Number, PassageKind Kind, string From, string To, double X1, double Y1, double X2, double Y2, int Level);

    /// <summary>Numbers of the first room of the lowest and of the last room of the highest level.</summary>
    public (string From, string To) Ends { get; private set; }

    public FloorPlan Plan(string siteId)
    {
        Build();
        var cars = _boxes.Where(box => box.Kind == PlaceKind.ElevatorCar).ToList();
        return new()
        {
            SiteId = siteId,
            Name = "Generated hospital (invented)",
            TimeZone = "Etc/UTC",
            Notice = "Generated for a benchmark: this hospital is invented.",
            Levels = [.. Enumerable.Range(1, Levels).Select(level => new Level($"{level}", $"Level {level}", (level - 1) * Storey))],
            Places =
            [
                .. _boxes.Select(box => new Place
                {
                    Number = box.Number,
                    Name = box.Name,
                    Kind = box.Kind,
                    Level = box.Kind == PlaceKind.ElevatorCar ? null : $"{box.Level}",
                    Outline = Outline.Rectangle(box.X1, box.Y1, box.X2, box.Y2),
                    CorridorClass = box.Kind == PlaceKind.Corridor ? CorridorClass.Clean : CorridorClass.None,
                    Height = Fact.Drawing(Distance.FromMetres(2.7), Day),
                    AirChanges = Fact.Drawing(AirChangeRate.FromPerHour(4), Day),
                    Occupancy = QuarterHourProfile.Constant(1),
                }),
            ],
            Passages =
            [
                .. _doors.Select(door => new Passage
                {
                    Id = door.Number,
                    Kind = door.Kind,
                    From = door.From,
                    To = door.To,
                    Line = new(new(door.X1, door.Y1), new(door.X2, door.Y2)),
                    ClearWidth = Fact.Drawing(Distance.FromMetres(1.3), Day),
                    ClearHeight = Fact.Drawing(Distance.FromMetres(2.1), Day),
                    Threshold = Fact.Drawing(Distance.FromMetres(0), Day),
                }),
            ],
            ElevatorGroups = [new("all", "Elevators", QuarterHourProfile.Constant(45), FactSource.Assumed)],
            Elevators =
            [
                .. cars.Select(car => new Elevator
                {
                    Id = car.Number,
                    Name = car.Name,
                    Group = "all",
                    Car = car.Number,
                    Stops =
                    [
                        .. _doors.Where(door => door.Kind == PassageKind.LandingDoor && door.To == car.Number)
                            .Select(door => new ElevatorStop($"{door.Level}", door.From, door.Number)),
                    ],
                    CarLength = Fact.Drawing(Distance.FromMetres(2.6), Day),
                    CarWidth = Fact.Drawing(Distance.FromMetres(1.6), Day),
                    DoorWidth = Fact.Drawing(Distance.FromMetres(1.3), Day),
                    RatedLoadKilograms = Fact.Drawing(1600.0, Day),
                    CanBeHeld = true,
                }),
            ],
        };
    }

    /// <summary>The same building as a workbook: Facility, Floor, Space, Type, Component and Coordinate.</summary>
    public byte[] Workbook()
    {
        Build();
        const string day = "2026-05-04T10:00:00";
        object?[] Space(Box box) =>
        [
            box.Number, day, box.Kind == PlaceKind.Corridor ? "13-85 11 11: Corridor" : box.Kind == PlaceKind.ElevatorCar ? "13-81 21 31: Elevator Shaft" : "13-51 11 11: Room",
            $"Level {box.Level}", box.Name, box.Kind == PlaceKind.ElevatorCar ? "n/a" : 2_700, Math.Round((box.X2 - box.X1) * (box.Y2 - box.Y1), 2),
        ];
        object?[] Point(string owner, string category, string sheet, double x, double y, double z) => [$"{owner}-{category}", category, sheet, owner, x, y, z];
        var doors = _doors.Where(door => door.Kind == PassageKind.HingedDoor).ToList();
        var cars = _boxes.Where(box => box.Kind == PlaceKind.ElevatorCar).ToList();
        return WorkbookFile.Write(
            ("Facility", [["Name", "LinearUnits", "AreaUnits"], ["Generated hospital (invented)", "meters", "squaremeters"]]),
            ("Floor", [["Name", "Category", "Elevation"], .. Enumerable.Range(1, Levels).Select(level => new object?[] { $"Level {level}", "Floor", (level - 1) * Storey })]),
            ("Space", [["Name", "CreatedOn", "Category", "FloorName", "Description", "UsableHeight", "NetArea"], .. _boxes.Select(Space)]),
            ("Type",
            [
                ["Name", "Category", "Description", "NominalWidth", "NominalHeight"],
                ["Wide door", "23-30 10: Doors", "Flush", 1_375, 2_100],
                ["Car", "23-50 05 11: Elevators", "1600 kg bed elevator", "n/a", "n/a"],
            ]),
            ("Component",
            [
                ["Name", "CreatedOn", "TypeName", "Space", "Description", "ExtObject"],
                .. doors.Select(door => new object?[] { door.Number, day, "Wide door", $"{door.From}, {door.To}", "Door", "IfcDoor" }),
                .. cars.Select(car => new object?[] { $"Lift {car.Number}", day, "Car", car.Number, "Bed elevator", "IfcTransportElement" }),
            ]),
            ("Coordinate",
            [
                ["Name", "Category", "SheetName", "RowName", "CoordinateXAxis", "CoordinateYAxis", "CoordinateZAxis"],
                .. _boxes.SelectMany(box =>
                {
                    var (bottom, top) = box.Kind == PlaceKind.ElevatorCar ? (0, Levels * Storey) : ((box.Level - 1) * Storey, (box.Level - 1) * Storey + 3);
                    return new[] { Point(box.Number, "box-lowerleft", "Space", box.X1, box.Y1, bottom), Point(box.Number, "box-upperright", "Space", box.X2, box.Y2, top) };
                }),
                .. doors.Select(door => Point(door.Number, "point", "Component", (door.X1 + door.X2) / 2, (door.Y1 + door.Y2) / 2, (door.Level - 1) * Storey)),
            ])).ToArray();
    }

    private void Build()
    {
        if (_boxes.Count > 0)
        {
            return;
        }

        for (var level = 1; level <= Levels; level++)
        {
            var left = rooms / Levels + (level <= rooms % Levels ? 1 : 0);
            var first = $"{level}R1";
            var (corridors, made) = ((left + RoomsOfCorridor - 1) / RoomsOfCorridor, 0);
            for (var k = 0; k < corridors; k++)
            {
                var (spine, corridor, y) = ($"{level}S{k + 1}", $"{level}C{k + 1}", k * Pitch);
                _boxes.Add(new(spine, "Spine corridor", PlaceKind.Corridor, level, 0, y, 3, y + Pitch));
                _boxes.Add(new(corridor, "Corridor", PlaceKind.Corridor, level, 3, y + 5.3, 63, y + 7.7));
                _doors.Add(new($"{corridor}-O", PassageKind.Opening, spine, corridor, 3, y + 5.3, 3, y + 7.7, level));
                if (k > 0)
                {
                    _doors.Add(new($"{spine}-O", PassageKind.Opening, $"{level}S{k}", spine, 0, y, 3, y, level));
                }

                for (var i = 0; i < RoomsOfCorridor && left > 0; i++, left--)
                {
                    var (number, x, south) = ($"{level}R{++made}", 3 + i / 2 * 3, i % 2 == 0);
                    var name = (level, made) == (1, 1) ? "Delivery room" : level == Levels && left == 1 ? "Isolation room" : "Patient room";
                    var kind = name switch { "Delivery room" => PlaceKind.DeliveryRoom, "Isolation room" => PlaceKind.IsolationRoom, _ => PlaceKind.WardRoom };
                    var wall = south ? y + 5.3 : y + 7.7;
                    _boxes.Add(new(number, name, kind, level, x, south ? y + 0.3 : wall, x + 3, south ? wall : y + 12.7));
                    _doors.Add(new($"{number}-D", PassageKind.HingedDoor, number, corridor, x + 0.85, wall, x + 2.15, wall, level));
                }
            }

            Ends = (level == 1 ? first : Ends.From, $"{level}R{made}");
            Landing(level, "E1", $"{level}S1", 0);
            Landing(level, "E2", $"{level}S{corridors}", (corridors - 1) * Pitch + 8);
        }
    }

    private void Landing(int level, string car, string spine, double y)
    {
        if (level == 1)
        {
            _boxes.Add(new(car, $"Elevator {car}", PlaceKind.ElevatorCar, 1, -2.6, y + 1, 0, y + 3.6));
        }

        _doors.Add(new($"{car}-{level}", PassageKind.LandingDoor, spine, car, 0, y + 1.6, 0, y + 2.9, level));
    }
}
