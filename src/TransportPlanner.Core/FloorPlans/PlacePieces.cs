using QuikGraph;
using QuikGraph.Algorithms.ConnectedComponents;
using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Which places hang together. Needs a plan whose structure holds.</summary>
internal sealed class PlacePieces(FloorPlan plan)
{
    /// <summary>One warning a piece that nobody can reach from the largest, and one a piece that only stairs reach.</summary>
    internal IEnumerable<Finding> Findings()
    {
        var onFoot = Pieces(_ => true);
        var apart = onFoot.Skip(1).SelectMany(piece => piece).ToHashSet();
        foreach (var piece in onFoot.Skip(1))
        {
            yield return Warning($"place {piece[0].Number}", "joins",
                $"{Names(piece)} cannot be reached from the rest of the site: add the missing passage.");
        }

        foreach (var piece in Pieces(passage => passage.Kind != PassageKind.StairFlight).Skip(1)
            .Where(piece => !apart.Contains(piece[0]) && piece.Any(place => place.Kind != PlaceKind.Stairwell)))
        {
            yield return Warning($"place {piece[0].Number}", "joins",
                $"{Names(piece)} can be reached by stairs only: no conveyance gets there unless a passage or an elevator stop is missing here.");
        }
    }

    /// <summary>Passages on the way of fewest places from each delivery or operating room to each isolation room.</summary>
    internal HashSet<string> OnWaysToIsolation()
    {
        var steps = plan.Passages.Where(passage => passage.Kind != PassageKind.StairFlight)
            .SelectMany(passage => new[] { (From: passage.From, passage.To, passage.Id), (From: passage.To, To: passage.From, passage.Id) })
            .ToLookup(step => step.From);
        var goals = plan.Places.Where(place => place.Kind == PlaceKind.IsolationRoom).Select(place => place.Number).ToArray();
        var urgent = new HashSet<string>(StringComparer.Ordinal);
        foreach (var origin in plan.Places.Where(place => place.Kind is PlaceKind.DeliveryRoom or PlaceKind.OperatingRoom))
        {
            var cameBy = new Dictionary<string, (string Place, string Passage)> { [origin.Number] = default };
            var open = new Queue<string>([origin.Number]);
            while (open.TryDequeue(out var at))
            {
                foreach (var (_, to, passage) in steps[at])
                {
                    if (cameBy.TryAdd(to, (at, passage)))
                    {
                        open.Enqueue(to);
                    }
                }
            }

            foreach (var goal in goals.Where(cameBy.ContainsKey))
            {
                for (var at = goal; at != origin.Number; at = cameBy[at].Place)
                {
                    urgent.Add(cameBy[at].Passage);
                }
            }
        }

        return urgent;
    }

    /// <summary>Largest first; equal ones, and the places in each, in the plan's order.</summary>
    private List<Place[]> Pieces(Func<Passage, bool> counts)
    {
        var graph = new UndirectedGraph<string, Edge<string>>();
        graph.AddVertexRange(plan.Places.Select(place => place.Number));
        graph.AddEdgeRange(plan.Passages.Where(counts).Select(passage => new Edge<string>(passage.From, passage.To)));
        var components = new ConnectedComponentsAlgorithm<string, Edge<string>>(graph);
        components.Compute();
        return [.. plan.Places.GroupBy(place => components.Components[place.Number]).Select(piece => piece.ToArray()).OrderByDescending(piece => piece.Length)];
    }

    private static string Names(Place[] piece) => piece.Length <= 3
        ? string.Join(", ", piece.Select(place => place.Number))
        : FormattableString.Invariant($"{piece[0].Number}, {piece[1].Number} and {piece.Length - 2} more places");
}
