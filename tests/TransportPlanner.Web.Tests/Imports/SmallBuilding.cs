namespace TransportPlanner.Web.Tests.Imports;

/// <summary>
/// An invented building in COBie form: on level 1 two rooms on a corridor that runs on without a door, on level 2 one corridor, and one
/// elevator beside both corridors. Boxes are rooms to the middle of their walls, so boxes are their outlines.
/// </summary>
internal static class SmallBuilding
{
    /// <param name="doorSpaces">What the first door says of its spaces.</param>
    /// <param name="height">Usable height of the first room, in millimetres.</param>
    /// <param name="unit">What the file calls its unit of length.</param>
    /// <param name="scale">Units to the metre, of points and elevations.</param>
    /// <param name="datum">Metres that the points lie above the elevations.</param>
    public static (string Name, object?[][] Rows)[] Sheets(
        string doorSpaces = "1E15A, 1C1", object? height = null, string unit = "meters", double scale = 1, double datum = 0)
    {
        return
        [
            ("Facility", [["Name", "LinearUnits", "AreaUnits"], ["Invented annex", unit, "squaremeters"]]),
            ("Floor", [["Name", "Category", "Elevation"], ["Level 1", "Floor", 0], ["Level 2", "Floor", 3.5 * scale]]),
            ("Space",
            [
                ["Name", "CreatedOn", "Category", "FloorName", "Description", "UsableHeight", "NetArea"],
                ["1E15A", "2025-03-09T10:00:00", "13-51 11 99: Room", "Level 1", "Isolation room", height ?? 2_700, 20],
                ["1E16", "2025-03-09T10:00:00", "13-15 11 34 11: Office", "Level 1", "Office", 2_700, 20],
                ["1C1", "2025-03-09T10:00:00", "13-85 11 11: Corridor", "Level 1", "Corridor", 2_500, 20],
                ["1C2", "2025-03-09T10:00:00", "13-85 11 11: Corridor", "Level 1", "Corridor", 2_500, 10],
                ["2C1", "2025-03-09T10:00:00", "13-85 11 11: Corridor", "Level 2", "Corridor", 2_500, 30],
                ["2E01", "2025-03-09T10:00:00", "13-15 11 34 11: Office", "Level 2", "Office", 2_700, 20],
                ["E1", "2025-03-09T10:00:00", "13-81 21 31: Elevator Shaft", "Level 1", "Elevator", "n/a", 6],
            ]),
            ("Zone", [["Name", "SpaceNames"], ["Ward", "1E15A, 1E16"], ["Quiet", "1E15-A"]]),
            ("Type",
            [
                ["Name", "Category", "Description", "NominalWidth", "NominalHeight"],
                ["Wide door", "23-30 10: Doors", "Flush", 1_200, 2_100],
                ["Car", "23-50 05 11: Elevators", "1600 kg bed elevator", "n/a", "n/a"],
                ["Television", "23-85 05: Equipment", "On a bracket", "n/a", "n/a"],
            ]),
            ("Component",
            [
                ["Name", "CreatedOn", "TypeName", "Space", "Description", "ExtObject"],
                ["D1", "2025-03-09T10:00:00", "Wide door", doorSpaces, "Door", "IfcDoor"],
                ["D2", "2025-03-09T10:00:00", "Wide Door", "1E16,1C1", "Door", "IfcDoor"],
                ["D3", "2025-03-09T10:00:00", "wide door", "2E01, 2C1", "Door", "IfcDoor"],
                ["Lift one", "2025-03-09T10:00:00", "Car", "E1", "Bed elevator", "IfcTransportElement"],
                ["Set 1", "2025-03-09T10:00:00", "Television", "1E16", "Television", "IfcFlowTerminal"],
            ]),
            ("Coordinate",
            [
                ["Name", "Category", "SheetName", "RowName", "CoordinateXAxis", "CoordinateYAxis", "CoordinateZAxis"],
                .. Box("1E15A", 0, 2, 5, 6, 0, 3),
                .. Box("1E16", 5, 2, 10, 6, 0, 3),
                .. Box("1C1", 0, 0, 10, 2, 0, 3),
                .. Box("1C2", 10, 0, 15, 2, 0, 3),
                .. Box("2C1", 0, 0, 15, 2, 3.5, 6.5),
                .. Box("2E01", 0, 2, 5, 6, 3.5, 6.5),
                .. Box("E1", 0, -3, 2, 0, 0, 7),
                Row("point", "Component", "D1", 2.5, 2, 0),
                Row("point", "Component", "D2", 7.5, 2.05, 0),
                Row("point", "Component", "D3", 2.5, 1.95, 3.5),
            ]),
        ];

        object?[][] Box(string space, double x1, double y1, double x2, double y2, double bottom, double top) =>
            [Row("box-lowerleft", "Space", space, x1, y1, bottom), Row("box-upperright", "Space", space, x2, y2, top)];

        object?[] Row(string category, string sheet, string owner, double x, double y, double z) =>
            [$"{owner}-{category}", category, sheet, owner, x * scale, y * scale, (z + datum) * scale];
    }
}
