using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.FloorPlans;

/// <summary>
/// Reads the extracts of a real two-storey clinic (BSI 2020, Medical-Dental Test Files, buildingSMART International, CC BY 4.0) as a floor
/// plan. A space without an outline and a door without a point or without two different spaces cannot stand in a plan.
/// </summary>
internal sealed class ClinicFloor
{
    private readonly IReadOnlyList<IReadOnlyDictionary<string, string>> _spaces;

    private ClinicFloor(string folder)
    {
        _spaces = ReferenceFile.Rows(Path.Combine(folder, "spaces.csv"));
        Doors = ReferenceFile.Rows(Path.Combine(folder, "doors.csv"));
        KnownErrors = ReferenceFile.Rows(Path.Combine(folder, "known_data_errors.csv"));
        Expected = File.ReadAllText(Path.Combine(folder, "expected.json"));
        Plan = Read(ReferenceFile.Rows(Path.Combine(folder, "floors.csv")));
    }

    internal IReadOnlyList<IReadOnlyDictionary<string, string>> Spaces => _spaces;
    internal IReadOnlyList<IReadOnlyDictionary<string, string>> Doors { get; }
    internal IReadOnlyList<IReadOnlyDictionary<string, string>> KnownErrors { get; }
    internal string Expected { get; }
    internal FloorPlan Plan { get; }

    internal static ClinicFloor Load()
    {
        var folder = Path.Combine(Environment.GetEnvironmentVariable("PLANNER_BUILDINGS") ?? "", "clinic");
        Assert.SkipWhen(!Directory.Exists(folder), "skipped: no real clinic, PLANNER_BUILDINGS names no folder with clinic/ in it");
        return new(folder);
    }

    private FloorPlan Read(IReadOnlyList<IReadOnlyDictionary<string, string>> floors)
    {
        var places = _spaces.Where(row => row["polygon_wkt_local_m"].Length > 0).Select(Place).ToDictionary(place => place.Number);
        return new()
        {
            SiteId = "clinic",
            Name = "Clinic",
            TimeZone = "Etc/UTC",
            Levels = [.. floors.Select(row => new Level(row["name"], row["name"], Number(row["elevation_m"])))],
            Places = [.. places.Values],
            Passages = [.. Doors.Where(row => row["x_m"].Length > 0 && row["space_a"] != row["space_b"]
                && places.ContainsKey(row["space_a"]) && places.ContainsKey(row["space_b"])).Select(row => Passage(row, places[row["space_a"]]))],
        };
    }

    private static Place Place(IReadOnlyDictionary<string, string> row)
    {
        var ring = ((Polygon)new WKTReader().Read(row["polygon_wkt_local_m"])).ExteriorRing.Coordinates;
        var usable = row["usable_height_mm"] is { Length: > 1 } millimetres ? Number(millimetres) / 1_000 : 0;
        return new()
        {
            Number = row["number"],
            Name = row["description"],
            Level = row["floor"],
            Outline = new([.. ring[..^1].Select(corner => new PlanPoint(corner.X, corner.Y))]),
            Kind = row["omniclass_table13"][..Math.Min(8, row["omniclass_table13"].Length)] switch
            {
                "13-85 11" => PlaceKind.Corridor,
                "13-85 21" => PlaceKind.Stairwell,
                "13-51 31" => PlaceKind.WaitingArea,
                "13-41 41" => PlaceKind.Room,
                "13-15 11" => PlaceKind.Office,
                _ => PlaceKind.Utility,
            },
            Height = usable > 0 ? Fact.Drawing(Distance.FromMetres(usable)) : default,
        };
    }

    /// <summary>The file gives a point; the line is laid through it along the nearest wall of the first space.</summary>
    private static Passage Passage(IReadOnlyDictionary<string, string> row, Place first)
    {
        var middle = new PlanPoint(Number(row["x_m"]), Number(row["y_m"]));
        var wall = new PlaceShape(first.Outline).Nearest(middle, null).Inward.Left;
        var width = row["nominal_width_m"].Length > 0 ? Fact.Drawing(Distance.FromMetres(Number(row["nominal_width_m"]))) : default;
        var half = width.Or(Distance.FromMetres(0.9)).Metres / 2;
        return new()
        {
            Id = row["name"],
            Kind = PassageKind.HingedDoor,
            From = row["space_a"],
            To = row["space_b"],
            Line = new(wall.Along(middle, -half), wall.Along(middle, half)),
            ClearWidth = width,
        };
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
