using System.Globalization;

namespace TransportPlanner.Web.Shared;

/// <summary>Times of day of a site, for pages and prints.</summary>
internal static class TimeOfDay
{
    /// <summary>A transport with the airing after it lies within it.</summary>
    private static readonly TimeSpan NearChange = TimeSpan.FromHours(6);

    /// <summary>
    /// Time of day without the offset: <c>02:10</c>. Within six hours of a change of the clocks with it, <c>01:04 (UTC+0)</c>: an hour comes twice in that night, and what
    /// follows can read as if it came before.
    /// </summary>
    public static string Of(DateTimeOffset instant, string timeZone, string format = "HH:mm")
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        var local = TimeZoneInfo.ConvertTime(instant, zone);
        var isNearChange = zone.GetUtcOffset(instant - NearChange) != local.Offset || zone.GetUtcOffset(instant + NearChange) != local.Offset;
        var minutes = local.Offset.Minutes == 0 ? "" : @"\:mm";
        return local.ToString(format, CultureInfo.InvariantCulture)
            + (isNearChange ? $" (UTC{(local.Offset < TimeSpan.Zero ? "-" : "+")}{local.Offset.ToString(@"%h" + minutes, CultureInfo.InvariantCulture)})" : "");
    }
}
