using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>Level 5: offices, teaching and plant; no service or clean elevator reaches it.</summary>
internal static class TeachingStorey
{
    public static void Draw(Draft draft)
    {
        var storey = new Storey(draft, "5");
        storey.Corridor(
            Wing.West, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Clinic },
            new("H-5.01", "Office corridor, west", 0, 27),
            new("H-5.02", "Office corridor, east", 27, 54) { Entry = DoorType.Double });
        storey.Corridor(
            Wing.East, Band.Spine, RoomType.PublicCorridor with { People = Rhythm.Clinic },
            new("H-5.04", "Teaching corridor, west", 78, 105),
            new("H-5.05", "Teaching corridor, east", 105, 132) { Entry = DoorType.Double });
        CentralBlock.Concourse(storey, "Gallery, level 5", "H-5.02", "H-5.04");
        CentralBlock.North(storey, "L-5.P", "Tea kitchen", RoomType.Staff, "H-5.10");
        CentralBlock.WestEnd(storey, "H-5.01", null);
        CentralBlock.EastEnd(storey, "H-5.05", cleanLanding: false);
        CentralBlock.South(storey, new("O-5.21", "Library", RoomType.Waiting, 9.5), new("O-5.22", "Meeting room", RoomType.Office, 9.5));
        storey.Row(
            Wing.West, Band.InnerSouth, Side.North, "H", null, 0,
            new("O-5.01", "Midwifery office", RoomType.Office, 9),
            new("O-5.02", "Infection prevention", RoomType.Office, 9) { Alcove = true },
            new("O-5.03", "Planning office", RoomType.Office, 9),
            new("O-5.04", "Facilities office", RoomType.Office, 9),
            new("O-5.05", "Records", RoomType.Store, 9) { Alcove = true },
            new("O-5.06", "Directors", RoomType.Office, 9));
        storey.Row(
            Wing.West, Band.InnerNorth, Side.South, "H", null, 6,
            new("O-5.07", "Occupational health", RoomType.Clinic, 12),
            new("O-5.08", "Personnel", RoomType.Office, 12) { Alcove = true },
            new("O-5.09", "Air handling, west", RoomType.Plant, 12),
            new("O-5.10", "Elevator machine room", RoomType.Plant, 12));
        storey.Row(
            Wing.East, Band.InnerSouth, Side.North, "H", null, 78,
            new("O-5.11", "Lecture hall", RoomType.Waiting with { Most = 40 }, 18) { Door = DoorType.Double },
            new("O-5.12", "Seminar room 1", RoomType.Waiting, 9) { Alcove = true },
            new("O-5.13", "Seminar room 2", RoomType.Waiting, 9),
            new("O-5.14", "Simulation room", RoomType.Treatment, 9),
            new("O-5.15", "Skills room", RoomType.Waiting, 9));
        storey.Row(
            Wing.East, Band.InnerNorth, Side.South, "H", null, 78,
            new("O-5.16", "Students' room", RoomType.Staff with { People = Rhythm.Clinic }, 12),
            new("O-5.17", "Toilets", RoomType.Toilet, 6),
            new("O-5.18", "Teaching office", RoomType.Office, 12) { Alcove = true },
            new("O-5.19", "Air handling, east", RoomType.Plant, 18));
    }
}
