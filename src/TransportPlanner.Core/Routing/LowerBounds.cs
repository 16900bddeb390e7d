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

    private readonly LabelQueue _queue = new();
    private int[] _least = [];

    /// <summary>Bound of criterion k at vertex v stands at v · K + k; <see cref="Unreachable"/> where no way leads to the target.</summary>
    public ReadOnlySpan<int> Least => _least;

    /// <returns>False when the deadline passed first.</returns>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public bool Compute(CostGraph graph, int target, BitArray? allowed, CancellationToken cancellation, CancellationToken deadline)
    {
        var criteria = graph.CriterionCount;
        var size = graph.VertexCount * criteria;
        if (_least.Length < size)
        {
            _least = new int[size];
        }

        _least.AsSpan(0, size).Fill(Unreachable);
        for (var k = 0; k < criteria; k++)
        {
            if (!Compute(graph, target, allowed, k, cancellation, deadline))
            {
                return false;
            }
        }

        return true;
    }

    private bool Compute(
        CostGraph graph, int target, BitArray? allowed, int criterion, CancellationToken cancellation, CancellationToken deadline)
    {
        var (criteria, least, queue) = (graph.CriterionCount, _least, _queue);
        var first = graph.FirstIn;
        var into = graph.InArc;
        var source = graph.Source;
        var costs = graph.Costs;
        queue.Clear();
        least[target * criteria + criterion] = 0;
        queue.Push(new(0, (ulong)target));
        for (var pops = 1; queue.Count > 0; pops++)
        {
            if (pops % CheckEvery == 0)
            {
                cancellation.ThrowIfCancellationRequested();
                if (deadline.IsCancellationRequested)
                {
                    return false;
                }
            }

            var item = queue.Pop();
            var (distance, v) = ((int)item.High, (int)item.Low);
            if (distance > least[v * criteria + criterion])
            {
                continue;
            }

            for (var i = first[v]; i < first[v + 1]; i++)
            {
                var arc = into[i];
                if (allowed is not null && !allowed[arc])
                {
                    continue;
                }

                // Both are at most MaxCost, so the sum fits.
                var through = distance + costs[arc * criteria + criterion];
                ref var bound = ref least[source[arc] * criteria + criterion];
                if (through < bound)
                {
                    bound = through <= CostGraph.MaxCost
                        ? through
                        : throw new OverflowException($"A least cost exceeds {CostGraph.MaxCost}; give the costs in a larger unit.");
                    queue.Push(new((ulong)through, (ulong)source[arc]));
                }
            }
        }

        return true;
    }
}
