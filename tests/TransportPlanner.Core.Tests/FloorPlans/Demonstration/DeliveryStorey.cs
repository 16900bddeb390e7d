using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 2: eight delivery rooms and two operating rooms in the west, day surgery and recovery in the east.</summary>
internal static class DeliveryStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "2");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor,
            new("H-2.01", "Delivery corridor, west", 0, 18),
            new("H-2.02", "Delivery corridor, middle", 18, 36) { Entry = DoorType.Double.Wide(1_600).Sill(0) },
            new("H-2.03", "Delivery corridor, east", 36, 54) { Entry = DoorType.Double.Wide(1_500).Sill(4) });
        storey.Corridor(
            Wing.West, Band.CleanCorridor, RoomType.CleanCorridor,
            new("HC-2.01", "Clean corridor, west", 0, 20),
            new("HC-2.02", "Clean corridor, operating rooms", 20, 38),
            new("HC-2.03", "Clean corridor, middle", 38, 54) { Entry = DoorType.Sliding });
        storey.Corridor(
            Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-2.01", "Soiled corridor, west", 6, 24),
            new("HS-2.02", "Soiled corridor, middle", 24, 54) { Entry = DoorType.Double.Wide(1_350).Sill(12) });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor,
            new("H-2.04", "Day surgery corridor, west", 78, 96),
            new("H-2.05", "Day surgery corridor, middle", 96, 114) { Entry = DoorType.Double },
            new("H-2.06", "Day surgery corridor, east", 114, 132) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.CleanCorridor, RoomType.CleanCorridor,
            new("HC-2.05", "Clean corridor, east", 78, 100),
            new("HC-2.06", "Clean corridor, far east", 100, 132) { Entry = DoorType.Sliding });
        storey.Corridor(
            Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-2.04", "Soiled corridor, east", 78, 105),
            new("HS-2.05", "Soiled corridor, far east", 105, 132) { Entry = DoorType.Double with { Widths = [0] } });
        CentralBlock.Concourse(storey, "Gallery above the lobby", "H-2.03", "H-2.04");
        CentralBlock.North(storey, "L-2.P", "Family room", RoomType.Waiting, "H-2.10");
        CentralBlock.SoiledLink(storey, "HS-2.02", "HS-2.04");
        CentralBlock.WestEnd(storey, "H-2.01", "HS-2.01");
        CentralBlock.EastEnd(storey, "H-2.06", cleanLanding: true);
        storey.Open("L-2.C", "HC-2.05");
        CleanLink(storey);
        OperatingRooms(storey);
        DeliveryRooms(storey);
        DaySurgery(storey);
    }

    /// <summary>The clean corridor crosses the middle block in two bends, past the gallery, to which it has a guarded door.</summary>
    private static void CleanLink(Storey storey)
    {
        storey.Room(
            "HC-2.04", "Clean corridor, link", RoomType.CleanCorridor,
            Area.Rectangle(54, 6, 66.4, 8.4).Plus(Area.Rectangle(64, 8.4, 66.4, 14.4)).Plus(Area.Rectangle(66.4, 12, 78, 14.4)));
        storey.Open("HC-2.03", "HC-2.04");
        storey.Door("HC-2.04", "HC-2.05", DoorType.Sliding.Wide(1_400));
        storey.Door("HC-2.04", "H-2.10", DoorType.Double.Behind(AccessControl.Badge).Wide(1_300), 0);
        CentralBlock.South(storey, new Bay("A-2.03", "Shift coordination", RoomType.Office with { People = Rhythm.Ward }, 5));
        storey.Row(
            Wing.West, Band.SouthRooms, Side.North, "HC", null, 54,
            new("C-2.41", "Blood store", RoomType.Store, 6.2),
            new("C-2.42", "Near-patient laboratory", RoomType.Staff, 6.2));
        storey.Room("C-2.43", "Recovery bay", RoomType.Recovery, 66.4, 6, 72.2, 12);
        storey.Room("C-2.44", "Surgical goods", RoomType.Store, 72.2, 6, 78, 12);
        storey.Door("C-2.43", "HC-2.04", DoorType.Sliding);
        storey.Door("C-2.44", "HC-2.04", DoorType.Double);
    }

    private static void OperatingRooms(Storey storey)
    {
        storey.Row(
            Wing.West, Band.InnerSouth, Side.South, "HC", "H", 0,
            new("C-2.21", "Recovery 1", RoomType.Recovery, 7.2) { Cell = true },
            new("C-2.22", "Recovery 2", RoomType.Recovery, 7.2) { Alcove = true },
            new("C-2.23", "Newborn stabilization", RoomType.Treatment, 7.2));
        storey.Room("HC-2.09", "Surgical lobby", RoomType.CleanCorridor, 21.6, 8.4, 24, 14.4);
        storey.Open("HC-2.09", "HC-2.02");
        storey.Door("HC-2.09", "H-2.02", DoorType.Automatic.Behind(AccessControl.Badge).Wide(1_350));
        storey.Row(
            Wing.West, Band.InnerSouth, Side.South, "HC", "H", 24,
            new("C-2.01", "Operating room 1", RoomType.Operating, 7.5),
            new("C-2.02", "Scrub room", RoomType.Staff, 3),
            new("C-2.03", "Operating room 2", RoomType.Operating, 7.5),
            new("C-2.04", "Anesthesia store", RoomType.Store, 4));

        // A short cut for people: its two bends are 1.1 m wide.
        storey.Room(
            "HR-2.01", "Store passage", RoomType.RestrictedCorridor,
            Area.Rectangle(46, 8.4, 47.1, 12).Plus(Area.Rectangle(47.1, 10.9, 52.5, 12)).Plus(Area.Rectangle(51.4, 12, 52.5, 14.4)));
        storey.Door("HR-2.01", "HC-2.03", DoorType.Leaf.Wide(880).Sill(0));
        storey.Door("HR-2.01", "H-2.03", DoorType.Leaf.Behind(AccessControl.Badge).Wide(880).Sill(0));
        storey.Room("C-2.05", "Suture store", RoomType.Store, 46, 12, 51.4, 14.4);
        storey.Room("C-2.06", "Implant store", RoomType.Store, 47.1, 8.4, 54, 10.9);
        storey.Room("C-2.07", "Device store", RoomType.Store, 52.5, 10.9, 54, 14.4);
        storey.Door("C-2.05", "H-2.03", DoorType.Leaf);
        storey.Door("C-2.06", "HC-2.03", DoorType.Leaf);
        storey.Door("C-2.07", "H-2.03", DoorType.Leaf);
        storey.Row(
            Wing.West, Band.SouthRooms, Side.North, "HC", null, 0,
            new("C-2.31", "Changing, women", RoomType.Staff, 6),
            new("C-2.32", "Changing, men", RoomType.Staff, 6),
            new("C-2.33", "Staff room", RoomType.Staff, 6),
            new("C-2.34", "On-call room 1", RoomType.Office, 6),
            new("C-2.35", "On-call room 2", RoomType.Office, 6),
            new("C-2.36", "Instrument store", RoomType.Store, 6) { Door = DoorType.Double },
            new("C-2.37", "Anesthetists' office", RoomType.Office, 6),
            new("C-2.38", "Equipment store", RoomType.Store, 6) { Door = DoorType.Bed },
            new("C-2.39", "Team leader", RoomType.Office, 6));
    }

    private static void DeliveryRooms(Storey storey)
    {
        const double Width = 5.4;
        // Out only, so that nobody comes into a birth from the soiled side.
        var toSoiled = DoorType.Bed.Wide(1_100).Sill(6).OneWay();
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("D-2.10", "Soiled utility, delivery", RoomType.Utility, 4.8) { Back = DoorType.Bed.OneWay() },
            new("D-2.11", "Delivery room 1", RoomType.Delivery, Width) { Cell = true, Back = toSoiled },
            new("D-2.12", "Delivery room 2", RoomType.Delivery, Width) { Cell = true, Back = toSoiled, Alcove = true },
            new("D-2.13", "Delivery room 3", RoomType.Delivery, Width) { Cell = true, Back = toSoiled },
            new("D-2.14", "Delivery room 4", RoomType.Delivery, Width) { Cell = true, Back = toSoiled, Alcove = true },
            new("D-2.15", "Delivery room 5", RoomType.Delivery, Width) { Cell = true, Back = toSoiled },
            new("D-2.16", "Delivery room 6", RoomType.Delivery, Width) { Cell = true, Back = toSoiled, Alcove = true },
            new("D-2.17", "Delivery room 7", RoomType.Delivery, Width) { Cell = true, Back = toSoiled },
            new("D-2.18", "Delivery room 8", RoomType.Delivery, Width) { Cell = true, Back = toSoiled });
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-2.01", "Soiled linen", RoomType.Utility, 6),
            new("S-2.02", "Incubator cleaning", RoomType.Utility, 8) { Door = DoorType.Bed },
            new("S-2.03", "Waste", RoomType.Utility, 6),
            new("S-2.04", "Cleaners' store", RoomType.Store, 6),
            new("S-2.05", "Incubator store", RoomType.Store with { Facilities = [FacilityKind.Power] }, 8) { Door = DoorType.Bed },
            new("S-2.06", "Switch room", RoomType.Plant, 6),
            new("S-2.07", "Bed store", RoomType.Store, 8) { Door = DoorType.Double });
    }

    private static void DaySurgery(Storey storey)
    {
        storey.Row(
            Wing.East, Band.SouthRooms, Side.North, "HC", null, 78,
            new("R-2.31", "Instrument store, east", RoomType.Store, 6) { Door = DoorType.Double },
            new("R-2.32", "Anesthesia workroom", RoomType.Staff, 6));
        storey.Row(
            Wing.East, Band.SouthRooms, Side.North, "HC", null, 97,
            new("R-2.33", "Procedure room 1", RoomType.Operating with { Kind = PlaceKind.Room }, 8) { Door = DoorType.Automatic },
            new("R-2.34", "Procedure room 2", RoomType.Operating with { Kind = PlaceKind.Room }, 8) { Door = DoorType.Automatic },
            new("R-2.35", "Scrub room, east", RoomType.Staff, 5),
            new("R-2.36", "Scope cleaning", RoomType.Utility, 7),
            new("R-2.37", "Changing, east", RoomType.Staff, 7));
        storey.Row(
            Wing.East, Band.InnerSouth, Side.North, "H", "HC", 78,
            new("R-2.01", "Recovery, day 1", RoomType.Recovery, 9),
            new("R-2.02", "Recovery, day 2", RoomType.Recovery, 9) { Cell = true },
            new("R-2.03", "Nurses' base", RoomType.Staff, 6) { Back = DoorType.Leaf.Wide(800) },
            new("R-2.04", "Day room 1", RoomType.Recovery, 6) { Alcove = true },
            new("R-2.05", "Day room 2", RoomType.Recovery, 6),
            new("R-2.06", "Day room 3", RoomType.Recovery, 6) { Alcove = true },
            new("R-2.07", "Day room 4", RoomType.Recovery, 6),
            new("R-2.08", "Discharge lounge", RoomType.Waiting, 6) { Door = DoorType.Bed });
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("R-2.09", "Reception, day surgery", RoomType.Office, 6),
            new("R-2.10", "Waiting, day surgery", RoomType.Waiting, 9) { Door = DoorType.Opening },
            new("R-2.11", "Pre-assessment 1", RoomType.Clinic, 6),
            new("R-2.12", "Pre-assessment 2", RoomType.Clinic, 6) { Alcove = true },
            new("R-2.13", "Toilets", RoomType.Toilet, 6),
            new("R-2.14", "Soiled utility, day surgery", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("R-2.15", "Doctors' room", RoomType.Office, 9));
    }
}
