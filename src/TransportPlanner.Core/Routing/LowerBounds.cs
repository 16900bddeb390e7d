using System.Collections;

namespace TransportPlanner.Core.Routing;

/// <summary>
/// Least cost from every vertex to one target, for each criterion alone: one Dijkstra against the arcs per criterion. The bounds are
/// consistent (no arc costs less than it lowers the bound), which is what lets <see cref="ParetoSearch"/> settle a label when it is taken.
/// </summary>
/// <remarks>Source: Dijkstra, Numerische Mathematik 1 (1959) 269–271; consistent bounds per criterion as in Pulido, Mandow and Pérez de la Cruz, Computers &amp; OR 64 (2015), from memory.</remarks>
internal sealed class LowerBounds
{
    public const int Unreachable = int.MaxValue;
    private const int CheckEvery = 4096;

    private readonly VertexQueue _queue = new();
    private readonly int[][] _least = [[], [], [], []];

    /// <summary>Least sum of criterion k by vertex; <see cref="Unreachable"/> where no way leads to the target.</summary>
    public int[] Of(int criterion) => _least[criterion];

    /// <summary>Bounds of a graph on its own, as a search makes them: for measurement.</summary>
    public bool Compute(CostGraph graph, int target, BitArray? allowed, CancellationToken cancellation, CancellationToken deadline)
    {
        var query = new QueryGraph();
        query.Load(graph, target, target, allowed, contracted: true);
        return Compute(query, cancellation, deadline);
    }

    /// <returns>False when the deadline passed first.</returns>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public bool Compute(QueryGraph graph, CancellationToken cancellation, CancellationToken deadline)
    {
        for (var k = 0; k < graph.Criteria; k++)
        {
            if (_least[k].Length < graph.VertexCount)
            {
                _least[k] = new int[graph.VertexCount];
            }

            if (!Compute(graph, k, _least[k], _queue, cancellation, deadline))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Compute(
        QueryGraph graph, int criterion, int[] least, VertexQueue queue, CancellationToken cancellation, CancellationToken deadline)
    {
        unchecked
        {
            var (first, rows) = (graph.FirstIn, graph.In);
            least.AsSpan(0, graph.VertexCount).Fill(Unreachable);
            queue.Clear();
            least[graph.Target] = 0;
            queue.Push(0, graph.Target);
            for (var pops = 1; queue.TryPop(out var distance, out var v); pops++)
            {
                if (pops % CheckEvery == 0)
                {
                    cancellation.ThrowIfCancellationRequested();
                    if (deadline.IsCancellationRequested)
                    {
                        return false;
                    }
                }

                if (distance > least[v])
                {
                    continue;
                }

                for (var i = first[v]; i < first[v + 1]; i++)
                {
                    ref readonly var arc = ref rows[i];
                    var cost = criterion switch { 0 => arc.First, 1 => arc.Second, 2 => arc.Third, _ => graph.FourthIn(i) };
                    // Both are at most MaxCost, so the sum fits.
                    var through = distance + cost;
                    if (through < least[arc.End])
                    {
                        least[arc.End] = through <= CostGraph.MaxCost
                            ? through
                            : throw new OverflowException($"A least cost exceeds {CostGraph.MaxCost}; give the costs in a larger unit.");
                        queue.Push(through, arc.End);
                    }
                }
            }

            return true;
        }
    }
}
