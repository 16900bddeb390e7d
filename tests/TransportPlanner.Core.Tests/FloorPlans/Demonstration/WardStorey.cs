using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 3: maternity ward in the west, women's ward in the east, and the cold link bridge outside the middle block.</summary>
internal static class WardStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "3");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Ward, Most = .03 },
            new("H-3.01", "Maternity corridor, west", 0, 18), new("H-3.02", "Maternity corridor, middle", 18, 40) { Entry = DoorType.Double.Wide(1_500).Sill(0) }, new("H-3.03", "Maternity corridor, east", 40, 54) { Entry = DoorType.Double.Wide(1_500).Sill(4) });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Ward, Most = .03 },
            new("H-3.04", "Women's ward corridor, west", 78, 96), new("H-3.05", "Women's ward corridor, middle", 96, 114) { Entry = DoorType.Double }, new("H-3.06", "Women's ward corridor, east", 114, 132) { Entry = DoorType.Double });
        storey.Corridor(Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor, new("HS-3.01", "Soiled corridor, west", 6, 33), new("HS-3.02", "Soiled corridor, middle", 33, 54) { Entry = DoorType.Double });
        storey.Corridor(Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor, new("HS-3.04", "Soiled corridor, east", 78, 105), new("HS-3.05", "Soiled corridor, far east", 105, 132) { Entry = DoorType.Double });
        CentralBlock.Concourse(storey, "Gallery, level 3", "H-3.03", "H-3.04");
        CentralBlock.North(storey, "L-3.P", "Visitors' lounge", RoomType.Waiting with { People = Rhythm.Ward }, "H-3.10");
        CentralBlock.SoiledLink(storey, "HS-3.02", "HS-3.04");
        CentralBlock.WestEnd(storey, "H-3.01", "HS-3.01");
        CentralBlock.EastEnd(storey, "H-3.06", cleanLanding: true);
        CentralBlock.CleanElevatorLink(storey, "H-3.04");
        CentralBlock.South(storey, new("A-3.03", "Social services", RoomType.Office, 6), new("A-3.04", "Interpreters", RoomType.Office, 6), new("A-3.05", "Chapel", RoomType.Waiting with { People = Rhythm.Lobby, Most = 3 }, 7));
        Bridge(draft, storey);
        Maternity(storey);
        WomensWard(storey);
    }

    /// <summary>Open louvres, no heating: quiet and cold. It arrives at the clean elevators by a ramp, since the wings differ by 0.3 m.</summary>
    private static void Bridge(Draft draft, Storey storey)
    {
        storey.Room("HL-3.02", "Bridge corridor, west", RoomType.RestrictedCorridor with { Most = .01 }, 36, 5, 38.4, 14.4);
        storey.Room("LB-3.01", "Link bridge, west half", RoomType.Bridge, 36, 2, 68, 5);
        storey.Room("LB-3.02", "Link bridge, east half", RoomType.Bridge, 68, 2, 99.4, 5);
        storey.Room("RP-3.01", "Bridge ramp, east", RoomType.RestrictedCorridor with { Kind = PlaceKind.Ramp, Most = .01, Facilities = [FacilityKind.Power] }, 97, 5, 99.4, 12);
        draft.Change("RP-3.01", ramp => ramp with { GradientPercent = Fact.Measured(4.3, new(2025, 12, 15)) });
        storey.Door("HL-3.02", "H-3.02", DoorType.Double.Behind(AccessControl.Badge).Wide(1_400).Sill(0));
        storey.Door("HL-3.02", "LB-3.01", DoorType.Double.Wide(1_400).Sill(18));
        storey.Open("LB-3.01", "LB-3.02");
        storey.Door("LB-3.02", "RP-3.01", DoorType.Double.Wide(1_400).Sill(18));
        storey.Door("RP-3.01", "L-3.C", DoorType.Sliding.Behind(AccessControl.Badge).Wide(1_300), 1);
    }

    private static void Maternity(Storey storey)
    {
        var room = RoomType.Ward;
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 0,
            new("M-3.01", "Maternity room 1", room, 6) { Cell = true }, new("M-3.02", "Maternity room 2", room, 6) { Cell = true, Alcove = true }, new("M-3.03", "Maternity room 3", room, 6) { Cell = true },
            new("M-3.04", "Maternity room 4", room, 6) { Cell = true, Alcove = true }, new("M-3.05", "Maternity room 5", room, 6) { Cell = true }, new("M-3.06", "Treatment room, maternity", RoomType.Treatment, 6));
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 38.4,
            new("M-3.07", "Maternity room 6", room, 5.2) { Cell = true }, new("M-3.08", "Maternity room 7", room, 5.2) { Cell = true, Alcove = true }, new("M-3.09", "Breakfast room", RoomType.Waiting with { People = Rhythm.Ward }, 5.2));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("M-3.10", "Soiled utility, maternity", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() }, new("M-3.11", "Nurses' base, maternity", RoomType.Staff, 6), new("M-3.12", "Well-baby nursery", RoomType.Nursery, 9) { Alcove = true }, new("M-3.13", "Bathing room", RoomType.Nursery with { Most = 3 }, 6));
        storey.Room("HR-3.01", "Cross corridor, maternity", RoomType.RestrictedCorridor with { Most = .015 }, 33, 17, 35.4, 23);
        storey.Door("HR-3.01", "HS-3.02", DoorType.Double.Behind(AccessControl.Badge).Wide(1_400).Sill(12));
        storey.Door("HR-3.01", "H-3.02", DoorType.Bed.Wide(1_250).Sill(0));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 35.4,
            new("M-3.14", "Maternity room 8", room, 6.2) { Cell = true }, new("M-3.15", "Maternity room 9", room, 6.2) { Cell = true, Alcove = true }, new("M-3.16", "Maternity room 10", room, 6.2) { Cell = true });
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-3.01", "Waste", RoomType.Utility, 9), new("S-3.02", "Soiled linen", RoomType.Utility, 9), new("S-3.03", "Bed cleaning", RoomType.Utility, 12) { Door = DoorType.Double });
    }

    private static void WomensWard(Storey storey)
    {
        var room = RoomType.Ward;
        storey.Row(Wing.East, Band.DeepSouth, Side.North, "H", null, 78, new("G-3.01", "Women's room 1", room, 7) { Cell = true }, new("G-3.02", "Women's room 2", room, 7) { Cell = true, Alcove = true });
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 94.4,
            new("G-3.03", "Women's room 3", room, 6) { Cell = true }, new("G-3.04", "Women's room 4", room, 6) { Cell = true, Alcove = true }, new("G-3.05", "Women's room 5", room, 6) { Cell = true },
            new("G-3.06", "Women's room 6", room, 6) { Cell = true, Alcove = true }, new("G-3.07", "Women's room 7", room, 6) { Cell = true }, new("G-3.08", "Day room", RoomType.Waiting with { People = Rhythm.Ward }, 7.6));
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("G-3.09", "Women's room 8", room, 6) { Cell = true }, new("G-3.10", "Women's room 9", room, 6) { Cell = true, Alcove = true }, new("G-3.11", "Nurses' base", RoomType.Staff, 6), new("G-3.12", "Treatment room", RoomType.Treatment, 6) { Back = DoorType.Bed },
            new("G-3.13", "Soiled utility", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() }, new("G-3.14", "Linen", RoomType.Store, 6), new("G-3.15", "Women's room 10", room, 6) { Cell = true }, new("G-3.16", "Women's room 11", room, 6) { Cell = true });
    }
}
