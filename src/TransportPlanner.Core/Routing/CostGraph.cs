namespace TransportPlanner.Core.Routing;

/// <summary>
/// A directed graph whose arcs carry one to four integer costs: all that the search knows of a building. Vertices are 0 to
/// <see cref="VertexCount"/> − 1; arcs keep the numbers under which they were given. Parallel arcs and loops may occur. Immutable.
/// </summary>
/// <remarks>
/// Compressed rows: the arcs out of v are <c>OutArc[FirstOut[v] .. FirstOut[v + 1]]</c>, those into v likewise. The costs of arc a are
/// <c>Costs[a · K .. (a + 1) · K]</c>, K = <see cref="CriterionCount"/>, each 0 to <see cref="MaxCost"/>. The order of criteria decides
/// the speed, never the answer: the first orders the search and should take many values.
/// </remarks>
public sealed class CostGraph
{
    /// <summary>Largest cost of one arc, and largest least cost to a target: two of them add up inside an <see cref="int"/>.</summary>
    public const int MaxCost = (1 << 30) - 1;

    public const int MaxCriteria = 4;

    private readonly int[] _source;
    private readonly int[] _target;
    private readonly int[] _costs;
    private readonly int[] _firstOut;
    private readonly int[] _outArc;
    private readonly int[] _firstIn;
    private readonly int[] _inArc;
    private readonly Lazy<Contraction> _contraction;
    private readonly Lazy<Contraction> _uncontracted;
    private readonly Lazy<int[]?> _contractedCosts;
    private readonly Lazy<int[]> _uncontractedCosts;

