using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>What stands between the wings on every storey: concourse, public landings, central stair, and the service link behind them.</summary>
internal static class CentralBlock
{
    /// <summary>Storeys 1 to 5. Joins the concourse to the spines, whose ends are given.</summary>
    public static void Concourse(Storey storey, string name, string westSpine, string eastSpine)
    {
        var l = storey.Level;
        storey.Room($"H-{l}.10", name, RoomType.Concourse, Area.Rectangle(54, 14.4, 78, 20.4).Plus(Area.Rectangle(72, 20.4, 78, 23)));
        storey.Room($"L-{l}.P", "Public elevators, landing", RoomType.PublicLanding, 58, 20.4, 72, 23);
        storey.Room($"L-{l}.P3", "Small elevator, landing", RoomType.PublicLanding, 55, 12.4, 59, 14.4);
        storey.Room($"A-{l}.01", "Waiting bay", RoomType.Waiting with { People = Rhythm.Lobby, Most = 4 }, 54, 20.4, 58, 23);
        storey.Open($"L-{l}.P", $"H-{l}.10");
        storey.Open($"L-{l}.P3", $"H-{l}.10");
        storey.Open($"A-{l}.01", $"H-{l}.10");
        storey.Door(westSpine, $"H-{l}.10", DoorType.Automatic.Wide(1_600));
        storey.Door(eastSpine, $"H-{l}.10", DoorType.Automatic.Wide(1_600));
    }

    /// <summary>Central stair, and the room beside it, with the place that each opens to.</summary>
    public static void North(Storey storey, string stairDoorTo, string roomName, RoomType room, string roomDoorTo)
    {
        var l = storey.Level;
        storey.Room($"ST1-{l}", "Central stair", RoomType.Stair, 68, 23, 72, 29);
        storey.Door($"ST1-{l}", stairDoorTo, RoomType.Stair.Door);
        storey.Room($"A-{l}.02", roomName, room, 72, 23, 78, 29);
        storey.Door($"A-{l}.02", roomDoorTo, room.Door);
    }

    /// <summary>The soiled corridor turns twice on its way round the elevator shafts, from the west wing to the east wing.</summary>
    public static void SoiledLink(Storey storey, string west, string east)
    {
        var l = storey.Level;
        storey.Room(
            $"HS-{l}.03", "Soiled corridor, link", RoomType.SoiledCorridor,
            Area.Rectangle(54, 23, 56.4, 31.4).Plus(Area.Rectangle(56.4, 29, 78, 31.4)));
        storey.Door(west, $"HS-{l}.03", DoorType.Double.Wide(1_500).Sill(4));
        storey.Door($"HS-{l}.03", east, DoorType.Double.Wide(1_500).Sill(12));
        storey.Room($"A-{l}.09", "Elevator switch room", RoomType.Plant, 56.4, 26, 68, 29);
        storey.Door($"A-{l}.09", $"HS-{l}.03", RoomType.Plant.Door, .2);
    }

    /// <summary>Rooms south of the concourse where there is no lobby and no theatre.</summary>
    public static void South(Storey storey, params Bay[] bays) =>
        storey.Row(Wing.West, Band.InnerSouth, Side.North, "H", null, 59, bays);

    /// <summary>West end: service landing and west stair, the stair on the spine.</summary>
    public static void WestEnd(Storey storey, string spine, string? soiled)
    {
        var l = storey.Level;
        storey.Room($"ST2-{l}", "West stair", RoomType.Stair, 0, 17, 6, 23);
        storey.Door($"ST2-{l}", spine, RoomType.Stair.Door);
        if (soiled is null)
        {
            return;
        }

        storey.Room($"L-{l}.S", "Service elevator, landing", RoomType.ServiceLanding, 0, 23, 6, 27);
        storey.Door($"L-{l}.S", soiled, DoorType.Double.Behind(AccessControl.Badge).Wide(1_450).Sill(12));
    }

    /// <summary>East stair on the spine, and the landing of the clean elevators.</summary>
    public static void EastEnd(Storey storey, string spine, bool cleanLanding)
    {
        var l = storey.Level;
        storey.Room($"ST3-{l}", "East stair", RoomType.Stair, 126, 23, 132, 29);
        storey.Door($"ST3-{l}", spine, RoomType.Stair.Door);
        if (cleanLanding)
        {
            storey.Room($"L-{l}.C", "Clean elevators, landing", RoomType.CleanLanding, 90, 9.4, 97, 12);
        }
    }

    /// <summary>Where a storey has no clean corridor, a short one leads from the spine to the clean elevators.</summary>
    public static void CleanElevatorLink(Storey storey, string spine)
    {
        var l = storey.Level;
        storey.Room($"HL-{l}.01", "Corridor to the clean elevators", RoomType.RestrictedCorridor, 92, 12, 94.4, 20.4);
        storey.Door($"HL-{l}.01", spine, DoorType.Automatic.Behind(AccessControl.Badge).Wide(1_400));
        storey.Open($"HL-{l}.01", $"L-{l}.C");
    }
}
