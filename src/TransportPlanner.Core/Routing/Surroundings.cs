using System.Collections;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Routing;

/// <summary>The quickest way from anywhere on a route to the nearest of some roots, through what the conveyance fits through.</summary>
/// <remarks>The team may turn back where it stands; further on, a way never turns in a doorway.</remarks>
internal sealed class Surroundings
{
    private readonly PricedGraph _priced;
    private readonly FloorGraph _floor;
    private readonly QuickestTree _tree;

    private Surroundings(PricedGraph priced, IEnumerable<int> roots, BitArray allowed)
    {
        (_priced, _floor) = (priced, priced.Floor);
        _tree = QuickestTree.To(priced.Costs, roots.ToArray(), allowed);
    }

    /// <summary>Roots: every place with one kind of facility.</summary>
    public static Surroundings With(PricedGraph priced, FacilityKind kind) => new(
        priced, Enumerable.Range(0, priced.Floor.PlaceCount).Where(place => priced.Floor.Plan.Places[place].Has(kind)).Select(priced.Floor.ArrivalVertex),
        priced.Allowed);

    /// <summary>Roots: every door from one fire compartment into another, by the direction in which it is gone through. No elevator is used.</summary>
    public static Surroundings WithFireDoors(PricedGraph priced)
    {
        var floor = priced.Floor;
        var onFoot = new BitArray(priced.Allowed);
        for (var arc = 0; arc < floor.ArcCount; arc++)
        {
            onFoot[arc] = onFoot[arc] && floor.ArcElevator[arc] < 0;
        }

        return new(priced, Enumerable.Range(0, 2 * floor.PassageCount).Where(traversal => IsFireDoor(floor, traversal)), onFoot);
    }

    /// <summary>
    /// Whether a door leads from one known compartment into a circulation area of another. A room has no further way, and a stairwell is no
    /// place to wait with an incubator: others come down it.
    /// </summary>
    public static bool IsFireDoor(FloorGraph floor, int traversal)
    {
        var (entered, left) = (floor.Plan.Places[floor.PlaceEntered(traversal)], floor.Plan.Places[floor.PlaceEntered(traversal ^ 1)]);
        return floor.Plan.Passages[FloorGraph.PassageOf(traversal)].IsDoor && !RoomsOnTheWay.IsRoom(entered.Kind) && entered.Kind != PlaceKind.Stairwell
            && entered.FireCompartment is { IsKnown: true } behind && left.FireCompartment is { IsKnown: true } here && behind.Value != here.Value;
    }

    /// <summary>Onward from the end of a stretch; null where nothing is reached.</summary>
    public Reach? Onward(ReadOnlySpan<int> arcs) => From(_floor.ArcTarget[arcs[^1]]);

    /// <summary>
    /// Back from the start of a stretch: turned round on the spot, or by a branch that leaves the stretch before its end, whichever is quicker.
    /// From the origin's standing point there is nothing to turn.
    /// </summary>
    public Reach? Back(ReadOnlySpan<int> arcs)
    {
        var start = _floor.ArcSource[arcs[0]];
        var branch = FollowsAll(start, arcs) ? null : From(start) is { } ahead ? ahead with { IsAhead = true } : (Reach?)null;
        var turned = _floor.IsTraversal(start) && _floor.Plan.Passages[FloorGraph.PassageOf(start)].Direction == PassageDirection.BothWays ? From(start ^ 1) : null;
        return branch is { } one && (turned is not { } other || one.Seconds < other.Seconds) ? branch : turned;
    }

    /// <summary>Whether the quickest way goes along the whole stretch, so that it is the onward one.</summary>
    private bool FollowsAll(int start, ReadOnlySpan<int> arcs) => _tree.Arcs(start).Take(arcs.Length).SequenceEqual(arcs.ToArray());

    private Reach? From(int vertex)
    {
        if (_tree.Cost[vertex] == QuickestTree.Unreachable)
        {
            return null;
        }

        var way = _tree.Arcs(vertex);
        return new(
            way.Count == 0 ? vertex : _floor.ArcTarget[way[^1]], Math.Round(way.Sum(arc => (long)_floor.ArcLength[arc]) / 1000.0, 1), _priced.Seconds(way));
    }

    /// <param name="Root">Vertex that was reached.</param>
    /// <param name="Metres">Walking metres, to 0.1 m.</param>
    /// <param name="Seconds">Expected seconds, to 0.1 s.</param>
    /// <param name="IsAhead">Of a way back: nobody turns round for it, it leaves the stretch by a branch before its end.</param>
    internal readonly record struct Reach(int Root, double Metres, double Seconds, bool IsAhead = false);
}
