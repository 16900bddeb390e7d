using System.Globalization;
using TransportPlanner.Core.Posts;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>How the time, the people and the shared air of a way come about, from the figures of its crossings.</summary>
internal sealed class WayWorking(RouteResponse way, SiteDisplay show)
{
    private const double CircleSquareMetres = Math.PI * 2 * 2;

    /// <summary>False for plans of earlier releases, which did not keep the figures.</summary>
    public bool IsKept => way.Crossings.Count > 0;

    public IReadOnlyList<CrossingResponse> Crossings => way.Crossings;

    /// <summary>Crossings that count in the exposure: the rooms at both ends do not, but for the open door of the first.</summary>
    public IEnumerable<CrossingResponse> Between => way.Crossings.Where(crossing => !crossing.IsEnd);

    public string Walking
    {
        get
        {
            var walks = way.Crossings.Select(crossing => crossing.Walking).OfType<TriangleResponse>().ToList();
            return Text($"Walking {show.Tenths(way.Crossings.Sum(c => c.Metres))} {show.LengthName}, of them {show.Tenths(way.Crossings.Sum(c => c.SlowMetres))} {show.LengthName} slowly (turns over 45°, thresholds, slopes), at one pace: least {walks.Sum(w => w.LeastSeconds):0.0} s, likely {walks.Sum(w => w.LikelySeconds):0.0} s, most {walks.Sum(w => w.MostSeconds):0.0} s.");
        }
    }

    public string Mean
    {
        get
        {
            var (dwell, stall) = (way.Crossings.Sum(c => c.DwellSeconds), way.Crossings.Sum(c => c.StallProbability * MeanOf(c.Stall)));
            return Text($"The mean of a part is a third of least + likely + most: {dwell:0.0} s in all{(stall > 0 ? Text($", and {stall:0.0} s for the chance of a stall") : "")}. Doors, waits and rides vary each by itself; added up second by second, half of such journeys take no longer than {PlanWords.Clock(way.UsualSeconds)} and nine in ten no longer than {PlanWords.Clock(way.NearlyAlwaysSeconds)} min:s.");
        }
    }

    public string People
    {
        get
        {
            var counts = Between.DistinctBy(crossing => crossing.Place).Where(crossing => crossing.People > 0).Select(crossing => Text($"{crossing.People:0.##}")).ToList();
            return Text($"People likely met, each place once, the ends left out: {(counts.Count == 0 ? "none" : string.Join(" + ", counts))} = {way.PeopleLikelyMet:0.##}.");
        }
    }

    /// <summary>Places with crowds of the quarter-hour: what the floor plan says, what is added, what comes out.</summary>
    public IEnumerable<string> Crowds => Between.DistinctBy(crossing => crossing.Place).Where(crossing => crossing.Crowds.Count > 0)
        .Select(crossing => Text($"{crossing.Place}: {crossing.UsualPeople:0.##} by the floor plan; {string.Join("; ", crossing.Crowds)}: {crossing.People:0.##} people."));

    /// <summary>What an open door of a positive room of departure adds; null where there is none.</summary>
    public string? OpenDoor => way.Crossings.Sum(crossing => crossing.OpenDoorMinutes) is var minutes and > 0
        ? Text($"The open door of the room of departure, which is positive, adds {minutes:0.000} to the shared air of the next place.")
        : null;

    /// <summary>How a held place's window comes about, from the team's times and the site's seconds; posts at its doors stand as long.</summary>
    public static string WindowOf(HeldPlaceResponse held, DateTimeOffset go, string zone)
    {
        static string Clock(double seconds) => PlanWords.Clock(Math.Ceiling(seconds - 1e-9));
        var lead = Math.Ceiling(held.TeamArrives.EarliestSeconds - 1e-9) - (held.HeldFrom - go).TotalSeconds;
        var hold = (held.HeldTo - go).TotalSeconds - Math.Ceiling(held.TeamLeaves.NearlyAlwaysSeconds - 1e-9);
        return string.Create(CultureInfo.InvariantCulture, $"team there {Clock(held.TeamArrives.EarliestSeconds)} after go at the earliest, less {lead:0} s {(held.Cleared ? "to stand ready and clear it" : "to stand ready")} = {PostsWords.Time(held.HeldFrom, zone)}; ")
            + string.Create(CultureInfo.InvariantCulture, $"left {Clock(held.TeamLeaves.NearlyAlwaysSeconds)} after go nearly always, plus {hold:0} s hold = {PostsWords.Time(held.HeldTo, zone)}");
    }

