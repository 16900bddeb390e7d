using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Names of places by their numbers, for cards and lists.</summary>
internal static class PlaceNames
{
    /// <summary>As far as the plan knows them, or the floor plan of the version it was made with.</summary>
    public static IReadOnlyDictionary<string, string> Of(PlanResponse plan, FloorPlanSnapshot? site)
    {
        var names = plan.Airing.ToDictionary(place => place.Place, place => place.Name);
        foreach (var place in site is not null && site.Plan.Version == plan.Routes.FloorPlanVersion ? site.Plan.Places : [])
        {
            names[place.Number] = place.Name;
        }

        return names;
    }
}
