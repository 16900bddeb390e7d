using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>A fact that a way rests on, with its age in words.</summary>
public sealed record AgedFact(string What, string Value, string Known, bool IsOld);

/// <summary>How old the facts are on which one way of a plan rests: the air changes of the places between its ends, and the doors that barely fit.</summary>
internal sealed class WayAges
{
    /// <summary>A door with less than this to spare beyond the clearance is named: a figure of the project's own.</summary>
    public const int NarrowMillimetres = 100;

    private WayAges(int limitMonths) => LimitMonths = limitMonths;

    /// <summary>Months after which air changes count as old at this site.</summary>
    public int LimitMonths { get; }
    public IReadOnlyList<AgedFact> AirChanges { get; private init; } = [];

    /// <summary>Doors of the way by what is left beside the conveyance, the narrowest first.</summary>
    public IReadOnlyList<AgedFact> Doors { get; private init; } = [];
    public int Old => AirChanges.Count(fact => fact.IsOld);

    /// <param name="plan">The plan.</param>
    /// <param name="way">One of its ways.</param>
    /// <param name="floorPlan">The version of the floor plan from which the plan was made.</param>
    /// <param name="settings">The site's.</param>
    /// <param name="now">Ages are counted until then, in days of the site.</param>
    public static WayAges Of(PlanResponse plan, RouteResponse way, FloorPlan floorPlan, SiteSettings settings, DateTimeOffset now)
    {
        var local = TimeZoneInfo.ConvertTime(now, TimeZoneInfo.FindSystemTimeZoneById(floorPlan.TimeZone));
        var today = DateOnly.FromDateTime(local.DateTime);
        var limit = settings.Get(UpkeepSettings.AirChangesStaleMonths);
        var places = floorPlan.Places.ToDictionary(place => place.Number);
        var passages = floorPlan.Passages.ToDictionary(passage => passage.Id);
        string Known<T>(Fact<T> fact) where T : struct =>
            fact.IsKnown ? $"{FloorPlanWords.Of(fact.Source)}, {FloorPlanWords.Aged(fact.AsOf, local)}" : "nobody has measured them; the site's figure is taken";

        var conveyance = plan.Given.Conveyance?.WidthMetres ?? Core.Travel.Conveyance.AssumedIncubator.Width.Metres;
        var needed = (int)Math.Round(conveyance * 1000) + 2 * settings.Get(SiteSettings.ClearanceEachSide);
        return new(limit)
        {
            AirChanges =
            [
                .. from crossing in way.Crossings
                   where !crossing.IsEnd
                   select crossing.Place into number
                   group number by number into same
                   where places.ContainsKey(same.Key)
                   let fact = places[same.Key].AirChanges
                   select new AgedFact(same.Key, fact.IsKnown ? FloorPlanWords.Number(fact.Value.PerHour, "0.##", "per hour") : "unknown", Known(fact), FactAge.IsOld(fact, today, limit)),
            ],
            Doors =
            [
                .. from door in way.Legs.SelectMany(leg => leg.Doors).DistinctBy(door => door.Passage)
                   where passages.ContainsKey(door.Passage)
                   let width = passages[door.Passage].ClearWidth
                   where width.IsKnown && width.Value.Millimetres - needed < NarrowMillimetres
                   orderby width.Value.Millimetres
                   select new AgedFact(
                       door.Passage, $"{FloorPlanWords.Metres(width.Value)}, {(width.Value.Millimetres - needed) / 10.0:0.#} cm to spare", Known(width),
                       FactAge.IsOld(width, today, limit)),
            ],
        };
    }
}
