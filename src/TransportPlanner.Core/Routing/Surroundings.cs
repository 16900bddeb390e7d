using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Routing;

/// <summary>The nearest place with one kind of facility, from anywhere on a way, through what the conveyance fits through.</summary>
/// <remarks>The team may turn back where it stands; further on, a way never turns in a doorway.</remarks>
internal sealed class Surroundings
{
    private readonly FloorGraph _graph;
    private readonly FacilityKind _kind;
    private readonly CostGraph _lengths;
    private readonly QuickestTree _toFacility;

    public Surroundings(PricedGraph priced, FacilityKind kind)
    {
        (_graph, _kind, _lengths) = (priced.Floor, kind, priced.Length);
        var roots = Enumerable.Range(0, _graph.PlaceCount).Where(place => _graph.Plan.Places[place].Has(kind)).Select(_graph.ArrivalVertex);
        _toFacility = QuickestTree.To(_lengths, roots.ToArray(), priced.Allowed);
    }

    /// <summary>Nearest to a stretch of arcs: one of its own places at 0 m, else the least walk from any point between two of its places.</summary>
    public NearbyPlace? NearestTo(ReadOnlySpan<int> arcs)
    {
        var (nearest, least) = (-1, QuickestTree.Unreachable);
        foreach (var arc in arcs)
        {
            var place = _graph.Plan.Places[_graph.ArcPlace[arc]];
            if (place.Has(_kind))
            {
                return new(place.Number, 0);
            }

            Consider(_graph.ArcSource[arc]);
            Consider(_graph.ArcTarget[arc]);
        }

        if (nearest < 0)
        {
            return null;
        }

        var way = _toFacility.Arcs(nearest);
        var end = way.Count == 0 ? nearest : _lengths.Target[way[^1]];
        return new(_graph.Plan.Places[(end - _graph.ArrivalVertex(0)) / 2].Number, Math.Round(least / 1000.0, 1));

        void Consider(int vertex)
        {
            Take(vertex);
            if (_graph.IsTraversal(vertex) && _graph.Plan.Passages[FloorGraph.PassageOf(vertex)].Direction == PassageDirection.BothWays)
            {
                Take(vertex ^ 1);
            }
        }

        void Take(int vertex)
        {
            if (_toFacility.Cost[vertex] < least)
            {
                (nearest, least) = (vertex, _toFacility.Cost[vertex]);
            }
        }
    }
}