    /// <param name="vertexCount">Number of vertices, at least 1.</param>
    /// <param name="criterionCount">Costs per arc, 1 to <see cref="MaxCriteria"/>.</param>
    /// <param name="source">Vertex that each arc leaves.</param>
    /// <param name="target">Vertex that each arc enters.</param>
    /// <param name="costs">Interleaved costs, <paramref name="criterionCount"/> per arc.</param>
    /// <exception cref="ArgumentException">Lengths that do not match, a vertex that does not exist, or a cost out of range; the message names the arc.</exception>
    public CostGraph(int vertexCount, int criterionCount, ReadOnlySpan<int> source, ReadOnlySpan<int> target, ReadOnlySpan<int> costs)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(vertexCount, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(criterionCount, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(criterionCount, MaxCriteria);
        if (source.Length != target.Length)
        {
            throw new ArgumentException($"Give as many targets as sources: {source.Length}, not {target.Length}.", nameof(target));
        }

        for (var arc = 0; arc < source.Length; arc++)
        {
            if ((uint)source[arc] >= (uint)vertexCount || (uint)target[arc] >= (uint)vertexCount)
            {
                throw new ArgumentException(
                    $"Arc {arc} joins {source[arc]} and {target[arc]}; vertices are 0 to {vertexCount - 1}.", nameof(source));
            }
        }

        VertexCount = vertexCount;
        CriterionCount = criterionCount;
        _source = source.ToArray();
        _target = target.ToArray();
        _costs = Checked(costs, source.Length, criterionCount);
        (_firstOut, _outArc) = Rows(vertexCount, _source);
        (_firstIn, _inArc) = Rows(vertexCount, _target);
        _contraction = new(() => Contraction.Of(this));
        _uncontracted = new(() => Contraction.None(this));
        _contractedCosts = new(CostsThatStay);
        _uncontractedCosts = new(CostsByTail);
    }

    private CostGraph(CostGraph shape, int criterionCount, ReadOnlySpan<int> costs)
    {
        (VertexCount, CriterionCount) = (shape.VertexCount, criterionCount);
        (_source, _target) = (shape._source, shape._target);
        (_firstOut, _outArc, _firstIn, _inArc) = (shape._firstOut, shape._outArc, shape._firstIn, shape._inArc);
        _costs = Checked(costs, shape.ArcCount, criterionCount);
        (_contraction, _uncontracted) = (shape._contraction, shape._uncontracted);
        _contractedCosts = new(CostsThatStay);
        _uncontractedCosts = new(CostsByTail);
    }

    public int VertexCount { get; }
    public int CriterionCount { get; }
    public int ArcCount => _source.Length;

    public ReadOnlySpan<int> Source => _source;
    public ReadOnlySpan<int> Target => _target;
    public ReadOnlySpan<int> Costs => _costs;
    public ReadOnlySpan<int> FirstOut => _firstOut;
    public ReadOnlySpan<int> OutArc => _outArc;
    public ReadOnlySpan<int> FirstIn => _firstIn;
    public ReadOnlySpan<int> InArc => _inArc;

    /// <summary>Made at the first search of this shape, then shared by every pricing of it.</summary>
    internal Contraction Contraction => _contraction.Value;

    internal Contraction Uncontracted => _uncontracted.Value;

    /// <summary>Interleaved costs of the arcs that stay, in their order; null where a shortcut exceeds <see cref="MaxCost"/>.</summary>
    internal int[]? ContractedCosts => _contractedCosts.Value;

    /// <summary>Interleaved costs in the order of <see cref="Uncontracted"/>: by tail.</summary>
    internal int[] UncontractedCosts => _uncontractedCosts.Value;

    internal int[] CostArray => _costs;

    /// <summary>The same vertices and arcs under other costs; the rows are shared, so this is cheap enough for every query.</summary>
    /// <exception cref="ArgumentException">The number of costs does not match, or one is out of range.</exception>
    public CostGraph WithCosts(int criterionCount, ReadOnlySpan<int> costs)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(criterionCount, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(criterionCount, MaxCriteria);
        return new(this, criterionCount, costs);
    }

    private static int[] Checked(ReadOnlySpan<int> costs, int arcs, int criteria)
    {
        if (costs.Length != arcs * criteria)
        {
            throw new ArgumentException($"Give {criteria} costs for each of {arcs} arcs: {arcs * criteria}, not {costs.Length}.", nameof(costs));
        }

        // The sign bit or bit 30 set in any cost shows in the union of all.
        var union = 0;
        foreach (var cost in costs)
        {
            union |= cost;
        }

        if ((union & ~MaxCost) != 0)
        {
            var at = costs.IndexOfAnyExceptInRange(0, MaxCost);
            throw new ArgumentException($"Arc {at / criteria} costs {costs[at]}; a cost is 0 to {MaxCost}.", nameof(costs));
        }

        return costs.ToArray();
    }

    private int[] CostsByTail() =>
        [.. _outArc.SelectMany(arc => _costs[(arc * CriterionCount)..((arc + 1) * CriterionCount)])];

    private int[]? CostsThatStay()
    {
        var (shortcuts, criteria) = (Contraction.Shortcuts, CriterionCount);
        var sums = new int[shortcuts.Length * criteria];
        for (var i = 0; i < sums.Length; i++)
        {
            var (left, right) = shortcuts[i / criteria];
            var sum = (long)CostOf(left, i % criteria) + CostOf(right, i % criteria);
            if (sum > MaxCost)
            {
                return null;
            }

            sums[i] = (int)sum;
        }

        var stay = new int[Contraction.Arc.Length * criteria];
        for (var i = 0; i < stay.Length; i++)
        {
            stay[i] = CostOf(Contraction.Arc[i / criteria], i % criteria);
        }

        return stay;

        int CostOf(int arc, int criterion) =>
            arc < ArcCount ? _costs[arc * criteria + criterion] : sums[(arc - ArcCount) * criteria + criterion];
    }

    /// <summary>Counting sort of the arcs by one of their ends; arcs of one vertex stay in their order.</summary>
    private static (int[] First, int[] Arcs) Rows(int vertexCount, int[] ends)
    {
        var first = new int[vertexCount + 1];
        foreach (var end in ends)
        {
            first[end + 1]++;
        }

        for (var v = 0; v < vertexCount; v++)
        {
            first[v + 1] += first[v];
        }

        var next = first.AsSpan(0, vertexCount).ToArray();
        var arcs = new int[ends.Length];
        for (var arc = 0; arc < ends.Length; arc++)
        {
            arcs[next[ends[arc]]++] = arc;
        }

        return (first, arcs);
    }
}
