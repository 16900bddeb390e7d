using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 3: maternity ward in the west, women's ward in the east.</summary>
internal static class WardStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "3");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor with { Most = .03 },
            new("H-3.01", "Maternity corridor, west", 0, 18),
            new("H-3.02", "Maternity corridor, middle", 18, 36) { Entry = DoorType.Double },
            new("H-3.03", "Maternity corridor, east", 36, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor with { Most = .03 },
            new("H-3.04", "Women's ward corridor, west", 78, 96),
            new("H-3.05", "Women's ward corridor, middle", 96, 114) { Entry = DoorType.Double },
            new("H-3.06", "Women's ward corridor, east", 114, 132) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-3.01", "Soiled corridor, west", 6, 30),
            new("HS-3.02", "Soiled corridor, middle", 30, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-3.04", "Soiled corridor, east", 78, 105),
            new("HS-3.05", "Soiled corridor, far east", 105, 132) { Entry = DoorType.Double });
        CentralBlock.Concourse(storey, "Gallery, level 3", "H-3.03", "H-3.04");
        CentralBlock.North(storey, "L-3.P", "Visitors' lounge", RoomType.Waiting with { People = Rhythm.Ward }, "H-3.10");
        CentralBlock.SoiledLink(storey, "HS-3.02", "HS-3.04");
        CentralBlock.WestEnd(storey, "H-3.01", "HS-3.01");
        CentralBlock.EastEnd(storey, "H-3.06", cleanLanding: true);
        CentralBlock.CleanElevatorLink(storey, "H-3.04");
        CentralBlock.South(
            storey,
            new("A-3.03", "Social services", RoomType.Office, 6),
            new("A-3.04", "Interpreters", RoomType.Office, 6),
            new("A-3.05", "Chapel", RoomType.Waiting with { People = Rhythm.Lobby, Most = 3 }, 7));
        Maternity(storey);
        WomensWard(storey);
    }

    private static void Maternity(Storey storey)
    {
        var room = RoomType.Ward;
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 0,
            new("M-3.01", "Maternity room 1", room, 6) { Cell = true },
            new("M-3.02", "Maternity room 2", room, 6) { Cell = true, Alcove = true },
            new("M-3.03", "Maternity room 3", room, 6) { Cell = true },
            new("M-3.04", "Maternity room 4", room, 6) { Cell = true, Alcove = true },
            new("M-3.05", "Maternity room 5", room, 6) { Cell = true },
            new("M-3.06", "Treatment room, maternity", RoomType.Treatment, 6),
            new("M-3.07", "Maternity room 6", room, 6) { Cell = true },
            new("M-3.08", "Maternity room 7", room, 6) { Cell = true, Alcove = true },
            new("M-3.09", "Breakfast room", RoomType.Waiting with { People = Rhythm.Ward }, 6));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("M-3.10", "Soiled utility, maternity", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("M-3.11", "Nurses' base, maternity", RoomType.Staff, 6),
            new("M-3.12", "Well-baby nursery", RoomType.Nursery, 9) { Alcove = true },
            new("M-3.13", "Bathing room", RoomType.Nursery with { Most = 3 }, 6),
            new("M-3.14", "Maternity room 8", room, 7) { Cell = true },
            new("M-3.15", "Maternity room 9", room, 7) { Cell = true, Alcove = true },
            new("M-3.16", "Maternity room 10", room, 7) { Cell = true });
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-3.01", "Waste", RoomType.Utility, 9),
            new("S-3.02", "Soiled linen", RoomType.Utility, 9),
            new("S-3.03", "Bed cleaning", RoomType.Utility, 12) { Door = DoorType.Double });
    }

    private static void WomensWard(Storey storey)
    {
        var room = RoomType.Ward;
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 78,
            new("G-3.01", "Women's room 1", room, 7) { Cell = true },
            new("G-3.02", "Women's room 2", room, 7) { Cell = true, Alcove = true });
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 94.4,
            new("G-3.03", "Women's room 3", room, 6) { Cell = true },
            new("G-3.04", "Women's room 4", room, 6) { Cell = true, Alcove = true },
            new("G-3.05", "Women's room 5", room, 6) { Cell = true },
            new("G-3.06", "Women's room 6", room, 6) { Cell = true, Alcove = true },
            new("G-3.07", "Women's room 7", room, 6) { Cell = true },
            new("G-3.08", "Day room", RoomType.Waiting with { People = Rhythm.Ward }, 7.6));
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("G-3.09", "Women's room 8", room, 6) { Cell = true },
            new("G-3.10", "Women's room 9", room, 6) { Cell = true, Alcove = true },
            new("G-3.11", "Nurses' base", RoomType.Staff, 6),
            new("G-3.12", "Treatment room", RoomType.Treatment, 6),
            new("G-3.13", "Soiled utility", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("G-3.14", "Linen", RoomType.Store, 6),
            new("G-3.15", "Women's room 10", room, 6) { Cell = true },
            new("G-3.16", "Women's room 11", room, 6) { Cell = true });
    }
}
