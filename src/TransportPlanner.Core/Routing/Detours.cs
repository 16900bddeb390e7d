using System.Collections;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Quickest ways under conditions, past obstacles or through something given: what <i>why not?</i> and <i>what is in the way?</i> ask for.</summary>
internal sealed class Detours(PricedGraph priced, int origin, int target)
{
    private readonly Dictionary<BitArray, (QuickestTree From, QuickestTree To)> _trees = [];

    /// <summary>Quickest ways from the origin to everywhere over the given arcs.</summary>
    public QuickestTree FromOrigin(BitArray usable) => QuickestTree.From(priced.Costs, [origin], usable);

    /// <summary>Quickest way over the given arcs; null where none leads.</summary>
    public List<int>? Quickest(BitArray usable)
    {
        var tree = FromOrigin(usable);
        return tree.Cost[target] == QuickestTree.Unreachable ? null : tree.Arcs(target);
    }

    /// <summary>
    /// The obstacles in their order on the way with the fewest of them, of these the quickest: without stairs where such a way leads there, else
    /// with them. Empty where nothing leads there at all.
    /// </summary>
    public IReadOnlyList<Obstacle> InTheWay(CancellationToken cancellation)
    {
        var costs = new int[2 * priced.Floor.ArcCount];
        for (var arc = 0; arc < priced.Floor.ArcCount; arc++)
        {
            (costs[2 * arc], costs[2 * arc + 1]) = (priced.ObstacleOn(arc) is null ? 0 : 1, priced.TimeTenths(arc));
        }

        var graph = priced.Length.WithCosts(2, costs);
        var least = ParetoSearch.Find(graph, origin, target, priced.Relaxed, cancellation).Members.FirstOrDefault()
            ?? ParetoSearch.Find(graph, origin, target, null, cancellation).Members.FirstOrDefault();
        return least is null ? [] : [.. least.Arcs.Select(priced.ObstacleOn).OfType<Obstacle>()];
    }

    /// <summary>Quickest way over usable arcs that takes one of the given arcs and enters no place twice; null where none does.</summary>
    public List<int>? QuickestThrough(IEnumerable<int> arcs, BitArray usable)
    {
        if (!_trees.TryGetValue(usable, out var trees))
        {
            _trees[usable] = trees = (FromOrigin(usable), QuickestTree.To(priced.Costs, [target], usable));
        }

        var floor = priced.Floor;
        var (best, least) = (-1, long.MaxValue);
        foreach (var arc in arcs)
        {
            var (before, after) = (trees.From.Cost[floor.ArcSource[arc]], trees.To.Cost[floor.ArcTarget[arc]]);
            if (usable[arc] && before != QuickestTree.Unreachable && after != QuickestTree.Unreachable
                && (long)before + after + priced.TimeTenths(arc) < least)
            {
                (best, least) = (arc, (long)before + after + priced.TimeTenths(arc));
            }
        }

        if (best < 0)
        {
            return null;
        }

        List<int> way = [.. trees.From.Arcs(floor.ArcSource[best]), best, .. trees.To.Arcs(floor.ArcTarget[best])];
        return way.Select(arc => floor.ArcPlace[arc]).Distinct().Count() == way.Count ? way : null;
    }
}
