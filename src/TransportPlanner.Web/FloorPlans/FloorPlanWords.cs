using System.Globalization;
using System.Text.RegularExpressions;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.FloorPlans;

/// <summary>Facts and closed lists of a floor plan in the words of its pages.</summary>
public static partial class FloorPlanWords
{
    public static string Of(PlaceKind kind) => Spaced(kind);
    public static string Of(PressureRelation pressure) => Spaced(pressure);
    public static string Of(PassageKind kind) => kind switch
    {
        PassageKind.Opening => WordTexts.KindOpening,
        PassageKind.HingedDoor => WordTexts.KindHingedDoor,
        PassageKind.DoubleDoor => WordTexts.KindDoubleDoor,
        PassageKind.SlidingDoor => WordTexts.KindSlidingDoor,
        PassageKind.AutomaticDoor => WordTexts.KindAutomaticDoor,
        PassageKind.LandingDoor => WordTexts.KindLandingDoor,
        PassageKind.StairFlight => WordTexts.KindStairs,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No words for this kind of passage."),
    };

    public static string Of(PlanChangeKind kind) => Spaced(kind);
    public static string Of(AccessControl access) => access switch
    {
        AccessControl.None => WordTexts.AccessNone,
        AccessControl.Badge => WordTexts.AccessBadge,
        AccessControl.Code => WordTexts.AccessCode,
        AccessControl.Key => WordTexts.AccessKey,
        _ => throw new ArgumentOutOfRangeException(nameof(access), access, "No words for this lock."),
    };

    public static string Of(ClosureTarget target) => Spaced(target);
    public static string Of(FactSource source) => Spaced(source);
    public static string Of(FacilityKind kind) => kind == FacilityKind.BailOut ? "bail-out point" : Spaced(kind);
    public static string Of(CorridorClass corridor) => $"{Spaced(corridor)} corridor";
    public static string Of(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "no date";

    /// <summary>A day with its age: <c>2025-03-09, 14 months ago</c>. Whole days below one month, whole months below two years; both rounded down.</summary>
    public static string Aged(DateOnly? day, DateTimeOffset local)
    {
        if (day is not { } known)
        {
            return Of(day);
        }

        var today = DateOnly.FromDateTime(local.DateTime);
        var months = FactAge.Months(known, today);
        var age = known > today ? ("", 0)
            : months < 1 ? ("day", today.DayNumber - known.DayNumber)
            : months < 24 ? ("month", months)
            : ("year", months / 12);
        return Of(day) + (age switch { ("", _) => "", ("day", 0) => ", today", (var unit, 1) => $", 1 {unit} ago", var (unit, count) => $", {count} {unit}s ago" });
    }

    /// <summary>Each flag as a sentence.</summary>
    public static IEnumerable<string> Of(PlaceFlags flags) =>
        from flag in Enum.GetValues<PlaceFlags>()
        where flag != PlaceFlags.None && flags.HasFlag(flag)
        select flag switch
        {
            PlaceFlags.VulnerablePeople => "People who must be kept apart from a transport stay here.",
            PlaceFlags.NoCylinders => "No cylinders: steel may not enter this magnet zone.",
            PlaceFlags.NoEntry => "No entry.",
            PlaceFlags.Cold => "Cold: unheated or open to the outside.",
            PlaceFlags.NoRadio => "Radio dead spot: handheld radios do not reach out of here.",
            PlaceFlags.NoWifi => "Wi-Fi dead spot: what is sent from here arrives later.",
            _ => throw new ArgumentOutOfRangeException(nameof(flags), flag, "No words for this flag."),
        };

    public static string Metres(Distance distance) => Number(distance.Metres, "0.00#", "m");

    public static string Number(double value, string format, string unit) =>
        value.ToString(format, CultureInfo.InvariantCulture) + (unit.Length > 0 ? " " : "") + unit;

    /// <summary>A mean number of people, at most one decimal, two below one.</summary>
    public static string People(double mean) => mean.ToString(mean < 1 ? "0.##" : "0.#", CultureInfo.InvariantCulture);

    /// <summary>Minimum, likely and maximum.</summary>
    public static string Seconds(DurationEstimate time) => FormattableString.Invariant(
        $"{time.LikelySeconds:0.#} s likely ({time.MinimumSeconds:0.#} to {time.MaximumSeconds:0.#} s)");

    /// <summary>The instant in a site's local time with its offset: <c>2026-05-04 02:10 (UTC+01:00)</c>.</summary>
    public static string Local(DateTimeOffset instant, string timeZone) => Local(instant, timeZone, "yyyy-MM-dd HH:mm");

    /// <summary>The time of day alone: <c>02:10 (UTC+01:00)</c>.</summary>
    public static string LocalTime(DateTimeOffset instant, string timeZone) => Local(instant, timeZone, "HH:mm");

    /// <summary>Date and time without the offset, where the offset stands close by: <c>2026-05-04 02:10</c>.</summary>
    public static string LocalDay(DateTimeOffset instant, string timeZone) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(timeZone)).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static string Local(DateTimeOffset instant, string timeZone, string format) =>
        TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(timeZone)).ToString(format + " '(UTC'zzz')'", CultureInfo.InvariantCulture);

    private static string Spaced<T>(T member)
        where T : struct, Enum => Capitals().Replace(member.ToString(), match => (match.Index == 0 ? "" : " ") + match.Value.ToLowerInvariant());

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Capitals();
}
