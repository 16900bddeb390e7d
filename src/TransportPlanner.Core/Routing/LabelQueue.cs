namespace TransportPlanner.Core.Routing;

/// <summary>
/// A label that waits: its second and third cost, the label it comes from and the arc it came by. The first cost is that of its bucket.
/// </summary>
internal readonly record struct WaitingLabel(ulong Key, int Parent, int Arc)
{
    public WaitingLabel(int second, int third, int parent, int arc)
        : this(((ulong)(uint)second << 32) | (uint)third, parent, arc)
    {
    }

    public int Second => (int)(Key >> 32);
    public int Third => unchecked((int)Key);
}

/// <summary>
/// Labels in lexicographic order of three costs: a bucket for each first cost, and the bucket that is being emptied as a heap of four
/// children per node. Putting a label into a later bucket moves nothing, and a bucket's heap is small enough to stay in the fast caches.
/// </summary>
/// <remarks>
/// The buckets are a window over the first cost. What lies beyond waits in wide buckets, one for each later window, and is dealt out when
/// the window gets there. All memory is kept between searches.
/// </remarks>
internal sealed class LabelQueue
{
    private const int WindowBits = 15;
    private const int Window = 1 << WindowBits;
    private const int ChunkSize = 32;

    /// <summary>Topmost chunk of a bucket, −1: none; and the labels in it.</summary>
    private record struct Bucket(int Chunk, int Filled);

    private readonly Bucket[] _window = new Bucket[Window];
    private readonly Bucket[] _later = new Bucket[1 << (31 - WindowBits)];
    private WaitingLabel[] _slab = new WaitingLabel[1 << 14];
    private int[] _first = new int[1 << 14];
    private int[] _below = new int[(1 << 14) / ChunkSize];
    private int _chunks;
    private int _freeChunk;
    private WaitingLabel[] _heap = new WaitingLabel[1024];
    private int _count;
    private int _least;
    private int _bucket;
    private int _windows;
    private bool _isDrained;

    /// <summary>Empties the queue for first costs from <paramref name="least"/> on.</summary>
    public void Clear(int least)
    {
        if (!_isDrained)
        {
            _window.AsSpan().Fill(new(-1, 0));
            _later.AsSpan().Fill(new(-1, 0));
        }

        (_chunks, _freeChunk, _count, _least, _bucket, _windows, _isDrained) = (0, -1, 0, least, 0, 0, false);
    }

    public void Push(int first, in WaitingLabel label)
    {
        unchecked
        {
            var bucket = first - _least;
            if (bucket <= _bucket)
            {
                if (_count == _heap.Length)
                {
                    Array.Resize(ref _heap, 2 * _heap.Length);
                }

                Rise(_heap, _count++, label);
            }
            else if (bucket < Window)
            {
                // Room is taken first: it may move the slab.
                var at = Place(ref _window[bucket]);
                _slab[at] = label;
            }
            else
            {
                var at = Place(ref _later[_windows + (bucket >> WindowBits)]);
                _slab[at] = label;
                _first[at] = first;
            }
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
                    (first, label, _isDrained) = (0, default, true);
                    return false;
                }
            }

            var heap = _heap;
            (first, label) = (_least + _bucket, heap[0]);
            var last = heap[--_count];
            Sink(heap, _count, 0, last);
            return true;
        }
    }

    private bool NextBucket()
    {
        unchecked
        {
            do
            {
                if (++_bucket == Window && !NextWindow())
                {
                    return false;
                }
            }
            while (_window[_bucket].Chunk < 0);

            for (var (chunk, filled) = Take(ref _window[_bucket]); chunk >= 0; (chunk, filled) = (Below(chunk), ChunkSize))
            {
                if (_heap.Length < _count + filled)
                {
                    Array.Resize(ref _heap, 2 * _heap.Length);
                }

                _slab.AsSpan(chunk * ChunkSize, filled).CopyTo(_heap.AsSpan(_count));
                _count += filled;
            }

            for (var at = (_count - 2) >> 2; at >= 0; at--)
            {
                Sink(_heap, _count, at, _heap[at]);
            }

            return true;
        }
    }

    /// <summary>Deals the labels of the next window that has any out to its buckets.</summary>
    private bool NextWindow()
    {
        unchecked
        {
            do
            {
                if (++_windows == _later.Length)
                {
                    _windows--;
                    _bucket = Window - 1;
                    return false;
                }

                _least += Window;
            }
            while (_later[_windows].Chunk < 0);

            _bucket = 0;
            for (var (chunk, filled) = Take(ref _later[_windows]); chunk >= 0; filled = ChunkSize)
            {
                for (var at = chunk * ChunkSize; at < chunk * ChunkSize + filled; at++)
                {
                    // Room is taken first: it may move the slab.
                    var place = Place(ref _window[_first[at] - _least]);
                    _slab[place] = _slab[at];
                }

                chunk = Below(chunk);
            }

            return true;
        }
    }

    private static Bucket Take(ref Bucket bucket)
    {
        var taken = bucket;
        bucket = new(-1, 0);
        return taken;
    }

    /// <summary>The chunk under one that has been read, which becomes free.</summary>
    private int Below(int chunk)
    {
        var below = _below[chunk];
        _below[chunk] = _freeChunk;
        _freeChunk = chunk;
        return below;
    }

    /// <summary>Where the next label of a bucket goes.</summary>
    private int Place(ref Bucket bucket)
    {
        unchecked
        {
            if (bucket.Chunk < 0 || bucket.Filled == ChunkSize)
            {
                bucket = new(NewChunk(bucket.Chunk), 0);
            }

            return bucket.Chunk * ChunkSize + bucket.Filled++;
        }
    }

    private int NewChunk(int below)
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

    private static void Rise(WaitingLabel[] heap, int at, in WaitingLabel label)
    {
        unchecked
        {
            while (at > 0)
            {
                var parent = (at - 1) >> 2;
                if (label.Key >= heap[parent].Key)
                {
                    break;
                }

                heap[at] = heap[parent];
                at = parent;
            }

            heap[at] = label;
        }
    }

    private static void Sink(WaitingLabel[] heap, int count, int at, WaitingLabel label)
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

                var (best, least, end) = (child, heap[child].Key, Math.Min(child + 4, count));
                for (var c = child + 1; c < end; c++)
                {
                    if (heap[c].Key < least)
                    {
                        (best, least) = (c, heap[c].Key);
                    }
                }

                if (least >= label.Key)
                {
                    break;
                }

                heap[at] = heap[best];
                at = best;
            }

            heap[at] = label;
        }
    }
}
