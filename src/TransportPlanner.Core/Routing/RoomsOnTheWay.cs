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
        ? new(LimitKind.ThroughRoom, ClosureTarget.Place, place.Number, null, null,
            Statement.Of(StatementText.ThroughRoom, Statement.NameOf(ClosureTarget.Place, place.Number), Statement.Of(noun)))
        : null;

    private static StatementText? Noun(PlaceKind kind) => kind switch
    {
        PlaceKind.Room => StatementText.Room,
        PlaceKind.DeliveryRoom => StatementText.DeliveryRoom,
        PlaceKind.OperatingRoom => StatementText.OperatingRoom,
        PlaceKind.IsolationRoom => StatementText.IsolationRoom,
        PlaceKind.NeonatalIntensiveCare => StatementText.NeonatalIntensiveCare,
        PlaceKind.WardRoom => StatementText.WardRoom,
        PlaceKind.Imaging => StatementText.Imaging,
        PlaceKind.Utility => StatementText.Utility,
        PlaceKind.Sanitary => StatementText.Sanitary,
        PlaceKind.Office => StatementText.Office,
        _ => null,
    };
}
