using System.Collections;
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;

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


    /// <summary>Below this many vertices the criteria are not worth a second core.</summary>
    private const int ParallelFrom = 4096;

    private readonly VertexQueue[] _queues = [new(), new(), new(), new()];
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
        }

        if (graph.VertexCount < ParallelFrom)
        {
            for (var k = 0; k < graph.Criteria; k++)
            {
                if (!Compute(graph, k, _least[k], _queues[k], cancellation, deadline))
                {
                    return false;
                }
            }

            return true;
        }

        try
        {
            return Parallel.For(0, graph.Criteria, (k, state) =>
            {
                if (!Compute(graph, k, _least[k], _queues[k], cancellation, deadline))
                {
                    state.Stop();
                }
            }).IsCompleted;
        }
        catch (AggregateException several)
        {
            ExceptionDispatchInfo.Throw(several.InnerExceptions[0]);
            throw;
        }
    }

    private static bool Compute(
        QueryGraph graph, int criterion, int[] least, VertexQueue queue, CancellationToken cancellation, CancellationToken deadline)
    {
        unchecked
        {
            var first = graph.FirstIn;
            var arcs = MemoryMarshal.Cast<RowArc, int>(graph.In);
            var fourth = criterion == 3;
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
                    var end = arcs[RowArc.Numbers * i];
                    // Both are at most MaxCost, so the sum fits.
                    var through = distance + (fourth ? graph.FourthIn(i) : arcs[RowArc.Numbers * i + 1 + criterion]);
                    if (through < least[end])
                    {
                        least[end] = through <= CostGraph.MaxCost
                            ? through
                            : throw new OverflowException($"A least cost exceeds {CostGraph.MaxCost}; give the costs in a larger unit.");
                        queue.Push(through, end);
                    }
                }
            }

            return true;
        }
    }
}
