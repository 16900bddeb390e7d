using System.Globalization;
using System.Text.RegularExpressions;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Shared;

/// <summary>How a site reads figures and words. Only what is shown passes through here; everything is computed, kept and answered by the API as it was given.</summary>
/// <param name="Pressure">Scale of its gauges.</param>
/// <param name="IsFeet">Ways in feet; else in metres.</param>
/// <param name="IsLift">It says <i>lift</i>; else <i>elevator</i>.</param>
internal sealed partial record SiteDisplay(PressureUnit Pressure, bool IsFeet, bool IsLift)
{
    /// <summary>What a site that said nothing sees.</summary>
    public static readonly SiteDisplay Default = Of(new([]));

    public static SiteDisplay Of(SiteSettings settings) => new(
        settings.Get(DisplaySettings.PressureUnit) switch
        {
            GaugeUnit.Bar => PressureUnit.Bar,
            GaugeUnit.KPa => PressureUnit.Kilopascal,
            _ => PressureUnit.Psi,
        },
        settings.Get(DisplaySettings.LengthUnit) == WayUnit.Feet,
        settings.Get(DisplaySettings.ElevatorWord) == ElevatorWord.Lift);

    public string PressureName => PressureReading.NameOf(Pressure);
    public string LengthName => IsFeet ? "ft" : "m";

    /// <summary>Metres in the unit in which ways are shown.</summary>
    public double In(double metres) => IsFeet ? metres / Distance.MetresPerFoot : metres;

    /// <summary>Whole units, the nearest.</summary>
    public int Whole(double metres) => (int)Math.Round(In(metres), MidpointRounding.AwayFromZero);

    /// <summary>How far: <c>23 m</c>, <c>75 ft</c>.</summary>
    public string Length(double metres) => $"{Whole(metres)} {LengthName}";

    /// <summary>To a tenth, for workings.</summary>
    public string Tenths(double metres) => In(metres).ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>What a gauge read, as it was given; in another unit than the site's with that beside it, down to the mark: <c>150 bar (2170 psi)</c>.</summary>
    public string Gauge(string given) =>
        Read(given) is { } reading && reading.Unit != Pressure ? $"{given} ({Number(reading.DownToMark(Pressure))} {PressureName})" : given;

    /// <summary>What a gauge must read at least, up to the mark of the site's scale, with that of the cylinder's own list beside it: <c>93 bar (1340 psi)</c>.</summary>
    public string LeastGauge(string given) =>
        Read(given) is { } reading && reading.Unit != Pressure ? $"{Number(reading.UpToMark(Pressure))} {PressureName} ({given})" : given;

    /// <summary>A text in the site's word. A name that the floor plan gives, such as <i>Elevator P2</i>, is in it too.</summary>
    public string Words(string text) => IsLift ? Elevators().Replace(text, Word) : text;

    /// <summary>
    /// A page in the site's word: what is read, and what is read aloud. Addresses, values of fields, code and what somebody typed into a box of several
    /// lines stay, so that what is sent back is what was there.
    /// </summary>
    public string Page(string html) => !IsLift ? html : Pieces().Replace(html, piece =>
        piece.Groups["kept"].Success ? piece.Value
        : piece.Value[0] == '<' ? Aloud().Replace(piece.Value, attribute => Words(attribute.Value))
        : Words(piece.Value));

    private static string Word(Match match)
    {
        var isCapital = match.Groups["word"].Value[0] == 'E';
        return $"{(match.Groups["article"].Success ? $"{match.Groups["article"].Value[0]}{match.Groups["gap"].Value}" : "")}{(isCapital ? "Lift" : "lift")}";
    }

    private static PressureReading? Read(string text) =>
        text.Split(' ') is [var number, var name] && decimal.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            ? Enum.GetValues<PressureUnit>().Where(unit => PressureReading.NameOf(unit) == name).Select(unit => (PressureReading?)PressureReading.From(value, unit)).FirstOrDefault()
            : null;

    private static string Number(decimal value) => value.ToString("0", CultureInfo.InvariantCulture);

    // Options of the command line, such as --elevators-not-held, are no words.
    [GeneratedRegex(@"(?<![\w-])(?:(?<article>[Aa]n)(?<gap>\s+))?(?<word>[Ee]levator)(?=s?\b)")]
    private static partial Regex Elevators();

    [GeneratedRegex(@"(?<kept><(?<tag>script|style|textarea|code)\b.*?</\k<tag>>)|<[^>]*>|[^<]+", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Pieces();

    [GeneratedRegex("""(?<=\s(?:aria-label|title|alt|placeholder)=")[^"]*""")]
    private static partial Regex Aloud();
}
