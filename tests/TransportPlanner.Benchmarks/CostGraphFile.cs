using System.Globalization;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Benchmarks;

/// <summary>Graphs in the form <c>id,source,target,c1[,c2[,c3[,c4]]]</c>: a header, then one arc a line, vertices counted from 1.</summary>
internal static class CostGraphFile
{
    public static CostGraph Read(string file)
    {
        try
        {
            using var reader = new StreamReader(file);
            return Read(reader);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException or OverflowException or ArgumentException)
        {
            throw new BadInputException($"{file}: {e.Message}");
        }
    }

    private static CostGraph Read(StreamReader reader)
    {
        var (source, target, costs) = (new List<int>(), new List<int>(), new List<int>());
        var criteria = (reader.ReadLine() ?? throw new FormatException("The file is empty.")).Split(',').Length - 3;
        for (var number = 2; reader.ReadLine() is { } line; number++)
        {
            var cells = line.Split(',');
            if (cells.Length != criteria + 3)
            {
                throw new FormatException($"Line {number} has {cells.Length} cells; the header has {criteria + 3}.");
            }

            source.Add(int.Parse(cells[1], CultureInfo.InvariantCulture) - 1);
            target.Add(int.Parse(cells[2], CultureInfo.InvariantCulture) - 1);
            costs.AddRange(cells.Skip(3).Select(c => int.Parse(c, CultureInfo.InvariantCulture)));
        }

        var vertices = source.Concat(target).DefaultIfEmpty().Max() + 1;
        return new(vertices, criteria, source.ToArray(), target.ToArray(), costs.ToArray());
    }
}
