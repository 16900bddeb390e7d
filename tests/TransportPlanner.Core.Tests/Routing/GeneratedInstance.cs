using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>A graph with its two ends. Vertices count from 0.</summary>
internal sealed record GraphInstance(CostGraph Graph, int Origin, int Target);

/// <summary>
/// Repeatable instances from a SplitMix64 stream (Steele, Lea and Flood, OOPSLA 2014), so that counts of efficient ways found elsewhere
/// on the same instances can be compared.
/// </summary>
internal sealed class GeneratedInstance
{
    private static readonly int[] ZoneLevels = [0, 1, 2, 5, 10];

    private readonly List<int> _source = [];
    private readonly List<int> _target = [];
    private readonly List<int> _costs = [];
    private ulong _state;

    private GeneratedInstance(ulong state) => _state = state;

    /// <summary>Four-neighbour grid, each edge both ways with one vector of uniform costs 1 to 100; corner to opposite corner.</summary>
    public static GraphInstance Grid(int rows, int columns, int criteria, ulong start)
    {
        var made = new GeneratedInstance(start);
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var here = row * columns + column;
                if (column + 1 < columns)
                {
                    made.BothWays(here, here + 1, made.UniformCosts(criteria));
                }

                if (row + 1 < rows)
                {
                    made.BothWays(here, here + columns, made.UniformCosts(criteria));
                }
            }
        }

        return made.Instance(rows * columns, criteria, 0, rows * columns - 1);
    }

    /// <summary>
    /// Floors of corridor lattices with a quarter of the edges missing, a dead-end room on every other cell, elevators and stairs each 20 cells.
    /// Costs: time in 0.1 s, exposure (time × level of the 10 × 10 zone / 4), doors and elevators. First room to last room.
    /// </summary>
    public static GraphInstance Hospital(int rows, int columns, int floors, ulong start)
    {
        var made = new GeneratedInstance(start);
        var (zoneRows, zoneColumns) = ((rows + 9) / 10, (columns + 9) / 10);
        var zones = new int[floors * zoneRows * zoneColumns];
        for (var i = 0; i < zones.Length; i++)
        {
            zones[i] = ZoneLevels[made.Next() % 5];
        }

        var count = floors * rows * columns;
        var (origin, target) = (0, count - 1);
        for (var floor = 0; floor < floors; floor++)
        {
            for (var row = 0; row < rows; row++)
            {
                for (var column = 0; column < columns; column++)
                {
                    var here = (floor * rows + row) * columns + column;
                    var zone = zones[(floor * zoneRows + row / 10) * zoneColumns + column / 10];
                    made.Corridor(here, here + 1, zone, column + 1 < columns, row == 0);
                    made.Corridor(here, here + columns, zone, row + 1 < rows, column % 10 == 0);
                    var above = here + rows * columns;
                    if (floor + 1 < floors && row % 20 == 10 % rows && column % 20 == 10 % columns)
                    {
                        made.Stretch(here, above, made.Between(300, 600), 10, isHandled: true);
                    }

                    if (floor + 1 < floors && row % 20 == 0 && column % 20 == 0)
                    {
                        made.Stretch(here, above, made.Between(250, 400) + DoorTime, 1, isHandled: true);
                    }

                    if ((row + column) % 2 != 0 && (row, column) != (rows - 1, columns - 1))
                    {
                        continue;
                    }

                    made.Stretch(here, count, made.Between(10, 30) + DoorTime, zone, isHandled: true);
                    if ((floor, row, column) == (0, 0, 0))
                    {
                        origin = count;
                    }

                    if ((floor, row, column) == (floors - 1, rows - 1, columns - 1))
                    {
                        target = count;
                    }

                    count++;
                }
            }
        }

        return made.Instance(count, 3, origin, target);
    }

    private const int DoorTime = 15;

    private void Corridor(int from, int to, int zone, bool exists, bool alwaysKept)
    {
        var kept = Next() % 100 >= 25;
        if (!exists || !(kept || alwaysKept))
        {
            return;
        }

        var time = Between(20, 60);
        var hasDoor = Next() % 100 < 15;
        Stretch(from, to, time + (hasDoor ? DoorTime : 0), zone, hasDoor);
    }

    private void Stretch(int from, int to, int time, int zone, bool isHandled) =>
        BothWays(from, to, [time, time * zone / 4, isHandled ? 1 : 0]);

    private void BothWays(int from, int to, int[] costs)
    {
        _source.AddRange([from, to]);
        _target.AddRange([to, from]);
        _costs.AddRange([.. costs, .. costs]);
    }

    private int[] UniformCosts(int criteria)
    {
        var costs = new int[criteria];
        for (var k = 0; k < criteria; k++)
        {
            costs[k] = Between(1, 100);
        }

        return costs;
    }

    private GraphInstance Instance(int vertices, int criteria, int origin, int target) =>
        new(new(vertices, criteria, _source.ToArray(), _target.ToArray(), _costs.ToArray()), origin, target);

    private int Between(int low, int high) => low + (int)(Next() % (ulong)(high - low + 1));

    private ulong Next()
    {
        _state += 0x9E3779B97F4A7C15;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
