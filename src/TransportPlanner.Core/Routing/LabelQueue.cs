namespace TransportPlanner.Core.Routing;

/// <summary>One entry of a <see cref="LabelQueue"/>: 16 bytes, ordered as one number of 128 bits.</summary>
internal readonly record struct QueueItem(ulong High, ulong Low)
{
    public bool Precedes(in QueueItem other) => High < other.High || (High == other.High && Low < other.Low);
}

/// <summary>A heap of four children per node: least item first. Keeps its memory between searches.</summary>
internal sealed class LabelQueue
{
    private QueueItem[] _items = new QueueItem[1024];

    public int Count { get; private set; }

    public void Clear() => Count = 0;

    public void Push(QueueItem item)
    {
        if (Count == _items.Length)
        {
            Array.Resize(ref _items, 2 * _items.Length);
        }

        unchecked
        {
            var items = _items;
            var at = Count++;
            while (at > 0)
            {
                var parent = (at - 1) >> 2;
                if (!item.Precedes(items[parent]))
                {
                    break;
                }

                items[at] = items[parent];
                at = parent;
            }

            items[at] = item;
        }
    }

    /// <summary>Takes the least item. The queue must not be empty.</summary>
    public QueueItem Pop()
    {
        unchecked
        {
            var items = _items;
            var least = items[0];
            var count = --Count;
            var item = items[count];
            var at = 0;
            while (true)
            {
                var child = (at << 2) + 1;
                if (child >= count)
                {
                    break;
                }

                var best = child;
                var end = Math.Min(child + 4, count);
                for (var c = child + 1; c < end; c++)
                {
                    if (items[c].Precedes(items[best]))
                    {
                        best = c;
                    }
                }

                if (!items[best].Precedes(item))
                {
                    break;
                }

                items[at] = items[best];
                at = best;
            }

            items[at] = item;
            return least;
        }
    }
}