    /// <summary>How each ride's seconds come about.</summary>
    public IEnumerable<string> Rides => way.Crossings.Where(crossing => crossing.RideWorking is not null)
        .Select(crossing => $"Ride in {crossing.Place}, seconds (least, likely, most): {crossing.RideWorking}. The flight is that of a car with limited speed, acceleration and jerk.");

    /// <summary>When a car is captured and given back, from the team's times and the site's seconds and minutes.</summary>
    public string WindowOf(ElevatorCapture car, DateTimeOffset go, string zone)
    {
        static string Clock(double seconds) => PlanWords.Clock(Math.Ceiling(seconds - 1e-9));
        var before = car.TeamArrives.EarliestSeconds - (car.Captured.From - go).TotalSeconds;
        var captured = Text($"team on {car.Landing} {Clock(car.TeamArrives.EarliestSeconds)} after go at the earliest, less {before:0} s = {PostsWords.Time(car.Captured.From, zone)}");
        return way.Crossings.LastOrDefault(crossing => crossing.Place == car.Elevator)?.Leaves is not { } leaves ? captured : captured
            + Text($"; out of it {Clock(leaves.NearlyAlwaysSeconds)} after go nearly always, plus {Math.Floor((car.GivenBack - go).TotalSeconds - leaves.NearlyAlwaysSeconds + 1e-9) / 60:0.##} min {(car.GivenBackDoorsOpen is null ? $"to park{(car.IsCleaned ? " and clean it" : "")}" : "for its air, doors shut")} = {PostsWords.Time(car.GivenBack, zone)}, given back not before");
    }

    /// <summary>The page of a place on the floor plan, by the level of the first leg that crosses it.</summary>
    public string Address(string site, string place)
    {
        var level = (way.Legs.FirstOrDefault(leg => leg.Places.Contains(place)) ?? way.Legs[0]).Level;
        return $"/floor-plan/{Uri.EscapeDataString(site)}/{Uri.EscapeDataString(level)}/{Uri.EscapeDataString(place)}#place";
    }

    public static string Time(CrossingResponse crossing)
    {
        (string Name, TriangleResponse? Part)[] parts = [("walk", crossing.Walking), ("door", crossing.Door), ("wait", crossing.Wait), ("ride", crossing.Ride)];
        return string.Join("; ", parts.Where(part => part.Part is not null)
            .Select(part => Text($"{part.Name} {part.Part!.LeastSeconds:0.0}, {part.Part.LikelySeconds:0.0}, {part.Part.MostSeconds:0.0}")));
    }

    public static string SharedAir(CrossingResponse crossing) => crossing.People == 0
        ? "nobody there"
        : Text($"{crossing.People:0.###} × {crossing.DwellSeconds / 60:0.000} × 300 ÷ ({crossing.LossPerHour:0.##} × {crossing.VolumeCubicMetres:0.0})");

    /// <summary>Which part of the place lies within 2 m of the team: the factor of <i>close by</i>.</summary>
    public static string Within(CrossingResponse crossing) => crossing.People == 0
        ? ""
        : crossing.AreaSquareMetres <= CircleSquareMetres ? Text($"all of {crossing.AreaSquareMetres:0.00} m²") : Text($"{CircleSquareMetres:0.000} ÷ {crossing.AreaSquareMetres:0.00} m²");

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static double MeanOf(TriangleResponse? part) => part is null ? 0 : (part.LeastSeconds + part.LikelySeconds + part.MostSeconds) / 3;
}
