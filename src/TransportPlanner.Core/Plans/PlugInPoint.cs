using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>Why a place with a power socket counts.</summary>
public enum PlugInPurpose
{
    Origin,
    /// <summary>The way leads through it.</summary>
    OnTheWay,
    /// <summary>The bail-out point nearest to a leg.</summary>
    BailOut,
    Destination,
}

/// <summary>A place where devices can be plugged in. Nothing is counted for it: the minutes are those of the batteries alone.</summary>
/// <param name="Purpose">Why it counts.</param>
/// <param name="Place">Its number.</param>
/// <param name="HasSocket">False: the floor plan writes none down there; told for origin, destination and bail-out points.</param>
/// <param name="Connectors">As the floor plan writes them, each once; sockets whose type is not written down are not in it.</param>
public sealed record PlugInPoint(PlugInPurpose Purpose, string Place, bool HasSocket, ImmutableArray<string> Connectors)
{
    /// <summary>Origin; then for each leg the places crossed that have a socket and its nearest bail-out point; destination. Each place once.</summary>
    internal static ImmutableArray<PlugInPoint> Of(FloorPlan plan, Route route, RouteQuery query)
    {
        var bailOuts = route.Legs.Select(leg => leg.BailOut?.Place).OfType<string>().ToHashSet();
        var between = route.Legs.SelectMany(leg => leg.BailOut is { } bailOut ? leg.Places.Append(bailOut.Place) : leg.Places)
            .Distinct().Where(place => place != query.From && place != query.To)
            .Select(place => At(plan, place, bailOuts.Contains(place) ? PlugInPurpose.BailOut : PlugInPurpose.OnTheWay))
            .Where(point => point.HasSocket || point.Purpose == PlugInPurpose.BailOut);
        return [At(plan, query.From, PlugInPurpose.Origin), .. between, At(plan, query.To, PlugInPurpose.Destination)];
    }

    private static PlugInPoint At(FloorPlan plan, string number, PlugInPurpose purpose)
    {
        var sockets = plan.Places.Single(place => place.Number == number).Facilities.Where(facility => facility.Kind == FacilityKind.Power).ToList();
        return new(purpose, number, sockets.Count > 0, [.. sockets.Select(socket => socket.Connector).OfType<string>().Distinct()]);
    }
}
