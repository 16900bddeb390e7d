using System.Globalization;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>One level as shapes of an SVG in metres, north up: places hatched by corridor class, the cars that stop there, doors, a way and what is marked on it.</summary>
public sealed class LevelDrawing
{
    private const double MarginMetres = 2;
    private const double LabelMetres = 1.3;
    private const double SurroundingsMetres = 9;
    private const double LeastViewMetres = 36;

    /// <summary>Where a label is tried, as shares of a place's height: the middle first.</summary>
    private static readonly double[] Heights = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
    private readonly double _minX;
    private readonly double _maxY;

    public LevelDrawing(FloorPlan plan, string level)
    {
        Level = plan.Levels.First(l => l.Id == level);
        var cars = plan.Elevators.Where(e => e.Stops.Any(stop => stop.Level == level)).Select(e => e.Car).ToHashSet();
        var places = plan.Places.Where(p => p.Level == level || cars.Contains(p.Number)).ToList();
        var corners = places.SelectMany(p => p.Outline.Corners).DefaultIfEmpty().ToList();
        _minX = corners.Min(c => c.X) - MarginMetres;
        _maxY = corners.Max(c => c.Y) + MarginMetres;
        Width = corners.Max(c => c.X) + MarginMetres - _minX;
        Height = _maxY - corners.Min(c => c.Y) + MarginMetres;
        Places = [.. places.OrderBy(p => p.Number, StringComparer.Ordinal).Select(Shape)];
        var numbers = places.Where(p => p.Level is not null).Select(p => p.Number).ToHashSet();
        Doors =
        [
            .. plan.Passages
                .Where(p => p.Kind != PassageKind.StairFlight && (numbers.Contains(p.From) || numbers.Contains(p.To)))
                .Select(p => new DoorShape(p.Id, p.IsDoor, X(p.Line.A), Y(p.Line.A), X(p.Line.B), Y(p.Line.B))),
        ];
    }

    public Level Level { get; }
    public double Width { get; }
    public double Height { get; }
    public IReadOnlyList<PlaceShape> Places { get; }
    public IReadOnlyList<DoorShape> Doors { get; }

    /// <summary>Parts of a way on this level, each a polyline in local metres.</summary>
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Way { get; init; } = [];

    /// <summary>The part of the level to be seen: all of it, or what surrounds the way.</summary>
    public string ViewBox => Way.Count == 0 ? $"0 0 {Number(Width)} {Number(Height)}" : AroundWay();

    /// <summary>Text to set on a place, by its number: people likely met, a letter of a bail-out point.</summary>
    public IReadOnlyDictionary<string, string> Marks { get; init; } = new Dictionary<string, string>();

    /// <summary>Numbers of places drawn with a heavy outline: the ends of a way, or the one that was picked.</summary>
    public IReadOnlySet<string> Picked { get; init; } = new HashSet<string>();

    /// <summary>Numbers of places that are out of use, with the reason and the end in words.</summary>
    public IReadOnlyDictionary<string, string> Closed { get; init; } = new Dictionary<string, string>();

    /// <summary>Ids of passages that are out of use.</summary>
    public IReadOnlySet<string> ClosedPassages { get; init; } = new HashSet<string>();

    /// <summary>Address of a place's page; null: places are not links.</summary>
    public Func<string, string>? Address { get; init; }

    /// <summary>What the drawing shows, in words, for those who do not see it.</summary>
    public required string Description { get; init; }

    public string Points(IEnumerable<PlanPoint> points) => string.Join(' ', points.Select(p => $"{X(p)},{Y(p)}"));

    public static string Number(double metres) => metres.ToString("0.###", CultureInfo.InvariantCulture);

    private string AroundWay()
    {
        var points = Way.SelectMany(part => part).Select(p => (X: p.X - _minX, Y: _maxY - p.Y)).ToList();
        var (left, width) = Stretch(points.Min(p => p.X), points.Max(p => p.X), Width);
        var (top, height) = Stretch(points.Min(p => p.Y), points.Max(p => p.Y), Height);
        return $"{Number(left)} {Number(top)} {Number(width)} {Number(height)}";

        static (double From, double Length) Stretch(double low, double high, double whole)
        {
            var length = Math.Min(whole, Math.Max(LeastViewMetres, high - low + 2 * SurroundingsMetres));
            return (Math.Clamp((low + high - length) / 2, 0, whole - length), length);
        }
    }

    private PlaceShape Shape(Place place)
    {
        var corners = place.Outline.Corners;
        var turned = corners.Select(c => new PlanPoint(c.Y, c.X)).ToList();
        var length = place.Number.Length * LabelMetres * 0.62;
        var upright = Room(corners, length);
        var quarter = upright is null ? Room(turned, length) : null;
        var anchor = upright ?? (quarter is { } q ? new(q.Y, q.X) : place.StandingPoint ?? Widest(corners));
        return new(place.Number, place.Name, place.Kind, place.CorridorClass, Points(corners), X(anchor), Y(anchor), upright is not null, quarter is not null);
    }

    /// <summary>Where a label of that length lies wholly inside: nearest to mid-height, in the middle of the widest run there.</summary>
    private static PlanPoint? Room(IReadOnlyList<PlanPoint> corners, double length)
    {
        var (low, high) = (corners.Min(c => c.Y), corners.Max(c => c.Y));
        foreach (var share in Heights)
        {
            var y = low + (high - low) * share;
            var runs = new[] { y - LabelMetres / 2, y, y + LabelMetres / 2 }.Select(at => Run(corners, at)).ToList();
            var (from, to) = (runs.Max(run => run.From), runs.Min(run => run.To));
            if (to - from >= length)
            {
                return new((from + to) / 2, y);
            }
        }

        return null;
    }

    private static PlanPoint Widest(IReadOnlyList<PlanPoint> corners)
    {
        var y = (corners.Min(c => c.Y) + corners.Max(c => c.Y)) / 2;
        var (from, to) = Run(corners, y);
        return new((from + to) / 2, y);
    }

    /// <summary>The widest stretch inside the outline at a height; an empty one outside.</summary>
    private static (double From, double To) Run(IReadOnlyList<PlanPoint> corners, double height)
    {
        var y = height + 1e-6;
        var crossings = new List<double>();
        for (var i = 0; i < corners.Count; i++)
        {
            var (a, b) = (corners[i], corners[(i + 1) % corners.Count]);
            if (a.Y > y != b.Y > y)
            {
                crossings.Add(a.X + (y - a.Y) / (b.Y - a.Y) * (b.X - a.X));
            }
        }

        crossings.Sort();
        return crossings.Chunk(2).Where(pair => pair.Length == 2).Select(pair => (pair[0], pair[1]))
            .DefaultIfEmpty((corners[0].X, corners[0].X)).MaxBy(run => run.Item2 - run.Item1);
    }

    private string X(PlanPoint point) => Number(point.X - _minX);
    private string Y(PlanPoint point) => Number(_maxY - point.Y);
}

/// <summary>A place in the drawing; the label is upright, turned by a quarter, or left out where it does not fit.</summary>
public sealed record PlaceShape(
    string Number, string Name, PlaceKind Kind, CorridorClass CorridorClass, string Points, string LabelX, string LabelY, bool LabelFits, bool LabelFitsTurned);

/// <summary>A passage in the drawing: a gap in the wall; a door has a leaf line as well.</summary>
public sealed record DoorShape(string Id, bool IsDoor, string X1, string Y1, string X2, string Y2);
