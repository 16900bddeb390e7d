using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 0, half below ground: stores, kitchen, laundry, plant; soiled corridor to the yard.</summary>
internal static class ServiceStorey
{
    private static readonly RoomType Works = RoomType.Store with { Kind = PlaceKind.Room, Least = .2, Most = 5 };

    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "0");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.RestrictedCorridor,
            new("H-0.01", "Service street, west", 0, 27),
            new("H-0.02", "Service street, middle", 27, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-0.01", "Soiled corridor, west", 6, 30),
            new("HS-0.02", "Soiled corridor, middle", 30, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.RestrictedCorridor,
            new("H-0.04", "Service street, east", 78, 105),
            new("H-0.05", "Service street, far east", 105, 132) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-0.04", "Soiled corridor, east", 78, 105),
            new("HS-0.05", "Soiled corridor, far east", 105, 132) { Entry = DoorType.Double });

        storey.Room(
            "H-0.10", "Service crossing", RoomType.RestrictedCorridor,
            Area.Rectangle(54, 14.4, 78, 20.4).Plus(Area.Rectangle(58, 20.4, 78, 23)));
        storey.Open("H-0.02", "H-0.10");
        storey.Open("H-0.10", "H-0.04");
        storey.Room("A-0.01", "Porters' base", RoomType.Staff, 54, 20.4, 58, 23);
        storey.Door("A-0.01", "H-0.10", DoorType.Leaf);
        CentralBlock.North(storey, "H-0.10", "Mail room", Works, "H-0.10");
        CentralBlock.SoiledLink(storey, "HS-0.02", "HS-0.04");
        CentralBlock.WestEnd(storey, "H-0.01", "HS-0.01");
        CentralBlock.EastEnd(storey, "H-0.05", cleanLanding: true);
        CentralBlock.CleanElevatorLink(storey, "H-0.04");
        CentralBlock.South(
            storey,
            new("S-0.21", "Staff changing, east", RoomType.Staff, 9.5),
            new("S-0.22", "Staff changing, west", RoomType.Staff, 9.5));

        storey.Row(
            Wing.West, Band.InnerSouth, Side.North, "H", null, 0,
            new("S-0.01", "Central store", Works, 12) { Door = DoorType.Double },
            new("S-0.02", "Bed store", RoomType.Store, 9) { Door = DoorType.Double, Alcove = true },
            new("S-0.03", "Kitchen", Works, 15) { Door = DoorType.Double },
            new("S-0.04", "Cold store", RoomType.Store, 6),
            new("S-0.05", "Staff canteen", RoomType.Staff with { Most = 20 }, 12) { Door = DoorType.Double });
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("S-0.06", "Cylinder store", RoomType.Store, 6) { Door = DoorType.Bed.Behind(AccessControl.Key) },
            new("S-0.07", "Laundry, clean side", Works, 12) { Door = DoorType.Double });
        storey.Row(
            Wing.West, Band.InnerNorth, Side.North, "HS", null, 24,
            new("S-0.08", "Laundry, soiled side", Works, 9.6) { Door = DoorType.Double },
            new("S-0.10", "Cart wash", RoomType.Utility, 9) { Door = DoorType.Double });
        storey.Room("HR-0.01", "Cross corridor, carts", RoomType.RestrictedCorridor, 42.6, 17, 45, 23);
        storey.Door("HR-0.01", "H-0.02", DoorType.Double);
        storey.Door("HR-0.01", "HS-0.02", DoorType.Double.Sill(12));
        storey.Row(Wing.West, Band.InnerNorth, Side.South, "H", null, 45, new Bay("S-0.09", "Workshop", Works, 9) { Alcove = true });
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-0.11", "Waste holding", RoomType.Utility, 12) { Door = DoorType.Double },
            new("S-0.12", "Soiled linen", RoomType.Utility, 12) { Door = DoorType.Double },
            new("S-0.13", "Vacuum plant", RoomType.Plant, 12),
            new("S-0.14", "Water plant", RoomType.Plant, 12));
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 78,
            new Bay("S-0.15", "Central supply, packing", Works, 14) { Door = DoorType.Double });
        storey.Row(
            Wing.East, Band.DeepSouth, Side.North, "H", null, 94.4,
            new("S-0.16", "Central supply, store", RoomType.Store, 13.6) { Door = DoorType.Double },
            new("S-0.17", "Archive", RoomType.Store, 12),
            new("S-0.18", "Medical engineering", Works, 12) { Alcove = true });
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("S-0.19", "Central supply, washing", Works, 12) { Door = DoorType.Leaf.Wide(800), Back = DoorType.Double },
            new("S-0.20", "Pharmacy store", RoomType.Store, 12) { Door = DoorType.Bed.Behind(AccessControl.Code) },
            new("S-0.23", "Data centre", RoomType.Plant, 12),
            new("S-0.24", "Air handling", RoomType.Plant, 12));

        storey.Room("RP-0.01", "Ramp to the yard", RoomType.SoiledCorridor with { Kind = PlaceKind.Ramp }, 132, 29, 141, 31.4);
        draft.Change("RP-0.01", ramp => ramp with { GradientPercent = Fact.Measured(7.5, new(2025, 3, 27)) });
        storey.Door("HS-0.05", "RP-0.01", DoorType.Double.Behind(AccessControl.Badge).Sill(15));
        storey.Room("Z-0.01", "Yard", RoomType.Forecourt with { People = Rhythm.Service, Most = 3 }, 141, 26, 153, 35);
        storey.Open("RP-0.01", "Z-0.01");
    }
}
