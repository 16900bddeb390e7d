using System.Globalization;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>The picture of the exact set: time across, exposure up; the shown ways as lettered points, the others as rings.</summary>
public sealed class TradeOff
{
    public const int Width = 640;
    public const int Height = 300;
    private const int Left = 64;
    private const int Right = 24;
    private const int Top = 24;
    private const int Bottom = 48;
    private const double Tolerance = 0.05;

    /// <summary>Two letters nearer than this cover each other.</summary>
    private const double Apart = 26;
    private static readonly double[] RoundNumbers = [1, 2, 5, 10];

    public TradeOff(RoutesResponse routes, string exposureLabel)
    {
        ExposureLabel = exposureLabel;
        var shown = routes.Routes.Select(route => (route.Id, Point: routes.Front.First(point =>
            Math.Abs(point.ExpectedSeconds - route.ExpectedSeconds) <= Tolerance && point.Handling == route.Handling))).ToList();
        var (slowest, quickest) = (routes.Front.Max(p => p.ExpectedSeconds), routes.Front.Min(p => p.ExpectedSeconds));
        var most = routes.Front.Max(p => p.ExposureCost);
        FirstMinute = Math.Floor(quickest / 60);
        LastMinute = Math.Max(FirstMinute + 1, Math.Ceiling(slowest / 60));
        Highest = most <= 0 ? 1 : Nice(most);
        Shown = Beside(shown.Select(s => (s.Id, X: AtX(s.Point.ExpectedSeconds / 60), Y: AtY(s.Point.ExposureCost))));
        Others = [.. routes.Front.Where(p => shown.All(s => s.Point != p)).Select(p => (X(p.ExpectedSeconds / 60), Y(p.ExposureCost)))];
        MinuteMarks = [.. Steps(FirstMinute, LastMinute, 8).Select(m => (X(m), Text(m)))];
        ExposureMarks = [.. Steps(0, Highest, 5).Select(e => (Y(e), Text(e)))];
    }

    /// <summary>What the upward axis counts.</summary>
    public string ExposureLabel { get; }
    public double FirstMinute { get; }
    public double LastMinute { get; }
    public double Highest { get; }
    public IReadOnlyList<ShownPoint> Shown { get; }
    public IReadOnlyList<(string X, string Y)> Others { get; }
    public IReadOnlyList<(string X, string Text)> MinuteMarks { get; }
    public IReadOnlyList<(string Y, string Text)> ExposureMarks { get; }
    public static string AxisLeft => Text(Left);
    public static string AxisRight => Text(Width - Right);
    public static string AxisTop => Text(Top);
    public static string AxisBottom => Text(Height - Bottom);

    private string X(double minutes) => Text(AtX(minutes));
    private string Y(double exposure) => Text(AtY(exposure));
    private double AtX(double minutes) => Left + (minutes - FirstMinute) / (LastMinute - FirstMinute) * (Width - Left - Right);
    private double AtY(double exposure) => Height - Bottom - exposure / Highest * (Height - Top - Bottom);

    /// <summary>A letter that would cover an earlier one stands beside it, joined to its point by a line.</summary>
    private static List<ShownPoint> Beside(IEnumerable<(string Id, double X, double Y)> points)
    {
        List<(double X, double Y)> taken = [];
        List<ShownPoint> shown = [];
        foreach (var (id, x, y) in points)
        {
            var step = x + 4 * Apart > Width - Right ? -Apart : Apart;
            var letter = x;
            while (taken.Exists(other => Math.Abs(other.X - letter) < Apart && Math.Abs(other.Y - y) < Apart))
            {
                letter += step;
            }

            taken.Add((letter, y));
            shown.Add(new(id, Text(x), Text(y), Text(letter)));
        }

        return shown;
    }

    private static IEnumerable<double> Steps(double from, double to, int most)
    {
        var step = Nice((to - from) / most);
        for (var value = Math.Ceiling(from / step) * step; value <= to + step / 1000; value += step)
        {
            yield return value;
        }
    }

    /// <summary>The next 1, 2 or 5 times a power of ten.</summary>
    private static double Nice(double value)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return RoundNumbers.Select(m => m * power).First(candidate => candidate >= value * (1 - 1e-9));
    }

    private static string Text(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}

/// <summary>A shown way in the picture: its point, and where its letter stands on the same height.</summary>
public sealed record ShownPoint(string Id, string X, string Y, string LetterX);
