using System.Collections;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>Every simple path, then every vector that no other matches or betters: slow and plainly right. Costs are ≥ 0, so loops never help.</summary>
internal static class PlainEnumeration
{
    public static List<int[]> EfficientVectors(CostGraph graph, int origin, int target, BitArray? allowed = null)
    {
        var vectors = new List<int[]>();
        Walk(origin, new bool[graph.VertexCount], new int[graph.CriterionCount]);
        return
        [
            .. vectors.Where(v => !vectors.Any(other => Betters(other, v)))
                .DistinctBy(v => string.Join(',', v))
                .Order(Comparer<int[]>.Create((a, b) => a.AsSpan().SequenceCompareTo(b)))
        ];

        void Walk(int at, bool[] visited, int[] costs)
        {
            if (at == target)
            {
                vectors.Add(costs);
                return;
            }

            visited[at] = true;
            for (var arc = 0; arc < graph.ArcCount; arc++)
            {
                if (graph.Source[arc] == at && !visited[graph.Target[arc]] && (allowed is null || allowed[arc]))
                {
                    Walk(graph.Target[arc], visited, [.. costs.Select((cost, k) => cost + graph.Costs[arc * costs.Length + k])]);
                }
            }

            visited[at] = false;
        }
    }

    public static bool Betters(int[] a, int[] b) => !a.SequenceEqual(b) && a.Zip(b).All(pair => pair.First <= pair.Second);
}
