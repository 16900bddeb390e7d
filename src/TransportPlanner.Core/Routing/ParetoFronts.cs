namespace TransportPlanner.Core.Routing;

/// <summary>
/// For every vertex the labels settled there, without their first cost: labels are settled in lexicographic order, so an earlier one is
/// never dearer in the first cost, and only the others need comparing (dimensionality reduction).
/// </summary>
/// <remarks>
/// Up to three costs leave two to compare: a staircase sorted by the second cost, rising, and therefore by the third, falling; its test is
/// a binary search. Four costs leave three: a plain scan. All fronts share one slab; a front that outgrows its block moves to one of twice the size.
/// </remarks>
internal sealed class ParetoFronts
{
    private const int FirstCapacity = 4;

    private readonly record struct Block(int Start, int Count, int Capacity);

    private Block[] _blocks = [];
    private ulong[] _slab = new ulong[1 << 14];
    private int[] _fourth = [];
    private int _used;
    private bool _hasFourth;

    public void Clear(int vertexCount, bool hasFourth)
    {
        if (_blocks.Length < vertexCount)
        {
            _blocks = new Block[vertexCount];
        }

        _blocks.AsSpan(0, vertexCount).Clear();
        _used = 0;
        _hasFourth = hasFourth;
        if (hasFourth && _fourth.Length < _slab.Length)
        {
            _fourth = new int[_slab.Length];
        }
    }

    /// <summary>Whether a settled label of the vertex costs no more in any of the compared costs.</summary>
    public bool Dominates(int vertex, int second, int third, int fourth)
    {
        unchecked
        {
            var block = _blocks[vertex];
            if (_hasFourth)
            {
                for (var i = block.Start; i < block.Start + block.Count; i++)
                {
                    if ((int)(_slab[i] >> 32) <= second && (int)(uint)_slab[i] <= third && _fourth[i] <= fourth)
                    {
                        return true;
                    }
                }

                return false;
            }

            var before = CountUpTo(block, second);
            return before > 0 && (int)(uint)_slab[block.Start + before - 1] <= third;
        }
    }

    /// <summary>Settles a label that nothing in the vertex's front dominates; entries that it dominates leave.</summary>
    public void Insert(int vertex, int second, int third, int fourth)
    {
        unchecked
        {
            var block = WithRoom(_blocks[vertex]);
            var entry = ((ulong)(uint)second << 32) | (uint)third;
            if (_hasFourth)
            {
                var kept = 0;
                for (var i = block.Start; i < block.Start + block.Count; i++)
                {
                    if (!(second <= (int)(_slab[i] >> 32) && third <= (int)(uint)_slab[i] && fourth <= _fourth[i]))
                    {
                        _slab[block.Start + kept] = _slab[i];
                        _fourth[block.Start + kept++] = _fourth[i];
                    }
                }

                _slab[block.Start + kept] = entry;
                _fourth[block.Start + kept] = fourth;
                _blocks[vertex] = block with { Count = kept + 1 };
                return;
            }

            var front = _slab.AsSpan(block.Start, block.Capacity);
            var at = CountUpTo(block, second);
            // An entry of the same second cost was dearer in the third, or this label would be dominated.
            if (at > 0 && (int)(front[at - 1] >> 32) == second)
            {
                at--;
            }

            var end = at;
            while (end < block.Count && (int)(uint)front[end] >= third)
            {
                end++;
            }

            front[end..block.Count].CopyTo(front[(at + 1)..]);
            front[at] = entry;
            _blocks[vertex] = block with { Count = block.Count - (end - at) + 1 };
        }
    }

    /// <summary>Entries whose second cost is at most the given one.</summary>
    private int CountUpTo(in Block block, int second)
    {
        unchecked
        {
            var (low, high) = (0, block.Count);
            while (low < high)
            {
                var middle = (low + high) >> 1;
                if ((int)(_slab[block.Start + middle] >> 32) <= second)
                {
                    low = middle + 1;
                }
                else
                {
                    high = middle;
                }
            }

            return low;
        }
    }

    private Block WithRoom(Block block)
    {
        if (block.Count < block.Capacity)
        {
            return block;
        }

        var capacity = Math.Max(FirstCapacity, 2 * block.Capacity);
        while (_used + capacity > _slab.Length)
        {
            Array.Resize(ref _slab, 2 * _slab.Length);
            if (_hasFourth)
            {
                Array.Resize(ref _fourth, _slab.Length);
            }
        }

        _slab.AsSpan(block.Start, block.Count).CopyTo(_slab.AsSpan(_used));
        if (_hasFourth)
        {
            _fourth.AsSpan(block.Start, block.Count).CopyTo(_fourth.AsSpan(_used));
        }

        var moved = new Block(_used, block.Count, capacity);
        _used += capacity;
        return moved;
    }
}
