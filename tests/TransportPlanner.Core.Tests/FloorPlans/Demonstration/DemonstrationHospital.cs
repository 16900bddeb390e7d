using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>
/// The invented hospital of the examples, drawn by code so that every figure has one place. Always the same plan: nothing here depends
/// on a clock, a machine or chance. docs/demonstration-hospital.md tells what is where and where the figures come from.
/// </summary>
internal static class DemonstrationHospital
{
    public static FloorPlan Build()
    {
        var draft = new Draft();
        ServiceStorey.Draw(draft);
        EntranceStorey.Draw(draft);
        DeliveryStorey.Draw(draft);
        WardStorey.Draw(draft);
        NurseryStorey.Draw(draft);
        TeachingStorey.Draw(draft);
        var elevators = Elevators.Add(draft);
        foreach (var stair in (string[])["ST1", "ST2", "ST3"])
        {
            Elevators.AddFlights(draft, stair, ["0", "1", "2", "3", "4", "5"]);
        }

        var passages = draft.Passages().ToList();
        return new()
        {
            SiteId = "demonstration",
            Name = "Heronsmere Hospital (demonstration, invented)",
            TimeZone = "Europe/Lisbon",
            Version = 1,
            Notice = "Demonstration data: this hospital is invented. No building, door, elevator or person in it exists. "
                + "Plan no real transport with it.",
            Levels =
            [
                new("0", "Level 0, services", -4.2),
                new("1", "Level 1, entrance", 0),
                new("2", "Level 2, delivery", 4.5),
                new("3", "Level 3, wards", 8.4),
                new("4", "Level 4, nurseries", 12.3),
                new("5", "Level 5, offices and teaching", 16.2),
            ],
            Places = [.. FireCompartments.Assign([.. draft.Places()], passages)],
            Passages = [.. passages],
            ElevatorGroups = Elevators.Groups,
            Elevators = elevators,
        };
    }
}
