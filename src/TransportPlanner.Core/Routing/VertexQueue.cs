namespace TransportPlanner.Core.Routing;

/// <summary>Vertices by distance, nearest first: a heap of four children per node, an entry in 8 bytes. Keeps its memory between searches.</summary>
internal sealed class VertexQueue
{
    private ulong[] _items = new ulong[1024];
    private int _count;

    public void Clear() => _count = 0;

    /// <param name="distance">0 or more.</param>
    /// <param name="vertex">0 or more.</param>
    public void Push(int distance, int vertex)
    {
        unchecked
        {
            if (_count == _items.Length)
            {
                Array.Resize(ref _items, 2 * _items.Length);
            }

            var item = ((ulong)(uint)distance << 32) | (uint)vertex;
            var (items, at) = (_items, _count++);
            while (at > 0)
            {
                var parent = (at - 1) >> 2;
                if (item >= items[parent])
                {
                    break;
                }

                items[at] = items[parent];
                at = parent;
            }

            items[at] = item;
        }
    }

    public bool TryPop(out int distance, out int vertex)
    {
        unchecked
        {
            if (_count == 0)
            {
                (distance, vertex) = (0, 0);
                return false;
            }

            var items = _items;
            (distance, vertex) = ((int)(items[0] >> 32), (int)items[0]);
            var count = --_count;
            var item = items[count];
            var at = 0;
            while (true)
            {
                var child = (at << 2) + 1;
                if (child >= count)
                {
                    break;
                }

                var (best, least, end) = (child, items[child], Math.Min(child + 4, count));
                for (var c = child + 1; c < end; c++)
                {
                    if (items[c] < least)
                    {
                        (best, least) = (c, items[c]);
                    }
                }

                if (least >= item)
                {
                    break;
                }

                items[at] = least;
                at = best;
            }

            items[at] = item;
            return true;
        }
    }
}
