using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>
/// Rooms that a way enters by one door and leaves by another: two doors that fit do not make a ward or an operating room a corridor.
/// Origin and destination are not on the way.
/// </summary>
/// <remarks>Common practice: transports keep to circulation areas. An anteroom is one, since it leads to its room and nowhere else.</remarks>
internal sealed class RoomsOnTheWay(FloorGraph floor, RouteQuery query)
{
    private readonly Obstacle?[] _rooms = [.. floor.Plan.Places.Select(place => Room(place, query))];

    /// <summary>The room that an arc crosses from one passage to another; null for circulation areas, and for an arc that starts or ends inside.</summary>
    public Obstacle? Of(int arc) => floor.IsTraversal(floor.ArcSource[arc]) && floor.IsTraversal(floor.ArcTarget[arc]) ? _rooms[floor.ArcPlace[arc]] : null;

    /// <summary>Numbers of the rooms that a way leads through, in order, each once.</summary>
    public ImmutableArray<string> Of(ImmutableArray<int> arcs) => [.. arcs.Select(Of).OfType<Obstacle>().Select(room => room.Id).Distinct()];

    public static bool IsRoom(PlaceKind kind) => Noun(kind) is not null;

    private static Obstacle? Room(Place place, RouteQuery query) => place.Number != query.From && place.Number != query.To && Noun(place.Kind) is { } noun
        ? new(LimitKind.ThroughRoom, ClosureTarget.Place, place.Number, null, null, $"place {place.Number} is {noun}, which no way leads through while another is there")
        : null;

    private static string? Noun(PlaceKind kind) => kind switch
    {
        PlaceKind.Room => "a room",
        PlaceKind.DeliveryRoom => "a delivery room",
        PlaceKind.OperatingRoom => "an operating room",
        PlaceKind.IsolationRoom => "an isolation room",
        PlaceKind.NeonatalIntensiveCare => "a neonatal intensive care room",
        PlaceKind.WardRoom => "a ward room",
        PlaceKind.Imaging => "an imaging room",
        PlaceKind.Utility => "a utility room",
        PlaceKind.Sanitary => "a sanitary room",
        PlaceKind.Office => "an office",
        _ => null,
    };
}
