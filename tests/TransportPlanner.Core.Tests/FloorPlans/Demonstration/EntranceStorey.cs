using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 1, at the street: lobby, clinics in the west, imaging in the east.</summary>
internal static class EntranceStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "1");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Lobby },
            new("H-1.01", "Clinic street, west", 0, 18),
            new("H-1.02", "Clinic street, middle", 18, 36) { Entry = DoorType.Double },
            new("H-1.03", "Clinic street, east", 36, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Lobby },
            new("H-1.04", "Imaging street, west", 78, 96),
            new("H-1.05", "Imaging street, middle", 96, 114) { Entry = DoorType.Double },
            new("H-1.06", "Imaging street, east", 114, 132) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-1.01", "Soiled corridor, west", 6, 30),
            new("HS-1.02", "Soiled corridor, middle", 30, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-1.04", "Soiled corridor, east", 78, 105),
            new("HS-1.05", "Soiled corridor, far east", 105, 132) { Entry = DoorType.Double });
        CentralBlock.Concourse(storey, "Concourse", "H-1.03", "H-1.04");
        CentralBlock.North(storey, "L-1.P", "Security", RoomType.Staff, "H-1.10");
        CentralBlock.SoiledLink(storey, "HS-1.02", "HS-1.04");
        CentralBlock.WestEnd(storey, "H-1.01", "HS-1.01");
        CentralBlock.EastEnd(storey, "H-1.06", cleanLanding: true);
        CentralBlock.CleanElevatorLink(storey, "H-1.04");
        Lobby(storey);
        Clinics(storey);
        Imaging(storey);
    }

    private static void Lobby(Storey storey)
    {
        var shop = Area.Rectangle(54, 0, 60, 8.4);
        var desk = Area.Rectangle(71, 5, 78, 9.8);
        var shaft = Area.Rectangle(54, 8.4, 59, 14.4);
        var lobby = Area.Rectangle(54, 0, 78, 14.4).Minus(shop).Minus(desk).Minus(shaft);
        storey.Room("H-1.11", "Lobby", RoomType.Concourse with { Height = 4.2 }, lobby);
        storey.Room("A-1.03", "Kiosk", RoomType.Waiting with { People = Rhythm.Lobby }, shop);
        storey.Room("A-1.04", "Reception", RoomType.Staff with { People = Rhythm.Lobby }, desk);
        storey.Room("Z-1.01", "Forecourt", RoomType.Forecourt, 56, -8, 76, 0);
        storey.Open("H-1.11", "H-1.10");
        storey.Door("A-1.03", "H-1.11", DoorType.Sliding);
        storey.Door("A-1.04", "H-1.11", DoorType.Leaf);
        storey.Door("Z-1.01", "H-1.11", DoorType.Automatic.Wide(1_800));
    }

    private static void Clinics(Storey storey)
    {
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 0,
            new("Q-1.01", "Ultrasound 1", RoomType.Clinic, 5),
            new("Q-1.02", "Ultrasound 2", RoomType.Clinic, 5),
            new("Q-1.03", "Antenatal clinic 1", RoomType.Clinic, 5) { Alcove = true },
            new("Q-1.04", "Antenatal clinic 2", RoomType.Clinic, 5),
            new("Q-1.05", "Waiting, antenatal", RoomType.Waiting with { Most = 14 }, 8) { Door = DoorType.Opening },
            new("Q-1.06", "Children's clinic 1", RoomType.Clinic, 5),
            new("Q-1.07", "Children's clinic 2", RoomType.Clinic, 5) { Alcove = true },
            new("Q-1.08", "Waiting, children", RoomType.Waiting with { Most = 16 }, 8) { Door = DoorType.Opening },
            new("Q-1.09", "Cashier", RoomType.Office with { People = Rhythm.Lobby }, 8));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("Q-1.10", "Blood collection", RoomType.Clinic, 6),
            new("Q-1.11", "Treatment room", RoomType.Treatment, 6),
            new("Q-1.12", "Vaccination", RoomType.Clinic, 6),
            new("Q-1.13", "Soiled utility", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("Q-1.14", "Doctors' room", RoomType.Office, 6),
            new("Q-1.15", "Hearing test", RoomType.Clinic, 6) { Alcove = true },
            new("Q-1.16", "Toilets, women", RoomType.Toilet with { Most = 2 }, 6),
            new("Q-1.17", "Toilets, men", RoomType.Toilet with { Most = 2 }, 6));
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-1.01", "Cleaners' store", RoomType.Store, 12),
            new("S-1.02", "Waste, clinics", RoomType.Utility, 12),
            new("S-1.03", "Switch room", RoomType.Plant, 12),
            new("S-1.04", "Furniture store", RoomType.Store, 12));
    }

    private static void Imaging(Storey storey)
    {
        var magnet = RoomType.Imaging with { Flags = PlaceFlags.NoCylinders, Facilities = [] };
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 78,
            new("I-1.01", "X-ray 1", RoomType.Imaging, 7),
            new("I-1.02", "X-ray 2", RoomType.Imaging, 7) { Alcove = true });
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 94.4,
            new("I-1.03", "Waiting, imaging", RoomType.ImagingWaiting, 9) { Door = DoorType.Opening },
            new("I-1.04", "Magnet zone, entry", magnet with { Kind = PlaceKind.Anteroom }, 6) { Door = DoorType.Bed.Behind(AccessControl.Badge) });
        storey.Room("I-1.05", "Magnet room", magnet, 109.4, 12, 118, 20.4);
        storey.Door("I-1.05", "I-1.04", DoorType.Bed.Behind(AccessControl.Key).Sill(20));
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 118,
            new("I-1.06", "Computed tomography", RoomType.Imaging, 8),
            new("I-1.07", "Reporting room", RoomType.Office, 6));
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("I-1.08", "Ultrasound 3", RoomType.Imaging, 6),
            new("I-1.09", "Ultrasound 4", RoomType.Imaging, 6),
            new("I-1.10", "Preparation", RoomType.Treatment, 6),
            new("I-1.11", "Mammography", RoomType.Imaging, 6) { Alcove = true },
            new("I-1.12", "Contrast store", RoomType.Store, 6),
            new("I-1.13", "Toilets", RoomType.Toilet, 6),
            new("I-1.14", "Soiled utility", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("I-1.15", "Staff room", RoomType.Staff, 6));
    }
}
