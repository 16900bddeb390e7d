using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 4: children's ward in the west, newborn intensive care and isolation nursery in the east, a cold bridge outside.</summary>
internal static class NurseryStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "4");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor with { Most = .03 },
            new("H-4.01", "Children's corridor, west", 0, 18),
            new("H-4.02", "Children's corridor, middle", 18, 40) { Entry = DoorType.Double },
            new("H-4.03", "Children's corridor, east", 40, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.West, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-4.01", "Soiled corridor, west", 6, 36),
            new("HS-4.02", "Soiled corridor, middle", 36, 54) { Entry = DoorType.Double.Wide(1_350).Sill(4) });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor,
            new("H-4.04", "Newborn corridor, west", 78, 93),
            new("H-4.05", "Newborn corridor, east", 93, 108) { Entry = DoorType.Double.Wide(1_500).Sill(0) });
        storey.Corridor(
            Wing.East, Band.CleanCorridor, RoomType.CleanCorridor,
            new("HC-4.01", "Clean corridor, intensive care", 78, 108),
            new("HC-4.02", "Clean corridor, nursery", 108, 132) { Entry = DoorType.Sliding.Wide(1_400) });
        storey.Corridor(
            Wing.East, Band.SoiledCorridor, RoomType.SoiledCorridor,
            new("HS-4.04", "Soiled corridor, east", 78, 105),
            new("HS-4.05", "Soiled corridor, nursery", 105, 132) { Entry = DoorType.Double.Wide(1_350).Sill(0) });
        var nurseryCorridor = RoomType.RestrictedCorridor with { AirChanges = 6, Pressure = PressureRelation.Negative };
        storey.Room(
            "HN-4.01", "Isolation nursery corridor", nurseryCorridor.With(FacilityKind.Donning, FacilityKind.Doffing), 108, 20.4, 132, 23);
        CentralBlock.Concourse(storey, "Gallery, level 4", "H-4.03", "H-4.04");
        CentralBlock.North(storey, "L-4.P", "Parents' lounge", RoomType.Waiting with { People = Rhythm.Ward }, "H-4.10");
        CentralBlock.SoiledLink(storey, "HS-4.02", "HS-4.04");
        CentralBlock.WestEnd(storey, "H-4.01", "HS-4.01");
        CentralBlock.EastEnd(storey, "HN-4.01", cleanLanding: true);
        CentralBlock.South(
            storey,
            new("A-4.03", "School room", RoomType.Waiting, 7),
            new("A-4.04", "Play room", RoomType.Waiting, 6),
            new("A-4.05", "Psychologists", RoomType.Office, 6));
        storey.Open("L-4.C", "HC-4.01");
        ChildrensWard(storey);
        Bridge(draft, storey);
        IntensiveCare(storey);
        NurseryEntrances(storey);
        IsolationRooms(draft, storey);
    }

    private static void ChildrensWard(Storey storey)
    {
        var room = RoomType.Ward;

        // 12, positive: VD-03, protective environment room.
        var protective = room with { Flags = PlaceFlags.VulnerablePeople, Pressure = PressureRelation.Positive, AirChanges = 12 };
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 0,
            new("K-4.01", "Children's room 1", room, 6) { Cell = true },
            new("K-4.02", "Children's room 2", room, 6) { Cell = true, Alcove = true },
            new("K-4.03", "Children's room 3", room, 6) { Cell = true },
            new("K-4.04", "Children's room 4", room, 6) { Cell = true, Alcove = true },
            new("K-4.05", "Nurses' base", RoomType.Staff, 6),
            new("K-4.06", "Treatment room", RoomType.Treatment, 6));
        storey.Row(
            Wing.West, Band.DeepSouth, Side.North, "H", null, 38.4,
            new("K-4.07", "Children's room 5", room, 5.2) { Cell = true },
            new("K-4.08", "Children's room 6", room, 5.2) { Cell = true, Alcove = true },
            new("K-4.09", "Blood disorders room", protective, 5.2));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 6,
            new("K-4.10", "Soiled utility", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("K-4.11", "Children's room 7", room, 7) { Cell = true },
            new("K-4.12", "Children's room 8", room, 7) { Cell = true, Alcove = true });
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", "HS", 35.4,
            new("K-4.14", "Linen", RoomType.Store, 5),
            new("K-4.15", "Kitchenette", RoomType.Staff, 4),
            new("K-4.16", "Children's room 9", room, 5.6) { Cell = true },
            new("K-4.17", "Parents' shower", RoomType.Toilet, 4));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.North, "HS", null, 26,
            new Bay("K-4.13", "Treatment bay on the soiled side", RoomType.Treatment with { Most = .3 }, 7) { Door = DoorType.Bed.Wide(1_200) });
        storey.Row(
            Wing.West, Band.NorthRooms, Side.South, "HS", null, 6,
            new("S-4.01", "Waste", RoomType.Utility, 12),
            new("S-4.02", "Bed cleaning", RoomType.Utility, 12) { Door = DoorType.Double });
    }

    /// <summary>Open louvres, no heating: quiet and cold. It arrives at the clean elevators by a ramp, since the wings differ by 0.3 m.</summary>
    private static void Bridge(Draft draft, Storey storey)
    {
        var quiet = RoomType.RestrictedCorridor with { People = Rhythm.Service, Least = 0, Most = .006 };
        storey.Room("HR-4.01", "Cross corridor, children's ward", quiet, 33, 17, 35.4, 23);
        storey.Room("HL-4.02", "Bridge corridor, west", quiet, 36, 5, 38.4, 14.4);
        storey.Room("LB-4.01", "Link bridge, west half", RoomType.Bridge, 36, 2, 68, 5);
        storey.Room("LB-4.02", "Link bridge, east half", RoomType.Bridge, 68, 2, 99.4, 5);
        storey.Room("RP-4.01", "Bridge ramp, east", (quiet with { Kind = PlaceKind.Ramp }).With(FacilityKind.Power), 97, 5, 99.4, 12);
        draft.Change("RP-4.01", ramp => ramp with { GradientPercent = Fact.Measured(4.3, new(2025, 12, 15)) });
        storey.Door("HR-4.01", "HS-4.01", DoorType.Double.Behind(AccessControl.Badge).Wide(1_400).Sill(12));
        storey.Door("HR-4.01", "H-4.02", DoorType.Bed.Wide(1_250).Sill(0));
        storey.Door("HL-4.02", "H-4.02", DoorType.Double.Behind(AccessControl.Badge).Wide(1_400).Sill(0));
        storey.Door("HL-4.02", "LB-4.01", DoorType.Double.Wide(1_400).Sill(18));
        storey.Open("LB-4.01", "LB-4.02");
        storey.Door("LB-4.02", "RP-4.01", DoorType.Double.Wide(1_400).Sill(18));
        storey.Door("RP-4.01", "L-4.C", DoorType.Sliding.Behind(AccessControl.Badge).Wide(1_300), 1);
    }

    private static void IntensiveCare(Storey storey)
    {
        storey.Row(
            Wing.East, Band.SouthRooms, Side.North, "HC", null, 78,
            new("N-4.31", "Milk kitchen", RoomType.Staff, 6),
            new("N-4.32", "Ventilator store", RoomType.Store, 6) { Door = DoorType.Bed });
        storey.Row(
            Wing.East, Band.SouthRooms, Side.North, "HC", null, 99.4,
            new("N-4.33", "Doctors' office", RoomType.Office, 6.6),
            new("N-4.34", "Parents' room 1", RoomType.Ward, 6.5),
            new("N-4.35", "Parents' room 2", RoomType.Ward, 6.5),
            new("N-4.36", "Clean utility", RoomType.Store, 6.5) { Door = DoorType.Sliding },
            new("N-4.37", "Pharmacy", RoomType.Store, 6.5) { Door = DoorType.Leaf.Behind(AccessControl.Code) });
        storey.Row(
            Wing.East, Band.InnerSouth, Side.North, "H", "HC", 78,
            new("N-4.20", "Intensive care, reception", RoomType.Office with { People = Rhythm.Ward }, 6) { Back = DoorType.Leaf.Wide(820) },
            new("N-4.21", "Step-down nursery", RoomType.Nursery, 6) { Alcove = true });
        storey.Row(
            Wing.East, Band.InnerSouth, Side.South, "HC", null, 90,
            new("N-4.22", "Intensive care, bay A", RoomType.IntensiveCare, 9),
            new("N-4.23", "Intensive care, bay B", RoomType.IntensiveCare, 9));
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", "HS", 78,
            new("N-4.24", "Seminar room", RoomType.Office, 6),
            new("N-4.25", "Equipment store", RoomType.Store, 6) { Alcove = true },
            new("N-4.26", "Soiled utility, intensive care", RoomType.Utility, 6) { Back = DoorType.Bed.OneWay() },
            new("N-4.27", "Toilets", RoomType.Toilet, 6));
    }

    /// <summary>
    /// Four ways in: the staff door at the end of the newborn corridor, which no incubator passes; the reception round it; the soiled
    /// entrance from the north; the clean entrance at the east end.
    /// </summary>
    private static void NurseryEntrances(Storey storey)
    {
        storey.Door("H-4.05", "HN-4.01", DoorType.Leaf.Behind(AccessControl.Badge).Wide(820).Sill(0));
        storey.Room(
            "N-4.09", "Nursery reception", RoomType.RestrictedCorridor with { Most = .06 },
            Area.Rectangle(102, 23, 106, 29).Plus(Area.Rectangle(106, 26.6, 110.4, 29)).Plus(Area.Rectangle(108, 23, 110.4, 26.6)));
        storey.Door("N-4.09", "H-4.05", DoorType.Automatic.Behind(AccessControl.Badge).Wide(1_400));
        storey.Door("N-4.09", "HN-4.01", DoorType.Double.Wide(1_400).Sill(0));
        storey.Room("N-4.13", "Pump store", RoomType.Store, 106, 23, 108, 26.6);
        storey.Door("N-4.13", "N-4.09", DoorType.Leaf);

        storey.Room("N-4.14", "Soiled utility, nursery", RoomType.Utility, 110.4, 23, 114, 29);
        storey.Door("N-4.14", "HN-4.01", RoomType.Utility.Door);
        storey.Door("N-4.14", "HS-4.05", DoorType.Bed.OneWay());
        storey.Room("HN-4.02", "Nursery, soiled entrance", RoomType.RestrictedCorridor with { Most = .01 }, 114, 23, 116.4, 29);
        storey.Door("HN-4.02", "HS-4.05", DoorType.Bed.Behind(AccessControl.Badge).Wide(1_200).Sill(12));
        storey.Door("HN-4.02", "HN-4.01", DoorType.Bed.Wide(1_200).Sill(0));
        storey.Room("N-4.15", "Nurses' base, nursery", RoomType.Staff, 116.4, 23, 121.2, 29);
        storey.Door("N-4.15", "HN-4.01", DoorType.Leaf);
        storey.Room(
            "N-4.16", "Protective wear and incubator bay",
            RoomType.Store.With(FacilityKind.Donning, FacilityKind.HandHygiene, FacilityKind.Power), 121.2, 23, 126, 29);
        storey.Door("N-4.16", "HN-4.01", DoorType.Bed);

        storey.Room("HN-4.03", "Nursery, clean entrance", RoomType.RestrictedCorridor with { Most = .01 }, 129.6, 14.4, 132, 20.4);
        storey.Door("HN-4.03", "HC-4.02", DoorType.Sliding.Behind(AccessControl.Badge).Wide(1_300));
        storey.Door("HN-4.03", "HN-4.01", DoorType.Sliding.Wide(1_300));
    }

    private static void IsolationRooms(Draft draft, Storey storey)
    {
        double[] measuredAirChanges = [12.4, 12.1, 11.6, 13.2];
        for (var i = 0; i < 4; i++)
        {
            var (number, west) = ($"N-4.0{i + 1}", 108 + 5.4 * i);
            var bay = Area.Rectangle(west, 14.4, west + 5.4, 20.4);
            var anteroom = Area.Rectangle(west + 2.8, 18, west + 5.4, 20.4);
            var cell = Area.Rectangle(west, 14.4, west + 2.2, 16.4);
            var type = RoomType.Isolation with { AirChanges = measuredAirChanges[i] };
            storey.Room(number, $"Isolation nursery room {i + 1}", type, bay.Minus(anteroom).Minus(cell));
            storey.Room(number + "A", "Anteroom of " + number, RoomType.Anteroom, anteroom);
            storey.Room(number + "S", "Sanitary cell of " + number, RoomType.Toilet with { Most = .15 }, cell);
            storey.Door(number + "A", "HN-4.01", DoorType.Sliding.Wide(1_200));
            draft.Join(number + "A", number, DoorType.Bed.Wide(1_200).Sill(0), .5, new PlanPoint(west + 4.1, 18));
            storey.Door(number + "S", number, DoorType.Sanitary);
        }
    }
}
