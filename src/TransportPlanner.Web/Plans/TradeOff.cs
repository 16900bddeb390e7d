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
        Shown = [.. shown.Select(s => new ShownPoint(s.Id, X(s.Point.ExpectedSeconds / 60), Y(s.Point.ExposureCost)))];
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

    private string X(double minutes) => Text(Left + (minutes - FirstMinute) / (LastMinute - FirstMinute) * (Width - Left - Right));
    private string Y(double exposure) => Text(Height - Bottom - exposure / Highest * (Height - Top - Bottom));

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

/// <summary>A shown way in the picture.</summary>
public sealed record ShownPoint(string Id, string X, string Y);
