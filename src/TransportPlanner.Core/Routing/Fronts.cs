namespace TransportPlanner.Core.Routing;

/// <summary>
/// For every vertex the labels settled there, without their first cost: labels are settled in lexicographic order, so an earlier one is
/// never dearer in the first cost, and only the others need comparing (dimensionality reduction).
/// </summary>
internal interface IFronts<TSelf>
    where TSelf : struct, IFronts<TSelf>
{
    /// <summary>Whether a settled label of the vertex costs no more in any of the compared costs.</summary>
    bool Dominates(int vertex, int second, int third, int fourth);

    /// <summary>Whether a label of that third cost can be settled.</summary>
    bool Holds(int third);

    /// <summary>The same fronts with room for that third cost; false where it would take too much memory.</summary>
    bool TryWiden(int third, out TSelf wide);

    /// <summary>Settles a label that nothing in the vertex's front dominates; entries that it dominates leave.</summary>
    void Settle(int vertex, int second, int third, int fourth);
}

/// <summary>One or two costs: a single number per vertex.</summary>
internal struct LeastFronts : IFronts<LeastFronts>
{
    private int[] _least;

    public void Clear(int vertexCount)
    {
        _least = FrontMemory.Sized(_least, vertexCount);
        _least.AsSpan(0, vertexCount).Fill(int.MaxValue);
    }

    public readonly bool Dominates(int vertex, int second, int third, int fourth) => _least[vertex] <= second;

    public readonly bool Holds(int third) => true;

    public readonly bool TryWiden(int third, out LeastFronts wide)
    {
        wide = this;
        return true;
    }

    public readonly void Settle(int vertex, int second, int third, int fourth) => _least[vertex] = second;
}

/// <summary>
/// Three costs of which the third takes few values, such as a count of doors: per vertex the least second cost for every bound on the
/// third. A test is one comparison.
/// </summary>
internal struct DenseFronts : IFronts<DenseFronts>
{
    private const int FirstWidth = 16;
    private const int MostWidth = 256;
    private const int MostEntries = 1 << 24;

    private int[] _least;
    private int[] _spare;
    private int _width;
    private int _vertices;
    private int _base;

    /// <param name="vertexCount">Vertices.</param>
    /// <param name="leastThird">Least third cost that will occur.</param>
    public void Clear(int vertexCount, int leastThird)
    {
        (_width, _vertices, _base) = (FirstWidth, vertexCount, leastThird);
        _least = FrontMemory.Sized(_least, vertexCount * _width);
        _least.AsSpan(0, vertexCount * _width).Fill(int.MaxValue);
    }

    public readonly bool Dominates(int vertex, int second, int third, int fourth)
    {
        unchecked
        {
            return _least[vertex * _width + Math.Min(third - _base, _width - 1)] <= second;
        }
    }

    public readonly bool Holds(int third) => unchecked(third - _base) < _width;

    public readonly void Settle(int vertex, int second, int third, int fourth)
    {
        unchecked
        {
            var level = third - _base;
            var row = _least.AsSpan(vertex * _width + level, _width - level);
            for (var i = 0; i < row.Length && row[i] > second; i++)
            {
                row[i] = second;
            }
        }
    }

    public readonly bool TryWiden(int third, out DenseFronts wide)
    {
        wide = this;
        while (wide._width <= third - _base && wide._width <= MostWidth)
        {
            wide._width *= 2;
        }

        if (wide._width > MostWidth || (long)wide._width * _vertices > MostEntries)
        {
            wide = this;
            return false;
        }

        (wide._least, wide._spare) = (FrontMemory.Sized(_spare, _vertices * wide._width), _least);
        for (var v = 0; v < _vertices; v++)
        {
            var row = wide._least.AsSpan(v * wide._width, wide._width);
            _least.AsSpan(v * _width, _width).CopyTo(row);
            row[_width..].Fill(row[_width - 1]);
        }

        return true;
    }

    /// <summary>The same fronts as staircases.</summary>
    public readonly void CopyTo(ref StairFronts stairs)
    {
        for (var v = 0; v < _vertices; v++)
        {
            for (var (level, least) = (0, int.MaxValue); level < _width; level++)
            {
                if (_least[v * _width + level] < least)
                {
                    least = _least[v * _width + level];
                    stairs.Settle(v, least, level + _base, 0);
                }
            }
        }
    }
}

/// <summary>
/// Three costs that take any value: per vertex a staircase sorted by the second cost, rising, and therefore by the third, falling; its test
/// is a binary search. Four costs leave three to compare: a plain scan. All fronts share one slab; a front that outgrows its block moves to
/// one of twice the size.
/// </summary>
internal struct StairFronts : IFronts<StairFronts>
{
    private const int FirstCapacity = 4;

    private readonly record struct Block(int Start, int Count, int Capacity);

    private Block[] _blocks;
    private ulong[] _slab;
    private int[] _fourth;
    private int _used;
    private bool _hasFourth;

    public void Clear(int vertexCount, bool hasFourth)
    {
        _blocks = FrontMemory.Sized(_blocks, vertexCount);
        _slab ??= new ulong[1 << 10];
        _blocks.AsSpan(0, vertexCount).Clear();
        _used = 0;
        _hasFourth = hasFourth;
        if (hasFourth)
        {
            _fourth = FrontMemory.Sized(_fourth, _slab.Length);
        }
    }

    public readonly bool Holds(int third) => true;

    public readonly bool TryWiden(int third, out StairFronts wide)
    {
        wide = this;
        return true;
    }

    public readonly bool Dominates(int vertex, int second, int third, int fourth)
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

    public void Settle(int vertex, int second, int third, int fourth)
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
    private readonly int CountUpTo(in Block block, int second)
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

internal static class FrontMemory
{
    /// <summary>An array of at least that length; contents are not kept.</summary>
    public static T[] Sized<T>(T[]? array, int length) =>
        array is not null && array.Length >= length ? array : new T[Math.Max(length, 2 * (array?.Length ?? 0))];
}
