using System.Globalization;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>Contents of the cylinders over the journey, as a picture: minutes across, litres above the residual up, one panel a gas.</summary>
public sealed class ContentsPicture
{
    public const int Width = 640;
    public const int PanelHeight = 190;
    private const int Left = 56;
    private const int Right = 24;
    private const int Top = 34;
    private const int Bottom = 32;
    private static readonly double[] RoundNumbers = [1, 2, 5, 10];
    private readonly double _lastMinute;

    public ContentsPicture(GasTimelineResponse timeline)
    {
        Timeline = timeline;
        // A little beyond the journey, so that the line of arrival stands free.
        _lastMinute = Math.Max(1, (double)timeline.JourneyMinutes * 1.1);
        Arrival = X(timeline.JourneyMinutes);
        Panels = [.. timeline.Gases.Where(gas => gas.Cylinders.Count > 0).Select(Panel)];
        var step = Nice(_lastMinute / 8);
        MinuteMarks = [.. Enumerable.Range(0, (int)(_lastMinute / step) + 1).Select(i => (X((decimal)(i * step)), Text(i * step)))];
    }

    public GasTimelineResponse Timeline { get; }

    /// <summary>Where the journey ends.</summary>
    public string Arrival { get; }
    public IReadOnlyList<ContentsPanel> Panels { get; }
    public IReadOnlyList<(string X, string Text)> MinuteMarks { get; }
    public static string AxisLeft => Text(Left);
    public static string AxisRight => Text(Width - Right);
    public static string AxisTop => Text(Top);
    public static string AxisBottom => Text(PanelHeight - Bottom);

    /// <summary>The same in words: what a reader of the text hears instead of the picture.</summary>
    public string Description => string.Join(" ", Timeline.Gases.SelectMany(gas => gas.Cylinders.Select(use =>
        $"{GasWords.Capital(gas.Gas)}, cylinder {use.Cylinder}: {Litres(use.Contents[0])} at minute {Minute(use.FromMinute)}, {Litres(use.Contents[^1])} at minute {Minute(use.UntilMinute)}."))
        .Append($"Arrival at minute {Minute(Timeline.JourneyMinutes)}."));

    private ContentsPanel Panel(GasContentsResponse gas)
    {
        var most = Math.Max(1, (double)gas.Cylinders.Max(use => use.Contents[0].Litres));
        var highest = Nice(most);
        string Y(decimal litres) => Text(PanelHeight - Bottom - (double)litres / highest * (PanelHeight - Top - Bottom));
        return new(
            gas.Gas,
            [.. gas.Cylinders.Select(use => new ContentsLine(
                use.Cylinder, string.Join(" ", use.Contents.Select(point => $"{X(point.Minute)},{Y(point.Litres)}")), Text(Place(use.FromMinute) + 13), Y(use.Contents[0].Litres)))],
            [.. Timeline.ChangeOvers.Where(change => change.Gas == gas.Gas && change.AtMinute > 0).Select(change => (X(change.AtMinute), change.ToCylinder))],
            [.. new[] { 0, highest / 2, highest }.Select(litres => (Y((decimal)litres), Text(litres)))]);
    }

    private string X(decimal minute) => Text(Place(minute));
    private double Place(decimal minute) => Left + (double)minute / _lastMinute * (Width - Left - Right);

    /// <summary>The next 1, 2 or 5 times a power of ten.</summary>
    private static double Nice(double value)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        return RoundNumbers.Select(m => m * power).First(candidate => candidate >= value * (1 - 1e-9));
    }

    private static string Litres(ContentsResponse point) => $"{Math.Floor(point.Litres).ToString("0", CultureInfo.InvariantCulture)} L";
    private static string Minute(decimal minute) => minute.ToString("0.#", CultureInfo.InvariantCulture);
    private static string Text(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}

/// <summary>One gas in the picture.</summary>
public sealed record ContentsPanel(
    GasKind Gas, IReadOnlyList<ContentsLine> Lines, IReadOnlyList<(string X, int ToCylinder)> Changes, IReadOnlyList<(string Y, string Text)> LitreMarks);

/// <summary>One cylinder in the picture: its line and where its number stands.</summary>
public sealed record ContentsLine(int Cylinder, string Points, string X, string Y);
