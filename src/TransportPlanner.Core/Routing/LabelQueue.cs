namespace TransportPlanner.Core.Routing;

/// <summary>A label that waits: its second and third cost, the label it comes from and the arc it came by. The first cost is its bucket's, or read off these.</summary>
internal readonly record struct WaitingLabel(int Second, int Third, int Parent, int Arc);

/// <summary>
/// Labels in lexicographic order of three costs: buckets by the first, and the bucket that is being emptied as a heap of four children per
/// node. Putting a label into a later bucket moves nothing, and a bucket's heap is small enough to stay in the fast caches.
/// </summary>
/// <remarks>
/// The last bucket takes everything beyond the expected range, so a wrong guess of the range costs time, never order. All memory is kept
/// between searches.
/// </remarks>
internal sealed class LabelQueue
{
    private const int BucketCount = 1 << 14;
    private const int ChunkSize = 32;

    private readonly record struct Key(ulong High, int Third, int Parent, int Arc)
    {
        public bool Precedes(in Key other) => High < other.High || (High == other.High && Third < other.Third);
    }

    /// <summary>Topmost chunk of each bucket, −1: none; and the labels in it.</summary>
    private readonly int[] _top = new int[BucketCount];
    private readonly int[] _filled = new int[BucketCount];
    private WaitingLabel[] _slab = new WaitingLabel[1 << 14];
    private int[] _first = new int[1 << 14];
    private int[] _below = new int[(1 << 14) / ChunkSize];
    private int _chunks;
    private int _freeChunk;
    private Key[] _heap = new Key[1024];
    private int _count;
    private int _bucket;
    private int _base;
    private int _shift;

    /// <summary>Empties the queue for first costs from <paramref name="least"/> on.</summary>
    /// <param name="least">Least first cost that will ever be pushed.</param>
    /// <param name="range">Expected range above it.</param>
    public void Clear(int least, int range)
    {
        _top.AsSpan().Fill(-1);
        (_chunks, _freeChunk, _count, _bucket, _base, _shift) = (0, -1, 0, 0, least, 0);
        while (range >> _shift >= BucketCount)
        {
            _shift++;
        }
    }

    public void Push(int first, int second, int third, int parent, int arc)
    {
        unchecked
        {
            var bucket = Math.Min((first - _base) >> _shift, BucketCount - 1);
            if (bucket <= _bucket)
            {
                if (_count == _heap.Length)
                {
                    Array.Resize(ref _heap, 2 * _heap.Length);
                }

                Rise(_heap, _count++, new(((ulong)(uint)first << 32) | (uint)second, third, parent, arc));
                return;
            }

            var (chunk, filled) = (_top[bucket], _filled[bucket]);
            if (chunk < 0 || filled == ChunkSize)
            {
                chunk = TakeChunk(chunk);
                _top[bucket] = chunk;
                filled = 0;
            }

            var at = chunk * ChunkSize + filled;
            _slab[at] = new(second, third, parent, arc);
            _first[at] = first;
            _filled[bucket] = filled + 1;
        }
    }

    /// <summary>Takes the least label.</summary>
    public bool TryPop(out int first, out WaitingLabel label)
    {
        unchecked
        {
            while (_count == 0)
            {
                if (!NextBucket())
                {
                    (first, label) = (0, default);
                    return false;
                }
            }

            var heap = _heap;
            ref readonly var least = ref heap[0];
            first = (int)(least.High >> 32);
            label = new((int)least.High, least.Third, least.Parent, least.Arc);
            var last = heap[--_count];
            Sink(heap, _count, 0, last);
            return true;
        }
    }

    private bool NextBucket()
    {
        do
        {
            if (++_bucket == BucketCount)
            {
                _bucket--;
                return false;
            }
        }
        while (_top[_bucket] < 0);

        var (chunk, filled) = (_top[_bucket], _filled[_bucket]);
        _top[_bucket] = -1;
        while (chunk >= 0)
        {
            if (_heap.Length < _count + filled)
            {
                Array.Resize(ref _heap, 2 * _heap.Length);
            }

            for (var at = chunk * ChunkSize; at < chunk * ChunkSize + filled; at++)
            {
                ref readonly var label = ref _slab[at];
                _heap[_count++] = new(((ulong)(uint)_first[at] << 32) | (uint)label.Second, label.Third, label.Parent, label.Arc);
            }

            var below = _below[chunk];
            _below[chunk] = _freeChunk;
            _freeChunk = chunk;
            (chunk, filled) = (below, ChunkSize);
        }

        for (var at = (_count - 2) >> 2; at >= 0; at--)
        {
            Sink(_heap, _count, at, _heap[at]);
        }

        return true;
    }

    private int TakeChunk(int below)
    {
        var chunk = _freeChunk;
        if (chunk >= 0)
        {
            _freeChunk = _below[chunk];
        }
        else
        {
            chunk = _chunks++;
            if ((chunk + 1) * ChunkSize > _slab.Length)
            {
                Array.Resize(ref _slab, 2 * _slab.Length);
                Array.Resize(ref _first, 2 * _first.Length);
                Array.Resize(ref _below, 2 * _below.Length);
            }
        }

        _below[chunk] = below;
        return chunk;
    }

    private static void Rise(Key[] heap, int at, Key key)
    {
        unchecked
        {
            while (at > 0)
            {
                var parent = (at - 1) >> 2;
                if (!key.Precedes(heap[parent]))
                {
                    break;
                }

                heap[at] = heap[parent];
                at = parent;
            }

            heap[at] = key;
        }
    }

    private static void Sink(Key[] heap, int count, int at, Key key)
    {
        unchecked
        {
            while (true)
            {
                var child = (at << 2) + 1;
                if (child >= count)
                {
                    break;
                }

                var (best, end) = (child, Math.Min(child + 4, count));
                for (var c = child + 1; c < end; c++)
                {
                    if (heap[c].Precedes(heap[best]))
                    {
                        best = c;
                    }
                }

                if (!heap[best].Precedes(key))
                {
                    break;
                }

                heap[at] = heap[best];
                at = best;
            }

            if ((uint)at < (uint)heap.Length)
            {
                heap[at] = key;
            }
        }
    }
}
